package web

import (
	"slices"
	"strconv"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

// sitting shows a question, the look over all, or what came of it.
func (s *Site) sitting(v *visit) error {
	id, err := pathID[assessment.RecordID](v, "id")
	if err != nil {
		return err
	}
	d, err := s.office.Sitting(v.ctx(), v.by(), id)
	if err != nil {
		return err
	}
	if !d.Open() {
		return v.show(v.resultPage(d))
	}
	return v.show(v.sittingPage(d, v.query("question")))
}

// sittingPage is the question that was asked for; without a word the first that is open.
func (v *visit) sittingPage(d office.SittingView, question string) SittingPage {
	at := sittingAt(d.ID)
	page := SittingPage{Frame: v.frame("home"), Title: d.Called.In(string(v.language())), Action: at + "/answers", HandIn: at + "/handing-in", Of: len(d.Questions), Pause: checksAt}
	open := d.Unanswered()
	page.Open, page.Over = len(open), d.Over
	if !d.Ends.IsZero() {
		page.Until = v.words().Instant(d.Ends, d.Zone)
	}
	page.Reader = d.Reader && d.Mine && !d.Over
	n, err := strconv.Atoi(question)
	switch {
	case !d.Mine:
		page.Watched = d.Person.Name
	case d.Over:
		return page
	case err == nil && n >= 1 && n <= page.Of:
		page.Place = n
	case question == "" && len(open) > 0:
		page.Place = open[0]
	}
	if page.Place > 0 {
		v.ask(&page, d.Questions[page.Place-1])
		return page
	}
	for _, q := range d.Questions {
		page.Questions = append(page.Questions, SittingLine{q.Place, q.Item.In(string(v.language())).Ask, at + "?question=" + strconv.Itoa(q.Place), q.Given})
	}
	return page
}

// ask makes the fields of a question, with what was answered before.
func (v *visit) ask(page *SittingPage, q office.Question) {
	page.Ask = q.Item.In(string(v.language())).Ask
	page.How, page.Fields = askedIn(v.words(), Faults{}, q)
}

// answerItem keeps an answer and goes on.
func (s *Site) answerItem(v *visit) error {
	id, err := pathID[assessment.RecordID](v, "id")
	if err != nil {
		return err
	}
	place, _ := strconv.Atoi(v.form("place"))
	refused := s.office.AnswerItem(v.ctx(), v.by(), v.answer(id, place))
	if refused == nil {
		return v.to(sittingAt(id)+"?question="+v.onward(place), "")
	}
	f, ok := fault.As(refused)
	if !ok || f.Kind != fault.Refused && (f.Kind != fault.Invalid || len(f.Fields) == 0) {
		return refused
	}
	d, err := s.office.Sitting(v.ctx(), v.by(), id)
	switch {
	case err != nil:
		return err
	case d.Over: // it came too late: the page says what is kept and how to go on
		page := v.sittingPage(d, "")
		page.TooLate = true
		return v.again(page)
	case f.Kind != fault.Invalid:
		return refused
	}
	page := v.sittingPage(d, strconv.Itoa(place))
	v.typed(&page, refused)
	return v.again(page)
}

// onward is the question after this one, the one before, or the look over all.
func (v *visit) onward(place int) string {
	switch v.form("go") {
	case "back":
		return strconv.Itoa(max(place-1, 1))
	case "all":
		return "all"
	}
	return strconv.Itoa(place + 1) // after the last one there is none: the look over all
}

// answer reads what was chosen or typed, by the places at which it was seen.
func (v *visit) answer(id assessment.RecordID, place int) office.AnswerForm {
	f := office.AnswerForm{Sitting: id, Place: place, Value: v.form("value"), Unit: v.form("unit")}
	for _, c := range v.c.PostFormArray("chosen") {
		n, _ := strconv.Atoi(c)
		f.Chosen = append(f.Chosen, n)
	}
	if order := v.numbered("place"); order != nil {
		f.Chosen = inPlace(order)
	} else if pairs := v.numbered("match"); pairs != nil {
		f.Chosen = pairs
	}
	return f
}

// numbered are the choices name-1, name-2 and so on; nil where none was made.
func (v *visit) numbered(name string) []int {
	var all []int
	any := false
	for i := 1; ; i++ {
		text, there := v.c.GetPostForm(name + "-" + strconv.Itoa(i))
		if !there || i > 8 {
			break
		}
		n, _ := strconv.Atoi(text)
		any = any || n != 0
		all = append(all, n)
	}
	if !any {
		return nil
	}
	return all
}

// inPlace turns the place of each option into the options in order; a place that is given
// to none or to two leaves 0, which is no option.
func inPlace(order []int) []int {
	chosen := make([]int, len(order))
	for i, p := range order {
		if p >= 1 && p <= len(order) && chosen[p-1] == 0 {
			chosen[p-1] = i + 1
		}
	}
	return chosen
}

// typed puts back what was typed, with what is wrong with it in the reader's language.
func (v *visit) typed(page *SittingPage, refused error) {
	f, _ := fault.As(refused)
	says := map[string]string{"choose": v.say("Choose from the answers that are there."), "order": v.say("Give each step a place of its own."), "match": v.say("Choose one for each."),
		"value": v.say("Write a number, such as 12 or 2.5."), "unit": v.say("Choose the unit.")}
	page.Faults = Faults{What: v.say("This answer is not kept yet."), Next: v.say("Look below. What you typed is still there.")}
	for i := range page.Fields {
		field := &page.Fields[i]
		field.Value = v.form(field.Name)
		for n := range field.Options {
			field.Options[n].Chosen = slices.Contains(v.c.PostFormArray(field.Name), field.Options[n].Value)
		}
	}
	for _, name := range []string{"choose", "order", "match", "value", "unit"} {
		if _, bad := f.Fields[name]; !bad || len(page.Fields) == 0 {
			continue
		}
		at := slices.IndexFunc(page.Fields, func(one Field) bool { return one.Name == name })
		if at < 0 { // one of several: the first that has nothing yet
			at = slices.IndexFunc(page.Fields, func(one Field) bool { return v.form(one.Name) == "" })
		}
		field := &page.Fields[max(at, 0)]
		field.Fault = says[name]
		page.Faults.Fields = append(page.Faults.Fields, FieldFault{field.Name, field.Label, says[name]})
	}
}

// handIn hands a check in.
func (s *Site) handIn(v *visit) error {
	id, err := pathID[assessment.RecordID](v, "id")
	if err != nil {
		return err
	}
	if err := s.office.HandIn(v.ctx(), v.by(), id); err != nil {
		return err
	}
	return v.to(sittingAt(id), "")
}
