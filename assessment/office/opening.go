package office

import (
	"context"
	"fmt"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// mayOpen refuses a demonstration that could not count.
func (o *Office) mayOpen(ctx context.Context, tx *postgres.Tx, now Moment, s postgres.Sheet, list *assessment.Checklist) error {
	day := civil.DayOf(s.PerformedAt, now.Zone)
	learner, err := tx.People.Get(ctx, s.LearnerID)
	if err != nil {
		return err
	}
	switch {
	case !learner.LeftOn.IsZero() && !day.Before(learner.LeftOn):
		return fault.Of(fault.Refused, "%s left the agency on %s.", learner.Name, learner.LeftOn)
	case list.ManikinOnly && s.RealClient:
		return fault.Of(fault.Refused, "This skill is shown on a manikin or in simulation only, never on a child.")
	}
	if err := clientIsHere(ctx, tx, s.ClientID, day); err != nil {
		return err
	}
	if err := o.mayObserve(ctx, tx, now, s.ObserverID, s.LearnerID, s.SkillID, day); err != nil {
		return err
	}
	if err := o.hasParameters(ctx, tx, now, s, list); err != nil {
		return err
	}
	if !s.Formal {
		return nil
	}
	if err := o.prerequisitesHold(ctx, tx, now, s, list, day); err != nil {
		return err
	}
	return o.checkHolds(ctx, tx, now, s.LearnerID, s.SkillID, list.Title, s.PerformedAt)
}

func clientIsHere(ctx context.Context, tx *postgres.Tx, id assessment.ClientID, day civil.Date) error {
	if id == "" {
		return nil
	}
	c, err := tx.Clients.Get(ctx, id)
	if err != nil {
		return err
	}
	if gone(c.LeftOn, day) {
		return fault.Of(fault.Refused, "The agency no longer looks after %s on %s.", c.FirstName, day)
	}
	return nil
}

// mayObserve asks the core whether an observer's word counts on each of some days.
func (o *Office) mayObserve(ctx context.Context, tx *postgres.Tx, now Moment, observer, learner assessment.PersonID, skill assessment.SkillID, days ...civil.Date) error {
	seen, err := o.loadObservation(ctx, tx, now, observer, learner)
	if err != nil {
		return err
	}
	return o.mayObserveAsSeen(ctx, tx, now, seen, skill, days...)
}

// mayObserveAsSeen is mayObserve where licences and appointments are read already.
func (o *Office) mayObserveAsSeen(ctx context.Context, tx *postgres.Tx, now Moment, seen assessment.Observation, skill assessment.SkillID, days ...civil.Date) error {
	b, err := o.casebook(ctx, tx, now, postgres.HistoryFilter{People: []assessment.PersonID{seen.Observer}, Skill: skill})
	if err != nil {
		return err
	}
	sb := b.skills[skill]
	seen.Skill, seen.Title = sb.Code, sb.Title
	for _, day := range days {
		if seen.Standing, err = b.ownStanding(seen.Observer, skill, day); err != nil {
			return err
		}
		if err := seen.MayObserve(day); err != nil {
			return err
		}
	}
	return nil
}

// ownStanding is somebody's standing in a skill with whatever client, by the fold.
func (b *casebook) ownStanding(person assessment.PersonID, skill assessment.SkillID, day civil.Date) (assessment.StandingWord, error) {
	var words []assessment.StandingWord
	for _, key := range b.keys() {
		if key.Person != person || key.Skill != skill {
			continue
		}
		c, err := b.caseOf(key)
		if err != nil {
			return assessment.NotStarted, err
		}
		words = append(words, c.On(day).Word)
	}
	return withAny(words), nil
}

// hasParameters refuses a checklist whose ranges need values that the child's
// record lacks.
func (o *Office) hasParameters(ctx context.Context, tx *postgres.Tx, now Moment, s postgres.Sheet, list *assessment.Checklist) error {
	known, words, err := o.parametersOf(ctx, tx, s.ClientID, s.PerformedAt, list)
	if err != nil {
		return err
	}
	var missing []string
	for _, p := range list.Parameters {
		_, number := known[p.Name]
		if p.Default == nil && p.Unit != "" && !number && words[p.Name] == "" && list.Judges(p.Name) {
			missing = append(missing, p.Says)
		}
	}
	if len(missing) == 0 {
		return nil
	}
	whose := "the child's record lacks"
	if s.ClientID == "" {
		whose = "it needs a child's (or the manikin's) values, and no child is chosen, for"
	}
	return &fault.Fault{Kind: fault.Refused, Message: fmt.Sprintf("This cannot be judged yet: %s %s. Enter the ordered values first.", whose, strings.Join(missing, ", "))}
}

func (o *Office) prerequisitesHold(ctx context.Context, tx *postgres.Tx, now Moment, s postgres.Sheet, list *assessment.Checklist, day civil.Date) error {
	if len(list.Prerequisites) == 0 {
		return nil
	}
	b, err := o.casebook(ctx, tx, now, postgres.HistoryFilter{People: []assessment.PersonID{s.LearnerID}})
	if err != nil {
		return err
	}
	var missing []string
	for _, code := range list.Prerequisites {
		first, ok := b.byCode[code]
		if !ok {
			continue
		}
		c, err := b.caseOf(assessment.CaseKey{Person: s.LearnerID, Skill: first.ID, Client: s.ClientID})
		if err != nil {
			return err
		}
		if !c.Holds(day) {
			missing = append(missing, first.Title)
		}
	}
	if len(missing) > 0 {
		return fault.Of(fault.Refused, "Not current in what comes first: %s. Show that first, or make this a practice.", strings.Join(missing, ", "))
	}
	return nil
}

// sameOpening: a form sent twice differs in nothing but the instant.
func sameOpening(a, b postgres.Sheet) bool {
	return a.LearnerID == b.LearnerID && a.ObserverID == b.ObserverID && a.SkillID == b.SkillID && a.ClientID == b.ClientID &&
		a.RealClient == b.RealClient && a.Formal == b.Formal && a.FromPaper == b.FromPaper
}

// opening reads the form into a sheet on the revision that was in force when the
// skill was performed.
func (o *Office) opening(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, asked OpenForm) (postgres.Sheet, *assessment.Checklist, error) {
	var faults form
	if asked.Learner == "" {
		faults.Add("learner", "Choose who shows the skill.")
	}
	place := faults.line("place", asked.Place, 200, "Say where it is shown, such as: at home, skills room.")
	switch {
	case !asked.PerformedAt.IsZero():
	case strings.TrimSpace(asked.When) != "":
		asked.PerformedAt = faults.instant("performed_at", asked.When, now)
	case asked.FromPaper:
		faults.Add("performed_at", "Say when it was shown: the day and time on the paper.")
	default:
		asked.PerformedAt = now.At
	}
	if asked.PerformedAt.After(now.At) {
		faults.Add("performed_at", "This lies in the future. Check the day and time.")
	}
	skill, err := tx.Checklists.SkillByCode(ctx, asked.Skill)
	if err != nil {
		faults.Add("skill", "Choose the skill.")
		return postgres.Sheet{}, nil, faults.Err()
	}
	if skill.Scope == assessment.ClientSpecific && asked.Client == "" {
		faults.Add("client", "This skill is held for one child and that child's equipment. Choose the child.")
	}
	if err := faults.Err(); err != nil {
		return postgres.Sheet{}, nil, err
	}
	revision, list, err := o.inForceAt(ctx, tx, skill, asked.PerformedAt)
	if err != nil {
		return postgres.Sheet{}, nil, err
	}
	if err := onPaper(asked, revision, now); err != nil {
		return postgres.Sheet{}, nil, err
	}
	id, err := o.givenID(asked.ID, now)
	if err != nil {
		return postgres.Sheet{}, nil, err
	}
	return postgres.Sheet{ID: id, LearnerID: asked.Learner, ObserverID: by.Person, SkillID: skill.ID, RevisionID: revision.ID,
		Revision: revision.Number, Title: revision.Title, ClientID: asked.Client, Place: place,
		RealClient: asked.Real, Formal: asked.Formal, PerformedAt: asked.PerformedAt.Truncate(time.Microsecond), OpenedAt: now.At,
		FromPaper: asked.FromPaper}, list, nil
}

func (o *Office) givenID(given string, now Moment) (assessment.DemonstrationID, error) {
	if given == "" {
		return newID[assessment.DemonstrationID](o, now.At)
	}
	id, err := assessment.ParseID[assessment.DemonstrationID](given)
	if err != nil {
		return "", fault.Of(fault.Invalid, "%q is not an id: use a UUID in lower case.", given)
	}
	return id, nil
}
