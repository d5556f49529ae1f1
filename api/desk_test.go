package api_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/gin-gonic/gin"
	"github.com/pb33f/libopenapi"
	validator "github.com/pb33f/libopenapi-validator"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
	"wellshown/integration/ward"
)

// desk is a ward with the API in front of it. Every request and every answer that
// goes over it is held to the OpenAPI document.
type desk struct {
	*ward.Ward
	t      *testing.T
	engine *gin.Engine
	tokens map[assessment.PersonID]string
	shown  map[string]bool // operations that were answered as hoped for
}

func newDesk(t *testing.T, options ...ward.Option) *desk {
	t.Helper()
	d := &desk{t: t, tokens: map[assessment.PersonID]string{}, shown: map[string]bool{}}
	d.Ward = ward.New(t, append(options, ward.WithPackets, ward.WithCertificate(func(f office.CertificateFacts) ([]byte, error) {
		return []byte("%PDF-1.4\n" + f.Person + "\n" + f.Title + "\n" + f.Code), nil
	}))...)
	d.engine = engineFor(d.Office, api.ByBearer(d.Office))
	return d
}

func engineFor(o *office.Office, identify api.Identify) *gin.Engine {
	gin.SetMode(gin.TestMode)
	engine := gin.New()
	api.Routes(engine, o, identify, papers(o))
	return engine
}

