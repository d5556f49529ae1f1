package web

import (
	"slices"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/phrase"
	"wellshown/assessment/wording"
)

func (s *Site) readiness(v *visit) error {
	id, err := pathID[assessment.ClientID](v, "id")
	if err != nil {
		return err
	}
	on, err := v.day("on")
	if err != nil {
		return err
	}
	page, err := s.readinessPage(v, id, on)
	if err != nil {
		return err
	}
	return v.show(page)
}

// readinessPage answers for a child on a day; forms are offered for today only.
func (s *Site) readinessPage(v *visit, id assessment.ClientID, on civil.Date) (ReadinessPage, error) {
	d, err := s.office.ReadinessDesk(v.ctx(), v.by(), id, on)
	if err != nil {
		return ReadinessPage{}, err
	}
	at := "/clients/" + string(id)
	page := ReadinessPage{Frame: v.frame("children"), ID: string(id), Client: d.Client.FirstName, Code: d.Client.Code, On: isoDay(d.On), Day: dayInFull(v.words(), d.On),
		Today: d.On == d.Today, Ready: d.Ready, Back: at}
	page.MayEdit = page.Today && v.may(assessment.EditReadiness)
	if len(d.Lines) > 0 {
		page.papers(v, at)
	} else if page.MayEdit {
		page.Start = at + "/readiness"
	}
	if v.may(assessment.EditTemplate) {
		page.Pattern = templateAt
	}
	for _, l := range d.Lines {
		page.add(page.criterion(l, d, v, at+"/readiness"), l.State)
	}
	for i, shift := range d.Shifts {
		page.Shifts = append(page.Shifts, page.shift(v.words(), shift, d.Lacks[i], at))
	}
	page.days(v, d, at+"/readiness")
	if page.MayEdit {
		page.forms(d, at+"/readiness")
	}
	return page, nil
}

// papers are the report in the reader's language and, beside English, in Spanish.
func (p *ReadinessPage) papers(v *visit, at string) {
	p.PDF = at + "/readiness.pdf"
	more := "?language=es"
	if !p.Today {
		p.PDF += "?on=" + p.On
		more = "&language=es"
	}
	if v.language() == wording.English {
		p.Spanish = p.PDF + more
	}
}

// days are when the child is to go home, and who signed that all is in place.
func (p *ReadinessPage) days(v *visit, d office.ReadinessDesk, at string) {
	w := v.words()
	p.Meeting, p.Home = w.Day(d.Days.Meeting), w.Day(d.Days.Home)
	if p.MayEdit && p.All() > 0 {
		p.Days = PlanDaysForm{Action: at + "/days", Meeting: isoDay(d.Days.Meeting), Home: isoDay(d.Days.Home)}
	}
	if s := d.Signed; s != nil {
		p.Stands = s.Stands && p.Today
		p.Signed = w.Say("%s, licence %s, signed on %s: %s", s.By, s.Licence, w.Instant(s.At, s.At.Location()), w.Quoted(w.Say(s.Meaning)))
	}
	if p.Today && d.Ready && !p.Stands && d.Licence != "" && v.may(assessment.SignReadiness) {
		p.Sign = PlanSignForm{Action: at + "/signature", ID: d.SignID, Version: d.Version, Name: v.by().Name, Licence: d.Licence, Meaning: office.PlanMeaning, Now: instant(d.At, d.Zone)}
	}
}

func (p *ReadinessPage) add(c Criterion, state assessment.CriterionState) {
	switch state {
	case assessment.StateMet:
		p.Met = append(p.Met, c)
	case assessment.StateWaived:
		p.Waived = append(p.Waived, c)
	default:
		p.Left = append(p.Left, c)
	}
}

