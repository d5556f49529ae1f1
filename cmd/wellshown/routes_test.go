package main

import (
	"bytes"
	"encoding/json"
	"image"
	"image/jpeg"
	"log/slog"
	"maps"
	"net/http"
	"net/http/httptest"
	"regexp"
	"slices"
	"strings"
	"sync/atomic"
	"testing"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/assessment/ledger"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/integration/ward"
	"wellshown/reports"
	"wellshown/web"
)

// walked is one route as the assembled service has it, and what the tables say of it.
type walked struct {
	method, path string
	act          assessment.Act
	public, api  bool
	needs        []string          // fields of the body that the API's document asks for
	types        map[string]string // of all of them
	takes        string            // media type of the body
}

// walk is two agencies in one database behind the assembled service.
type walk struct {
	t          *testing.T
	own        *ward.Ward
	office     *office.Office
	handler    http.Handler
	routes     []walked
	statements *atomic.Int64
	yaml       string // a checklist as it is written by hand
	photo      string // a page of paper
}

// TestEveryRouteAnswersAsThePermissionsSay sends a real request for every route of
// the assembled service, as every role and as nobody, about things of one's own,
// things beyond one's reach, another agency's, and what never was. There is no
// published source for the table itself: what is held here is that the service does
// what the table says.
func TestEveryRouteAnswersAsThePermissionsSay(t *testing.T) {
	w := newWalk(t)
	own, parent := casefile(t, w.own, "go-bag", "7K", "Mira")
	outside, _ := casefile(t, w.own, "bagging", "8Q", "Tam")
	outside["device"], outside["device-owner"] = "", string(w.own.Educators[1].Person)
	outside.renew(t, w.own, "device")
	foreign, _ := casefile(t, ward.Beside(t, w.own, withPaper), "go-bag", "5P", "Ilse")
	who := map[string]assessment.Actor{"nobody": {}, "administrator": w.own.Admin, "educator": w.own.Educators[0], "coordinator": w.own.Coordinator,
		"caregiver": parent, "surveyor": w.own.Surveyor("Halina Wren"), "surveyor not let in": w.own.Unseeing("Tove Ask"),
		"surveyor of one child":  w.own.LetIn(w.own.Unseeing("Sal Orrin"), office.AccessForm{Clients: []assessment.ClientID{assessment.ClientID(own["client"])}}),
		"surveyor of one person": w.own.LetIn(w.own.Unseeing("Ivo Hale"), office.AccessForm{People: []assessment.PersonID{parent.Person}})}
	places := []place{{"foreign", foreign}, {"never", own.never()}, {"own", own}, {"outside", outside}}
	draft := got(w.own.Office.DraftSource(t.Context(), w.own.Educators[0], assessment.RevisionID(own["revision"])))(t)
	w.yaml = draft.Source
	w.photo = photo(t)
	tried := 0
	finished := map[string]bool{}
	for _, r := range w.routes {
		for _, role := range slices.Sorted(maps.Keys(who)) {
			tried += w.try(r, role, who[role], places, finished)
		}
	}
	w.complainOfUnfinished(finished)
	t.Logf("%d combinations of route, role and agency were tried on %d routes", tried, len(w.routes))
	if tried < 3000 {
		t.Errorf("only %d combinations were tried", tried)
	}
}

// place is whose things a request is about.
type place struct {
	name   string
	things things
}

// photo is a picture of one dot.
func photo(t *testing.T) string {
	t.Helper()
	var b bytes.Buffer
	need(t, jpeg.Encode(&b, image.NewGray(image.Rect(0, 0, 1, 1)), nil))
	return b.String()
}

func withPaper(o *office.Options) { ward.WithCertificate(blankPaper)(o); ward.WithPackets(o) }

func blankPaper(office.CertificateFacts) ([]byte, error) { return []byte("%PDF-1.4\n"), nil }

func newWalk(t *testing.T) walk {
	t.Helper()
	slog.SetDefault(slog.New(slog.DiscardHandler)) // thousands of requests
	need(t, reports.Prepare())
	w := walk{t: t, own: ward.New(t, withPaper), statements: new(atomic.Int64)}
	db := got(postgres.Open(t.Context(), w.own.DB.ServiceURL, postgres.Watched(func(string) { w.statements.Add(1) })))(t)
	t.Cleanup(db.Close)
	c := config{BaseURL: "http://127.0.0.1:8080"}
	w.office = office.New(db, office.Options{Now: w.own.Now, PasswordCost: ward.Cheap, Certificate: blankPaper, BaseURL: c.BaseURL,
		Ledger: got(ledger.ReadKeys(w.own.LedgerKeys))(t)})
	engine := routed(c, w.office)
	w.handler = dressed(c, engine)
	tables := w.tables()
	for _, r := range engine.Routes() {
		line, listed := tables[r.Method+" "+r.Path]
		if !listed {
			t.Errorf("%s %s is served and stands in no table: add it to web/routes.go or api/routes.go with its act", r.Method, r.Path)
			continue
		}
		w.routes = append(w.routes, line)
	}
	if len(w.routes) != len(tables) {
		t.Errorf("%d routes are served, and the tables have %d", len(w.routes), len(tables))
	}
	return w
}

var braced = regexp.MustCompile(`\{(\w+)\}`)

// tables are the routes as web and api list them, by method and address. Only the
// files that pages are drawn with are in neither: they are public.
func (w walk) tables() map[string]walked {
	all := map[string]walked{}
	add := func(r walked) { all[r.method+" "+r.path] = r }
	for _, path := range []string{web.AssetPrefix + "*file", web.BedsidePrefix, web.BedsidePrefix + ":file"} {
		add(walked{method: http.MethodGet, path: path, public: true})
	}
	for _, r := range web.Table() {
		add(walked{method: r.Method, path: r.Path, act: r.Act, public: r.Public})
	}
	bodies := w.bodies()
	for _, r := range api.Table() {
		line := bodies[r.Operation]
		line.method, line.path, line.act, line.public, line.api = r.Method, braced.ReplaceAllString(r.Path, ":$1"), r.Act, r.Public, true
		add(line)
	}
	return all
}

// bodies are what the API's document says of the bodies of its operations.
func (w walk) bodies() map[string]walked {
	type schema struct {
		Ref        string `json:"$ref"`
		Required   []string
		Properties map[string]struct{ Type any }
	}
	var doc struct {
		Paths map[string]map[string]struct {
			OperationID string
			RequestBody struct {
				Content map[string]struct{ Schema schema }
			}
		}
		Components struct{ Schemas map[string]schema }
	}
	answer := httptest.NewRecorder()
	w.handler.ServeHTTP(answer, httptest.NewRequest(http.MethodGet, api.Base+"/openapi.json", nil))
	need(w.t, json.Unmarshal(answer.Body.Bytes(), &doc))
	all := map[string]walked{}
	for _, methods := range doc.Paths {
		for _, op := range methods {
			for takes, content := range op.RequestBody.Content {
				s := content.Schema
				if name, elsewhere := strings.CutPrefix(s.Ref, "#/components/schemas/"); elsewhere {
					s = doc.Components.Schemas[name]
				}
				line := walked{takes: takes, needs: s.Required, types: map[string]string{}}
				for name, p := range s.Properties {
					if line.types[name], _ = p.Type.(string); line.types[name] == "" && p.Type != nil {
						line.types[name] = "array"
					}
					if name == "password" && !slices.Contains(line.needs, name) {
						line.needs = append(line.needs, name)
					}
				}
				all[op.OperationID] = line
			}
		}
	}
	return all
}
