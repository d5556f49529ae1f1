package web

import (
	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

func (s *Site) sign(v *visit) error {
	id, err := pathID[assessment.DemonstrationID](v, "id")
	if err != nil {
		return err
	}
	part := v.form("part")
	signed, err := s.office.Sign(v.ctx(), v.by(), office.SignForm{Demonstration: id, Part: part, Proof: v.proof()})
	if err == nil {
		words, at := v.afterSigning(signed, part)
		return v.to(demonstrationAt(id)+at, words)
	}
	faults, unknown := v.wrong(err, v.say("Nothing is signed."), label("password", v.say("Password")))
	if unknown != nil {
		return unknown
	}
	page, err := s.recordPage(v)
	if err != nil {
		return err
	}
	page.signAgain(part, faults)
	return v.again(page)
}

// signAgain puts what was wrong at the form it was wrong in.
func (p *RecordPage) signAgain(part string, faults Faults) {
	for i := range p.Sign {
		if p.Sign[i].As == part {
			p.Sign[i].Faults = faults
			return
		}
	}
	p.Faults = faults
}

// afterSigning says what was signed and who is next, and leads to their form where
// this page has it.
func (v *visit) afterSigning(d office.DemonstrationView, part string) (words, at string) {
	learner, observer := d.SignedBy(office.PartLearner) != nil, d.SignedBy(office.PartObserver) != nil
	g := d.SignedBy(part)
	switch {
	case d.Certificate != nil:
		return v.say("Signed by both. A certificate is issued."), ""
	case learner && observer:
		return v.say("Signed by both."), ""
	case g == nil:
		return "", ""
	case observer:
		return v.say("Signed by %s. Next: %s signs, below.", g.PrintedName, d.Learner), "#sign-" + office.PartLearner
	case v.by().Person == d.ObserverID:
		return v.say("Signed by %s. Next: %s signs, below.", g.PrintedName, d.Observer), "#sign-" + office.PartObserver
	}
	return v.say("Signed by %s.", g.PrintedName), ""
}

// correct takes a record back.
func (s *Site) correct(v *visit) error {
	id, err := pathID[assessment.DemonstrationID](v, "id")
	if err != nil {
		return err
	}
	err = s.office.CorrectDemonstration(v.ctx(), v.by(), id, v.form("reason"), v.proof())
	if err == nil {
		return v.to(demonstrationAt(id), v.say("From today it is as if it had never been."))
	}
	if fault.KindOf(err) == fault.Conflict {
		return v.to(demonstrationAt(id), v.say("It has been taken back already."))
	}
	faults, unknown := v.wrong(err, v.say("Nothing is changed."), label("reason", v.say("What is wrong")), label("password", v.say("Your password")))
	if unknown != nil {
		return unknown
	}
	page, err := s.recordPage(v)
	if err != nil {
		return err
	}
	page.Correct.Faults, page.Correct.Reason = faults, v.form("reason")
	return v.again(page)
}
