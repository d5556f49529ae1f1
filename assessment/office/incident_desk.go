package office

import (
	"context"
	"fmt"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/phrase"
	"wellshown/assessment/postgres"
)

// IncidentDesk is an incident with what came of it: what it took, which shifts that breaks, when
// it can be shown again, and what is known of that.
type IncidentDesk struct {
	IncidentView
	Today    civil.Date
	Took     []IncidentTook  // each case that it concerns, its own first; none where it withdrew nothing
	Through  civil.Date      // the last day of the shifts that are looked at
	Breaks   []CoverLine     // shifts that what it took breaks; only for whoever reads all
	Visits   []HomeVisitView // planned ones, where it could be shown again
	Proposed []HomeVisitView // the same that nobody has planned yet
	Taught   []HappeningView // teaching in the skill since
	Records  []RecordRef     // by which it could be closed, the newest first
	Waits    phrase.Phrase   // why it cannot be closed yet; empty: it can, or it is no more open
	MayClose bool
	MayBack  bool
}

// IncidentTook is one standing that it took away.
type IncidentTook struct {
	Skill    SkillRef
	Client   ClientRef
	Before   assessment.StandingWord // on the day before it happened
	Now      assessment.Standing
	Stands   bool // what it took is not shown again yet
	Required bool
	since    []string // ids of its withdrawals
}

// RecordRef is a record by when it was shown and who saw it.
type RecordRef struct {
	ID        assessment.DemonstrationID
	Performed time.Time
	Observer  string
}

// incidentDays is how far ahead the shifts that an incident breaks are looked for.
const incidentDays = 60

// IncidentDesk answers for one incident.
func (o *Office) IncidentDesk(ctx context.Context, by assessment.Actor, id assessment.RecordID) (IncidentDesk, error) {
	var v IncidentDesk
	err := o.as(ctx, by, assessment.ReadRecords, func(tx *postgres.Tx, now Moment) error {
		i, err := tx.Incidents.Get(ctx, id)
		if err != nil {
			return err
		}
		if err := by.MayForCase(assessment.ReadRecords, i.Person, i.Client); err != nil {
			return err
		}
		v, err = o.incidentDesk(ctx, tx, now, by, i)
		return err
	})
	return v, err
}

func (o *Office) incidentDesk(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, i postgres.Incident) (IncidentDesk, error) {
	n, err := o.names(ctx, tx)
	if err != nil {
		return IncidentDesk{}, err
	}
	b, err := o.casebook(ctx, tx, now, postgres.HistoryFilter{People: []assessment.PersonID{i.Person}})
	if err != nil {
		return IncidentDesk{}, err
	}
	refs := map[assessment.SkillID]SkillRef{}
	for id, s := range b.skills {
		refs[id] = SkillRef{id, s.Code, s.Title}
	}
	v := IncidentDesk{IncidentView: viewIncident(i, n, refs, now.Zone), Today: now.Today, Through: now.Today.AddDays(incidentDays - 1)}
	if v.Took, err = o.tookAway(ctx, tx, now, b, n, i); err != nil {
		return v, err
	}
	v.Took = within(by, assessment.ReadRecords, i.Person, v.Took, func(t IncidentTook) assessment.ClientID { return t.Client.ID })
	if v.Records, err = o.evaluatedAgain(ctx, tx, now, b, i); err != nil {
		return v, err
	}
	if v.Taught, err = o.taughtAgain(ctx, tx, now, i, v.IncidentView); err != nil {
		return v, err
	}
	if i.Open() {
		v.Waits = v.waits()
	}
	v.MayClose = i.Open() && by.May(assessment.CloseIncident) == nil && by.Person != i.Person
	v.MayBack = i.TakenBackAt == nil && by.May(assessment.Correct) == nil && mayTakeIncidentBack(by, i) == nil
	if !i.Open() || by.Reach(assessment.ReadReports) != assessment.Everything {
		return v, nil
	}
	return v, o.whatItBreaks(ctx, tx, now, &v)
}

// tookAway are the cases that it withdrew, as they were before and are now.
func (o *Office) tookAway(ctx context.Context, tx *postgres.Tx, now Moment, b *casebook, n names, i postgres.Incident) ([]IncidentTook, error) {
	made, err := tx.Incidents.Withdrawals(ctx, i.ID)
	if err != nil {
		return nil, fmt.Errorf("read the withdrawals of an incident: %w", err)
	}
	needs, err := o.needsOfAll(ctx, tx, now.Today)
	if err != nil {
		return nil, err
	}
	before := civil.DayOf(i.HappenedAt, now.Zone).AddDays(-1)
	var took []IncidentTook
	for _, w := range made {
		s := b.skills[w.Skill]
		at := slices.IndexFunc(took, func(t IncidentTook) bool { return t.Skill.ID == w.Skill && t.Client.ID == w.Client })
		if at < 0 {
			c, err := b.caseOf(assessment.CaseKey{Person: i.Person, Skill: w.Skill, Client: w.Client})
			if err != nil {
				return nil, err
			}
			took = append(took, IncidentTook{Skill: SkillRef{s.ID, s.Code, s.Title}, Client: n.clients[w.Client], Before: c.On(before).Word, Now: c.On(now.Today),
				Required: slices.Contains(needs[i.Person], assessment.Need{Skill: s.Code, Client: w.Client})})
			at = len(took) - 1
		}
		took[at].since = append(took[at].since, string(w.ID))
	}
	for at := range took {
		t := &took[at]
		t.Stands = t.Now.Word == assessment.Withdrawn && slices.ContainsFunc(t.since, func(id string) bool { return slices.Contains(t.Now.Because, id) })
	}
	own := func(t IncidentTook) int {
		switch {
		case t.Skill.ID == i.Skill && t.Client.ID == i.Client:
			return 0
		case t.Required || t.Before.Holds():
			return 1
		}
		return 2
	}
	slices.SortStableFunc(took, func(x, y IncidentTook) int { return own(x) - own(y) })
	return took, nil
}

