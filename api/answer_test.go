package api_test

import (
	"encoding/json"
	"fmt"
	"net/http"
	"strings"
	"testing"

	"wellshown/api"
)

// answer is what came back.
type answer struct {
	t      *testing.T
	asked  string
	status int
	header http.Header
	body   []byte
}

// is fails the test unless the answer has this status.
func (a *answer) is(status int) *answer {
	a.t.Helper()
	if a.status != status {
		a.t.Fatalf("%s: status %d, want %d: %s", a.asked, a.status, status, a.body)
	}
	return a
}

// into reads an answer of this status.
func (a *answer) into(status int, v any) *answer {
	a.t.Helper()
	a.is(status)
	if err := json.Unmarshal(a.body, v); err != nil {
		a.t.Fatalf("%s: %v: %s", a.asked, err, a.body)
	}
	return a
}

// problem reads a refusal of this status, and checks what all refusals have.
func (a *answer) problem(status int) api.Problem {
	a.t.Helper()
	var p api.Problem
	a.into(status, &p)
	if got := a.header.Get("Content-Type"); got != "application/problem+json" {
		a.t.Errorf("%s: a refusal comes as %q", a.asked, got)
	}
	if p.Status != status || p.Title == "" || p.Detail == "" || !strings.HasPrefix(p.Type, api.Base+"/problems/") {
		a.t.Errorf("%s: the problem is not whole: %s", a.asked, a.body)
	}
	if p.Instance != api.Base+"/requests/"+a.header.Get("X-Request-Id") {
		a.t.Errorf("%s: the instance %q does not name the request %q", a.asked, p.Instance, a.header.Get("X-Request-Id"))
	}
	return p
}

// field checks that a refusal names a field and gives what it says of it.
func field(t *testing.T, p api.Problem, location string) string {
	t.Helper()
	for _, f := range p.Errors {
		if f.Location == location {
			return f.Detail
		}
	}
	t.Errorf("nothing is said of %q: %+v", location, p)
	return ""
}

func path(format string, args ...any) string { return fmt.Sprintf(format, args...) }
