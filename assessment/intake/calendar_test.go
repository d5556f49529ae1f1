package intake_test

import (
	"reflect"
	"strings"
	"testing"

	"wellshown/assessment/intake"
)

// night is a calendar as RFC 5545 has it, with a folded line, escapes and a zone.
const night = "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Example//EN\r\nX-OURS:1\r\n" +
	"BEGIN:VEVENT\r\nUID:1@example.org\r\nDTSTAMP:20261101T000000Z\r\nSUMMARY:7K: Jo\r\n anna Li\\, Nurse\r\nDTSTART;TZID=America/Denver:20261201T190000\r\n" +
	"DTEND;TZID=America/Denver:20261202T070000\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n"

func event(lines ...string) string {
	return "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:x\r\nBEGIN:VEVENT\r\nUID:1\r\nDTSTAMP:20261101T000000Z\r\n" + strings.Join(lines, "\r\n") + "\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n"
}

// RFC 5545: 3.1 folding, 3.3.5 the three forms of times, 3.3.6 durations, 3.3.11 escapes.
func TestRFC5545Shifts(t *testing.T) {
	for what, c := range map[string]struct {
		text string
		want map[string]string
	}{
		"a zone, a fold and an escape": {night, map[string]string{"client": "7K", "caregiver": "Joanna Li, Nurse", "starts": "2026-12-01T19:00:00-07:00", "ends": "2026-12-02T07:00:00-07:00"}},
		"UTC and a duration": {event("SUMMARY:7K Mira", "ATTENDEE;CN=\"Orme, Nan\":mailto:nan@agency.example", "CATEGORIES:NURSE", "DTSTART:20261201T190000Z", "DURATION:PT12H30M"),
			map[string]string{"client": "7K", "caregiver": "nan@agency.example", "kind": "nurse", "starts": "2026-12-01T19:00:00Z", "ends": "2026-12-02T07:30:00Z"}},
		"floating times": {event("SUMMARY:7K", "DTSTART:20261201T190000", "DTEND:20261202T000000"), map[string]string{"client": "7K", "starts": "2026-12-01 19:00", "ends": "2026-12-02 00:00"}},
		"an attendee without address": {event("SUMMARY:7K", "ATTENDEE;CN=Nan Orme:urn:uuid:1", "DTSTART:20261201T190000Z", "DTEND:20261202T000000Z"),
			map[string]string{"client": "7K", "caregiver": "Nan Orme", "starts": "2026-12-01T19:00:00Z", "ends": "2026-12-02T00:00:00Z"}},
		"a time that is skipped counts on from before": {event("SUMMARY:7K", "DTSTART;TZID=America/New_York:20270314T023000", "DTEND;TZID=America/New_York:20270314T090000"),
			map[string]string{"client": "7K", "starts": "2027-03-14T03:30:00-04:00", "ends": "2027-03-14T09:00:00-04:00"}},
		"a time that comes twice is the first": {event("SUMMARY:7K", "DTSTART;TZID=America/New_York:20261101T013000", "DTEND;TZID=America/New_York:20261101T090000"),
			map[string]string{"client": "7K", "starts": "2026-11-01T01:30:00-04:00", "ends": "2026-11-01T09:00:00-05:00"}},
	} {
		table := read(t, intake.Shifts, c.text)
		if len(table.Faults) != 0 || len(table.Rows) != 1 || !reflect.DeepEqual(table.Rows[0].Cells, c.want) {
			t.Errorf("%s: %v, faults %v", what, cells(table), table.Faults)
		}
	}
}

func TestEventsThatAreNoShift(t *testing.T) {
	const start, end = "DTSTART:20261201T190000Z", "DTEND:20261202T070000Z"
	for says, text := range map[string]string{
		"repeats (RRULE)":          event("SUMMARY:7K", start, end, "RRULE:FREQ=WEEKLY;COUNT=9"),
		"repeats (RDATE)":          event("SUMMARY:7K", start, end, "RDATE:20261208T190000Z"),
		"one day of another":       event("SUMMARY:7K", start, end, "RECURRENCE-ID:20261201T190000Z"),
		"takes the whole day":      event("SUMMARY:7K", "DTSTART;VALUE=DATE:20261201", end),
		"is not one of the time":   event("SUMMARY:7K", "DTSTART;TZID=Our Town Time:20261201T190000", end),
		`"Local" is not one`:       event("SUMMARY:7K", "DTSTART;TZID=Local:20261201T190000", end),
		`zone "" is not one`:       event("SUMMARY:7K", "DTSTART;TZID=:20261201T190000", end),
		"no end":                   event("SUMMARY:7K", start),
		"does not say when":        event("SUMMARY:7K", end),
		"More than one person":     event("SUMMARY:7K", start, end, "ATTENDEE:mailto:a@b.example", "ATTENDEE:mailto:c@b.example"),
		"is not a time":            event("SUMMARY:7K", "DTSTART:20260231T190000Z", end),
		"has seconds":              event("SUMMARY:7K", "DTSTART:20261201T190030", end),
		"is not how long":          event("SUMMARY:7K", start, "DURATION:-PT1H"),
		"and not in which time zo": event("SUMMARY:7K", "DTSTART:20261201T190000", "DURATION:PT1H"),
	} {
		table := read(t, intake.Shifts, text)
		if len(table.Faults) != 1 || !strings.Contains(table.Faults[0].Says, says) || table.Faults[0].Row != 1 {
			t.Errorf("%s: %+v", says, table.Faults)
		}
	}
	table := read(t, intake.Shifts, strings.Replace(night, "END:VCALENDAR", "BEGIN:VEVENT\r\nUID:2\r\nSTATUS:CANCELLED\r\nEND:VEVENT\r\nEND:VCALENDAR", 1))
	if len(table.Rows) != 1 || !reflect.DeepEqual(table.Left, []string{"events that were cancelled"}) {
		t.Errorf("a cancelled event: %v, left %v", cells(table), table.Left)
	}
	refused(t, intake.Shifts, "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nEND:VCALENDAR\r\n")
	refused(t, intake.Shifts, "BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\n")
	refused(t, intake.People, night)
}
