package assessment_test

import (
	"encoding/json"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/written"
)

// TestCaseFilesSayTheSame: random histories written as case files are read back
// and answered as the core answers them; random sheets likewise.
func TestCaseFilesSayTheSame(t *testing.T) {
	t.Parallel()
	for seed := range uint64(histories / 4) {
		g := invent(seed)
		from, to := g.spanOf()
		c := written.StandingCase{Zone: g.zone, Terms: g.terms, History: g.history}
		for range 5 {
			c.On = append(c.On, from.AddDays(g.IntN(to.Sub(from))))
		}
		var answers []struct {
			On, Through, Since civil.Date
			Standing           assessment.StandingWord
		}
		answerOf(t, c, written.AnswerStanding, &answers)
		if len(answers) != len(c.On) {
			t.Fatalf("seed %d: %d answers for %d days", seed, len(answers), len(c.On))
		}
		for i, a := range answers {
			s := g.oneCase().On(c.On[i])
			if a.On != s.On || a.Standing != s.Word || a.Through != s.Through || a.Since != s.Since {
				t.Fatalf("seed %d: the case file says %+v, the core %+v", seed, a, s)
			}
		}
	}
}

func TestScoreFilesSayTheSame(t *testing.T) {
	t.Parallel()
	for seed := range uint64(sheets / 8) {
		f := fill(seed)
		_, _, want := f.score(t)
		var raw json.RawMessage
		answerOf(t, written.ScoreCase{Checklist: f.list, Parameters: f.params, Sheet: f.sheet}, written.AnswerScore, &raw)
		if got := refText(t, raw); got != want {
			t.Fatalf("seed %d: the case file says %s, the core %s", seed, got, want)
		}
	}
}

func answerOf(t *testing.T, c any, answer func([]byte) ([]byte, error), into any) {
	t.Helper()
	text, err := json.Marshal(c)
	if err != nil {
		t.Fatal(err)
	}
	out, err := answer(text)
	if err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	if err := json.Unmarshal(out, into); err != nil {
		t.Fatal(err)
	}
}
