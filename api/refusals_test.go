package api_test

import (
	"errors"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"github.com/gin-gonic/gin"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

const nowhere = "0197a1d0-0000-7000-8000-00000000dead"

// filled puts something at every place of a path.
func filled(line api.Route, id string) string {
	kind := "invalid"
	switch line.Operation {
	case "take-back":
		kind = "withdrawal"
	case "take-back-paper":
		kind = "card"
	}
	return strings.NewReplacer("{id}", id, "{stretch}", id, "{step}", "1", "{number}", "1", "{station}", "1", "{learner}", id, "{code}", "go-bag", "{place}", "1", "{kind}", kind).Replace(line.Path)
}

func ask(engine http.Handler, r *http.Request) *httptest.ResponseRecorder {
	w := httptest.NewRecorder()
	engine.ServeHTTP(w, r)
	return w
}

// Whoever is not known learns nothing, not even whether what they sent could be read.
func TestNobodyUnknownGetsIn(t *testing.T) {
	t.Parallel()
	engine := engineFor(office.New(nil, office.Options{}), api.ByBearer(office.New(nil, office.Options{})))
	for _, line := range api.Table() {
		if line.Public {
			continue
		}
		w := ask(engine, httptest.NewRequest(line.Method, filled(line, nowhere)+"?nonsense=1", strings.NewReader("{nonsense")))
		if w.Code != http.StatusUnauthorized || w.Header().Get("WWW-Authenticate") == "" || !strings.Contains(w.Body.String(), "/problems/signed-out") {
			t.Errorf("%s %s: %d %s", line.Method, line.Path, w.Code, w.Body)
		}
	}
}

// The table of permissions is the core's; here every route is walked with every role
// that it gives nothing to.
func TestEveryRouteRefusesWhoeverMayNot(t *testing.T) {
	t.Parallel()
	acting := assessment.Actor{Agency: nowhere, Person: nowhere, Survey: &assessment.Survey{Whole: true}}
	engine := engineFor(office.New(nil, office.Options{}), func(*http.Request) (assessment.Actor, error) { return acting, nil })
	walked := 0
	for _, line := range api.Table() {
		for _, role := range append(assessment.Roles, "") {
			acting.Roles = []assessment.Role{role}
			if line.Public || acting.Reach(line.Act) != assessment.Nothing {
				continue
			}
			walked++
			w := ask(engine, httptest.NewRequest(line.Method, filled(line, nowhere), strings.NewReader("{nonsense")))
			if w.Code != http.StatusForbidden || !strings.Contains(w.Body.String(), string(line.Act)) {
				t.Errorf("%s %s as %q: %d %s", line.Method, line.Path, role, w.Code, w.Body)
			}
		}
	}
	if walked < len(api.Table()) {
		t.Errorf("only %d pairs of route and role are refused", walked)
	}
}

func TestWhatCannotBeReadIsRefused(t *testing.T) {
	t.Parallel()
	d := newDesk(t)
	token := []string{"Authorization", "Bearer " + d.token(d.Admin)}
	person := `{"name":"A B","kind":"nurse"`
	secret := "Plugged-airway-17"
	for _, c := range []struct {
		name, method, path string
		body               any
		status             int
		location, says     string
	}{
		{"no body", "POST", "/people", nil, 400, "", "nothing in the body"},
		{"bad JSON", "POST", "/people", raw{"application/json", person + `,"` + secret}, 400, "", "line 1"},
		{"no UTF-8", "POST", "/people", raw{"application/json", person + ",\"relation\":\"\xff\"}"}, 400, "", "UTF-8"},
		{"U+0000", "POST", "/people", raw{"application/json", person + `,"relation":"` + secret + `\u0000"}`}, 400, "", "U+0000"},
		{"a name twice", "POST", "/people", raw{"application/json", person + `,"name":"` + secret + `"}`}, 400, "", `"name" stands twice`},
		{"another form", "POST", "/people", raw{"text/plain", person + "}"}, 415, "", "application/json"},
		{"a form of a browser", "POST", "/people", raw{"application/x-www-form-urlencoded", "name=A"}, 415, "", "application/json"},
		{"YAML as JSON", "POST", "/skills", raw{"application/json", "{}"}, 415, "", "application/yaml"},
		{"too large", "POST", "/people", raw{"application/json", person + `,"relation":"` + strings.Repeat("x", 1<<20) + `"}`}, 413, "", "1 MiB"},
		{"a list", "POST", "/people", raw{"application/json", "[]"}, 422, "", "This is an object."},
		{"unknown field", "POST", "/people", raw{"application/json", person + `,"nickname":"` + secret + `"}`}, 422, "nickname", "no such field"},
		{"another case", "POST", "/people", raw{"application/json", `{"Name":"` + secret + `"}`}, 422, "Name", "no such field"},
		{"a missing field", "POST", "/people", raw{"application/json", `{"kind":"nurse"}`}, 422, "name", "must be given"},
		{"a number for text", "POST", "/people", raw{"application/json", `{"name":17}`}, 422, "name", "This is text."},
		{"one of several", "POST", "/people", raw{"application/json", `{"name":"A","kind":"` + secret + `"}`}, 422, "kind", "family, nurse, aide"},
		{"in a list", "POST", "/people", raw{"application/json", `{"name":"A","roles":["` + secret + `"]}`}, 422, "roles[0]", "administrator"},
		{"no day", "PUT", "/people/" + nowhere + "/departure", raw{"application/json", `{"on":"2026-02-30"}`}, 422, "on", "YYYY-MM-DD"},
		{"unknown parameter", "GET", "/people?Find=x", nil, 400, "query.Find", "no such parameter"},
		{"a parameter twice", "GET", "/people?find=a&find=b", nil, 400, "", "given twice"},
		{"a parameter with U+0000", "GET", "/people?find=%00", nil, 400, "", "cannot be read"},
		{"a parameter that is no UTF-8", "GET", "/people?find=%ff", nil, 400, "", "cannot be read"},
		{"a parameter cut off", "GET", "/people?find=%f", nil, 400, "", "question mark"},
		{"no day in a parameter", "GET", "/overdue?on=yesterday", nil, 400, "query.on", "YYYY-MM-DD"},
		{"a year that no calendar has", "GET", "/overdue?on=0000-01-01", nil, 400, "query.on", "YYYY-MM-DD"},
		{"no number in a parameter", "GET", "/people?limit=many", nil, 400, "query.limit", "invalid integer"},
		{"a number out of bounds", "GET", "/people?limit=100000", nil, 400, "query.limit", "at most 200"},
		{"a place that is none", "GET", "/people?after=" + secret, nil, 400, "query.after", "no place in the list"},
		{"a parameter missing", "GET", "/standings?person=" + nowhere, nil, 400, "query.skill", "must be given"},
		{"a path with U+0000", "GET", "/people/%00", nil, 404, "", "There is no such record."},
	} {
		a := d.raw(c.method, c.path, c.body, token...)
		p := a.problem(c.status)
		if c.location != "" {
			if got := field(t, p, c.location); !strings.Contains(got, c.says) {
				t.Errorf("%s: %q is said of %s, want a word of %q", c.name, got, c.location, c.says)
			}
		} else if !strings.Contains(p.Detail, c.says) && !strings.Contains(string(a.body), c.says) {
			t.Errorf("%s: %+v, want a word of %q", c.name, p, c.says)
		}
		if strings.Contains(string(a.body), secret) {
			t.Errorf("%s: the problem tells back what was sent: %s", c.name, a.body)
		}
	}
}

func TestAddressesAndMethodsThatThereAreNot(t *testing.T) {
	t.Parallel()
	engine := engineFor(office.New(nil, office.Options{}), nil)
	for _, c := range []struct {
		method, path, kind, allow string
		status                    int
	}{
		{"GET", "/api/v1/nonsense", "application/problem+json", "", 404},
		{"GET", "/api/v1", "application/problem+json", "", 404},
		{"PATCH", "/api/v1/me/password", "application/problem+json", "PUT", 405},
		{"DELETE", "/api/v1/me", "application/problem+json", "GET", 405},
		{"HEAD", "/api/v1/me", "application/problem+json", "GET", 405},
		{"GET", "/api/v10/people", "text/plain", "", 404},
		{"GET", "/elsewhere", "text/plain", "", 404},
	} {
		w := ask(engine, httptest.NewRequest(c.method, c.path, nil))
		if w.Code != c.status || w.Header().Get("Content-Type") != c.kind || w.Header().Get("Allow") != c.allow {
			t.Errorf("%s %s: %d %q, allow %q", c.method, c.path, w.Code, w.Header().Get("Content-Type"), w.Header().Get("Allow"))
		}
	}
}

// What goes wrong on our side is told in one neutral sentence.
func TestOurFaultsTellNothing(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	by := w.Coordinator
	papers := papers(w.Office)
	papers.Overdue = nil
	if !panics(func() {
		api.Routes(gin.New(), w.Office, nil, papers)
	}) {
		t.Error("a paper that nobody draws is no fault at the start")
	}
	engine := engineFor(w.Office, func(*http.Request) (assessment.Actor, error) { return by, nil })
	w.Postgres.Close()
	broken := engineFor(w.Office, func(*http.Request) (assessment.Actor, error) { panic("boom with a name in it") })
	unknown := engineFor(w.Office, func(*http.Request) (assessment.Actor, error) {
		return by, errors.New("dial tcp: secret.example refused")
	})
	for name, e := range map[string]*gin.Engine{"the database is gone": engine, "a panic": broken, "an error of the identifier": unknown} {
		a := ask(e, httptest.NewRequest(http.MethodGet, api.Base+"/people", nil))
		if a.Code != http.StatusInternalServerError || !strings.Contains(a.Body.String(), "/problems/our-fault") {
			t.Errorf("%s: %d %s", name, a.Code, a.Body)
		}
		for _, word := range []string{"pool", "boom", "dial", "secret", "sql"} {
			if strings.Contains(a.Body.String(), word) {
				t.Errorf("%s: the answer tells %q: %s", name, word, a.Body)
			}
		}
	}
}

func panics(f func()) (did bool) {
	defer func() { did = recover() != nil }()
	f()
	return false
}

// A number that a server before us has given the request is kept.
func TestTheNumberOfARequest(t *testing.T) {
	t.Parallel()
	for sent, want := range map[string]string{"0197a1d0-1111-7000-8000-000000000001": "0197a1d0-1111-7000-8000-000000000001", "af17": "af17", "../x": "", "": ""} {
		engine := gin.New()
		engine.Use(func(c *gin.Context) { c.Header("X-Request-Id", sent) })
		api.Routes(engine, office.New(nil, office.Options{}), nil, papers(nil))
		w := ask(engine, httptest.NewRequest(http.MethodGet, api.Base+"/problems/none", nil))
		got := w.Header().Get("X-Request-Id")
		if want != "" && got != want || got == sent && want == "" || !strings.Contains(w.Body.String(), api.Base+"/requests/"+got+"\"") {
			t.Errorf("numbered %q, the request is %q: %s", sent, got, w.Body)
		}
	}
}
