package web

import (
	"strconv"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

func (s *Site) visitWeeks(v *visit) error {
	page, err := s.visitWeeksPage(v)
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) visitWeeksPage(v *visit) (VisitWeeksPage, error) {
	page := VisitWeeksPage{Frame: v.frame("today"), MaySet: v.may(assessment.PlanVisits)}
	d, err := s.office.Visits(v.ctx(), v.by(), office.VisitQuery{})
	if err != nil {
		return page, err
	}
	page.Who, page.Clients = []Option{{Text: "Choose the educator"}}, clientOptions("none", d.Clients)
	for _, e := range d.Educators {
		page.Who = append(page.Who, Option{Value: string(e.Educator.ID), Text: e.Educator.Name})
		line := VisitWeekLine{Name: e.Educator.Name, Week: weekInWords(e)}
		for _, o := range e.Off {
			days := day(o.From)
			if o.Through != o.From {
				days += " through " + day(o.Through)
			}
			off := OffLine{Days: days, CSRF: page.CSRF}
			if page.MaySet {
				off.Remove = "/visits/days-off/" + string(o.ID) + "/removal"
			}
			line.Off = append(line.Off, off)
		}
		page.Educators = append(page.Educators, line)
	}
	for _, w := range d.Ways {
		way := WayLine{Between: clientName(w.From) + " and " + w.To, Minutes: w.Minutes}
		if page.MaySet {
			way.Remove = "/visits/ways/" + string(w.ID) + "/removal"
		}
		page.Ways = append(page.Ways, way)
	}
	page.Week = WeekForm{PerDay: strconv.Itoa(office.UsualPerDay), Days: weekdayOptions(office.UsualDaysOff)}
	page.Off.From = isoDay(d.Today)
	return page, nil
}

func weekInWords(e office.VisitWeeksView) string {
	var off []string
	for _, d := range e.DaysOff {
		off = append(off, weekdayNames[d])
	}
	words := count(e.PerDay, "visit", "visits") + " a day at most"
	if len(off) > 0 {
		words += ", off on " + listed(off)
	}
	if e.Base.Name != "" {
		words += ", starting from " + e.Base.Name
	}
	if !e.Set {
		words += " (taken for granted: nobody has said so yet)"
	}
	return words
}

func (s *Site) setAvailability(v *visit) error {
	educator, err := formID[assessment.PersonID](v, "educator")
	if err != nil {
		return err
	}
	f := office.AvailabilityForm{PerDay: v.form("per_day"), Base: v.form("base")}
	for _, typed := range v.c.PostFormArray("days_off") {
		n, _ := strconv.Atoi(strings.TrimSpace(typed)) // what is no number is no day, and refused as one
		f.DaysOff = append(f.DaysOff, n)
	}
	return s.onVisitWeeks(v, s.office.SetAvailability(v.ctx(), v.by(), educator, f), "Their weeks are as you say.", func(page *VisitWeeksPage, refused error) error {
		page.Week = WeekForm{Educator: string(educator), Days: weekdayOptions(f.DaysOff), PerDay: f.PerDay, Base: f.Base}
		return v.take(&page.Week.Faults, refused, "Their weeks were not set.", label("educator", "Educator"), label("days_off", "Off each week"), label("per_day", "Visits a day"), label("base", "Starts from"))
	})
}

func (s *Site) addDaysOff(v *visit) error {
	educator, err := formID[assessment.PersonID](v, "educator")
	if err != nil {
		return err
	}
	from, through := v.form("from"), v.form("through")
	return s.onVisitWeeks(v, s.office.AddDaysOff(v.ctx(), v.by(), educator, from, through), "No visits are planned for them on these days.", func(page *VisitWeeksPage, refused error) error {
		page.Off = OffForm{Educator: string(educator), From: from, Through: through}
		return v.take(&page.Off.Faults, refused, "No days off were added.", label("educator", "Educator"), label("from", "From"), label("through", "Last day"))
	})
}

func (s *Site) removeDaysOff(v *visit) error {
	id, err := pathID[assessment.RecordID](v, "id")
	if err != nil {
		return err
	}
	if err := s.office.RemoveDaysOff(v.ctx(), v.by(), id); err != nil {
		return err
	}
	return v.to("/visits/weeks", "These days are free for visits again.")
}

func (s *Site) setWay(v *visit) error {
	from, err := formID[assessment.ClientID](v, "from")
	if err != nil {
		return err
	}
	to, err := formID[assessment.ClientID](v, "to")
	if err != nil {
		return err
	}
	f := office.TravelForm{From: from, To: to, Base: v.form("base"), Minutes: v.form("minutes")}
	return s.onVisitWeeks(v, s.office.SetTravelTime(v.ctx(), v.by(), f), "The way is as long as you say, both ways.", func(page *VisitWeeksPage, refused error) error {
		page.Way = WayForm{From: string(from), To: string(to), Base: f.Base, Minutes: f.Minutes}
		return v.take(&page.Way.Faults, refused, "The way was not set.", label("from", "From the home of"), label("to", "To the home of"), label("base", "Or to the place"), label("minutes", "Minutes"))
	})
}

func (s *Site) removeWay(v *visit) error {
	id, err := pathID[assessment.RecordID](v, "id")
	if err != nil {
		return err
	}
	if err := s.office.RemoveTravelTime(v.ctx(), v.by(), id); err != nil {
		return err
	}
	return v.to("/visits/weeks", "Nothing is known of this way any more.")
}

// onVisitWeeks goes back to the page after something was set, or shows it again with what
// was typed.
func (s *Site) onVisitWeeks(v *visit, refused error, done string, typed func(*VisitWeeksPage, error) error) error {
	if refused == nil {
		return v.to("/visits/weeks", done)
	}
	page, err := s.visitWeeksPage(v)
	if err != nil {
		return err
	}
	if err := typed(&page, refused); err != nil {
		return err
	}
	return v.again(page)
}
