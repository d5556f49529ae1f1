package intake

import (
	"fmt"
	"net/url"
	"slices"
	"strings"
	"time"

	ics "github.com/arran4/golang-ical"

	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/workbook"
)

// calendar reads shifts from a calendar (RFC 5545): an event is a shift. Its summary begins with the
// child's code; who is on it is its attendee. Instants come out with their offset.
func (t *Table) calendar(text string, zones Zones) error {
	cal, err := ics.ParseCalendarWithOptions(strings.NewReader(text), ics.WithUnknownPropertyHandler(ics.AcceptUnknownPropertyHandler))
	if err != nil {
		return fault.Of(fault.Invalid, "This cannot be read as a calendar (iCalendar, RFC 5545). Export it once more, or send a table as CSV or XLSX.")
	}
	number := 0
	for _, c := range cal.Components {
		event, is := c.(*ics.VEvent)
		if !is {
			continue
		}
		number++
		if status := event.GetProperty(ics.ComponentPropertyStatus); status != nil && strings.EqualFold(status.Value, "CANCELLED") {
			t.Left = addOnce(t.Left, "events that were cancelled")
			continue
		}
		if len(t.Rows) == MostRows {
			return workbook.TooManyRows(MostRows)
		}
		t.event(t.row(number), number, event, zones)
	}
	if number == 0 {
		return fault.Of(fault.Invalid, "There is no event in this calendar.")
	}
	return nil
}

func addOnce(list []string, s string) []string {
	if slices.Contains(list, s) {
		return list
	}
	return append(list, s)
}

func (t *Table) event(row map[string]string, number int, event *ics.VEvent, zones Zones) {
	for _, again := range []ics.ComponentProperty{ics.ComponentPropertyRrule, ics.ComponentPropertyRdate, ics.ComponentProperty(ics.PropertyExrule)} {
		if event.GetProperty(again) != nil {
			t.wrong(number, "starts", "This event repeats ("+string(again)+"). Repeating ones are not taken: write each shift as an event of its own, or keep it as a weekly pattern on the child's roster.")
			return
		}
	}
	if event.GetProperty(ics.ComponentPropertyRecurrenceId) != nil {
		t.wrong(number, "starts", "This event is one day of another that repeats. Write it as an event of its own.")
		return
	}
	code, name := title(valueOf(event, ics.ComponentPropertySummary))
	t.fill(row, "client", code)
	t.fill(row, "kind", strings.ToLower(valueOf(event, ics.ComponentPropertyCategories)))
	attendees := event.GetProperties(ics.ComponentPropertyAttendee)
	switch {
	case len(attendees) > 1:
		t.wrong(number, "caregiver", "More than one person attends this event. A shift is one person's: write one event for each.")
	case len(attendees) == 1:
		t.fill(row, "caregiver", attendee(attendees[0]))
	default:
		t.fill(row, "caregiver", name)
	}
	starts, fine := t.moment(number, "starts", event.GetProperty(ics.ComponentPropertyDtStart), zones)
	if !fine {
		return
	}
	row["starts"] = starts.text
	end, length := event.GetProperty(ics.ComponentPropertyDtEnd), event.GetProperty(ics.ComponentPropertyDuration)
	switch {
	case end != nil:
		if ends, fine := t.moment(number, "ends", end, zones); fine {
			row["ends"] = ends.text
		}
	case length != nil:
		t.lasting(row, number, starts, length.Value)
	default:
		t.wrong(number, "ends", "This event has no end. Give it one.")
	}
}

func valueOf(event *ics.VEvent, p ics.ComponentProperty) string {
	if found := event.GetProperty(p); found != nil {
		return ics.FromText(found.Value)
	}
	return ""
}

// title is the code with which a summary begins, and the name after a colon, if any.
func title(summary string) (code, name string) {
	code, name, _ = strings.Cut(strings.TrimSpace(summary), ":")
	code, _, _ = strings.Cut(strings.TrimSpace(code), " ")
	return code, strings.TrimSpace(name)
}

// attendee is the address of who attends, or the name where there is none.
func attendee(p *ics.IANAProperty) string {
	value := strings.TrimSpace(p.Value)
	if len(value) > 7 && strings.EqualFold(value[:7], "mailto:") {
		if address, err := url.PathUnescape(value[7:]); err == nil && strings.Contains(address, "@") {
			return address
		}
	}
	if name := p.ICalParameters["CN"]; len(name) > 0 {
		return name[0]
	}
	return value
}

// moment is an instant of an event as it is put into a row: with its offset, or on the
// agency's clocks, which floating times are taken for.
type moment struct {
	text string
	at   time.Time // zero on the agency's clocks
}

const (
	icalDay  = "20060102"
	icalTime = "20060102T150405"
)

func (t *Table) moment(number int, column string, p *ics.IANAProperty, zones Zones) (moment, bool) {
	if p == nil {
		t.wrong(number, column, "This event does not say when it starts. Give it a start.")
		return moment{}, false
	}
	refuse := func(format string, args ...any) (moment, bool) {
		t.wrong(number, column, fmt.Sprintf(format, args...))
		return moment{}, false
	}
	value := strings.TrimSpace(p.Value)
	if _, err := time.Parse(icalDay, value); err == nil || slices.Contains(p.ICalParameters["VALUE"], "DATE") {
		return refuse("This event takes the whole day. A shift has times: give it a start and an end.")
	}
	if at, err := time.Parse(icalTime+"Z", value); err == nil {
		return moment{at.Format(time.RFC3339), at}, true
	}
	shown, err := time.Parse(icalTime, value)
	if err != nil {
		return refuse("%q is not a time of a calendar, or its day is in no calendar. Export it once more.", value)
	}
	if shown.Second() != 0 {
		return refuse("This time has seconds. Give hours and minutes alone.")
	}
	name := p.ICalParameters["TZID"]
	if len(name) == 0 {
		return moment{text: shown.Format("2006-01-02 15:04")}, true
	}
	zone, err := zones(strings.TrimPrefix(name[0], "/"))
	if err != nil || zone == nil || zone == time.Local || zone == time.UTC && !strings.EqualFold(name[0], "UTC") { // no name, and "Local", name this machine's clocks
		return refuse("The time zone %q is not one of the time zone database, such as America/Denver. Export the calendar with such names, or in UTC.", name[0])
	}
	y, m, d := shown.Date()
	at := civil.Of(y, m, d).At(civil.Clock(shown.Hour()*60+shown.Minute()), zone)
	return moment{at.Format(time.RFC3339), at}, true
}

// lasting is the end of an event that says how long it lasts.
func (t *Table) lasting(row map[string]string, number int, starts moment, value string) {
	d, fine := duration(value)
	switch {
	case !fine:
		t.wrong(number, "ends", fmt.Sprintf("%q is not how long a shift lasts. Give the event an end.", value))
	case starts.at.IsZero():
		t.wrong(number, "ends", "This event says how long it lasts, and not in which time zone it starts. Give it an end, or a start with a zone.")
	default:
		row["ends"] = starts.at.Add(d).Format(time.RFC3339)
	}
}

// duration reads hours and minutes of a duration (RFC 5545, section 3.3.6). Days are none that a shift lasts.
func duration(s string) (time.Duration, bool) {
	rest, fine := strings.CutPrefix(strings.TrimPrefix(s, "+"), "PT")
	if !fine || rest == "" || len(rest) > 12 || strings.ContainsAny(rest, "-+.:nuµ") || strings.Trim(rest, "0123456789HMS") != "" {
		return 0, false
	}
	d, err := time.ParseDuration(strings.ToLower(rest))
	return d, err == nil && d > 0
}
