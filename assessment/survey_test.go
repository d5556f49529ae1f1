package assessment_test

import (
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
)

// Access opens at its first instant, is over at its last, and is nothing once it was
// ended. Common practice, no source.
func TestWhenASurveyorIsLetIn(t *testing.T) {
	from := time.Date(2026, 3, 1, 10, 0, 0, 0, time.UTC)
	ended := from.Add(time.Minute)
	whole := assessment.SurveyAccess{Whole: true, From: from, To: from.Add(time.Hour)}
	over := whole
	over.EndedAt = &ended
	named := assessment.SurveyAccess{People: []assessment.PersonID{"p"}, Clients: []assessment.ClientID{"c"}, From: from, To: from.Add(2 * time.Hour)}
	for name, c := range map[string]struct {
		given []assessment.SurveyAccess
		after time.Duration
		want  string
	}{
		"none":                   {nil, 0, "nothing"},
		"before":                 {[]assessment.SurveyAccess{whole}, -1, "nothing"},
		"at the first instant":   {[]assessment.SurveyAccess{whole}, 0, "whole"},
		"at the last":            {[]assessment.SurveyAccess{whole}, time.Hour - 1, "whole"},
		"after":                  {[]assessment.SurveyAccess{whole}, time.Hour, "nothing"},
		"ended":                  {[]assessment.SurveyAccess{over}, 2 * time.Minute, "nothing"},
		"ended, and a named one": {[]assessment.SurveyAccess{over, named}, 2 * time.Minute, "named"},
		"the named one outlasts": {[]assessment.SurveyAccess{whole, named}, time.Hour, "named"},
	} {
		s, got := assessment.SurveyAt(c.given, from.Add(c.after)), "nothing"
		switch {
		case s.Whole:
			got = "whole"
		case s.Open():
			got = "named"
		}
		if got != c.want {
			t.Errorf("%s: %s, want %s", name, got, c.want)
		}
	}
}

// Whoever is not let in is told why, by the clock of the agency.
func TestWhyASurveyorIsNotLetIn(t *testing.T) {
	from := time.Date(2026, 3, 1, 10, 0, 0, 0, time.UTC)
	early := from.Add(time.Hour)
	given := []assessment.SurveyAccess{
		{Whole: true, From: from, To: from.Add(4 * time.Hour), EndedAt: &early},
		{Whole: true, From: from.Add(6 * time.Hour), To: from.Add(7 * time.Hour)},
	}
	for after, want := range map[time.Duration]string{-time.Minute: "begins on 1 March 2026, 10:00", 2 * time.Hour: "begins on 1 March 2026, 16:00", 8 * time.Hour: "ended on 1 March 2026, 17:00"} {
		by := assessment.Actor{Roles: []assessment.Role{assessment.Surveyor}, Survey: assessment.SurveyAt(given, from.Add(after))}
		if err := by.May(assessment.ReadRecords); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("after %v: %v, want %q", after, err, want)
		}
	}
	never := assessment.Actor{Roles: []assessment.Role{assessment.Surveyor}, Survey: assessment.SurveyAt(nil, from)}
	if err := never.May(assessment.ReadRecords); err == nil || !strings.Contains(err.Error(), "not been let in") {
		t.Errorf("never let in: %v", err)
	}
	ended := from.Add(-time.Hour)
	taken := []assessment.SurveyAccess{{Whole: true, From: from, To: from.Add(time.Hour), EndedAt: &ended}}
	if s := assessment.SurveyAt(taken, from.Add(-time.Minute)); s.Open() || !s.Begins.IsZero() {
		t.Errorf("ended before it began: %+v", s)
	}
}

// What a surveyor reaches: nothing without access, all they may with access to the
// whole agency, and with a named one what is named and nothing over the agency.
func TestWhatASurveyorReaches(t *testing.T) {
	surveyor := assessment.Actor{Person: "s", Roles: []assessment.Role{assessment.Surveyor}}
	named := surveyor
	named.Survey = &assessment.Survey{People: []assessment.PersonID{"p"}, Clients: []assessment.ClientID{"c"}}
	whole := surveyor
	whole.Survey = &assessment.Survey{Whole: true}
	for _, act := range assessment.Acts() {
		if act != assessment.OwnAccount && surveyor.Reach(act) != assessment.Nothing {
			t.Errorf("without access they may %s", act)
		}
		asks := act == assessment.AskPacket // which keeps what was asked for and is shown, and changes no record
		if named.Reach(act) > whole.Reach(act) || !act.Reads() && !asks && act != assessment.OwnAccount && whole.Reach(act) != assessment.Nothing {
			t.Errorf("%s: named %v, whole %v", act, named.Reach(act), whole.Reach(act))
		}
	}
	named.Survey.Team = []assessment.PersonID{"carer"}
	for _, c := range []struct {
		person assessment.PersonID
		client assessment.ClientID
		want   bool
	}{
		{"p", "", true}, {"p", "c", true}, {"p", "another", true}, // named: all of theirs
		{"s", "", true}, {"s", "another", true}, // one's own
		{"carer", "", true}, {"carer", "c", true}, {"carer", "another", false},
		{"q", "", false}, {"q", "c", true}, {"q", "another", false}, // what is about the child is about the child
		{"", "", false},
	} {
		if err := named.MayForCase(assessment.ReadRecords, c.person, c.client); (err == nil) != c.want {
			t.Errorf("records of %q for %q: %v", c.person, c.client, err)
		}
	}
	for who, want := range map[assessment.PersonID]bool{"p": true, "s": true, "carer": true, "q": false, "": false} {
		if err := named.MayFor(assessment.ReadRecords, who, false); (err == nil) != want {
			t.Errorf("the page of %q: %v", who, err)
		}
	}
	if named.May(assessment.ReadReports) == nil {
		t.Error("a report on the whole agency is shown to somebody who was let in for one person")
	}
}

// What somebody was let in for as a surveyor opens nothing that another role of
// theirs does for themselves alone.
func TestASurveyorsAccessIsForReadingOnly(t *testing.T) {
	by := assessment.Actor{Person: "s", Roles: []assessment.Role{assessment.Surveyor, assessment.Caregiver}, Survey: &assessment.Survey{Whole: true, People: []assessment.PersonID{"p"}}}
	if by.MayFor(assessment.SignRecord, "p", false) == nil || by.MayForCase(assessment.SignRecord, "p", "") == nil {
		t.Error("a surveyor signs for whom they were let in to look at")
	}
	if err := by.MayFor(assessment.SignRecord, "s", false); err != nil {
		t.Errorf("their own: %v", err)
	}
	nobody := assessment.Actor{Person: "s", Roles: []assessment.Role{assessment.Caregiver}, Survey: &assessment.Survey{Whole: true, People: []assessment.PersonID{"p"}}}
	if nobody.MayFor(assessment.ReadRecords, "p", false) == nil {
		t.Error("without the role the access opens something")
	}
}
