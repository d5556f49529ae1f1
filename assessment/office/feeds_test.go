package office_test

import (
	"strings"
	"testing"
	"time"

	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

// secretOf is the secret in a calendar's address.
func secretOf(made office.NewFeed) string {
	_, secret, _ := strings.Cut(made.Address, "/feeds/")
	return strings.TrimSuffix(secret, ".ics")
}

// unfolded is a calendar with its folds taken out (RFC 5545, section 3.1).
func unfolded(body []byte) string { return strings.ReplaceAll(string(body), "\r\n ", "") }

// One's own calendar has what one holds and does, a child by the code alone and nobody's
// name; the agency's has how much ends, and no name either.
func TestWhatCalendarsTell(t *testing.T) {
	t.Parallel()
	v := newVisiting(t)
	ctx := t.Context()
	v.Day("2026-06-20")
	must(v.Office.AddRosterShift(ctx, v.Coordinator, office.RosterShiftForm{Client: v.mira, Person: v.nan.Person, Starts: "2026-06-22T19:00", Ends: "2026-06-23T07:00"}))(t)
	must(v.Office.AddRosterShift(ctx, v.Coordinator, office.RosterShiftForm{Client: v.tam, Starts: "2026-06-24T19:00", Ends: "2026-06-25T07:00"}))(t)
	must(v.Office.PlanVisit(ctx, v.Coordinator, office.VisitForm{On: "2026-07-02", Client: v.mira, Educator: v.Educators[0].Person}))(t)
	own := must(v.Office.MakeOwnFeed(ctx, v.nan))(t)
	whole := must(v.Office.MakeAgencyFeed(ctx, v.Coordinator))(t)
	mine, agency := unfolded(must(v.Office.Feed(ctx, secretOf(own)))(t)), unfolded(must(v.Office.Feed(ctx, secretOf(whole)))(t))
	for _, c := range []struct{ calendar, name, wants string }{
		{mine, "own", "SUMMARY:Last day: Heated humidifier set-up and daily care\\, 7K"}, {mine, "own", "DTSTART;VALUE=DATE:20260705"},
		{mine, "own", "SUMMARY:Shift: 7K"}, {mine, "own", "DTSTART:20260623T010000Z"}, {mine, "own", "SUMMARY:An educator comes: 7K"}, {mine, "own", "DTSTART;VALUE=DATE:20260702"},
		{agency, "agency", "SUMMARY:Last day of 1 skill of 1 person"}, {agency, "agency", "SUMMARY:Open shift: 8K"}, {agency, "agency", "SUMMARY:Visit: 7K"},
	} {
		if !strings.Contains(c.calendar, c.wants+"\r\n") {
			t.Errorf("%s: no line %s in\n%s", c.name, c.wants, c.calendar)
		}
	}
	for _, name := range []string{"Nan", "Poe", "Ola", "Kim", "Mira", "Tam", "Edda", "Lorne", "Cory"} {
		if strings.Contains(mine+agency, name) {
			t.Errorf("%s is named", name)
		}
	}
	if strings.Contains(mine, "8K") {
		t.Error("one's own calendar tells of a child of others")
	}
	if again := unfolded(must(v.Office.Feed(ctx, secretOf(own)))(t)); again != mine {
		t.Error("asked twice on a day, it differs")
	}
	p := must(v.Office.Person(ctx, v.Admin, v.nan.Person))(t)
	must(v.Office.EditPerson(ctx, v.Admin, v.nan.Person, office.PersonForm{Version: p.Version, Name: p.Name, Kind: string(p.Kind), Email: p.Email, Language: "es", Roles: []string{"caregiver"}}))(t)
	if spanish := unfolded(must(v.Office.Feed(ctx, secretOf(own)))(t)); !strings.Contains(spanish, "SUMMARY:Último día: Preparar y cuidar el humidificador con calor\\, 7K") || !strings.Contains(spanish, "SUMMARY:Turno: 7K") {
		t.Errorf("in Spanish:\n%s", spanish)
	}
}

// A calendar ends when another is made, when it is revoked, when a link sets a new password, when its maker leaves, and the
// agency's when they plan no more; none of these is told from an address that never was.
func TestCalendarsEnd(t *testing.T) {
	t.Parallel()
	v := newVisiting(t)
	ctx := t.Context()
	gone := func(made office.NewFeed, why string) {
		t.Helper()
		if _, err := v.Office.Feed(ctx, secretOf(made)); fault.KindOf(err) != fault.NotFound {
			t.Errorf("%s: %v", why, err)
		}
	}
	first := must(v.Office.MakeOwnFeed(ctx, v.nan))(t)
	must(v.Office.Feed(ctx, secretOf(first)))(t)
	second := must(v.Office.MakeOwnFeed(ctx, v.nan))(t)
	gone(first, "another was made")
	wantNone(t, v.Office.EndOwnFeed(ctx, v.nan))
	gone(second, "revoked")
	wantRefusal(t, v.Office.EndOwnFeed(ctx, v.nan), fault.NotFound, "")
	wantRefusal(t, one(v.Office.MakeAgencyFeed(ctx, v.nan)), fault.Forbidden, "set reminders")
	left := must(v.Office.MakeOwnFeed(ctx, v.ola))(t)
	wantNone(t, v.Office.PersonLeaves(ctx, v.Admin, v.ola.Person, v.Today()))
	gone(left, "its maker has left")
	lost := must(v.Office.MakeOwnFeed(ctx, v.nan))(t)
	v.Take(v.Link(v.Admin, v.nan), "another long pass phrase 7")
	gone(lost, "whoever had the account before could have made it")
	if own := must(v.Office.Feeds(ctx, v.nan))(t).Own; !own.MadeAt.IsZero() {
		t.Errorf("it is listed: %+v", own)
	}
	plans := v.Administrator("Lena Voss")
	whole := must(v.Office.MakeAgencyFeed(ctx, plans))(t)
	must(v.Office.Feed(ctx, secretOf(whole)))(t)
	p := must(v.Office.Person(ctx, v.Admin, plans.Person))(t)
	must(v.Office.EditPerson(ctx, v.Admin, plans.Person, office.PersonForm{Version: p.Version, Name: p.Name, Email: p.Email, Roles: []string{}}))(t)
	gone(whole, "its maker plans no more")
	v.Pass(time.Minute)
	p = must(v.Office.Person(ctx, v.Admin, plans.Person))(t)
	must(v.Office.EditPerson(ctx, v.Admin, plans.Person, office.PersonForm{Version: p.Version, Name: p.Name, Email: p.Email, Roles: []string{"administrator"}}))(t)
	gone(whole, "its maker plans again, and makes another")
	wantNone(t, v.Office.PersonLeaves(ctx, v.Admin, v.ola.Person, v.Today().AddDays(30)))
	gone(left, "its maker is back, and makes another")
	gone(office.NewFeed{Address: "/feeds/.ics"}, "no secret at all")
}

// A skills day that was ended before it came is on no calendar: nobody goes there for nothing.
func TestCalendarsLeaveOutADayThatWasCalledOff(t *testing.T) {
	t.Parallel()
	d := newSkillsDay(t)
	f := d.form()
	f.On, f.Name = "2026-02-09", "Monday's"
	day := must(d.Office.PlanSkillsDay(t.Context(), d.Coordinator, f))(t)
	own := must(d.Office.MakeOwnFeed(t.Context(), d.nan))(t)
	if before := unfolded(must(d.Office.Feed(t.Context(), secretOf(own)))(t)); !strings.Contains(before, "SUMMARY:Skills day: Monday's") {
		t.Errorf("planned, and not there:\n%s", before)
	}
	wantNone(t, d.Office.EndSkillsDay(t.Context(), d.Coordinator, day.ID))
	if after := unfolded(must(d.Office.Feed(t.Context(), secretOf(own)))(t)); strings.Contains(after, "Monday's") || !strings.Contains(after, "Winter skills day") {
		t.Errorf("called off, and still there:\n%s", after)
	}
}
