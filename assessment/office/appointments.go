package office

import (
	"context"
	"fmt"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// AppointmentForm proposes that somebody may observe certain skills.
type AppointmentForm struct {
	Person   assessment.PersonID
	Skills   []string // codes
	From     string   // YYYY-MM-DD
	Through  string   // YYYY-MM-DD
	Founding bool     // stands in for their own competency: how the first observers come to be
	Evidence string
}

// AppointmentView is an appointment as people see it.
type AppointmentView struct {
	ID         assessment.AppointmentID
	Person     assessment.PersonID
	Name       string
	Skills     []string // codes
	From       civil.Date
	Through    civil.Date
	Founding   bool
	Evidence   string
	Proposed   assessment.PersonID
	ProposedBy string // name
	ProposedOn civil.Date
	AgreedBy   string     // name; empty until agreed
	AgreedOn   civil.Date // zero until agreed
	EndedOn    civil.Date // first day on which it no longer counts; zero while it stands
	EndReason  string
	Pending    bool // waits for the second person
	Open       bool // counts today or will
}

func coreAppointment(a postgres.Appointment, zone *time.Location) assessment.Appointment {
	c := assessment.Appointment{ID: a.ID, Person: a.Person, Skills: a.Skills, From: a.FromOn, Through: a.ThroughOn,
		Founding: a.Founding, Evidence: a.Evidence, Proposed: a.Proposed, Agreed: a.Agreed}
	if a.AgreedAt != nil {
		c.AgreedOn = civil.DayOf(*a.AgreedAt, zone)
	}
	if a.EndedAt != nil {
		c.EndedOn = civil.DayOf(*a.EndedAt, zone)
	}
	return c
}

func viewAppointment(a postgres.Appointment, now Moment) AppointmentView {
	c := coreAppointment(a, now.Zone)
	over := !c.EndedOn.IsZero() || now.Today.After(c.Through)
	return AppointmentView{ID: c.ID, Person: c.Person, Name: a.Name, Skills: c.Skills, From: c.From, Through: c.Through,
		Founding: c.Founding, Evidence: c.Evidence, Proposed: c.Proposed, ProposedBy: a.Proposer, ProposedOn: civil.DayOf(a.ProposedAt, now.Zone),
		AgreedBy: a.Agreer, AgreedOn: c.AgreedOn, EndedOn: c.EndedOn, EndReason: a.EndReason,
		Pending: c.Agreed == "" && !over, Open: c.Agreed != "" && !over}
}

// ProposeAppointment proposes an appointment. It counts only once a second person
// has agreed.
func (o *Office) ProposeAppointment(ctx context.Context, by assessment.Actor, p AppointmentForm) (AppointmentView, error) {
	var v AppointmentView
	err := o.as(ctx, by, assessment.Appoint, func(tx *postgres.Tx, now Moment) error {
		a, err := p.read(by)
		if err != nil {
			return err
		}
		if err := mayPropose(ctx, tx, now, a); err != nil {
			return err
		}
		if a.ID, err = newID[assessment.AppointmentID](o, now.At); err != nil {
			return err
		}
		if err := tx.Qualifications.Propose(ctx, a, now.At); err != nil {
			return err
		}
		if err := o.note(ctx, tx, now, by, assessment.Appoint, "appointment", string(a.ID)); err != nil {
			return err
		}
		v, err = o.appointment(ctx, tx, now, a.ID)
		return err
	})
	return v, err
}

func (p AppointmentForm) read(by assessment.Actor) (assessment.Appointment, error) {
	var f form
	a := assessment.Appointment{Person: p.Person, Founding: p.Founding, Proposed: by.Person,
		From: f.day("from", p.From), Through: f.day("through", p.Through), Evidence: f.words("evidence", p.Evidence, 2000)}
	for _, s := range p.Skills {
		if !slices.Contains(a.Skills, s) {
			a.Skills = append(a.Skills, s)
		}
	}
	if p.Person == "" {
		f.Add("person", "Choose who is to observe.")
	}
	if err := f.Err(); err != nil {
		return a, err
	}
	return a, a.Check()
}

// mayPropose refuses skills and people that there are not, and what is proposed
// already.
func mayPropose(ctx context.Context, tx *postgres.Tx, now Moment, a assessment.Appointment) error {
	p, err := tx.People.Get(ctx, a.Person)
	if err != nil {
		return err
	}
	if gone(p.LeftOn, now.Today) {
		return faultAt("person", p.Name+" is no longer with the agency.")
	}
	skills, err := tx.Checklists.Skills(ctx)
	if err != nil {
		return err
	}
	for _, code := range a.Skills {
		if !slices.ContainsFunc(skills, func(s postgres.Skill) bool { return s.Code == code }) {
			return faultAt("skills", fmt.Sprintf("There is no skill with the code %q.", code))
		}
	}
	known, err := tx.Qualifications.Appointments(ctx, a.Person)
	if err != nil {
		return err
	}
	for _, k := range known {
		c := coreAppointment(k, now.Zone)
		if c.EndedOn.IsZero() && c.From == a.From && c.Through == a.Through && c.Founding == a.Founding && slices.Equal(c.Skills, a.Skills) {
			return fault.Of(fault.Conflict, "This appointment has been proposed already.")
		}
	}
	return a.FoundsOnce(coreAppointments(known, now.Zone))
}

func (o *Office) appointment(ctx context.Context, tx *postgres.Tx, now Moment, id assessment.AppointmentID) (AppointmentView, error) {
	a, err := tx.Qualifications.Appointment(ctx, id)
	if err != nil {
		return AppointmentView{}, err
	}
	return viewAppointment(a, now), nil
}

// AgreeAppointment is the second person's word. From its day on the appointment counts.
func (o *Office) AgreeAppointment(ctx context.Context, by assessment.Actor, id assessment.AppointmentID) (AppointmentView, error) {
	return o.onAppointment(ctx, by, id, "agreement", func(tx *postgres.Tx, now Moment, kept postgres.Appointment, a assessment.Appointment) error {
		if now.Today.After(a.Through) {
			return fault.Of(fault.Refused, "This appointment is over. Propose a new one.")
		}
		if err := a.Agree(by.Person); err != nil {
			return err
		}
		if err := tx.History.Lock(ctx, a.Person); err != nil { // of two that wait, one is agreed to first
			return err
		}
		known, err := tx.Qualifications.Appointments(ctx, a.Person)
		if err != nil {
			return err
		}
		if err := a.FoundsOnce(coreAppointments(known, now.Zone)); err != nil {
			return err
		}
		if err := secondPerson(ctx, tx, now, by.Person, a.Proposed, kept.ProposedAt, "You cannot agree to what "+kept.Proposer+" has proposed"); err != nil {
			return err
		}
		if err := secondPerson(ctx, tx, now, by.Person, a.Person, now.At, "You cannot agree to the appointment of "+kept.Name); err != nil {
			return err
		}
		return tx.Qualifications.Agree(ctx, id, by.Person, now.At)
	})
}

// EndAppointment ends an appointment, or turns a proposed one down: from today on
// it does not count.
func (o *Office) EndAppointment(ctx context.Context, by assessment.Actor, id assessment.AppointmentID, reason string) (AppointmentView, error) {
	return o.onAppointment(ctx, by, id, "appointment end", func(tx *postgres.Tx, now Moment, _ postgres.Appointment, _ assessment.Appointment) error {
		var f form
		why := f.words("reason", reason, 500)
		if !assessment.Says(why) {
			f.Add("reason", "Say why. It stays with the appointment.")
		}
		if err := f.Err(); err != nil {
			return err
		}
		return tx.Qualifications.End(ctx, id, by.Person, why, now.At)
	})
}

// onAppointment does something to an appointment that has not been ended.
func (o *Office) onAppointment(ctx context.Context, by assessment.Actor, id assessment.AppointmentID, kind string, change func(*postgres.Tx, Moment, postgres.Appointment, assessment.Appointment) error) (AppointmentView, error) {
	var v AppointmentView
	err := o.as(ctx, by, assessment.Appoint, func(tx *postgres.Tx, now Moment) error {
		kept, err := tx.Qualifications.Appointment(ctx, id)
		if err != nil {
			return err
		}
		a := coreAppointment(kept, now.Zone)
		if !a.EndedOn.IsZero() {
			return fault.Of(fault.Conflict, "This appointment has been ended already.")
		}
		if err := change(tx, now, kept, a); err != nil {
			return err
		}
		if err := o.note(ctx, tx, now, by, assessment.Appoint, kind, string(id)); err != nil {
			return err
		}
		v, err = o.appointment(ctx, tx, now, id)
		return err
	})
	return v, err
}

// Appointments lists those that count today, will, or wait for a second person.
// Whoever may only read their own sees only those.
func (o *Office) Appointments(ctx context.Context, by assessment.Actor) ([]AppointmentView, error) {
	var views []AppointmentView
	err := o.as(ctx, by, assessment.ReadPeople, func(tx *postgres.Tx, now Moment) error {
		only := assessment.PersonID("")
		if by.Reach(assessment.ReadPeople) == assessment.Own {
			only = by.Person
		}
		kept, err := tx.Qualifications.Appointments(ctx, only)
		if err != nil {
			return err
		}
		views = nil
		for _, a := range kept {
			if by.MayFor(assessment.ReadPeople, a.Person, false) != nil {
				continue
			}
			if v := viewAppointment(a, now); v.Pending || v.Open {
				views = append(views, v)
			}
		}
		return nil
	})
	return views, err
}
