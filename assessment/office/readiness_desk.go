package office

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/phrase"
	"wellshown/assessment/postgres"
)

// ReadinessDesk is whether a child can go home on a day, with what can be said
// and planned about it.
type ReadinessDesk struct {
	ReadinessView
	Today                   civil.Date
	Waived                  map[assessment.CriterionID][]string // items waived now; the empty one is the whole line
	Lacks                   []ShiftLack                         // one a shift, in the order of Shifts
	Skills                  []SkillRef                          // in force; only for who may change the plan
	Carers                  []PersonRef                         // who can take a shift; the same
	EvidenceID, CriterionID string                              // that what is said and added next will have
	MaySay                  map[assessment.CriterionID]bool     // where this reader may say what is so
	MayChange               map[assessment.CriterionID]bool     // where they may change what is asked
	Licence                 string                              // that their signature under the whole plan would stand with; empty: they cannot sign it
	SignID                  string                              // that it would have
	Zone                    *time.Location
}

// ShiftLack is what whoever takes a shift is not current in then.
type ShiftLack []phrase.Phrase

// ReadinessDesk answers for the end of a day, or for now on the zero day.
// Caregivers may ask for their own children.
func (o *Office) ReadinessDesk(ctx context.Context, by assessment.Actor, client assessment.ClientID, on civil.Date) (ReadinessDesk, error) {
	var v ReadinessDesk
	err := o.as(ctx, by, assessment.ReadReadiness, func(tx *postgres.Tx, now Moment) error {
		if err := mayForClient(ctx, tx, now, by, assessment.ReadReadiness, client); err != nil {
			return err
		}
		at := now.At
		if !on.IsZero() && on != now.Today {
			at = on.AddDays(1).In(now.Zone).Add(-time.Microsecond)
		}
		p, err := o.planned(ctx, tx, now, client, civil.DayOf(at, now.Zone))
		if err != nil {
			return err
		}
		v = ReadinessDesk{Today: now.Today, Waived: p.waived()}
		if v.ReadinessView, err = p.answer(now, at); err != nil {
			return err
		}
		if err := v.lacks(p, now); err != nil {
			return err
		}
		return o.planners(ctx, tx, now, by, p, &v)
	})
	return v, err
}

// waived lists what of each line is waived now. Evidence comes oldest first.
func (p *planned) waived() map[assessment.CriterionID][]string {
	last := map[assessment.CriterionID]map[string]bool{}
	for _, e := range p.evidence {
		if last[e.Criterion] == nil {
			last[e.Criterion] = map[string]bool{}
		}
		switch {
		case e.Word == assessment.EvidenceWaived:
			last[e.Criterion][e.Item] = true
		case e.Word == assessment.EvidenceUnwaived || e.Item != "": // a newer word on an item counts
			last[e.Criterion][e.Item] = false
		}
	}
	all := map[assessment.CriterionID][]string{}
	for _, c := range p.criteria {
		for _, item := range append([]string{""}, c.Items...) {
			if last[c.ID][item] {
				all[c.ID] = append(all[c.ID], item)
			}
		}
	}
	return all
}

func (v *ReadinessDesk) lacks(p *planned, now Moment) error {
	early := p.skills(assessment.EarlyShifts)
	for _, s := range p.shifts {
		lacks, err := p.lacking(s, viewShift(s, now.Zone), early)
		if err != nil {
			return err
		}
		v.Lacks = append(v.Lacks, lacks)
	}
	return nil
}

// planners finds what whoever keeps the plan can choose from.
func (o *Office) planners(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, p *planned, v *ReadinessDesk) error {
	v.Zone = now.Zone
	if by.May(assessment.EditReadiness) != nil {
		return nil
	}
	if err := o.sayers(ctx, tx, now, by, v); err != nil {
		return err
	}
	for _, s := range p.book.inOrder() {
		if s.InForce > 0 {
			v.Skills = append(v.Skills, s.ref())
		}
	}
	people, err := tx.People.List(ctx, postgres.PeopleFilter{On: now.Today})
	if err != nil {
		return err
	}
	for _, n := range people {
		if n.Kind != "" {
			v.Carers = append(v.Carers, PersonRef{n.ID, n.Name, n.Kind, n.Relation})
		}
	}
	if v.EvidenceID, err = newID[string](o, now.At); err != nil {
		return err
	}
	v.CriterionID, err = newID[string](o, now.At)
	return err
}

// sayers finds which lines whoever keeps the plan may say something about, and whether
// they could sign it.
func (o *Office) sayers(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, v *ReadinessDesk) error {
	current, err := currentLicences(ctx, tx, now, by.Person)
	if err != nil {
		return err
	}
	v.MaySay, v.MayChange = map[assessment.CriterionID]bool{}, map[assessment.CriterionID]bool{}
	for _, l := range v.Lines {
		may := l.Criterion.MaySay(by.Roles, current)
		v.MaySay[l.Criterion.ID], v.MayChange[l.Criterion.ID] = may, may || !guarded(l.Criterion)
	}
	if by.May(assessment.SignReadiness) != nil {
		return nil
	}
	if v.Licence, err = printedLicence(ctx, tx, now, by.Person); err != nil {
		return err
	}
	v.SignID, err = newID[string](o, now.At)
	return err
}
