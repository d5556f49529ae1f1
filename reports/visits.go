package reports

import (
	"context"
	"fmt"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/calendar"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
)

// Visits prints the plan of visits: what is planned, by day, what is proposed besides, and what
// no visit meets.
func (r *Reports) Visits(ctx context.Context, by assessment.Actor, q office.VisitQuery) ([]byte, string, error) {
	v, err := r.office.Visits(ctx, by, q)
	if err != nil {
		return nil, "", fmt.Errorf("print the plan of visits: %w", err)
	}
	p, err := visits(v)
	return r.handOut(ctx, by, office.Export{Act: assessment.ReadReports, Paper: "plan of visits", Subject: string(q.Educator)})(document(p, err, "visits", v.Today.String(), v.Until.String()))
}

// VisitsICS is what is on the plan as a calendar (iCalendar, RFC 5545): whole days, for each who goes to
// which child, by the child's code, and how much is due there. Caregivers are not named. What
// is only proposed, or cannot be made, is left out.
func (r *Reports) VisitsICS(ctx context.Context, by assessment.Actor, q office.VisitQuery) ([]byte, string, error) {
	v, err := r.office.Visits(ctx, by, q)
	if err != nil {
		return nil, "", fmt.Errorf("write the plan of visits as a calendar: %w", err)
	}
	body, err := visitsICS(v)
	return r.handOut(ctx, by, office.Export{Act: assessment.ReadReports, Paper: "plan of visits as a calendar", Subject: string(q.Educator)})(body, fileName("ics", "visits", v.Today.String(), v.Until.String()), err)
}

func visitsICS(v office.VisitsView) ([]byte, error) {
	_, zone, err := noonOn(v.Today, v.Agency.Zone)
	if err != nil {
		return nil, err
	}
	c := calendar.Calendar{Name: "Visits, " + v.Agency.Name, Day: v.Today, Stamp: v.Today.In(zone)}
	for _, k := range v.Kept {
		if len(k.Faults) == 0 {
			c.Events = append(c.Events, calendar.Event{UID: k.UID, On: k.On, Summary: k.Educator.Name + " at " + k.Client.Code + ", " + counted(len(k.Sees), "thing is due", "things are due")})
		}
	}
	return c.Write(), nil
}

// visits draws the answer. The paper carries noon of the day, so that the same answer gives the
// same bytes whenever it is printed.
func visits(v office.VisitsView) (*paper, error) {
	at, zone, err := noonOn(v.Today, v.Agency.Zone)
	if err != nil {
		return nil, err
	}
	span := english.date(v.Today) + " to " + english.date(v.Until)
	p, err := newPaper(meta{Title: "Visits from " + span, Language: "en", Agency: v.Agency.Name, Demo: v.Agency.Demo, Issued: at, Zone: zone, Stands: "As planned on " + english.date(v.Today)})
	if err != nil {
		return nil, err
	}
	p.letterhead(visitsFinding(v))
	p.row(label("on the plan"), strong(counted(len(v.Kept), "visit", "visits")+" from "+span), text("A visit makes nobody current: what is shown there does, once it is signed."))
	if n := len(v.Proposed); n > 0 {
		p.row(label("proposed"), strong(counted(n, "visit", "visits")+" besides"), text("Not promised to anybody yet."))
	}
	p.gap(6)
	p.table(visitTable(p.say, v))
	if len(v.Unmet) > 0 {
		p.table(unmetTable(v))
	}
	return p, nil
}

// visitsFinding is the answer as a sentence.
func visitsFinding(v office.VisitsView) string {
	met := counted(v.Renewals, "renewal", "renewals")
	if v.Gaps > 0 {
		met += " and " + counted(v.Gaps, "skill that is not held", "skills that are not held")
	}
	words := "Visits meet " + met
	if v.Renewals+v.Gaps == 0 {
		words = "No visit meets anything that is due"
	}
	if n := len(v.Unmet); n > 0 {
		words += "; " + spelled(n) + " cannot be met"
	}
	return words
}

func visitTable(say phrases, v office.VisitsView) table {
	t := table{columns: []column{{"educator", 1.4, toLeft}, {"home", 1, toLeft}, {"to see there", 3.4, toLeft}, {"last day", .9, toLeft}}, empty: "No visit is planned or proposed through " + say.date(v.Until) + "."}
	for _, part := range []struct {
		words  string
		visits []office.HomeVisitView
	}{{"", v.Kept}, {"proposed: ", v.Proposed}} {
		var last civil.Date
		for _, x := range part.visits {
			if x.On != last {
				last = x.On
				t.rows = append(t.rows, tableRow{section: []words{group(part.words + x.On.Format("Monday 2 January 2006"))}})
			}
			t.rows = append(t.rows, visitRow(say, x))
		}
	}
	return t
}

func visitRow(say phrases, x office.HomeVisitView) tableRow {
	var sees []string
	day := "" // of what is over first
	for _, s := range x.Sees {
		sees = append(sees, dueWords(s))
		if s.Lapses && day == "" {
			day = say.shortDate(s.Through)
		}
	}
	switch {
	case len(x.Faults) > 0:
		sees = []string{"it cannot be made: " + strings.Join(x.Faults, "; ")}
	case len(sees) == 0:
		sees = []string{"nothing is due there any more"}
	}
	return tableRow{cells: cells(text(x.Educator.Name), text(child(x.Client)), text(strings.Join(sees, "; ")), text(day))}
}

// dueWords says who has to show what.
func dueWords(d office.DueVisit) string {
	words := d.Person.Name + ": " + d.Skill.Title
	if d.With.ID != "" {
		words += " for " + child(d.With)
	}
	if d.Lapses {
		return words
	}
	return words + " (" + string(d.Word) + ")"
}

func unmetTable(v office.VisitsView) table {
	t := table{columns: []column{{"cannot be met", 2.6, toLeft}, {"why", 2.6, toLeft}, {"last day", .9, toLeft}}}
	for _, u := range v.Unmet {
		day := ""
		if u.Lapses {
			day = english.shortDate(u.Through)
		}
		t.rows = append(t.rows, tableRow{cells: cells(text(dueWords(u.DueVisit)), text(u.Why), text(day))})
	}
	return t
}
