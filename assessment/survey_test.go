package assessment_test

import (
	"testing"
	"time"

	"wellshown/assessment"
)

// Access opens at its first instant, is over at its last, and is nothing once it was
// ended. Common practice, no source.
func TestWhenASurveyorIsLetIn(t *testing.T) {
	from := time.Date(2026, 3, 1, 10, 0, 0, 0, time.UTC)
	ended := from.Add(time.Minute)
	whole := assessment.SurveyAccess{Whole: true, From: from, Through: from.Add(time.Hour)}
	over := whole
	over.EndedAt = &ended
	named := assessment.SurveyAccess{People: []assessment.PersonID{"p"}, Clients: []assessment.ClientID{"c"}, From: from, Through: from.Add(2 * time.Hour)}
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
		got := "nothing"
		if s := assessment.SurveyAt(c.given, from.Add(c.after)); s != nil {
			got = "named"
			if s.Whole {
				got = "whole"
			}
		}
		if got != c.want {
			t.Errorf("%s: %s, want %s", name, got, c.want)
		}
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
		if named.Reach(act) > whole.Reach(act) || !act.Reads() && act != assessment.OwnAccount && whole.Reach(act) != assessment.Nothing {
			t.Errorf("%s: named %v, whole %v", act, named.Reach(act), whole.Reach(act))
		}
	}
	for who, want := range map[assessment.PersonID]bool{"p": true, "s": true, "q": false, "": false} {
		if err := named.MayFor(assessment.ReadRecords, who, false); (err == nil) != want {
			t.Errorf("records of %q: %v", who, err)
		}
	}
	if named.May(assessment.ReadReports) == nil {
		t.Error("a report on the whole agency is shown to somebody who was let in for one person")
	}
}