// papers say in plain text what was asked for; the office answers first, as it does
// for papers that are drawn.
func papers(o *office.Office) api.Papers {
	return api.Papers{
		Record: func(ctx context.Context, by assessment.Actor, id assessment.DemonstrationID, in wording.Language) ([]byte, string, error) {
			v, err := o.Demonstration(ctx, by, id)
			return []byte("%PDF record " + string(in) + " " + v.Learner), "record.pdf", err
		},
		Page: func(ctx context.Context, by assessment.Actor, id assessment.DemonstrationID, number int) ([]byte, string, error) {
			v, err := o.PaperPage(ctx, by, id, number)
			return v.Content, "page-1.jpg", err
		},
		Blank: func(ctx context.Context, by assessment.Actor, id assessment.RevisionID) ([]byte, string, error) {
			v, err := o.Checklist(ctx, by, id)
			return []byte("%PDF blank " + v.Checklist.Title), "blank.pdf", err
		},
		Certificate: func(ctx context.Context, by assessment.Actor, id assessment.CertificateID) ([]byte, string, error) {
			c, err := o.Certificate(ctx, by, id)
			return c.PDF, fmt.Sprintf("certificate-%d.pdf", c.Number), err
		},
		Transcript: func(ctx context.Context, by assessment.Actor, id assessment.PersonID, on civil.Date, in wording.Language) ([]byte, string, error) {
			v, err := o.Transcript(ctx, by, id, on)
			return []byte("%PDF transcript " + string(in) + " " + v.Standings.Person.Name), "Łucja \"x\".pdf", err
		},
		Handover: func(ctx context.Context, by assessment.Actor, id assessment.PersonID) ([]byte, string, error) {
			made, err := o.Handover(ctx, by, id)
			return made.File, "handover.json", err
		},
		Questions: func(ctx context.Context, by assessment.Actor, code string, in wording.Language) ([]byte, string, error) {
			v, err := o.ReadItems(ctx, by, code)
			return fmt.Appendf(nil, "%%PDF %d questions on %s", len(v.Items), v.Skill.Title), "questions.pdf", err
		},
		Lesson: func(ctx context.Context, by assessment.Actor, code string, in wording.Language) ([]byte, string, error) {
			v, err := o.TaughtLesson(ctx, by, code, in)
			return []byte("%PDF lesson " + v.Title), "lesson.pdf", err
		},
		Lessons: func(ctx context.Context, by assessment.Actor, in wording.Language) ([]byte, string, error) {
			v, err := o.TaughtLessons(ctx, by, in)
			return fmt.Appendf(nil, "%%PDF %d lessons", len(v)), "lessons.pdf", err
		},
		Readiness: func(ctx context.Context, by assessment.Actor, id assessment.ClientID, at time.Time, in wording.Language) ([]byte, string, error) {
			v, err := o.Readiness(ctx, by, id, at)
			return []byte("%PDF readiness " + string(in) + " " + v.Client.FirstName), "readiness.pdf", err
		},
		Overdue: func(ctx context.Context, by assessment.Actor, q office.OverdueQuery) ([]byte, string, error) {
			v, err := o.Overdue(ctx, by, q)
			return []byte("%PDF overdue " + v.On.String()), "overdue.pdf", err
		},
		OverdueCSV: func(ctx context.Context, by assessment.Actor, q office.OverdueQuery) ([]byte, string, error) {
			v, err := o.Overdue(ctx, by, q)
			return []byte("on\r\n" + v.On.String() + "\r\n"), "overdue.csv", err
		},
		Coverage: func(ctx context.Context, by assessment.Actor, q office.CoverageQuery) ([]byte, string, error) {
			v, err := o.Coverage(ctx, by, q)
			return []byte("%PDF coverage " + v.From.String()), "coverage.pdf", err
		},
		Visits: func(ctx context.Context, by assessment.Actor, q office.VisitQuery) ([]byte, string, error) {
			v, err := o.Visits(ctx, by, q)
			return []byte("%PDF visits " + v.Until.String()), "visits.pdf", err
		},
		Packet: func(ctx context.Context, by assessment.Actor, id assessment.PacketID, format string) ([]byte, string, error) {
			v, _, _, err := o.PacketFiles(ctx, by, id)
			begins := map[string]string{"pdf": "%PDF packet pdf " + v.Person, "json": `{"packet":"json ` + v.Person + `"}`, "zip": "PK packet zip"}
			return []byte(begins[format]), "packet." + format, err
		},
		VisitsICS: func(ctx context.Context, by assessment.Actor, q office.VisitQuery) ([]byte, string, error) {
			v, err := o.Visits(ctx, by, q)
			return []byte("BEGIN:VCALENDAR " + v.Until.String()), "visits.ics", err
		},
		CoverageCSV: func(ctx context.Context, by assessment.Actor, q office.CoverageQuery) ([]byte, string, error) {
			v, err := o.Coverage(ctx, by, q)
			return []byte("day\r\n" + v.From.String()), "coverage.csv", err
		},
		CoverageXLSX: func(ctx context.Context, by assessment.Actor, q office.CoverageQuery) ([]byte, string, error) {
			v, err := o.Coverage(ctx, by, q)
			return []byte("PK coverage " + v.From.String()), "coverage.xlsx", err
		},
		OverdueXLSX: func(ctx context.Context, by assessment.Actor, q office.OverdueQuery) ([]byte, string, error) {
			v, err := o.Overdue(ctx, by, q)
			return []byte("PK overdue " + v.On.String()), "overdue.xlsx", err
		},
		StandingsCSV: func(ctx context.Context, by assessment.Actor, q office.GridQuery) ([]byte, string, error) {
			g, err := o.Grid(ctx, by, q)
			return []byte("on\r\n" + g.On.String() + "\r\n"), "standings.csv", err
		},
		StandingsXLSX: func(ctx context.Context, by assessment.Actor, q office.GridQuery) ([]byte, string, error) {
			g, err := o.Grid(ctx, by, q)
			return []byte("PK standings " + g.On.String()), "standings.xlsx", err
		},
		LearningPlan: func(ctx context.Context, by assessment.Actor, id assessment.PersonID, in wording.Language) ([]byte, string, error) {
			v, err := o.LearningPlan(ctx, by, id)
			return []byte("%PDF learning plan " + string(in) + " " + v.Person.Name), "learning-plan.pdf", err
		},
		HomePaper: func(ctx context.Context, by assessment.Actor, id assessment.ClientID, which assessment.HomePaper, in wording.Language) ([]byte, string, error) {
			v, err := o.HomePapers(ctx, by, id)
			return []byte("%PDF " + string(which) + " of " + v.FirstName + " in " + string(in)), "home.pdf", err
		},
		SkillsDayCards: func(ctx context.Context, by assessment.Actor, id assessment.SkillsDayID) ([]byte, string, error) {
			v, err := o.SkillsDay(ctx, by, id)
			return []byte("%PDF cards " + v.Name), "cards.pdf", err
		},
	}
}

// rules is the document, read once.
var rules = sync.OnceValue(func() validator.Validator {
	engine := engineFor(office.New(nil, office.Options{}), nil)
	w := httptest.NewRecorder()
	engine.ServeHTTP(w, httptest.NewRequest(http.MethodGet, api.Base+"/openapi.json", nil))
	doc, err := libopenapi.NewDocument(w.Body.Bytes())
	if err != nil {
		panic(err)
	}
	v, errs := validator.NewValidator(doc)
	if len(errs) > 0 {
		panic(errs[0])
	}
	return v
})

