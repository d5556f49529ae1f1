package web

import (
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/assessment/wording"
)

// takeBack takes back what was written down about somebody by mistake.
func (s *Site) takeBack(v *visit) error {
	return s.onPerson(v, takenBack, func(assessment.PersonID) error {
		form, err := v.takingBack()
		if err != nil {
			return err
		}
		return s.office.TakeBack(v.ctx(), v.by(), form)
	}, func(page *PersonPage, err error) error { return page.Undo.refused(v, err) })
}

// takeBackPaper takes a licence or a card off file.
func (s *Site) takeBackPaper(v *visit) error {
	return s.onPerson(v, takenBack, func(assessment.PersonID) error {
		form, err := v.takingBack()
		if err != nil {
			return err
		}
		return s.office.TakeBack(v.ctx(), v.by(), form)
	}, func(page *PersonPage, err error) error { return page.UndoPaper.refused(v, err) })
}

const takenBack = "It is taken back. It stays readable, with your reason."

// takingBack is what was sent: the kind and the id of what is taken back, and why.
func (v *visit) takingBack() (office.TakeBackForm, error) {
	kind, id, _ := strings.Cut(v.form("what"), " ")
	form := office.TakeBackForm{Kind: assessment.EntryKind(kind), Reason: v.form("reason"), Proof: v.proof()}
	if id == "" {
		return form, &fault.Fault{Kind: fault.Invalid, Message: "One thing needs mending.", Fields: map[string]string{"what": "Choose what is taken back."}}
	}
	var err error
	form.ID, err = assessment.ParseID[assessment.RecordID](id)
	return form, err
}

func (f *TakeBackForm) refused(v *visit, err error) error {
	f.What, f.Reason = v.form("what"), v.form("reason")
	return v.take(&f.Faults, err, "Nothing was taken back.", label("what", "What"), label("reason", "Reason"), label("password", "Your password"))
}

// takenBackPapers are the papers that may be taken off file.
func (p *PersonPage) takenBackPapers(q office.QualificationsView) {
	f := TakeBackForm{Name: "undo-paper", Action: "/people/" + p.ID + "/papers/taking-back", Title: "Take a licence or card back"}
	for _, l := range q.Licences {
		f.add(postgres.LicenceEntry, l.ID, l.Kind+" licence "+l.Number)
	}
	for _, c := range q.Cards {
		f.add(assessment.CardEntry, c.ID, "Resuscitation card by "+c.Issuer+", through "+day(c.Through))
	}
	if p.May.Papers {
		p.UndoPaper = f
	}
}

// takenBackHappenings are the entries of the history that may be taken back.
func (p *PersonPage) takenBackHappenings(d office.PersonDesk) {
	f := TakeBackForm{Name: "undo", Action: "/people/" + p.ID + "/taking-back", Title: "Take back what was written down by mistake"}
	for _, h := range d.Happenings {
		if h.TakenBack == nil {
			f.add(h.Kind, h.ID, happened(wording.In(wording.English), h)+", "+day(h.On))
		}
	}
	if p.May.Correct {
		p.Undo = f
	}
}

func (f *TakeBackForm) add(kind assessment.EntryKind, id assessment.RecordID, text string) {
	if len(f.Choices) == 0 {
		f.Choices = []Option{{Text: "Choose what it is"}}
	}
	f.Choices = append(f.Choices, Option{Value: string(kind) + " " + string(id), Text: text})
}
