package main

import (
	"context"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"regexp"
	"strings"
	"testing"
	"time"

	"golang.org/x/net/html"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/cmd/wellshown/demo"
	"wellshown/integration/testdb"
	"wellshown/migrations"
	"wellshown/reports"
)

// agreement is the demo as it is served, asked as a surveyor who has signed in.
type agreement struct {
	t        testing.TB
	office   *office.Office
	desk     assessment.Actor
	server   *httptest.Server
	signIns  []demo.SignIn
	token    string
	people   []office.PersonView
	clients  []office.ClientView
	compared map[string]int
	wrong    int
}

// TestPageAPIReportAndFoldAgree: for every caregiver, skill and child of the demo
// and fifty days each, the page, the API and the report (which read the index) say
// what the fold says.
func TestPageAPIReportAndFoldAgree(t *testing.T) {
	a := newAgreement(t)
	today := civil.DayOf(time.Now(), mustZone(t))
	for i := range 50 {
		on := today.AddDays(-740 + 23*i + i%3)
		fold := a.fold(on)
		for _, c := range a.clients {
			a.page(on, c, fold)
		}
		a.api(on, fold)
		a.report(on, fold)
	}
	t.Logf("compared with the fold: %v, %d wrong", a.compared, a.wrong)
	for _, way := range []string{"page", "api", "report"} {
		if a.compared[way] < 1000 {
			t.Errorf("only %d answers of the %s were compared", a.compared[way], way)
		}
	}
}

func mustZone(t testing.TB) *time.Location {
	zone, err := time.LoadLocation(demo.Zone)
	if err != nil {
		t.Fatal(err)
	}
	return zone
}

func newAgreement(t testing.TB) *agreement {
	t.Helper()
	slog.SetDefault(slog.New(slog.DiscardHandler)) // thousands of requests
	if err := reports.Prepare(); err != nil {
		t.Fatal(err)
	}
	database := testdb.New(t)
	db, err := postgres.Open(t.Context(), database.ServiceURL)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(db.Close)
	draw := func(office.CertificateFacts) ([]byte, error) { return []byte("%PDF"), nil }
	made, err := demo.Make(t.Context(), db, demo.Options{Now: time.Now(), Seed: 7, Certificate: draw, BaseURL: "https://shown.example",
		Doubled: func(ctx context.Context) error { return migrations.Analyze(ctx, database.OwnerURL) }})
	if err != nil {
		t.Fatal(err)
	}
	a := &agreement{t: t, office: office.New(db, office.Options{}), compared: map[string]int{}}
	if a.desk, err = a.office.Desk(t.Context(), demo.Code); err != nil {
		t.Fatal(err)
	}
	a.server = httptest.NewServer(handler(config{BaseURL: "http://127.0.0.1"}, a.office))
	t.Cleanup(a.server.Close)
	a.signIns = made.SignIns
	a.signIn("surveyor")
	a.everybody()
	return a
}

func (a *agreement) signIn(role string) {
	a.t.Helper()
	for _, s := range a.signIns {
		if s.Role != role {
			continue
		}
		var err error
		if a.token, _, err = a.office.SignIn(a.t.Context(), office.SignInForm{Email: s.Email, Password: s.Secret, Address: "test"}); err != nil {
			a.t.Fatal(err)
		}
		return
	}
	a.t.Fatalf("the demo has no %s", role)
}

func (a *agreement) everybody() {
	var err error
	if a.clients, err = a.office.Clients(a.t.Context(), a.desk, ""); err != nil {
		a.t.Fatal(err)
	}
	for after := ""; ; {
		page, next, err := a.office.People(a.t.Context(), a.desk, office.PeopleQuery{Left: true, After: after, Limit: 200})
		if err != nil {
			a.t.Fatal(err)
		}
		for _, p := range page {
			if p.Kind != "" {
				a.people = append(a.people, p)
			}
		}
		if after = next; after == "" {
			return
		}
	}
}

// key names a case as pages and papers do: person, skill, child.
func key(person assessment.PersonID, skill, client string) string {
	return fmt.Sprint(person, " | ", skill, " | ", client)
}

func line(word string, through civil.Date, holds bool) string {
	if !holds {
		return word
	}
	return word + " through " + through.String()
}

func (a *agreement) fold(on civil.Date) map[string]office.StandingView {
	a.t.Helper()
	fold := map[string]office.StandingView{}
	for _, p := range a.people {
		v, err := a.office.StandingsOf(a.t.Context(), a.desk, p.ID, on)
		if err != nil {
			a.t.Fatal(err)
		}
		for _, r := range v.Rows {
			fold[key(p.ID, r.Skill.Title, r.Client.Code)] = r
		}
	}
	return fold
}

// same compares one answer with the fold, which says "not started" where nothing is known.
func (a *agreement) same(way, k string, on civil.Date, said string, fold map[string]office.StandingView) {
	a.compared[way]++
	want := line(string(assessment.NotStarted), civil.Date{}, false)
	if r, ok := fold[k]; ok {
		want = line(string(r.Word), r.Through, r.Word.Holds())
	}
	if said != want {
		if a.wrong++; a.wrong <= 20 {
			a.t.Errorf("%s on %s: the %s says %q, the fold %q", k, on, way, said, want)
		}
	}
}