// token is that of a session of somebody, opened over the API when it is first
// asked for.
func (d *desk) token(who assessment.Actor) string {
	d.t.Helper()
	if d.tokens[who.Person] == "" {
		var s api.Session
		d.post("/sessions", assessment.Actor{}, api.SignIn{Email: d.Email(who), Password: ward.Password}).into(http.StatusCreated, &s)
		d.tokens[who.Person] = s.Token
	}
	return d.tokens[who.Person]
}

func (d *desk) get(path string, who assessment.Actor) *answer {
	d.t.Helper()
	return d.send(http.MethodGet, path, who, nil)
}

func (d *desk) post(path string, who assessment.Actor, body any) *answer {
	d.t.Helper()
	return d.send(http.MethodPost, path, who, body)
}

func (d *desk) put(path string, who assessment.Actor, body any) *answer {
	d.t.Helper()
	return d.send(http.MethodPut, path, who, body)
}

func (d *desk) delete(path string, who assessment.Actor) *answer {
	d.t.Helper()
	return d.send(http.MethodDelete, path, who, nil)
}

// raw is a body that is sent as it is.
type raw struct{ kind, text string }

// send asks as somebody, or as nobody for the zero actor.
func (d *desk) send(method, path string, who assessment.Actor, body any, headers ...string) *answer {
	d.t.Helper()
	if who.Person != "" {
		headers = append(headers, "Authorization", "Bearer "+d.token(who))
	}
	return d.raw(method, path, body, headers...)
}

// raw asks with these headers and no others, and holds question and answer to the
// document: the answer always, the question where it was answered as hoped for.
func (d *desk) raw(method, path string, body any, headers ...string) *answer {
	d.t.Helper()
	kind, text := encode(d.t, body)
	request := func() *http.Request {
		r := httptest.NewRequest(method, api.Base+path, strings.NewReader(text))
		if text == "" {
			r = httptest.NewRequest(method, api.Base+path, nil)
		}
		if kind != "" {
			r.Header.Set("Content-Type", kind)
		}
		for i := 0; i < len(headers); i += 2 {
			r.Header.Set(headers[i], headers[i+1])
		}
		return r
	}
	w := httptest.NewRecorder()
	d.engine.ServeHTTP(w, request())
	a := &answer{t: d.t, asked: method + " " + path, status: w.Code, header: w.Header(), body: w.Body.Bytes()}
	d.hold(request, a)
	return a
}

func encode(t *testing.T, body any) (kind, text string) {
	t.Helper()
	switch b := body.(type) {
	case nil:
		return "", ""
	case raw:
		return b.kind, b.text
	}
	src, err := json.Marshal(body)
	if err != nil {
		t.Fatal(err)
	}
	return "application/json", string(src)
}

func (d *desk) hold(request func() *http.Request, a *answer) {
	d.t.Helper()
	known := a.status != http.StatusMethodNotAllowed && !strings.Contains(string(a.body), "There is nothing at this address.")
	if !known {
		return
	}
	result := &http.Response{StatusCode: a.status, Header: a.header, Body: io.NopCloser(bytes.NewReader(a.body)), Request: request()}
	if ok, faults := rules().ValidateHttpResponse(request(), result); !ok {
		for _, f := range faults {
			d.t.Errorf("%s: the answer %d is not what the document says: %s: %s %v\n%s", a.asked, a.status, f.Message, f.Reason, f.SchemaValidationErrors, a.body)
		}
	}
	if a.status >= 300 {
		return
	}
	if ok, faults := rules().ValidateHttpRequest(request()); !ok {
		for _, f := range faults {
			d.t.Errorf("%s: the question is not what the document says, and was answered: %s: %s %v", a.asked, f.Message, f.Reason, f.SchemaValidationErrors)
		}
	}
	d.shown[operation(request())] = true
}

// operation names the line of the table that a request falls under.
func operation(r *http.Request) string {
	asked := strings.Split(r.URL.Path, "/")
	best, fixed := "", -1
	for _, line := range api.Table() {
		parts := strings.Split(line.Path, "/")
		if line.Method != r.Method || len(parts) != len(asked) {
			continue
		}
		same, fits := 0, true
		for i, p := range parts {
			switch {
			case p == asked[i]:
				same++
			case !strings.HasPrefix(p, "{"):
				fits = false
			}
		}
		if fits && same > fixed {
			best, fixed = line.Operation, same
		}
	}
	return best
}
