package demo

import (
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// planPractice has the agency use the rules for aides, and write down what came before: training
// that some took part in, assessments of aides, an incident that is still open. It comes after
// all else of its days, and takes from nobody what they hold today.
func (s *story) planPractice() {
	for i, do := range []func() error{
		func() error { return s.setPractice(assessment.SkillAlone) },
		s.train, s.superviseAides,
		func() error {
			return s.incident(sam, "suction", "4B", 12, "Suctioned deeper than the ordered depth; stopped when told, and the child was well after.")
		},
		func() error { return s.setPractice(assessment.SkillAndRelated) },
	} {
		s.at(s.hour(s.ago(1), 16, 30+2*i), do)
	}
}

func (s *story) setPractice(withdraws assessment.IncidentScope) error {
	return s.office.SetPractice(s.ctx, s.admin.Actor, office.PracticeForm{IncidentWithdraws: string(withdraws), IncidentByItself: true,
		InService: true, InServiceHours: "12", InServiceYear: string(assessment.EmploymentAnniversary), Supervision: true})
}

// aides are those of the agency that have joined, in order of the cast.
func (s *story) aides() []*learner {
	var all []*learner
	for _, l := range s.learners {
		if l.kind == assessment.Aide && l.Person != "" {
			all = append(all, l)
		}
	}
	return all
}

// train writes down since when the aides work here, but of the last, and two sessions.
func (s *story) train() error {
	by := s.coordinate[0].Actor
	aides := s.aides()
	var people []assessment.PersonID
	for i, a := range aides {
		people = append(people, a.Person)
		if i == len(aides)-1 && i > 0 {
			break
		}
		if err := s.office.SetHired(s.ctx, by, a.Person, s.ago(330-40*i).String()); err != nil {
			return fmt.Errorf("say since when %s works here: %w", a.Name, err)
		}
	}
	for i, topic := range []string{"Hand washing and gloves", "Lifting and turning without strain"} {
		f := office.InServiceForm{HeldOn: s.ago(60 - 20*i).String(), Hours: []string{"6", "4:30"}[i], Topic: topic, Trainer: s.educators[0].Name + ", RN", Counts: true, People: people[:len(people)-i]}
		if _, err := s.office.AddSession(s.ctx, by, f); err != nil {
			return fmt.Errorf("write down training: %w", err)
		}
	}
	return nil
}

// superviseAides says of two children whether they get skilled care, and writes an assessment down.
func (s *story) superviseAides() error {
	by := s.coordinate[0].Actor
	for i, c := range s.children[:2] {
		if err := s.office.SetSkilledCare(s.ctx, by, c.id, office.SkilledCareForm{From: s.ago(39).String(), Skilled: i == 0, Episodes: s.ago(39).String()}); err != nil {
			return fmt.Errorf("say whether %s gets skilled care: %w", c.code, err)
		}
	}
	v, err := s.office.Supervision(s.ctx, by, "", "")
	if err != nil {
		return err
	}
	for _, l := range v.Lines[:min(3, len(v.Lines))] {
		f := office.SupervisionForm{Client: l.Client.ID, Aide: l.Aide.ID, Supervisor: s.educators[0].Person, On: s.ago(16).String(), How: string(assessment.OnSite), Watched: true, Found: "Follows the plan, reports changes."}
		if _, err := s.office.AddSupervision(s.ctx, by, f); err != nil {
			return fmt.Errorf("write an assessment down: %w", err)
		}
	}
	return nil
}

func (s *story) incident(name, skill, child string, ago int, seen string) error {
	by := s.educators[0]
	f := office.IncidentForm{Person: s.learnerNamed(name).Person, Skill: skill, Client: s.childWith(child).id, Happened: s.hour(s.ago(ago), 9, 5).Format("2006-01-02T15:04:05Z07:00"), Seen: seen, Proof: office.ByPassword(by.secret)}
	if _, err := s.office.RecordIncident(s.ctx, by.Actor, f); err != nil {
		return fmt.Errorf("record an incident of %s: %w", name, err)
	}
	return nil
}
