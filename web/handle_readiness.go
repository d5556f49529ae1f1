package web

import (
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
	who := phrase.Of("an educator of the agency with a licence")
	p.WhoSigns = w.Say("Who: %s.", who)
	if by := d.Days.By(); !by.IsZero() {
		p.WhoSigns = w.Say("Who: %s. By %s.", who, by)
	}
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
	c := Criterion{ID: string(k.ID), Name: w.Own(k.Name()), Left: todosOf(w, l, d.On), Flags: saidAll(w, l.Flags), Evidence: saidInPieces(w, l.Evidence)}
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

// criterionWords say how a line of the plan is judged.
var criterionWords = map[assessment.CriterionKind]string{
	assessment.FamilyCurrent: "skills that family caregivers are current in", assessment.EmergencyDrills: "emergency skills that family caregivers are current in",
	assessment.CardsOnFile: "resuscitation cards of the family", assessment.IndependentStay: "hours of care by the family alone",
	assessment.EquipmentTrial: "hours on the home equipment", assessment.EquipmentHome: "equipment delivered and checked",
	assessment.EarlyShifts: "who takes the early shifts", assessment.Attested: "somebody’s word",
}

// saidAll says some sentences in a language.
func saidAll(w wording.Words, all []phrase.Phrase) []string {
	var said []string
	for _, p := range all {
		said = append(said, w.Of(p))
	}
	return said
}

func saidInPieces(w wording.Words, all []phrase.Phrase) [][]wording.Piece {
	var said [][]wording.Piece
	for _, p := range all {
		said = append(said, w.Pieces(p))
	}
	return said
}

// todosOf are what a line lacks, with who sees to it and by when.
func todosOf(w wording.Words, l assessment.Line, on civil.Date) []Todo {
	var all []Todo
	for _, t := range l.Left {
		line := Todo{Words: w.Pieces(t.Phrase), Late: t.Late(on)}
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