// evaluatedAgain are the records by which an incident can be closed: competent, signed by both,
// not taken back, and shown on a day after it was written down.
func (o *Office) evaluatedAgain(ctx context.Context, tx *postgres.Tx, now Moment, b *casebook, i postgres.Incident) ([]RecordRef, error) {
	recorded := civil.DayOf(i.At, now.Zone)
	back := map[string]bool{}
	for _, e := range b.rows[i.Key()] {
		if e.Kind == assessment.CorrectionEntry {
			back[e.Of] = true
		}
	}
	var refs []RecordRef
	for _, e := range b.rows[i.Key()] {
		effect, acts := e.EffectDay(now.Zone)
		if e.Kind != assessment.DemonstrationEntry || !e.Formal || e.Outcome != assessment.Competent || back[e.ID] || !acts || effect.After(now.Today) || !civil.DayOf(e.At, now.Zone).After(recorded) {
			continue
		}
		d, err := tx.Demonstrations.Get(ctx, assessment.DemonstrationID(e.ID))
		if err != nil {
			return nil, err
		}
		refs = append(refs, RecordRef{d.ID, d.PerformedAt.In(now.Zone), d.Observer})
	}
	slices.SortFunc(refs, func(x, y RecordRef) int { return y.Performed.Compare(x.Performed) })
	return refs, nil
}

// taughtAgain is the teaching in the skill from the day on which it happened.
func (o *Office) taughtAgain(ctx context.Context, tx *postgres.Tx, now Moment, i postgres.Incident, v IncidentView) ([]HappeningView, error) {
	found, err := tx.Exceptions.Happenings(ctx, i.Person)
	if err != nil {
		return nil, err
	}
	var taught []HappeningView
	for _, h := range found {
		if h.Kind == assessment.TeachingEntry && h.Skill == i.Skill && h.Client == i.Client && h.TakenBack == nil && !h.FromOn.Before(civil.DayOf(i.HappenedAt, now.Zone)) {
			taught = append(taught, HappeningView{h, civil.DayOf(h.At, now.Zone), v.Skill.Title, v.Client})
		}
	}
	return taught, nil
}

// waits says why it cannot be closed yet.
func (v IncidentDesk) waits() phrase.Phrase {
	var left phrase.Phrase
	for _, t := range v.Took {
		if t.Stands && (t.Required || t.Before.Holds()) {
			if left.IsZero() {
				left = t.named()
			} else {
				left = phrase.Of("%s; %s", left, t.named())
			}
		}
	}
	switch {
	case len(v.Records) == 0:
		return phrase.Of("%s has not been shown again on a day after %s and signed by both.", phrase.Step(v.Skill.Title), civil.DayOf(v.Recorded, v.Recorded.Location()))
	case !left.IsZero():
		return phrase.Of("Not shown again yet: %s.", left)
	}
	return phrase.Phrase{}
}

func (t IncidentTook) named() phrase.Phrase {
	if t.Client.ID != "" {
		return phrase.Of("%s for %s", phrase.Step(t.Skill.Title), t.Client.FirstName+", "+t.Client.Code)
	}
	return phrase.Of("%s", phrase.Step(t.Skill.Title))
}

// whatItBreaks adds the shifts that do not hold without what it took, and the visits at which it
// could be shown again.
func (o *Office) whatItBreaks(ctx context.Context, tx *postgres.Tx, now Moment, v *IncidentDesk) error {
	took := func(skill assessment.SkillID, client assessment.ClientID) bool {
		return slices.ContainsFunc(v.Took, func(t IncidentTook) bool { return t.Stands && t.Skill.ID == skill && t.Client.ID == client })
	}
	c, err := o.coverage(ctx, tx, now, CoverageQuery{Person: v.Person.ID, Through: v.Through, State: string(assessment.Breaks)})
	if err != nil {
		return err
	}
	for _, l := range c.Lines {
		if slices.ContainsFunc(l.Lacks, func(k Lack) bool {
			return k.Why == assessment.NotHeld && k.Word == assessment.Withdrawn && took(k.Skill.ID, k.With.ID)
		}) {
			v.Breaks = append(v.Breaks, l)
		}
	}
	if !slices.ContainsFunc(v.Took, func(t IncidentTook) bool { return t.Stands && t.Required }) {
		return nil
	}
	b, err := o.visitBook(ctx, tx, now, now.Today.AddDays(7*VisitWeeks-1))
	if err != nil {
		return err
	}
	plan := o.viewVisits(b, now, VisitQuery{})
	other := func(h HomeVisitView) bool {
		return !slices.ContainsFunc(h.Sees, func(d DueVisit) bool { return d.Person.ID == v.Person.ID && took(d.Skill.ID, d.With.ID) })
	}
	v.Visits, v.Proposed = slices.DeleteFunc(plan.Kept, other), slices.DeleteFunc(plan.Proposed, other)
	return nil
}
