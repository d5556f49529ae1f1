package office

import (
	"context"
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// Chosen is what somebody has in mind before a demonstration begins.
type Chosen struct {
	Learner assessment.PersonID
	Skill   string // code
	Client  assessment.ClientID
}

// BeforeOpening is what an observer can choose from.
type BeforeOpening struct {
	ID       assessment.DemonstrationID // that the demonstration will have
	Learners []PersonRef                // whoever may have to show something, but for the observer
	Skills   []ObservableSkill          // in force, and theirs to observe today
	Clients  []ClientRef
	MayNot   string // why they may observe nothing at all; empty: they may
	Caution  string // why what is chosen could not be begun as a formal demonstration; empty: it could
}

// ObservableSkill is a skill with what must be known before it is shown.
type ObservableSkill struct {
	SkillRef
	Revision    int
	Specific    bool // held per child
	ManikinOnly bool
}

// BeforeOpening lists whom and what the actor may observe today.
func (o *Office) BeforeOpening(ctx context.Context, by assessment.Actor, chosen Chosen) (BeforeOpening, error) {
	var v BeforeOpening
	err := o.as(ctx, by, assessment.Observe, func(tx *postgres.Tx, now Moment) error {
		v = BeforeOpening{}
		var err error
		if v.ID, err = newID[assessment.DemonstrationID](o, now.At); err != nil {
			return err
		}
		if err := o.observable(ctx, tx, now, by, &v); err != nil {
			return err
		}
		if err := v.choices(ctx, tx, now, by); err != nil {
			return err
		}
		if v.MayNot != "" || chosen.Learner == "" || chosen.Skill == "" {
			return nil
		}
		v.Caution, err = o.caution(ctx, tx, now, by, chosen)
		return err
	})
	return v, err
}

// observable fills in the skills that the actor may observe, or why there is none.
func (o *Office) observable(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, v *BeforeOpening) error {
	seen, err := o.loadObservation(ctx, tx, now, by.Person, "")
	if err != nil {
		return err
	}
	b, err := o.casebook(ctx, tx, now, postgres.HistoryFilter{People: []assessment.PersonID{by.Person}})
	if err != nil {
		return err
	}
	for _, s := range b.inOrder() {
		if s.InForce == 0 {
			continue
		}
		seen.Skill, seen.Title = s.Code, s.Title
		if seen.Standing, err = b.ownStanding(by.Person, s.ID, now.Today); err != nil {
			return err
		}
		if no := seen.MayObserve(now.Today); no != nil {
			if v.MayNot == "" {
				v.MayNot = no.Error()
			}
			continue
		}
		v.Skills = append(v.Skills, ObservableSkill{s.ref(), s.InForce, s.Scope == assessment.ClientSpecific, s.newest.ManikinOnly})
	}
	switch {
	case len(v.Skills) > 0:
		v.MayNot = ""
	case v.MayNot == "":
		v.MayNot = "No checklist is in force. A licensed clinician must put one in force first."
	}
	return nil
}

// inOrder lists the skills in teaching order.
func (b *casebook) inOrder() []*skillbook {
	var all []*skillbook
	for _, s := range b.skills {
		all = append(all, s)
	}
	slices.SortFunc(all, func(x, y *skillbook) int {
		if x.Position != y.Position {
			return x.Position - y.Position
		}
		return strings.Compare(x.Code, y.Code)
	})
	return all
}

func (v *BeforeOpening) choices(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor) error {
	people, err := tx.People.List(ctx, postgres.PeopleFilter{On: now.Today})
	if err != nil {
		return err
	}
	for _, p := range people {
		if p.Kind != "" && p.ID != by.Person {
			v.Learners = append(v.Learners, PersonRef{p.ID, p.Name, p.Kind, p.Relation})
		}
	}
	clients, err := tx.Clients.List(ctx, postgres.ClientFilter{On: now.Today})
	if err != nil {
		return err
	}
	for _, c := range clients {
		v.Clients = append(v.Clients, ClientRef{c.ID, c.Code, c.FirstName})
	}
	return nil
}

// caution tries what is chosen as a formal demonstration here and now. It is
// shown before, so that nobody learns it when all is laid out.
func (o *Office) caution(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, chosen Chosen) (string, error) {
	sheet, list, err := o.opening(ctx, tx, now, by, OpenForm{Learner: chosen.Learner, Skill: chosen.Skill, Client: chosen.Client, Place: "here", Formal: true})
	if err == nil {
		err = o.mayOpen(ctx, tx, now, sheet, list)
	}
	f, refused := fault.As(err)
	switch {
	case err == nil, refused && f.Kind != fault.Refused:
		return "", nil
	case refused:
		return f.Message, nil
	}
	return "", err
}
