package office

import (
	"context"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// PersonDesk is all that is known of one person on one day.
type PersonDesk struct {
	PersonStandings
	Qualifications QualificationsView
	Records        []postgres.Demonstration // performed by that day, newest first
	Happenings     []HappeningView          // by that day, newest first
	Certificates   []postgres.Certificate   // held by that day, newest first
	Withdrawals    []HappeningView          // of Happenings: stand today and wait for a reinstatement
	Skills         []SkillForChild          // what can be taught or practised, for whom
	Observes       []assessment.SkillID     // what the actor may observe this person in today
	Identity       IdentityView             // how they came to their password, for whoever may vouch
	Coming         []CoverLine              // their shifts of the next 14 days, for themselves and whoever reads all
	CarriedIn      []CarriedEntry           // shown elsewhere, by old papers: no standing comes of it
	Devices        []DeviceView             // at the bedside, for whoever may revoke them
	Supervised     []SupervisionLine        // of an aide, where the agency keeps it and the actor reads all
	Hours          []InServiceLine          // the same: one at most
	Incidents      []IncidentView           // that happened by that day, as far as the actor may read them
}

// SkillForChild is a skill and, where it is held per child, one child.
type SkillForChild struct {
	Skill  SkillRef
	Client ClientRef
}

// PersonDesk answers for a day; the zero day is today.
func (o *Office) PersonDesk(ctx context.Context, by assessment.Actor, person assessment.PersonID, on civil.Date) (PersonDesk, error) {
	var v PersonDesk
	err := o.as(ctx, by, assessment.ReadStandings, func(tx *postgres.Tx, now Moment) error {
		if err := by.MayFor(assessment.ReadStandings, person, false); err != nil {
			return err
		}
		if on.IsZero() {
			on = now.Today
		}
		kept, err := tx.People.Get(ctx, person)
		if err != nil {
			return err
		}
		v = PersonDesk{PersonStandings: PersonStandings{Person: viewPerson(kept), On: on, Today: now.Today}}
		if v.Rows, err = o.foldPerson(ctx, tx, now, v.Person, on); err != nil {
			return err
		}
		if err := o.pastOf(ctx, tx, now, &v); err != nil {
			return err
		}
		if err := o.incidentsOf(ctx, tx, now, by, &v); err != nil {
			return err
		}
		v.narrow(by)
		if v.CarriedIn, _, err = carriedIn(ctx, tx, by, person); err != nil {
			return err
		}
		if on == now.Today && (person == by.Person || by.Reach(assessment.ReadStandings) == assessment.Everything) {
			c, err := o.coverage(ctx, tx, now, CoverageQuery{Person: person})
			if err != nil {
				return err
			}
			v.Coming = c.Lines
		}
		if on == now.Today && kept.Kind == assessment.Aide && by.Reach(assessment.ReadReports) == assessment.Everything {
			if err := o.aideOf(ctx, tx, now, &v); err != nil {
				return err
			}
		}
		return o.actsOn(ctx, tx, now, by, &v)
	})
	return v, err
}

// narrow leaves out what lies outside the actor's reach.
func (v *PersonDesk) narrow(by assessment.Actor) {
	const act = assessment.ReadStandings
	v.Part = seenClients(by, act, v.Person.ID) != nil
	v.Rows = within(by, act, v.Person.ID, v.Rows, StandingView.of)
	v.Records = within(by, act, v.Person.ID, v.Records, recordFor)
	v.Certificates = within(by, act, v.Person.ID, v.Certificates, certificateFor)
	v.Happenings = within(by, act, v.Person.ID, v.Happenings, HappeningView.of)
	v.Withdrawals = within(by, act, v.Person.ID, v.Withdrawals, HappeningView.of)
}

// actsOn finds what the actor can choose from when they do something about the
// person today.
func (o *Office) actsOn(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, v *PersonDesk) error {
	if by.May(assessment.LogCare) == nil {
		if err := o.teachable(ctx, tx, now, v); err != nil {
			return err
		}
	}
	if by.May(assessment.VouchFor) == nil {
		var err error
		if v.Identity, err = identity(ctx, tx, now, by, v.Person.ID); err != nil {
			return err
		}
	}
	if by.May(assessment.EditPeople) == nil {
		var err error
		if v.Devices, err = devicesOf(ctx, tx, v.Person.ID); err != nil {
			return err
		}
	}
	if by.May(assessment.Observe) != nil || by.Person == v.Person.ID || gone(v.Person.LeftOn, now.Today) {
		return nil
	}
	var may BeforeOpening
	if err := o.observable(ctx, tx, now, by, &may); err != nil {
		return err
	}
	for _, s := range may.Skills {
		v.Observes = append(v.Observes, s.ID)
	}
	return nil
}

// teachable lists the skills in force: those held per child once for each child
// whom the person looks after today.
func (o *Office) teachable(ctx context.Context, tx *postgres.Tx, now Moment, v *PersonDesk) error {
	skills, err := tx.Checklists.Skills(ctx)
	if err != nil {
		return err
	}
	clients, err := tx.Clients.List(ctx, postgres.ClientFilter{TeamOf: v.Person.ID, On: now.Today})
	if err != nil {
		return err
	}
	for _, s := range skills {
		ref := SkillRef{s.ID, s.Code, s.Title}
		switch {
		case s.InForce == 0:
		case s.Scope == assessment.General:
			v.Skills = append(v.Skills, SkillForChild{Skill: ref})
		default:
			for _, c := range clients {
				v.Skills = append(v.Skills, SkillForChild{ref, ClientRef{c.ID, c.Code, c.FirstName}})
			}
		}
	}
	return nil
}

// MayObserve reports whether the actor may observe the person in a skill today.
func (v PersonDesk) MayObserve(skill assessment.SkillID) bool {
	return slices.Contains(v.Observes, skill)
}
