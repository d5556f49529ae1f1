package web

import (
	"errors"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

// addPaper puts a licence or a resuscitation card on file.
func (s *Site) addPaper(v *visit) error {
	if v.form("paper") == "card" {
		return s.addCard(v)
	}
	form := LicenceForm{Kind: v.form("kind"), Number: v.form("number"), Through: v.form("through")}
	return s.onPerson(v, "The licence is on file.", func(id assessment.PersonID) error {
		_, err := s.office.RecordLicence(v.ctx(), v.by(), id, office.LicenceForm{Kind: form.Kind, Number: form.Number, Through: form.Through})
		return err
	}, func(page *PersonPage, err error) error {
		page.Licence = form
		return v.take(&page.Licence.Faults, err, "The licence was not added.", label("kind", "Kind"), label("number", "Number"), label("through", "Last day"))
	})
}

func (s *Site) addCard(v *visit) error {
	form := CardForm{Issuer: v.form("issuer"), IssuedOn: v.form("issued_on"), CourseOn: v.form("course_on"), PrintedEnd: v.form("printed_end")}
	return s.onPerson(v, "The card is on file.", func(id assessment.PersonID) error {
		_, err := s.office.RecordCard(v.ctx(), v.by(), id, office.CardForm{Issuer: form.Issuer, IssuedOn: form.IssuedOn, CourseOn: form.CourseOn, PrintedEnd: form.PrintedEnd})
		return err
	}, func(page *PersonPage, err error) error {
		page.Card = form
		return v.take(&page.Card.Faults, err, "The card was not added.", label("issuer", "Issued by"), label("issued_on", "Issued on"),
			label("course_on", "Course on"), label("printed_end", "Printed end"))
	})
}

// logCare writes down teaching or practice.
func (s *Site) logCare(v *visit) error {
	form := LogForm{Skill: v.form("skill"), Kind: v.form("kind"), On: v.form("on"), Note: v.form("note")}
	return s.onPerson(v, "It is written down.", func(id assessment.PersonID) error {
		code, client, err := v.sentCase()
		if err != nil {
			return err
		}
		return s.office.Log(v.ctx(), v.by(), office.LogForm{Person: id, Skill: code, Client: client, Kind: assessment.EntryKind(form.Kind), On: form.On, Note: form.Note})
	}, func(page *PersonPage, err error) error {
		form.Skills = page.Log.Skills
		page.Log = form
		return v.take(&page.Log.Faults, err, "Nothing was written down.", label("skill", "Skill"), label("kind", "It was"), label("on", "On the day"), label("note", "Note"))
	})
}

// leave says from which day on somebody is no longer there.
func (s *Site) leave(v *visit) error {
	form := LeaveForm{On: v.form("on")}
	return s.onPerson(v, "Their last day is written down.", func(id assessment.PersonID) error {
		var on civil.Date
		if form.On != "" {
			var err error
			if on, err = civil.Parse(form.On); err != nil {
				return &fault.Fault{Kind: fault.Invalid, Message: "One thing needs mending.", Fields: map[string]string{"on": err.Error()}}
			}
		}
		if v.looks() {
			p, err := s.office.PreviewLeaving(v.ctx(), v.by(), id, on)
			return look(&form.Preview, p, err)
		}
		return s.office.PersonLeaves(v.ctx(), v.by(), id, on)
	}, func(page *PersonPage, err error) error {
		page.Leave = form
		return v.take(&page.Leave.Faults, err, "Nothing was changed.", label("on", "Gone from"))
	})
}

// onPerson does something about the person whom the address names. Where that is
// refused their page is drawn again, with the form as it was typed.
func (s *Site) onPerson(v *visit, done string, do func(assessment.PersonID) error, again func(*PersonPage, error) error) error {
	id, err := pathID[assessment.PersonID](v, "id")
	if err != nil {
		return err
	}
	refused := do(id)
	if refused == nil {
		return v.to("/people/"+string(id), done)
	}
	page, err := s.personPage(v, id, civil.Date{})
	if err != nil {
		return err
	}
	if err := again(&page, refused); err != nil {
		return err
	}
	return v.redrawn(page, refused)
}

// take puts a refusal into a form; what is no refusal of a form is given back. A form that
// only asked to see what it would change has none.
func (v *visit) take(faults *Faults, err error, what string, labels ...FieldFault) error {
	if errors.Is(err, errLooked) {
		return nil
	}
	found, unknown := v.wrong(err, what, labels...)
	*faults = found
	return unknown
}
