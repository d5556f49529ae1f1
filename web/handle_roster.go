package web

import (
	"strconv"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
)

func (s *Site) clientRoster(v *visit) error {
	id, err := pathID[assessment.ClientID](v, "id")
	if err != nil {
		return err
	}
	page, err := s.clientRosterPage(v, id)
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) clientRosterPage(v *visit, id assessment.ClientID) (ClientRosterPage, error) {
	d, err := s.office.ClientRoster(v.ctx(), v.by(), id)
	if err != nil {
		return ClientRosterPage{}, err
	}
	at := rosterAt(id)
	c := d.Coverage
	page := ClientRosterPage{Frame: v.frame("children"), ID: string(id), Name: d.Client.FirstName, Back: "/clients/" + string(id), May: v.may(assessment.EditRoster),
		Breaks: c.Counts.Breaks, Open: c.Counts.Open, Shifts: c.Counts.Shifts, Coming: coverGroups(c.Lines, false, time.Time{}), Coverage: "/coverage?client=" + string(id)}
	people := []Option{{Text: "nobody yet"}}
	for _, p := range d.People {
		people = append(people, Option{Value: string(p.ID), Text: p.Name + ", " + kindOf(p)})
	}
	csrf := page.CSRF
	if page.May {
		page.New = PatternFields{Action: at + "/patterns", FormName: "new", ID: d.ID, From: "07:00", Until: "19:00", FromOn: isoDay(d.Today), Weekdays: weekdayOptions(nil), People: people, Kinds: caregiverKindOptions(), Reasons: reasonOptions(), CSRF: csrf}
		page.Single = ShiftFields{Action: at + "/shifts", ID: d.ID, People: people, Kinds: caregiverKindOptions(), Reasons: reasonOptions()}
	}
	for _, p := range d.Patterns {
		page.Patterns = append(page.Patterns, weeklyPattern(d, p, at, people, csrf, page.May))
	}
	return page, nil
}

func rosterAt(id assessment.ClientID) string { return "/clients/" + string(id) + "/roster" }

func weeklyPattern(d office.ClientRoster, p office.PatternView, at string, people []Option, csrf string, may bool) WeeklyPattern {
	w := WeeklyPattern{ID: string(p.ID), Person: p.Person.Name, When: p.From.String() + "–" + p.Until.String(), Days: weekdayWords(p.Weekdays), Since: "from " + day(p.FromOn), Asks: kindAsked(p.Kind), Version: p.Version}
	if !p.ThroughOn.IsZero() {
		w.Since += " through " + day(p.ThroughOn)
	}
	at += "/patterns/" + string(p.ID)
	for _, e := range p.Exceptions {
		says := "left out"
		if !e.LeftOut {
			who := e.Person.Name
			if who == "" {
				who = "nobody yet"
			}
			says = who + ", " + e.From.String() + "–" + e.Until.String()
		}
		x := PatternException{On: isoDay(e.On), Day: e.On.Format("Mon 2 Jan 2006"), Says: says}
		if may {
			x.Lift = at + "/days/lifting"
		}
		w.Exceptions = append(w.Exceptions, x)
	}
	if may {
		w.End = at + "/end"
		w.Change = PatternFields{Action: at, FormName: "change-" + w.ID, Version: p.Version, Person: string(p.Person.ID), Kind: string(p.Kind), From: p.From.String(), Until: p.Until.String(), FromOn: isoDay(p.FromOn), ThroughOn: isoDay(p.ThroughOn),
			Reason: p.ShortRest, Begun: p.FromOn.Before(d.Today), Weekdays: weekdayOptions(p.Weekdays), People: people, Kinds: caregiverKindOptions(), Reasons: reasonOptions(), CSRF: csrf}
		w.Day = PatternDayFields{Action: at + "/days", FormName: "day-" + w.ID, Version: p.Version, Person: string(p.Person.ID), From: p.From.String(), Until: p.Until.String(), People: people, Reasons: reasonOptions(), CSRF: csrf}
	}
	return w
}

func weekdayOptions(chosen []int) []Option {
	var options []Option
	for d := 1; d <= 7; d++ {
		o := Option{Value: strconv.Itoa(d), Text: weekdayNames[d]}
		for _, c := range chosen {
			o.Chosen = o.Chosen || c == d
		}
		options = append(options, o)
	}
	return options
}

var patternLabels = []FieldFault{label("person", "Who"), label("kind", "Asks for"), label("weekdays", "Days of the week"), label("from", "From"), label("until", "Until"), label("from_on", "First day"),
	label("through_on", "Last day"), label("short_rest", "Why so little rest"), label("on", "Day"), label("starts", "Begins"), label("ends", "Ends"), label("client", "Child")}

func sentPattern(v *visit) (office.PatternForm, error) {
	f := office.PatternForm{ID: v.form("id"), Version: v.form("version"), Kind: v.form("kind"), From: v.form("from"), Until: v.form("until"), FromOn: v.form("from_on"), ThroughOn: v.form("through_on"), ShortRest: v.form("short_rest")}
	var err error
	if f.Client, err = pathID[assessment.ClientID](v, "id"); err != nil {
		return f, err
	}
	if f.Person, err = formID[assessment.PersonID](v, "person"); err != nil {
		return f, err
	}
	for _, text := range v.c.PostFormArray("weekdays") {
		d, err := strconv.Atoi(text)
		if err != nil {
			d = 0
		}
		f.Weekdays = append(f.Weekdays, d)
	}
	return f, nil
}

