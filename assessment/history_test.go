package assessment_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
)

// A history that contradicts itself is refused by name, whoever built it.
func TestHistoriesThatContradictThemselves(t *testing.T) {
	day, at := civil.MustParse("2026-03-01"), civil.MustParse("2026-03-01").In(time.UTC)
	demo := shownOn("2026-01-10")[0]
	changed := func(change func(*assessment.Entry)) assessment.Entry {
		e := demo
		change(&e)
		return e
	}
	for names, e := range map[string]assessment.Entry{
		"a demonstration has no id":                  changed(func(e *assessment.Entry) { e.ID = "" }),
		`two entries have the id "w0"`:               {Kind: assessment.TeachingEntry, ID: "w0", On: day},
		`demonstration "d1": "passed" is no outcome`: changed(func(e *assessment.Entry) { e.Outcome = "passed" }),
		`demonstration "d1" names no revision`:       changed(func(e *assessment.Entry) { e.Revision = 0 }),
		`demonstration "d1" names no observer`:       changed(func(e *assessment.Entry) { e.Observer = "" }),
		`demonstration "d1" has no instant`:          changed(func(e *assessment.Entry) { e.At = time.Time{} }),
		`withdrawal "x": until`:                      {Kind: assessment.WithdrawalEntry, ID: "x", At: at},
		`withdrawal "x" has no instant`:              {Kind: assessment.WithdrawalEntry, ID: "x", Until: assessment.Reinstated},
		`reinstatement "x" is of "w9"`:               {Kind: assessment.ReinstatementEntry, ID: "x", Of: "w9", At: at},
		`reinstatement "x" is of "x"`:                {Kind: assessment.ReinstatementEntry, ID: "x", Of: "x", At: at},
		`reinstatement "x" has no instant`:           {Kind: assessment.ReinstatementEntry, ID: "x", Of: "w0"},
		`waiver "x" ends before it begins`:           {Kind: assessment.WaiverEntry, ID: "x", On: day, Through: day.AddDays(-1)},
		`waiver "y" ends before it begins`:           {Kind: assessment.WaiverEntry, ID: "y", Through: day},
		`recheck "x": by is before`:                  {Kind: assessment.RecheckEntry, ID: "x", At: at, Revision: 2, By: day.AddDays(-1)},
		`recheck "y": by is before`:                  {Kind: assessment.RecheckEntry, ID: "y", At: at, By: day},
		`practice "x" has no day`:                    {Kind: assessment.PracticeEntry, ID: "x"},
		`teaching "x" has no day`:                    {Kind: assessment.TeachingEntry, ID: "x"},
		`correction "x" is of "x"`:                   {Kind: assessment.CorrectionEntry, ID: "x", Of: "x", At: at},
		`correction "x" is of "w9"`:                  {Kind: assessment.CorrectionEntry, ID: "x", Of: "w9", At: at},
		`correction "x" has no instant`:              {Kind: assessment.CorrectionEntry, ID: "x", Of: "w0"},
		`card "x" has no last day`:                   {Kind: assessment.CardEntry, ID: "x", At: at},
		`"rumour" is no kind of entry`:               {Kind: "rumour", ID: "x", At: at},
	} {
		history := []assessment.Entry{{Kind: assessment.WithdrawalEntry, ID: "w0", At: at, Until: assessment.Reinstated}, e}
		err := assessment.CheckHistory(history, time.UTC)
		if fault.KindOf(err) != fault.Invalid || !strings.Contains(err.Error(), names) {
			t.Errorf("%v does not say %q", err, names)
		}
		if _, err := assessment.NewCase(time.UTC, assessment.Book{Default: oneShown(12, assessment.Anniversary, 60)}, nil, history); err == nil {
			t.Errorf("%s: a case was made of it", names)
		}
	}
	fine := []assessment.Entry{demo, {Kind: assessment.RecheckEntry, ID: "k", At: at, Revision: 2, By: day}, {Kind: assessment.WaiverEntry, ID: "v", On: day, Through: day}}
	if err := assessment.CheckHistory(fine, time.UTC); err != nil {
		t.Errorf("a recheck and a waiver of one day are refused: %v", err)
	}
}

// As known at an instant: what was recorded by then, with the signatures made by
// then, both included.
func TestAsKnownAt(t *testing.T) {
	at := func(s string) time.Time { return civil.MustParse(s).In(time.UTC) }
	pass := shownOn("2026-01-10")[0]
	pass.Recorded, pass.LearnerSigned = at("2026-01-12"), at("2026-02-01")
	withdrawal := assessment.Entry{Kind: assessment.WithdrawalEntry, ID: "w1", At: at("2026-01-20"), Until: assessment.Reinstated, Recorded: at("2026-03-01")}
	history := []assessment.Entry{pass, withdrawal}
	terms := oneShown(12, assessment.Anniversary, 60)
	for known, want := range map[string]string{"2026-01-11": "not started", "2026-01-12": "not started", "2026-01-31": "not started", "2026-02-01": "current", "2026-02-28": "current", "2026-03-01": "withdrawn"} {
		if got := wordOn(terms, "2026-06-01", assessment.AsKnownAt(history, at(known))); got != want {
			t.Errorf("known on %s, the standing on 1 June is %s, not %s", known, got, want)
		}
	}
	if history[0].LearnerSigned.IsZero() {
		t.Error("asking what was known changed the history")
	}
}

func TestTheDemonstrationThatMadeIt(t *testing.T) {
	terms := oneShown(12, assessment.Anniversary, 60)
	terms.Award.Count = 2
	c := mustCase(time.UTC, terms, shownOn("2026-01-05", "2026-01-10", "2026-12-01"))
	for _, want := range []struct {
		id, on, through string
		shows           []string
	}{
		{"d2", "2026-01-10", "2027-01-10", []string{"d1", "d2"}},
		{"d3", "2026-12-01", "2028-01-10", []string{"d3"}},
		{"d1", "2026-01-05", "", nil}, // the first of two made nothing yet
		{"d2", "2028-01-11", "", nil}, // it no longer holds
		{"d9", "2026-01-10", "", nil},
	} {
		s, shows, made := c.AwardedBy(want.id, civil.MustParse(want.on))
		if made != (want.through != "") || made && s.Through.String() != want.through || !slices.Equal(shows, want.shows) {
			t.Errorf("%s on %s: %v, through %s, shown by %v", want.id, want.on, made, s.Through, shows)
		}
	}
}
