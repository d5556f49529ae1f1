package office_test

import (
	"strings"
	"testing"

	"wellshown/assessment/fault"
)

// wantRefusal fails the test unless err is a refusal of a kind that says something.
func wantRefusal(t *testing.T, err error, kind fault.Kind, says string) {
	t.Helper()
	if fault.KindOf(err) != kind || !strings.Contains(err.Error(), says) {
		t.Errorf("got %v (kind %d), want kind %d saying %q", err, fault.KindOf(err), kind, says)
	}
}

// wantAtField fails the test unless err is a fault of a form at one field that
// says something there.
func wantAtField(t *testing.T, err error, field, says string) {
	t.Helper()
	f, ok := fault.As(err)
	if !ok || f.Kind != fault.Invalid || !strings.Contains(f.Fields[field], says) || f.Fields[field] == "" {
		t.Errorf("got %v, want a fault at %s saying %q", err, field, says)
	}
}

// must hands on what a call gave, and stops the test where it gave an error:
// must(call())(t).
func must[T any](v T, err error) func(*testing.T) T {
	return func(t *testing.T) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

// wantNone stops the test where there is an error.
func wantNone(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}
