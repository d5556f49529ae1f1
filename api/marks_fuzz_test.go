package api

import (
	"context"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"

	"github.com/danielgtaylor/huma/v2"
	"github.com/danielgtaylor/huma/v2/adapters/humagin"
	"github.com/gin-gonic/gin"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// FuzzMarkBody sends whatever it likes as the mark of a step. Either it is refused
// with a problem that tells nothing of what was sent but names and places, or what
// reaches the office is one of the five marks, or none, and says what the body said.
func FuzzMarkBody(f *testing.F) {
	for _, seed := range []string{
		`{"mark":"independent"}`,
		`{"mark":"not met","note":"Łucja did not look."}`,
		`{"mark":"cued","readings":{"time":{"value":"14.9","unit":"s"}}}`,
		`{"not_applicable":true,"reason":"None is ordered."}`,
		`{"mark":"Independent"}`, `{"Mark":"independent"}`, `{"mark":"unsafe","mark":"independent"}`,
		`{"mark":null}`, `{"readings":[]}`, `{"mark":1}`, `null`, ``, `{`, `{"mark":"independent"} x`,
	} {
		f.Add([]byte(seed))
	}
	var reached *office.MarkForm
	engine := markEngine(func(m office.MarkForm) { reached = &m })
	f.Fuzz(func(t *testing.T, body []byte) {
		reached = nil
		r := httptest.NewRequest(http.MethodPut, Base+"/sheets/0197a1d0-0000-7000-8000-000000000001/marks/3", strings.NewReader(string(body)))
		r.Header.Set("Content-Type", "application/json")
		w := httptest.NewRecorder()
		engine.ServeHTTP(w, r)
		if reached == nil {
			checkMarkRefused(t, w)
			return
		}
		checkMarkRead(t, body, *reached)
	})
}

// markEngine is the real route with the real handler's reading, and no office behind it.
func markEngine(take func(office.MarkForm)) *gin.Engine {
	gin.SetMode(gin.TestMode)
	engine := gin.New()
	door := humagin.NewWithGroup(engine, engine.Group(Base, caught, readable, whole), config())
	huma.Register(door, huma.Operation{Method: http.MethodPut, Path: "/sheets/{id}/marks/{step}", OperationID: "mark-step"},
		func(_ context.Context, in *markBody) (*done, error) {
			_, step, err := in.read()
			if err != nil {
				return nil, err
			}
			take(in.Body.form(step))
			return nil, nil
		})
	return engine
}

func checkMarkRefused(t *testing.T, w *httptest.ResponseRecorder) {
	t.Helper()
	var p Problem
	if err := json.Unmarshal(w.Body.Bytes(), &p); err != nil {
		t.Fatalf("a refusal that is no problem: %d %q: %v", w.Code, w.Body, err)
	}
	if !slices.Contains([]int{http.StatusBadRequest, http.StatusUnprocessableEntity}, w.Code) || p.Status != w.Code {
		t.Fatalf("refused with %d: %s", w.Code, w.Body)
	}
	if strings.Contains(w.Body.String(), `"value":`) {
		t.Fatalf("the refusal tells back what was sent: %s", w.Body)
	}
}

func checkMarkRead(t *testing.T, body []byte, got office.MarkForm) {
	t.Helper()
	if got.Step != 3 || got.Mark != "" && !assessment.Mark(got.Mark).Valid() {
		t.Fatalf("%q reached the office as %+v", body, got)
	}
	var sent struct {
		Mark          string
		NotApplicable bool `json:"not_applicable"`
		Reason, Note  string
		Readings      map[string]struct{ Value, Unit string }
	}
	if err := json.Unmarshal(body, &sent); err != nil {
		t.Fatalf("%q is no JSON and reached the office: %v", body, err)
	}
	if got.Mark != sent.Mark || got.NotApplicable != sent.NotApplicable || got.Reason != sent.Reason || got.Note != sent.Note || len(got.Readings) != len(sent.Readings) {
		t.Fatalf("%q reached the office as %+v", body, got)
	}
	for name, r := range sent.Readings {
		if got.Readings[name].Value != r.Value || got.Readings[name].Unit != r.Unit {
			t.Fatalf("%q reached the office as %+v", body, got)
		}
	}
}