func (a *agreement) get(path string) []byte {
	a.t.Helper()
	r, err := http.NewRequest(http.MethodGet, a.server.URL+path, nil)
	if err != nil {
		a.t.Fatal(err)
	}
	if strings.HasPrefix(path, "/api/") {
		r.Header.Set("Authorization", "Bearer "+a.token)
	} else {
		r.AddCookie(&http.Cookie{Name: "wellshown", Value: a.token})
	}
	answer, err := a.server.Client().Do(r)
	if err != nil {
		a.t.Fatal(err)
	}
	defer answer.Body.Close()
	body, err := io.ReadAll(answer.Body)
	if err != nil || answer.StatusCode != http.StatusOK {
		a.t.Fatalf("GET %s: %d, %v: %.300s", path, answer.StatusCode, err, body)
	}
	return body
}

var cellTitle = regexp.MustCompile(`^(.+?)(?:, for .+, ([A-Z0-9-]+))?: ([a-z ]+)(?:, through (\d{1,2} \w{3} \d{4}))?$`)

// page reads the grid of one child's team as it is drawn.
func (a *agreement) page(on civil.Date, c office.ClientView, fold map[string]office.StandingView) {
	a.t.Helper()
	root, err := html.Parse(strings.NewReader(string(a.get(fmt.Sprintf("/standings?on=%s&client=%s", on, c.ID)))))
	if err != nil {
		a.t.Fatal(err)
	}
	person := assessment.PersonID("")
	for n := range root.Descendants() {
		if id, ok := strings.CutPrefix(attribute(n, "href"), "/people/"); ok && n.Parent != nil && n.Parent.Data == "th" {
			person = assessment.PersonID(id[:36])
		}
		m := cellTitle.FindStringSubmatch(attribute(n, "title"))
		if n.Data != "a" || m == nil {
			continue
		}
		word := assessment.StandingWord(m[3])
		through := civil.Date{}
		if word.Holds() {
			through = readDay(a.t, m[4])
		}
		a.same("page", key(person, m[1], m[2]), on, line(m[3], through, word.Holds()), fold)
	}
}

func attribute(n *html.Node, name string) string {
	for _, at := range n.Attr {
		if at.Key == name {
			return at.Val
		}
	}
	return ""
}

func readDay(t testing.TB, text string) civil.Date {
	t.Helper()
	d, err := time.Parse("2 Jan 2006", text)
	if err != nil {
		t.Fatal(err)
	}
	return civil.Of(d.Date())
}

func (a *agreement) api(on civil.Date, fold map[string]office.StandingView) {
	a.t.Helper()
	for _, c := range a.clients {
		var grid struct {
			Skills []struct{ Title string }
			Rows   []struct {
				Person struct{ ID assessment.PersonID }
				Cells  []struct {
					Standing, Through string
					Holds             bool
					Client            *struct{ Code string }
				}
			}
		}
		if err := json.Unmarshal(a.get(fmt.Sprintf("/api/v1/grid?on=%s&client=%s", on, c.ID)), &grid); err != nil {
			a.t.Fatal(err)
		}
		for _, row := range grid.Rows {
			for i, cell := range row.Cells {
				if cell.Standing == "" {
					continue
				}
				code, through := "", civil.Date{}
				if cell.Client != nil {
					code = cell.Client.Code
				}
				if cell.Holds {
					through = civil.MustParse(cell.Through)
				}
				a.same("api", key(row.Person.ID, grid.Skills[i].Title, code), on, line(cell.Standing, through, cell.Holds), fold)
			}
		}
	}
}

// report reads the overdue report: each line says what the fold says, and nobody
// who has to hold a skill and does not is missing from it.
func (a *agreement) report(on civil.Date, fold map[string]office.StandingView) {
	a.t.Helper()
	rows, err := csv.NewReader(strings.NewReader(string(a.get(fmt.Sprintf("/overdue.csv?on=%s&within=3660", on))))).ReadAll()
	if err != nil {
		a.t.Fatal(err)
	}
	byName := map[string]assessment.PersonID{}
	for _, p := range a.people {
		byName[p.Name] = p.ID
	}
	listed := map[string]bool{}
	for _, r := range rows[1:] {
		k := key(byName[r[1]], r[5], r[6])
		listed[k] = true
		word := assessment.StandingWord(r[8])
		through := civil.Date{}
		if word.Holds() {
			through = civil.MustParse(r[9])
		}
		a.same("report", k, on, line(r[8], through, word.Holds()), fold)
	}
	for k, r := range fold {
		left := false
		for _, p := range a.people {
			left = left || p.ID == r.Person.ID && !p.LeftOn.IsZero() && !on.Before(p.LeftOn)
		}
		if r.Required && r.Word != assessment.Waived && !left && !listed[k] {
			a.t.Errorf("%s on %s: required, %s, and not in the report", k, on, r.Word)
		}
	}
}
