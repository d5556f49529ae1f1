package integration

import (
	"context"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/gin-gonic/gin"
	"github.com/pb33f/libopenapi"
	validator "github.com/pb33f/libopenapi-validator"
	v3 "github.com/pb33f/libopenapi/datamodel/high/v3"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

// apiAlone is the API without a house behind it: enough for what it says of itself.
func apiAlone(t *testing.T) *gin.Engine {
	t.Helper()
	gin.SetMode(gin.TestMode)
	engine := gin.New()
	none := []byte("%PDF-1.4")
	api.Routes(engine, office.New(nil, office.Options{}), func(*http.Request) (assessment.Actor, error) { return assessment.Actor{}, nil }, api.Papers{
		Record: func(context.Context, assessment.Actor, assessment.DemonstrationID, wording.Language) ([]byte, string, error) {
			return none, "", nil
		},
		Questions: func(context.Context, assessment.Actor, string, wording.Language) ([]byte, string, error) {
			return none, "", nil
		},
		Lesson: func(context.Context, assessment.Actor, string, wording.Language) ([]byte, string, error) {
			return none, "", nil
		},
		Lessons: func(context.Context, assessment.Actor, wording.Language) ([]byte, string, error) {
			return none, "", nil
		},
		Packet: func(context.Context, assessment.Actor, assessment.PacketID, string) ([]byte, string, error) {
			return none, "", nil
		},
		Page: func(context.Context, assessment.Actor, assessment.DemonstrationID, int) ([]byte, string, error) {
			return none, "", nil
		},
		Blank: func(context.Context, assessment.Actor, assessment.RevisionID) ([]byte, string, error) {
			return none, "", nil
		},
		Certificate: func(context.Context, assessment.Actor, assessment.CertificateID) ([]byte, string, error) {
			return none, "", nil
		},
		Transcript: func(context.Context, assessment.Actor, assessment.PersonID, civil.Date, wording.Language) ([]byte, string, error) {
			return none, "", nil
		},
		Handover: func(context.Context, assessment.Actor, assessment.PersonID) ([]byte, string, error) {
			return none, "", nil
		},
		Readiness: func(context.Context, assessment.Actor, assessment.ClientID, time.Time, wording.Language) ([]byte, string, error) {
			return none, "", nil
		},
		Overdue: func(context.Context, assessment.Actor, office.OverdueQuery) ([]byte, string, error) {
			return none, "", nil
		},
		OverdueCSV: func(context.Context, assessment.Actor, office.OverdueQuery) ([]byte, string, error) {
			return none, "", nil
		},
		Coverage: func(context.Context, assessment.Actor, office.CoverageQuery) ([]byte, string, error) {
			return none, "", nil
		},
		Visits: func(context.Context, assessment.Actor, office.VisitQuery) ([]byte, string, error) {
			return none, "", nil
		},
		VisitsICS: func(context.Context, assessment.Actor, office.VisitQuery) ([]byte, string, error) {
			return none, "", nil
		},
		CoverageCSV: func(context.Context, assessment.Actor, office.CoverageQuery) ([]byte, string, error) {
			return none, "", nil
		},
		CoverageXLSX: func(context.Context, assessment.Actor, office.CoverageQuery) ([]byte, string, error) {
			return none, "", nil
		},
		OverdueXLSX: func(context.Context, assessment.Actor, office.OverdueQuery) ([]byte, string, error) {
			return none, "", nil
		},
		StandingsCSV: func(context.Context, assessment.Actor, office.GridQuery) ([]byte, string, error) {
			return none, "", nil
		},
		StandingsXLSX: func(context.Context, assessment.Actor, office.GridQuery) ([]byte, string, error) {
			return none, "", nil
		},
		LearningPlan: func(context.Context, assessment.Actor, assessment.PersonID, wording.Language) ([]byte, string, error) {
			return none, "", nil
		},
		HomePaper: func(context.Context, assessment.Actor, assessment.ClientID, assessment.HomePaper, wording.Language) ([]byte, string, error) {
			return none, "", nil
		},
		SkillsDayCards: func(context.Context, assessment.Actor, assessment.SkillsDayID) ([]byte, string, error) {
			return none, "", nil
		},
	})
	return engine
}

func document(t *testing.T, engine *gin.Engine, name string) []byte {
	t.Helper()
	w := httptest.NewRecorder()
	engine.ServeHTTP(w, httptest.NewRequest(http.MethodGet, api.Base+"/"+name, nil))
	if w.Code != http.StatusOK {
		t.Fatalf("%s: status %d: %s", name, w.Code, w.Body)
	}
	return w.Body.Bytes()
}

// The document is checked against the schema of OpenAPI 3.1 (openapis.org) as
// libopenapi-validator carries it.
func TestTheDocumentIsOpenAPI(t *testing.T) {
	engine := apiAlone(t)
	for _, name := range []string{"openapi.json", "openapi.yaml"} {
		src := document(t, engine, name)
		file := filepath.Join(t.TempDir(), name)
		if err := os.WriteFile(file, src, 0o600); err != nil {
			t.Fatal(err)
		}
		doc, err := libopenapi.NewDocument(src)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if !strings.HasPrefix(doc.GetVersion(), "3.1") {
			t.Errorf("%s is OpenAPI %s, want 3.1", name, doc.GetVersion())
		}
		rules, errs := validator.NewValidator(doc)
		if len(errs) > 0 {
			t.Fatalf("%s: %v", name, errs)
		}
		if ok, faults := rules.ValidateDocument(); !ok {
			for _, f := range faults {
				t.Errorf("%s: %s: %s: %v", name, f.Message, f.Reason, f.SchemaValidationErrors)
			}
		}
	}
}

// Every address that the engine answers is a line of the table, and every line is
// in the document with its name and its act; and the other way round.
func TestRoutesTableAndDocumentAgree(t *testing.T) {
	engine := apiAlone(t)
	doc, err := libopenapi.NewDocument(document(t, engine, "openapi.json"))
	if err != nil {
		t.Fatal(err)
	}
	model, err := doc.BuildV3Model()
	if err != nil {
		t.Fatal(err)
	}
	served, told := map[string]bool{}, documented(&model.Model)
	for _, r := range engine.Routes() {
		served[r.Method+" "+r.Path] = true
	}
	acts := assessment.Acts()
	for _, line := range api.Table() {
		if !line.Public && !slices.Contains(acts, line.Act) {
			t.Errorf("%s %s asks for %q, which no permission speaks of", line.Method, line.Path, line.Act)
		}
		at := line.Method + " " + strings.NewReplacer("{", ":", "}", "").Replace(line.Path)
		if !served[at] {
			t.Errorf("%s is in the table and is not served", at)
		}
		delete(served, at)
		name := line.Method + " " + strings.TrimPrefix(line.Path, api.Base)
		if got, want := told[name], line.Operation+" "+string(line.Act); got != want {
			t.Errorf("the document says %q of %s, want %q", got, name, want)
		}
		delete(told, name)
	}
	if len(served)+len(told) > 0 {
		t.Errorf("served but not in the table: %v; in the document but not in the table: %v", served, told)
	}
}

// documented gives the name and the act of every operation of a document.
func documented(m *v3.Document) map[string]string {
	told := map[string]string{}
	for path, item := range m.Paths.PathItems.FromOldest() {
		for method, op := range item.GetOperations().FromOldest() {
			act := ""
			if op.Extensions != nil {
				if node, ok := op.Extensions.Get("x-act"); ok {
					act = node.Value
				}
			}
			told[strings.ToUpper(method)+" "+path] = op.OperationId + " " + act
		}
	}
	return told
}
