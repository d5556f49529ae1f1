package web

import (
	"slices"
	"strconv"

	"wellshown/assessment/civil"
	"wellshown/assessment/office"
)

// boardOf lays the visits of one week out by educator and day. Educators without a visit
// in the week stand there too: one can be moved to them.
func boardOf(monday civil.Date, d office.VisitsView, maySet bool) VisitBoard {
	b := VisitBoard{MaySet: maySet}
	for n := range 7 {
		b.Days = append(b.Days, monday.AddDays(n).Format("Mon 2 Jan"))
	}
	for _, e := range d.Educators {
		row := BoardRow{Educator: e.Educator.Name, ID: string(e.Educator.ID)}
		for n := range 7 {
			row.Cells = append(row.Cells, boardCell(monday.AddDays(n), e, d))
		}
		b.Rows = append(b.Rows, row)
	}
	return b
}

func boardCell(on civil.Date, e office.VisitWeeksView, d office.VisitsView) BoardCell {
	c := BoardCell{On: isoDay(on), Day: on.Format("Mon 2 Jan"), Over: on.Before(d.Today)}
	c.Off = slices.Contains(e.DaysOff, (int(on.Weekday())+6)%7+1) || slices.ContainsFunc(e.Off, func(o office.DaysOffView) bool {
		return !on.Before(o.From) && !on.After(o.Through)
	})
	for _, k := range d.Kept {
		if k.On == on && k.Educator.ID == e.Educator.ID {
			c.Visits = append(c.Visits, BoardVisit{Client: clientName(k.Client), Href: "/visits/" + string(k.ID), Sees: strconv.Itoa(len(k.Sees)), Fault: len(k.Faults) > 0})
		}
	}
	return c
}
