package web

import (
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

func (s *Site) shift(v *visit) error {
	page, err := s.shiftPage(v)
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) shiftPage(v *visit) (ShiftPage, error) {
	d, err := s.office.ShiftDesk(v.ctx(), v.by(), assessment.ShiftID(v.c.Param("shift")))
	if err != nil {
		return ShiftPage{}, err
	}
	page := ShiftPage{Frame: v.frame("today"), CoverLine: coverLine(d.CoverLine), ClientHref: "/clients/" + string(d.Client.ID), Roster: "/clients/" + string(d.Client.ID) + "/roster", Version: d.Version, Over: d.Over, Reasons: append([]Option{{Text: "Choose the reason"}}, reasonOptions()[1:]...)}
	if len(d.Lacks) > 1 {
		page.Why = append(lacksInFull(d.CoverLine), clashWords(d.CoverLine)...)
	}
	if d.Person.ID != "" {
		page.PersonHref = "/people/" + string(d.Person.ID)
	}
	if d.Person.ID != "" && v.may(assessment.AskPacket) && !d.Starts.After(d.At) {
		page.Packet = packetFor("incident", d.Person.ID, "", d.Client.ID, d.ID, "")
	}
	if d.Rest > 0 {
		page.Rest = hoursOf(d.Rest)
	}
	if v.may(assessment.EditRoster) && !d.Over {
		page.Action = page.Href + "/giving"
		page.MayOpen = d.Person.ID != "" && d.Source != office.OfWayHome
	}
	if page.Action != "" && d.Source == office.SingleShift && d.Starts.After(d.At) {
		page.Remove = page.Href + "/removal"
	}
	for _, a := range d.Able {
		page.Able = append(page.Able, StandIn{string(a.Person.ID), a.Person.Name, "/people/" + string(a.Person.ID), kindOf(a.Person), hoursOf(a.Hours)})
	}
	kind := func(n office.NotAbleView) int { // last those who could not take it whatever they show
		if n.Lack.Why == assessment.OtherKind {
			return 1
		}
		return 0
	}
	not := slices.Clone(d.Not)
	slices.SortStableFunc(not, func(a, b office.NotAbleView) int { return kind(a) - kind(b) })
	for _, n := range not {
		page.Not = append(page.Not, NotAble{n.Person.Name, "/people/" + string(n.Person.ID), kindOf(n.Person), lackWords(n.Person.Name, n.Lack)})
		if n.AskFor {
			page.Short = append(page.Short, Option{Value: string(n.Person.ID), Text: n.Person.Name})
		}
	}
	return page, nil
}

func (s *Site) giveShift(v *visit) error {
	person, err := formID[assessment.PersonID](v, "person")
	if err != nil {
		return err
	}
	form := office.GiveForm{Shift: assessment.ShiftID(v.c.Param("shift")), Version: v.form("version"), Person: person, ShortRest: v.form("short_rest")}
	refused := s.office.GiveShift(v.ctx(), v.by(), form)
	if refused == nil {
		said := "The shift is given."
		if person == "" {
			said = "Nobody is on this shift now."
		}
		return v.to("/coverage/shifts/"+string(form.Shift), said)
	}
	var faults Faults
	if err := v.take(&faults, refused, "The shift was not given.", label("person", "Who takes it"), label("short_rest", "Why so little rest")); err != nil {
		return err
	}
	page, err := s.shiftPage(v)
	if err != nil {
		return err
	}
	page.Faults, page.Reason, page.ShortOf = faults, form.ShortRest, string(person)
	return v.again(page)
}

func (s *Site) removeRosterShift(v *visit) error {
	id := assessment.ShiftID(v.c.Param("shift"))
	refused := s.office.RemoveRosterShift(v.ctx(), v.by(), id, v.form("version"))
	if refused == nil {
		return v.to("/coverage", "The shift is off the roster.")
	}
	var faults Faults
	if err := v.take(&faults, refused, "The shift was not taken off."); err != nil {
		return err
	}
	page, err := s.shiftPage(v)
	if err != nil {
		return err
	}
	page.Faults = faults
	return v.again(page)
}
