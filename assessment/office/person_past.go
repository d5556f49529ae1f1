package office

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// HappeningView is a withdrawal, reinstatement, waiver, teaching or practice with
// the names of what it is about.
type HappeningView struct {
	postgres.Happening
	On     civil.Date // of At, in the agency's zone
	Title  string
	Client ClientRef
}

// pastOf reads what had happened by the day asked for.
func (o *Office) pastOf(ctx context.Context, tx *postgres.Tx, now Moment, v *PersonDesk) error {
	then := now
	then.Today = v.On
	var err error
	if v.Qualifications, err = qualifications(ctx, tx, then, v.Person.ID); err != nil {
		return err
	}
	records, err := tx.Demonstrations.All(ctx, postgres.DemonstrationFilter{Learner: v.Person.ID})
	if err != nil {
		return err
	}
	for _, r := range records {
		if !civil.DayOf(r.PerformedAt, now.Zone).After(v.On) {
			v.Records = append(v.Records, r)
		}
	}
	issued, err := tx.Certificates.All(ctx, v.Person.ID)
	if err != nil {
		return err
	}
	for _, c := range issued {
		if !c.HeldOn.After(v.On) {
			v.Certificates = append(v.Certificates, c)
		}
	}
	return o.happenings(ctx, tx, now, v)
}

// aideOf reads what the rules for aides ask of one, as far as the agency uses them.
func (o *Office) aideOf(ctx context.Context, tx *postgres.Tx, now Moment, v *PersonDesk) error {
	rules, err := practice(ctx, tx)
	if err != nil {
		return err
	}
	if rules.InService {
		hours, err := o.inService(ctx, tx, now, v.Person.ID)
		if err != nil {
			return err
		}
		v.Hours = hours.Lines
	}
	if rules.Supervision {
		due, err := o.supervision(ctx, tx, now, v.Person.ID, "")
		if err != nil {
			return err
		}
		v.Supervised = due.Lines
	}
	return nil
}

// incidentsOf reads the incidents that had happened by the day asked for.
func (o *Office) incidentsOf(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, v *PersonDesk) (err error) {
	if by.May(assessment.ReadRecords) == nil {
		v.Incidents, err = o.incidents(ctx, tx, now, by, IncidentQuery{Person: v.Person.ID, Through: v.On})
	}
	return err
}

func (o *Office) happenings(ctx context.Context, tx *postgres.Tx, now Moment, v *PersonDesk) error {
	found, err := tx.Exceptions.Happenings(ctx, v.Person.ID)
	if err != nil {
		return err
	}
	n, err := o.names(ctx, tx)
	if err != nil {
		return err
	}
	skills, err := tx.Checklists.Skills(ctx)
	if err != nil {
		return err
	}
	titles, lifted := map[assessment.SkillID]string{}, map[string]bool{}
	for _, s := range skills {
		titles[s.ID] = s.Title
	}
	for _, h := range found {
		if h.TakenBack == nil {
			lifted[h.Of] = true
		}
	}
	for _, h := range found {
		one := HappeningView{h, civil.DayOf(h.At, now.Zone), titles[h.Skill], n.clients[h.Client]}
		if h.Kind == assessment.WithdrawalEntry && h.Until == assessment.Reinstated && h.TakenBack == nil && !lifted[string(h.ID)] {
			v.Withdrawals = append(v.Withdrawals, one)
		}
		if !one.On.After(v.On) {
			v.Happenings = append(v.Happenings, one)
		}
	}
	return nil
}