// criterion is one line of the plan with what this reader may do about it.
func (p *ReadinessPage) criterion(l assessment.Line, d office.ReadinessDesk, v *visit, at string) Criterion {
	k := l.Criterion
	w := v.words()
	c := Criterion{ID: string(k.ID), Name: w.Own(k.Name()), Left: todosOf(w, l, d.On), Flags: saidAll(w, l.Flags), Evidence: saidAll(w, l.Evidence)}
	if _, written := k.Name().In(string(w.Language())); !written {
		c.Foreign = string(wording.English)
	}
	switch k.Kind {
	case assessment.FamilyCurrent, assessment.EmergencyDrills, assessment.EarlyShifts:
		c.Standing = string(assessment.Learning)
		if v.may(assessment.ReadReports) {
			c.Act = Link{v.say("See who holds what"), "/standings?client=" + p.ID}
		}
	}
	if p.MayEdit {
		c.Source, c.Change = k.Source, changeForm(k, d.Skills, at)
		if c.Say = sayForm(k, d.EvidenceID, at); c.Say.Action != "" && !d.MaySay[k.ID] {
			c.Say, c.SaidBy = SayForm{}, k.SaidBy().String()
		}
		if d.MayChange[k.ID] {
			c.Remove = at + "/criteria/" + c.ID + "/removal"
		}
	}
	if p.Today && v.may(assessment.WaiveCriterion) && d.MayChange[k.ID] {
		c.waivers(k, l.State, d.Waived[k.ID], at)
	}
	return c
}

// sayForm says what is so about a line; it has no address where that is worked out.
func sayForm(k assessment.Criterion, id, at string) SayForm {
	words := office.EvidenceWords(k.Kind)
	if len(words) == 0 {
		return SayForm{}
	}
	form := SayForm{Action: at + "/evidence", ID: id, Words: []Option{{Text: "Choose what is so"}}}
	for _, w := range words {
		form.Words = append(form.Words, Option{Value: string(w), Text: string(w)})
	}
	if k.Kind == assessment.EquipmentHome {
		form.Items = itemOptions("Choose the item", k.Items)
	}
	return form
}

func itemOptions(none string, items []string) []Option {
	options := []Option{{Text: none}}
	for _, item := range items {
		options = append(options, Option{Value: item, Text: item})
	}
	return options
}

// waivers offers to waive what is not, and to end what is.
func (c *Criterion) waivers(k assessment.Criterion, state assessment.CriterionState, waived []string, at string) {
	whole := slices.Contains(waived, "")
	if state == assessment.StateNotMet && !whole {
		c.Waive = CriterionWaiveForm{Action: at + "/waivers"}
		if len(k.Items) > 0 {
			c.Waive.Items = itemOptions("the whole line", k.Items)
		}
	}
	if len(waived) == 0 {
		return
	}
	c.End = CriterionWaiveForm{Action: at + "/waivers/end"}
	if len(k.Items) == 0 {
		return
	}
	for _, item := range waived {
		text := item
		if item == "" {
			text = "the whole line"
		}
		c.End.Items = append(c.End.Items, Option{Value: item, Text: text})
	}
}

// shift is a planned shift.
func (p *ReadinessPage) shift(w wording.Words, s office.ShiftView, lacks office.ShiftLack, at string) Shift {
	line := Shift{Name: s.Name, When: shiftInWords(w, s), Lacks: saidAll(w, lacks)}
	if p.MayEdit {
		line.Remove = at + "/readiness/shifts/" + string(s.ID) + "/removal"
	}
	return line
}

// shiftInWords is when a shift is, "Fri 4 Dec 2026, 19:00 to 07:00 MST".
func shiftInWords(w wording.Words, s office.ShiftView) string {
	begins, over := civil.DayOf(s.Starts, s.Starts.Location()), civil.DayOf(s.Ends, s.Ends.Location())
	long := s.Ends.Sub(s.Starts) >= 24*time.Hour || begins != over && s.Ends.Hour() > s.Starts.Hour()
	starts, ends := w.Weekday(begins)+", "+s.Starts.Format("15:04"), s.Ends.Format("15:04 MST")
	if long {
		ends = w.Weekday(over) + ", " + ends
	}
	if w.Language() == wording.English {
		starts, ends = s.Starts.Format("Mon 2 Jan 2006, 15:04"), s.Ends.Format("15:04 MST")
		if long {
			ends = s.Ends.Format("Mon 2 Jan, 15:04 MST")
		}
	}
	return w.Say("%s to %s", starts, ends)
}

// dayInFull is a day with its weekday, in English as on all pages.
func dayInFull(w wording.Words, d civil.Date) string {
	if w.Language() == wording.English {
		return longDay(d)
	}
	return w.Day(d)
}

