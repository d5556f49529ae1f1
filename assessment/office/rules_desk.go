package office

import (
	"context"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// RequirementsDesk is who must hold what, with what a new requirement can name.
type RequirementsDesk struct {
	Today   civil.Date
	Lines   []RequirementView // that count today or will, in teaching order
	Skills  []SkillRef        // in force
	Clients []ClientRef       // that the agency looks after
	Kinds   []string          // of equipment, that are known
}

// RequirementsDesk answers for today.
func (o *Office) RequirementsDesk(ctx context.Context, by assessment.Actor) (RequirementsDesk, error) {
	var v RequirementsDesk
	err := o.as(ctx, by, assessment.ReadReports, func(tx *postgres.Tx, now Moment) error {
		v = RequirementsDesk{Today: now.Today}
		b := &casebook{zone: now.Zone}
		if err := o.readSkills(ctx, tx, b); err != nil {
			return err
		}
		kept, err := tx.Requirements.List(ctx)
		if err != nil {
			return err
		}
		for _, r := range kept {
			if one := viewRequirement(r, b.byCode[r.Skill].Title, now.Today); !one.Over {
				v.Lines = append(v.Lines, one)
			}
		}
		for _, s := range b.inOrder() {
			if s.InForce > 0 {
				v.Skills = append(v.Skills, s.ref())
			}
		}
		clients, err := tx.Clients.List(ctx, postgres.ClientFilter{On: now.Today})
		if err != nil {
			return err
		}
		for _, c := range clients {
			v.Clients = append(v.Clients, ClientRef{c.ID, c.Code, c.FirstName})
		}
		v.Kinds, err = o.equipmentKinds(ctx, tx, b)
		return err
	})
	return v, err
}

// AppointmentsDesk is who may observe what, with whom and what a new appointment
// can name.
type AppointmentsDesk struct {
	Today    civil.Date
	All      []AppointmentView // ended ones too, newest first
	Licences map[assessment.PersonID][]LicenceView
	Skills   []SkillRef  // all, in teaching order
	People   []PersonRef // educators who are here, but for the actor
}

// AppointmentsDesk answers for today. Whoever may only read their own sees only
// those.
func (o *Office) AppointmentsDesk(ctx context.Context, by assessment.Actor) (AppointmentsDesk, error) {
	var v AppointmentsDesk
	err := o.as(ctx, by, assessment.ReadReports, func(tx *postgres.Tx, now Moment) error {
		v = AppointmentsDesk{Today: now.Today, Licences: map[assessment.PersonID][]LicenceView{}}
		kept, err := tx.Qualifications.Appointments(ctx, "")
		if err != nil {
			return err
		}
		for _, a := range kept {
			v.All = append(v.All, viewAppointment(a, now))
		}
		licences, err := tx.Qualifications.Licences(ctx, "")
		if err != nil {
			return err
		}
		for _, l := range licences {
			v.Licences[l.Person] = append(v.Licences[l.Person], viewLicence(l, now.Today))
		}
		return o.appointable(ctx, tx, now, by, &v)
	})
	return v, err
}

func (o *Office) appointable(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, v *AppointmentsDesk) error {
	skills, err := tx.Checklists.Skills(ctx)
	if err != nil {
		return err
	}
	for _, s := range skills {
		v.Skills = append(v.Skills, SkillRef{s.ID, s.Code, s.Title})
	}
	people, err := tx.People.List(ctx, postgres.PeopleFilter{On: now.Today})
	if err != nil {
		return err
	}
	for _, p := range people {
		if p.ID != by.Person && slices.Contains(p.Roles, assessment.Educator) {
			v.People = append(v.People, PersonRef{p.ID, p.Name, p.Kind, p.Relation})
		}
	}
	return nil
}

// NewID makes an id for a record that a form will make, so that sending the form
// twice makes it once.
func (o *Office) NewID() (string, error) { return newID[string](o, o.opt.Now()) }
