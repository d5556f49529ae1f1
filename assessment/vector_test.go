package assessment_test

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/written"
)

// vector is one file of testdata: a case, the answer worked out by hand from the
// rules, the rule that it shows and why it is so. No implementation owns them.
type vector struct {
	Why  string
	Rule string
	Case json.RawMessage
	Want json.RawMessage
}

func eachVector(t *testing.T, folder string, least int, run func(*testing.T, vector)) {
	t.Helper()
	files, err := filepath.Glob(filepath.Join("testdata", folder, "*.json"))
	if err != nil || len(files) < least {
		t.Fatalf("%d vectors in testdata/%s, of at least %d: %v", len(files), folder, least, err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".json"), func(t *testing.T) {
			data, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			dec := json.NewDecoder(bytes.NewReader(data))
			dec.DisallowUnknownFields()
			var v vector
			if err := dec.Decode(&v); err != nil || v.Why == "" || v.Rule == "" {
				t.Fatalf("the vector is not whole: %v", err)
			}
			run(t, v)
		})
	}
}

// wantedDay is the wanted answer for one day; because is compared where it is given.
type wantedDay struct {
	On       civil.Date
	Standing assessment.StandingWord
	Through  civil.Date
	Since    civil.Date
	Because  []string
}

// TestStandingVectors runs every standing vector through the case files, through
// Case.On and through the second implementation.
func TestStandingVectors(t *testing.T) {
	t.Parallel()
	eachVector(t, "standing", 120, func(t *testing.T, v vector) {
		c, err := written.DecodeStandingCase(v.Case)
		if err != nil {
			t.Fatal(err)
		}
		answers, err := c.Answer()
		if err != nil {
			t.Fatal(err)
		}
		var wanted []wantedDay
		if err := json.Unmarshal(v.Want, &wanted); err != nil || len(wanted) != len(answers) {
			t.Fatalf("%d answers, %d wanted: %v", len(answers), len(wanted), err)
		}
		known := mustCase(c.Zone, c.Terms, c.History)
		reference := refWorld{c.Zone, c.Terms, c.History}
		for i, w := range wanted {
			compareDay(t, v, "the case file", w, orNoDay(answers[i].Through), orNoDay(answers[i].Since), answers[i].Standing, answers[i].Because)
			s := known.On(w.On)
			compareDay(t, v, "the core", w, s.Through, s.Since, s.Word, s.Because)
			r := reference.on(refOfCivil(w.On))
			if r.word != string(w.Standing) || r.held == w.Through.IsZero() || r.held && r.through != refOfCivil(w.Through) {
				t.Errorf("on %s the second implementation says %s through %v, wanted %s through %s: %s", w.On, r.word, refName(r.through), w.Standing, w.Through, v.Why)
			}
		}
	})
}

func orNoDay(d *civil.Date) civil.Date {
	if d == nil {
		return civil.Date{}
	}
	return *d
}

func compareDay(t *testing.T, v vector, who string, w wantedDay, through, since civil.Date, word assessment.StandingWord, because []string) {
	t.Helper()
	if word != w.Standing || through != w.Through || since != w.Since {
		t.Errorf("on %s %s says %s through %q since %q, wanted %s through %q since %q (%s: %s)",
			w.On, who, word, through, since, w.Standing, w.Through, w.Since, v.Rule, v.Why)
	}
	if w.Because != nil && strings.Join(because, " ") != strings.Join(w.Because, " ") {
		t.Errorf("on %s %s names %v, wanted %v (%s)", w.On, who, because, w.Because, v.Why)
	}
}

// TestScoreVectors runs every score vector through the case files and through the
// second implementation of scoring.
func TestScoreVectors(t *testing.T) {
	t.Parallel()
	eachVector(t, "score", 75, func(t *testing.T, v vector) {
		var want bytes.Buffer
		if err := json.Compact(&want, v.Want); err != nil {
			t.Fatal(err)
		}
		got, err := written.AnswerScore(v.Case)
		if err != nil {
			t.Fatal(err)
		}
		c, err := written.DecodeScoreCase(v.Case)
		if err != nil {
			t.Fatal(err)
		}
		sameJSON(t, got, want.Bytes())
		if reference := refScore(c.Checklist, c.Parameters, c.Sheet).text(); reference != refText(t, want.Bytes()) {
			t.Errorf("the second implementation says %s, wanted %s", reference, want.String())
		}
	})
}

func sameJSON(t *testing.T, got, want []byte) {
	t.Helper()
	var g, w any
	if err := json.Unmarshal(got, &g); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(want, &w); err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(g, w) {
		t.Errorf("the core says %s, wanted %s", got, want)
	}
}
