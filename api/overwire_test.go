package api_test

import (
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/assessment/office"
)

// Over a real connection, behind a limit of somebody else's.
func TestOverTheWire(t *testing.T) {
	t.Parallel()
	engine := engineFor(office.New(nil, office.Options{}), func(*http.Request) (assessment.Actor, error) {
		return assessment.Actor{Roles: assessment.Roles}, nil
	})
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		r.Body = http.MaxBytesReader(w, r.Body, 1<<20)
		engine.ServeHTTP(w, r)
	}))
	defer server.Close()
	for name, c := range map[string]struct {
		size, status int
		says         string
	}{
		"too large for both": {3 << 20, http.StatusRequestEntityTooLarge, "too-large"},
		"as large as may be": {1 << 20, http.StatusUnprocessableEntity, "invalid"},
		"nothing in it":      {0, http.StatusBadRequest, "malformed"},
	} {
		body := strings.Repeat(" ", c.size)
		if c.size == 1<<20 {
			body = "{}" + body[2:]
		}
		r, err := http.Post(server.URL+api.Base+"/people", "application/json", strings.NewReader(body))
		if err != nil {
			t.Fatal(err)
		}
		answer, err := io.ReadAll(r.Body)
		r.Body.Close()
		if err != nil || r.StatusCode != c.status || !strings.Contains(string(answer), "/problems/"+c.says) {
			t.Errorf("%s: %d %s %v", name, r.StatusCode, answer, err)
		}
	}
}