// forms are those that add to the plan.
func (p *ReadinessPage) forms(d office.ReadinessDesk, at string) {
	if p.All() > 0 {
		p.Add = CriterionForm{Action: at + "/criteria", ID: d.CriterionID, Kinds: criterionKinds(), Skills: skillTicks(d.Skills, nil),
			Counts: true, Timed: true, Lists: true, Child: true, Sayers: sayerOptions()}
	}
	p.Plan = ShiftForm{Action: at + "/shifts", People: []Option{{Text: "Choose who takes it"}}}
	for _, c := range d.Carers {
		p.Plan.People = append(p.Plan.People, Option{Value: string(c.ID), Text: c.Name + ", " + kindOf(c)})
	}
}

// criterionWords say how a line of the plan is judged.
var criterionWords = map[assessment.CriterionKind]string{
	assessment.FamilyCurrent: "skills that family caregivers are current in", assessment.EmergencyDrills: "emergency skills that family caregivers are current in",
	assessment.CardsOnFile: "resuscitation cards of the family", assessment.IndependentStay: "hours of care by the family alone",
	assessment.EquipmentTrial: "hours on the home equipment", assessment.EquipmentHome: "equipment delivered and checked",
	assessment.EarlyShifts: "who takes the early shifts", assessment.Attested: "somebody’s word",
}

func criterionKinds() []Option {
	options := []Option{{Text: "Choose how it is judged"}}
	for _, k := range assessment.CriterionKinds {
		options = append(options, Option{Value: string(k), Text: criterionWords[k]})
	}
	return options
}

func skillTicks(skills []office.SkillRef, chosen []string) []Option {
	var options []Option
	for _, k := range skills {
		options = append(options, Option{Value: k.Code, Text: k.Title, Chosen: slices.Contains(chosen, k.Code)})
	}
	return options
}

// changeForm changes a line: only what its way of judging looks at.
func changeForm(k assessment.Criterion, skills []office.SkillRef, at string) CriterionForm {
	form := CriterionForm{Action: at + "/criteria/" + string(k.ID), Title: k.Title, Child: true, By: isoDay(k.By), Responsible: k.Responsible}
	form.plan(k)
	switch k.Kind {
	case assessment.FamilyCurrent, assessment.EmergencyDrills:
		form.Skills, form.Counts, form.Count = skillTicks(skills, k.Skills), true, figure(k.Count)
	case assessment.EarlyShifts:
		form.Skills = skillTicks(skills, k.Skills)
	case assessment.CardsOnFile:
		form.Counts, form.Count = true, figure(k.Count)
	case assessment.IndependentStay, assessment.EquipmentTrial:
		form.Timed, form.Hours = true, figure(k.Hours)
	case assessment.EquipmentHome:
		form.Lists, form.Items = true, strings.Join(k.Items, "\n")
	}
	return form
}

// saidAll says some sentences in a language.
func saidAll(w wording.Words, all []phrase.Phrase) []string {
	var said []string
	for _, p := range all {
		said = append(said, w.Of(p))
	}
	return said
}

// todosOf are what a line lacks, with who sees to it and by when.
func todosOf(w wording.Words, l assessment.Line, on civil.Date) []Todo {
	var all []Todo
	for _, t := range l.Left {
		line := Todo{Words: w.Of(t.Phrase), Late: t.Late(on)}
		switch {
		case t.By.IsZero():
			line.Who = w.Say("Who: %s.", t.Whose())
		case line.Late:
			line.Who = w.Say("Who: %s. It was due on %s.", t.Whose(), t.By)
		default:
			line.Who = w.Say("Who: %s. By %s.", t.Whose(), t.By)
		}
		all = append(all, line)
	}
	return all
}

// plan fills in what else is planned for a line.
func (f *CriterionForm) plan(k assessment.Criterion) {
	f.Spanish, f.Says, f.Licence, f.Sayers = k.Spanish, string(k.Says), k.Licence, sayerOptions()
	f.ItemsSpanish = strings.Join(k.ItemsSpanish, "\n")
}

func sayerOptions() []Option {
	var options []Option
	for _, s := range assessment.Sayers {
		options = append(options, Option{Value: string(s), Text: s.Phrase().String()})
	}
	return options
}
