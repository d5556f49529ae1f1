package demo

import (
	"fmt"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/written"
)

// planChanges plans what changes for many at once: a checklist that demands a
// recheck, equipment, people who leave or are away.
func (s *story) planChanges() {
	s.at(s.hour(workday(s.ago(158)), 15, 0), s.reviseStomaCare)
	s.at(s.hour(workday(s.ago(3)), 15, 30), s.draftCircuitChange)
	s.at(s.hour(s.ago(205), 9, 0), s.largerTubeForJonah)
	s.at(s.hour(s.ago(9), 9, 0), s.newVentilatorForTheo)
	s.at(s.hour(s.ago(101), 17, 0), s.padraigLeaves)
	s.planAbsences()
}

// planAbsences: some were away in the middle of it, and some are now, so that
// what they hold runs out.
func (s *story) planAbsences() {
	for _, name := range []string{ines, tomasz, renee, gudrun, ruth, zofia, thora, minh, sarka} {
		s.learnerNamed(name).steady = true
	}
	for _, l := range s.learners {
		if l.steady || l.chance.IntN(4) > 0 {
			continue
		}
		from := 150 + l.chance.IntN(250)
		l.away = append(l.away, span{s.ago(from), s.ago(from - 70 - l.chance.IntN(40))})
	}
	for name, from := range map[string]int{dana: 75, marek: 64, amal: 6, joao: 21, sam: 12} {
		l := s.learnerNamed(name)
		l.away = append(l.away, span{s.ago(from), s.today})
	}
	wiremu := s.learnerNamed(wiremu) // misses the recheck, and is seen after it
	wiremu.away = append(wiremu.away, span{s.ago(152), s.ago(82)})
	s.learnerNamed(chidi).stops["humidifier"] = s.ago(330)
	s.learnerNamed(tomasz).limits["circuit-change"] = 2 // each lacks one
	s.learnerNamed(sarka).limits["circuit-change"] = 2
	s.learnerNamed(ines).limits["go-bag"] = 0
}

// revise drafts the next revision of a checklist, changed.
func (s *story) revise(by *educator, code string, change func(*assessment.Checklist)) (office.RevisionView, error) {
	k := s.skillWith(code)
	draft, err := s.office.DraftRevision(s.ctx, by.Actor, k.id)
	if err != nil {
		return draft, fmt.Errorf("draft the next %s: %w", code, err)
	}
	v, err := s.office.Checklist(s.ctx, by.Actor, draft.ID)
	if err != nil {
		return draft, err
	}
	list := v.Checklist
	change(&list)
	text, err := written.EncodeYAML(list)
	if err != nil {
		return draft, fmt.Errorf("write the next %s: %w", code, err)
	}
	s.result.Counts.Revisions++
	return s.office.SaveDraft(s.ctx, by.Actor, office.DraftForm{Revision: draft.ID, Version: draft.Version, Source: string(text)})
}

func (s *story) skillWith(code string) *skill {
	for _, k := range s.skills {
		if k.code == code {
			return k
		}
	}
	panic("there is no skill " + code)
}

// reviseStomaCare puts a second revision in force and has everybody who holds the
// skill shown it within ten weeks.
func (s *story) reviseStomaCare() error {
	by := s.educators[2]
	draft, err := s.revise(by, "stoma-ties", func(c *assessment.Checklist) {
		one := 1
		c.Policy.Scoring.CueLimit = &one
		last := &c.Sections[len(c.Sections)-1]
		last.Steps[len(last.Steps)-1].Note += " From this revision on also who was told of any sore skin."
	})
	if err != nil {
		return err
	}
	recheck := s.ago(86)
	s.at(s.hour(workday(s.ago(150)), 11, 0), func() error {
		err := s.comesInForce(by, s.educators[0], draft, "Sore skin under ties was told too late in spring; reviewed with the wound nurse.", recheck)
		if err != nil {
			return err
		}
		for _, l := range s.here() {
			s.visitOn(l, civil.Later(s.day().AddDays(2), recheck.AddDays(-6-l.chance.IntN(38))))
		}
		return nil
	})
	return nil
}

// draftCircuitChange leaves a draft on the desk that one educator has proposed to put in
// force, to be compared, and agreed to by another.
func (s *story) draftCircuitChange() error {
	by := s.educators[1]
	draft, err := s.revise(by, "circuit-change", func(c *assessment.Checklist) {
		c.Sections[0].Steps[0].Note += " Say also when the last change was."
		c.Policy.Validity.NoticeDays = 45
	})
	if err != nil {
		return err
	}
	_, err = s.propose(by, draft, "Two alarms after changes in spring: who changes a circuit is to say when it was changed last. Reviewed against the makers' instructions.", s.today.AddDays(45))
	return err
}

// largerTubeForJonah: from then on what was shown with the old tube does not count
// for him in the skills that depend on it.
func (s *story) largerTubeForJonah() error {
	jonah := s.childWith("5W")
	_, err := s.office.SetParameters(s.ctx, s.educators[0].Actor, jonah.id, []office.ParameterForm{
		{Name: "tube_id", Value: "4.5", Unit: "mm"}, {Name: "tube_small_id", Value: "4", Unit: "mm"}, {Name: "suction_depth", Value: "8", Unit: "cm"}})
	if err != nil {
		return fmt.Errorf("order the values of the larger tube: %w", err)
	}
	return s.refit(jonah, 3, "tracheostomy tube", "4.5 mm, uncuffed")
}

// newVentilatorForTheo is so lately that only some have shown the new one.
func (s *story) newVentilatorForTheo() error {
	theo := s.childWith("4B")
	if err := s.refit(theo, 3, "ventilator", "portable turbine, type B"); err != nil {
		return err
	}
	return s.refit(theo, 3, "circuit", "single limb, exhalation valve")
}

// refit changes equipment and has the team seen within some days.
func (s *story) refit(c *child, within int, kind, model string) error {
	if err := s.equip(c, kind, model, s.day()); err != nil {
		return err
	}
	for _, l := range s.here() {
		for _, k := range l.courses {
			if k.child == c && l.kind != "" {
				s.visitOn(l, s.day().AddDays(1+l.chance.IntN(within)))
				break
			}
		}
	}
	return nil
}

func (s *story) padraigLeaves() error {
	l := s.learnerNamed(padraig)
	l.left = s.day().AddDays(1)
	s.result.SignIns = slices.DeleteFunc(s.result.SignIns, func(i SignIn) bool { return i.Name == padraig })
	return s.office.PersonLeaves(s.ctx, s.admin.Actor, l.Person, l.left)
}
