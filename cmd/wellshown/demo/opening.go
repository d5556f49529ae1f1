package demo

import (
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
)

// skill is one of the twelve with its newest checklist.
type skill struct {
	code, title string
	id          assessment.SkillID
	list        assessment.Checklist
}

// open is the first day: the agency, those who run it, the checklists, what is
// required, and the first observers. Then everything else is planned.
func (s *story) open() error {
	for _, step := range []func() error{s.found, s.hire, s.putInForce, s.require, s.appointFounders} {
		if err := step(); err != nil {
			return err
		}
	}
	s.planArrivals()
	s.planChanges()
	s.planExceptions()
	s.planHome()
	s.planToday()
	s.planSkillsDays()
	s.planRoster()
	s.planVisits()
	s.carryIn()
	s.planPractice()
	s.planLessons()
	s.planLearning()
	s.planChecks()
	return nil
}

func (s *story) found() error {
	email := theAdministrator.mail + domain
	actor, err := s.office.FoundAgency(s.ctx, office.NewAgency{Code: Unfinished, Name: Name, Zone: Zone, Demo: true,
		AdminName: theAdministrator.name, AdminEmail: email, AdminPassword: s.secret(email)})
	if err != nil {
		return err
	}
	s.admin = &person{actor, email, s.secret(email)}
	s.result.Agency = actor.Agency
	s.signIn("administrator", s.admin)
	return nil
}

// hire adds those who run the agency and those who observe.
func (s *story) hire() error {
	for _, m := range theCoordinators {
		p, err := s.join(office.PersonForm{Name: m.name, Roles: []string{string(m.role)}}, m.mail)
		if err != nil {
			return err
		}
		s.coordinate = append(s.coordinate, p)
		s.signIn("coordinator", p)
	}
	for i, t := range theEducators {
		p, err := s.join(office.PersonForm{Name: t.name, Roles: []string{string(t.role)}}, t.mail)
		if err != nil {
			return err
		}
		e := &educator{person: p, licence: t.licence}
		s.educators = append(s.educators, e)
		s.signIn("educator", p)
		_, err = s.office.RecordLicence(s.ctx, s.admin.Actor, p.Person, office.LicenceForm{Kind: t.licence,
			Number: fmt.Sprintf("LK-%05d", 10417+2203*i), Through: s.today.AddMonths(7 + 3*i).MonthEnd().String()})
		if err != nil {
			return fmt.Errorf("record the licence of %s: %w", p.Name, err)
		}
	}
	p, err := s.join(office.PersonForm{Name: theSurveyor.name, Roles: []string{string(theSurveyor.role)}}, theSurveyor.mail)
	if err != nil {
		return err
	}
	s.surveyor = p
	s.signIn("surveyor", p)
	s.at(s.hour(s.ago(3), 9, 0), func() error {
		_, err := s.office.GiveAccess(s.ctx, s.admin.Actor, office.AccessForm{Person: p.Person, Whole: true, Reason: "The yearly survey.", Through: s.ago(3).AddDays(assessment.LongestSurvey - 1).String()})
		if err != nil {
			return fmt.Errorf("let the surveyor in: %w", err)
		}
		return nil
	})
	return nil
}

// join adds somebody who signs in with their secret.
func (s *story) join(f office.PersonForm, mail string) (*person, error) {
	f.Email, f.Password = mail+domain, s.secret(mail+domain)
	v, err := s.office.AddPerson(s.ctx, s.admin.Actor, f)
	if err != nil {
		return nil, fmt.Errorf("add %s: %w", f.Name, err)
	}
	return &person{assessment.Actor{Agency: s.admin.Agency, Person: v.ID, Name: v.Name, Roles: v.Roles}, f.Email, f.Password}, nil
}

func (s *story) signIn(role string, p *person) {
	s.result.SignIns = append(s.result.SignIns, SignIn{role, p.Name, p.email, p.secret})
}

// putInForce takes up the twelve starter checklists; an educator reviews and proposes each,
// and another agrees.
func (s *story) putInForce() error {
	by := s.educators[0]
	for _, code := range catalog.Codes() {
		draft, err := s.office.AdoptStarter(s.ctx, by.Actor, code)
		if err != nil {
			return fmt.Errorf("adopt %s: %w", code, err)
		}
		err = s.comesInForce(by, s.educators[1], draft, "Reviewed line by line against our orders, the makers' instructions and state rules.", civil.Date{})
		if err != nil {
			return err
		}
		v, err := s.office.Checklist(s.ctx, by.Actor, draft.ID)
		if err != nil {
			return err
		}
		s.skills = append(s.skills, &skill{code, v.Checklist.Title, v.Skill, v.Checklist})
		s.result.Counts.Revisions++
	}
	return nil
}

// require says what each kind of caregiver has to hold: the humidifier only where
// a child has one.
func (s *story) require() error {
	for _, kind := range assessment.CaregiverKinds {
		for _, code := range needs[kind] {
			f := office.RequirementForm{Skill: code, Kind: string(kind), From: s.day().String()}
			if code == "humidifier" {
				f.EquipmentKind = "humidifier"
			}
			if _, err := s.office.SetRequirement(s.ctx, s.coordinate[0].Actor, f); err != nil {
				return fmt.Errorf("require %s: %w", code, err)
			}
		}
	}
	return nil
}

// workday is the day itself, or the next one where it is a Sunday.
func workday(d civil.Date) civil.Date {
	if d.Weekday() == 0 {
		return d.AddDays(1)
	}
	return d
}
