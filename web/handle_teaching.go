package web

import (
	"slices"
	"strconv"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

var howBoxes = []Option{{Value: "shown", Text: "shown how"}, {Value: "explained", Text: "explained"}, {Value: "practised", Text: "practised with help"}, {Value: "taught-back", Text: "taught back"}}

func howOptions(h assessment.TaughtHow) []Option {
	all := slices.Clone(howBoxes)
	all[0].Chosen, all[1].Chosen, all[2].Chosen, all[3].Chosen = h.Shown, h.Explained, h.Practised, h.TaughtBack
	return all
}

// how reads the boxes of a field.
func (v *visit) how(field string) assessment.TaughtHow {
	sent := v.c.PostFormArray(field)
	has := func(i int) bool { return slices.Contains(sent, howBoxes[i].Value) }
	return assessment.TaughtHow{Shown: has(0), Explained: has(1), Practised: has(2), TaughtBack: has(3)}
}

var teachLabels = []FieldFault{label("held_on", "Held on"), label("minutes", "Minutes"), label("trainer", "Taught by"), label("skills", "Skills"), label("learners", "How"), label("note", "Note"), label("in_service", "Counts as in-service"), label("reason", "Reason"), label("password", "Your password"), label("pin", "Your PIN")}

// teachingForm is what was sent, without who was taught.
func (v *visit) teachingForm() (office.TeachingForm, error) {
	f := office.TeachingForm{ID: v.form("id"), HeldOn: v.form("held_on"), Minutes: v.form("minutes"), Skills: v.c.PostFormArray("skills"), Note: v.form("note"), InService: v.ticked("in_service")}
	var err error
	if f.Trainer, err = formID[assessment.PersonID](v, "trainer"); err != nil {
		return f, err
	}
	f.Client, err = formID[assessment.ClientID](v, "client")
	return f, err
}

func (s *Site) logTeaching(v *visit) error {
	return s.onLearning(v, "The session is written down.", func(id assessment.PersonID) error {
		f, err := v.teachingForm()
		if err != nil {
			return err
		}
		how := v.how("learners")
		f.Learners = []office.TaughtForm{{Person: id, TaughtHow: how}}
		for _, text := range v.c.PostFormArray("beside") {
			other, err := assessment.ParseID[assessment.PersonID](text)
			if err != nil {
				return err
			}
			f.Learners = append(f.Learners, office.TaughtForm{Person: other, TaughtHow: how})
		}
		_, err = s.office.LogTeaching(v.ctx(), v.by(), f)
		return err
	}, func(p *LearningPage, err error) error {
		return p.Teach.refused(v, err, "The session was not written down.")
	})
}

// refused keeps what was typed.
func (f *TeachForm) refused(v *visit, err error, what string) error {
	f.On, f.Minutes, f.Trainer, f.Client, f.Note, f.InService = v.form("held_on"), v.form("minutes"), v.form("trainer"), v.form("client"), v.form("note"), tick(v.ticked("in_service"))
	for i, o := range f.Skills {
		f.Skills[i].Chosen = slices.Contains(v.c.PostFormArray("skills"), o.Value)
	}
	for i, o := range f.Beside {
		f.Beside[i].Chosen = slices.Contains(v.c.PostFormArray("beside"), o.Value)
	}
	f.How = howOptions(v.how("learners"))
	return v.take(&f.Faults, err, what, teachLabels...)
}

// teaching is one session.
func (s *Site) teaching(v *visit) error {
	page, err := s.teachingPage(v)
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) teachingPage(v *visit) (TeachingPage, error) {
	id, err := pathID[assessment.RecordID](v, "id")
	if err != nil {
		return TeachingPage{}, err
	}
	d, err := s.office.TeachingSession(v.ctx(), v.by(), id)
	if err != nil {
		return TeachingPage{}, err
	}
	page := TeachingPage{Frame: v.frame("people"), Line: taughtLine(d.TeachingView, "", v.words())}
	for _, w := range d.Who {
		page.Who = append(page.Who, Link{w.Person.Name + ": " + w.TaughtHow.Says().String(), learningAt(w.Person.ID)})
		page.Of = append(page.Of, LearnerHow{"how-" + string(w.Person.ID), w.Person.Name, howOptions(w.TaughtHow)})
	}
	if d.Corrects != "" {
		page.Line.Note = "Stands in the place of an earlier entry: " + d.Why + " " + page.Line.Note
	}
	if d.Corrected != "" || !v.may(assessment.Correct) {
		return page, nil
	}
	page.Fix = TeachForm{Action: "/teaching/" + string(id) + "/correction", ID: d.ID, On: isoDay(d.HeldOn), Minutes: strconv.Itoa(d.Minutes), Trainer: string(d.Trainer), Trainers: personOptions("Choose who taught", d.Teachers), Client: string(d.Client), Clients: []Option{{Text: "no child"}}, Note: d.Note, InService: tick(d.InService)}
	for _, c := range d.Clients {
		page.Fix.Clients = append(page.Fix.Clients, Option{Value: string(c.ID), Text: clientName(c)})
	}
	for _, k := range d.Skills {
		page.Fix.Skills = append(page.Fix.Skills, Option{Value: k.Code, Text: k.Title, Chosen: slices.Contains(d.TeachingSession.Skills, k.ID)})
	}
	return page, nil
}

func (s *Site) correctTeaching(v *visit) error {
	id, err := pathID[assessment.RecordID](v, "id")
	if err != nil {
		return err
	}
	f, err := v.teachingForm()
	if err != nil {
		return err
	}
	page, err := s.teachingPage(v)
	if err != nil {
		return err
	}
	for i, l := range page.Of {
		how := v.how(l.Field)
		page.Of[i].How = howOptions(how)
		if how.Any() {
			f.Learners = append(f.Learners, office.TaughtForm{Person: assessment.PersonID(l.Field[len("how-"):]), TaughtHow: how})
		}
	}
	made, refused := s.office.CorrectTeaching(v.ctx(), v.by(), office.TeachingCorrection{TeachingForm: f, Of: id, Reason: v.form("reason"), Proof: v.proof()})
	if refused == nil {
		return v.to("/teaching/"+string(made), "The session is corrected. The earlier entry stays readable.")
	}
	page.Reason = v.form("reason")
	if err := page.Fix.refused(v, refused, "The session was not corrected."); err != nil {
		return err
	}
	return v.again(page)
}