// typed keeps in the form what was typed into it.
func (p *PatternFields) typed(f office.PatternForm, faults Faults) {
	p.Version, p.Person, p.Kind, p.From, p.Until, p.FromOn, p.ThroughOn, p.Reason, p.Faults = f.Version, string(f.Person), f.Kind, f.From, f.Until, f.FromOn, f.ThroughOn, f.ShortRest, faults
	if f.ID != "" {
		p.ID = f.ID
	}
	p.Weekdays = weekdayOptions(f.Weekdays)
}

func (s *Site) addPattern(v *visit) error {
	f, err := sentPattern(v)
	if err != nil {
		return err
	}
	_, refused := s.office.AddPattern(v.ctx(), v.by(), f)
	return s.onRoster(v, f.Client, refused, "The pattern is on the roster.", "The pattern was not added.", func(page *ClientRosterPage, faults Faults) { page.New.typed(f, faults) })
}

func (s *Site) changePattern(v *visit) error {
	f, err := sentPattern(v)
	if err != nil {
		return err
	}
	id, err := pathID[assessment.PatternID](v, "pattern")
	if err != nil {
		return err
	}
	_, refused := s.office.ChangePattern(v.ctx(), v.by(), id, f)
	return s.onRoster(v, f.Client, refused, "The pattern is changed from today on.", "The pattern was not changed.", func(page *ClientRosterPage, faults Faults) {
		if p := page.pattern(id); p != nil {
			p.Change.typed(f, faults)
			return
		}
		page.Faults = faults
	})
}

func (p *ClientRosterPage) pattern(id assessment.PatternID) *WeeklyPattern {
	for i := range p.Patterns {
		if p.Patterns[i].ID == string(id) {
			return &p.Patterns[i]
		}
	}
	return nil
}

// patternAt is the child and the pattern that an address names.
func patternAt(v *visit) (assessment.ClientID, assessment.PatternID, error) {
	client, err := pathID[assessment.ClientID](v, "id")
	if err != nil {
		return "", "", err
	}
	id, err := pathID[assessment.PatternID](v, "pattern")
	return client, id, err
}

func (s *Site) endPattern(v *visit) error {
	client, id, err := patternAt(v)
	if err != nil {
		return err
	}
	refused := s.office.EndPattern(v.ctx(), v.by(), id, v.form("version"))
	return s.onRoster(v, client, refused, "The pattern has ended.", "The pattern was not ended.", func(page *ClientRosterPage, faults Faults) { page.Faults = faults })
}

func (s *Site) setPatternDay(v *visit) error {
	client, id, err := patternAt(v)
	if err != nil {
		return err
	}
	f := office.PatternDayForm{Version: v.form("version"), On: v.form("on"), LeftOut: v.ticked("left_out"), From: v.form("from"), Until: v.form("until"), ShortRest: v.form("short_rest")}
	if f.Person, err = formID[assessment.PersonID](v, "person"); err != nil {
		return err
	}
	refused := s.office.SetPatternDay(v.ctx(), v.by(), id, f)
	return s.onRoster(v, client, refused, "That day is set.", "That day was not set.", func(page *ClientRosterPage, faults Faults) {
		if p := page.pattern(id); p != nil {
			d := &p.Day
			d.Version, d.On, d.LeftOut, d.Person, d.From, d.Until, d.Reason, d.Faults = f.Version, f.On, f.LeftOut, string(f.Person), f.From, f.Until, f.ShortRest, faults
			return
		}
		page.Faults = faults
	})
}

func (s *Site) liftPatternDay(v *visit) error {
	client, id, err := patternAt(v)
	if err != nil {
		return err
	}
	on, err := civil.Parse(v.form("on"))
	if err != nil {
		return err
	}
	refused := s.office.LiftPatternDay(v.ctx(), v.by(), id, on)
	return s.onRoster(v, client, refused, "That day is as the pattern says again.", "That day was not changed.", func(page *ClientRosterPage, faults Faults) { page.Faults = faults })
}

func (s *Site) addRosterShift(v *visit) error {
	client, err := pathID[assessment.ClientID](v, "id")
	if err != nil {
		return err
	}
	f := office.RosterShiftForm{ID: v.form("id"), Client: client, Kind: v.form("kind"), Starts: v.form("starts"), Ends: v.form("ends"), ShortRest: v.form("short_rest")}
	if f.Person, err = formID[assessment.PersonID](v, "person"); err != nil {
		return err
	}
	_, refused := s.office.AddRosterShift(v.ctx(), v.by(), f)
	return s.onRoster(v, client, refused, "The shift is on the roster.", "The shift was not added.", func(page *ClientRosterPage, faults Faults) {
		n := &page.Single
		n.ID, n.Person, n.Kind, n.Starts, n.Ends, n.Reason, n.Faults = f.ID, string(f.Person), f.Kind, f.Starts, f.Ends, f.ShortRest, faults
	})
}

// onRoster goes back to a child's roster after something was done, or draws it again with
// what was wrong.
func (s *Site) onRoster(v *visit, client assessment.ClientID, refused error, done, not string, again func(*ClientRosterPage, Faults)) error {
	if refused == nil {
		return v.to(rosterAt(client), done)
	}
	var faults Faults
	if err := v.take(&faults, refused, not, patternLabels...); err != nil {
		return err
	}
	page, err := s.clientRosterPage(v, client)
	if err != nil {
		return err
	}
	again(&page, faults)
	return v.again(page)
}
