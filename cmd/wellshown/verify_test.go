package main

import (
	"strings"
	"testing"
	"time"

	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
)

// Each agency has its line, and nothing that was found goes unsaid.
func TestVerifyTellsOfEachAgencyAndEachRule(t *testing.T) {
	t.Parallel()
	sealed := time.Date(2027, 1, 15, 18, 0, 0, 0, time.UTC)
	v := office.Verified{Agencies: 3, Ledgers: []office.VerifiedLedger{
		{Agency: "a", Code: "larkmoor", Leaves: 7, Sealed: sealed}, {Agency: "b", Code: "wren", Leaves: 0}, {Agency: "c", Leaves: 2, Sealed: sealed}}}
	var out strings.Builder
	if err := tellVerified(v, 0, &out); err != nil {
		t.Error(err)
	}
	for _, want := range []string{"larkmoor (a): 7 leaves, newest head sealed 2027-01-15T18:00:00Z\n", "wren (b): 0 leaves, never sealed\n", "an agency whose row is gone (c)", "as they were written"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("%q is not in\n%s", want, out.String())
		}
	}
	out.Reset()
	v.Found, v.Rules = 1, []postgres.Difference{{Rule: "trigger x", Missing: true}}
	if err := tellVerified(v, 0, &out); err == nil || !strings.Contains(out.String(), "not those of this program: missing: trigger x\n") || strings.Contains(out.String(), "more") {
		t.Errorf("%v\n%s", err, out.String())
	}
	out.Reset()
	if err := tellVerified(office.Verified{}, 0, &out); err != nil || strings.Contains(out.String(), "as they were written") || !strings.Contains(out.String(), "no agency in this database") {
		t.Errorf("an empty database: %v\n%s", err, out.String())
	}
}
