package assessment_test

import (
	"fmt"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"wellshown/assessment"
)

// sheets is how many random sheets each property of scoring is tried on.
const sheets = 8000

// filled is a random checklist with a child and a sheet.
type filled struct {
	*rand.Rand
	list   assessment.Checklist
	params assessment.Parameters
	sheet  assessment.Sheet
}

func some[T any](r *rand.Rand, from ...T) T { return from[r.IntN(len(from))] }

// fill makes one from a seed: few steps, marks mostly good, values mostly near a
// bound, now and then something missing.
func fill(seed uint64) filled {
	f := filled{Rand: rand.New(rand.NewPCG(seed, 77)), params: assessment.Parameters{}}
	s := assessment.Scoring{Credits: assessment.DefaultCredits(), PassMark: assessment.MustNumber(some(f.Rand, "0", "1/3", "1/2", "0.8", "95/100", "1"))}
	if f.IntN(3) == 0 {
		s.Credits[assessment.Assisted] = assessment.MustNumber("1/4")
	}
	if f.IntN(2) == 0 {
		s.CueLimit = new(f.IntN(3))
	}
	f.list.Policy.Scoring = s
	if f.IntN(8) > 0 {
		f.params["limit"] = assessment.Quantity{Value: assessment.MustNumber(some(f.Rand, "10", "-12", "1/3")), Unit: some(f.Rand, "kPa", "mmHg", "cmH2O")}
	}
	var steps []assessment.Step
	for no := 1; no <= 1+f.IntN(7); no++ {
		steps = append(steps, f.step(no))
	}
	f.list.Sections = []assessment.Section{{Steps: steps}}
	f.sheet.Stopped = f.IntN(12) == 0
	for _, step := range steps {
		if f.IntN(40) > 0 {
			f.sheet.Entries = append(f.sheet.Entries, f.entry(step))
		}
	}
	return f
}

func (f filled) step(no int) assessment.Step {
	s := assessment.Step{No: no, Weight: 1 + f.IntN(3), Critical: f.IntN(3) == 0, Kind: assessment.Done,
		Least: some(f.Rand, assessment.Independent, assessment.Cued, assessment.Assisted)}
	if f.IntN(3) == 0 {
		s.MayNotApply = "sometimes"
	}
	for i := range f.IntN(3) {
		s.Kind = assessment.Measured
		s.Measures = append(s.Measures, assessment.Measure{Name: fmt.Sprint("m", i), Unit: some(f.Rand, "kPa", "mmHg", "cmH2O"),
			Low: f.bound(), High: f.bound(), Exclusive: f.IntN(3) == 0, Magnitude: f.IntN(3) == 0})
	}
	return s
}

func (f filled) bound() *assessment.Bound {
	switch f.IntN(4) {
	case 0:
		return nil
	case 1:
		return &assessment.Bound{Parameter: "limit"}
	}
	return &assessment.Bound{Value: assessment.MustNumber(some(f.Rand, "-10", "0", "10", "12", "100/3"))}
}

func (f filled) entry(s assessment.Step) assessment.SheetEntry {
	e := assessment.SheetEntry{No: s.No, Mark: some(f.Rand, assessment.Independent, assessment.Independent, assessment.Independent,
		assessment.Cued, assessment.Cued, assessment.Assisted, assessment.NotMet, assessment.Unsafe)}
	if f.IntN(8) == 0 {
		return assessment.SheetEntry{No: s.No, NotApplicable: true, Reason: some(f.Rand, "none fitted", "none fitted", " ")}
	}
	if len(s.Measures) > 0 {
		e.Values = map[string]assessment.Quantity{}
	}
	for _, m := range s.Measures {
		if f.IntN(30) > 0 {
			e.Values[m.Name] = assessment.Quantity{Value: assessment.MustNumber(some(f.Rand, "-10", "10", "0", "12", "11", "-100/3", "101/3")), Unit: some(f.Rand, "kPa", "mmHg", "cmH2O")}
		}
	}
	return e
}

// score is the result with what is open, as text too.
func (f filled) score(t *testing.T) (assessment.Result, []assessment.Open, string) {
	t.Helper()
	r, open, err := assessment.Score(f.list, f.params, f.sheet)
	if err != nil {
		t.Fatal(err)
	}
	var x refResult
	for _, o := range open {
		if w := fmt.Sprint(o.Step, " ", o.Why); !slices.Contains(x.open, w) {
			x.open = append(x.open, w)
		}
	}
	x.outcome = string(r.Outcome)
	if r.Score != nil {
		x.score = refRat(fraction(*r.Score))
	}
	for _, reason := range r.Reasons {
		x.reasons = append(x.reasons, refReason(string(reason.Rule), reason.Step))
	}
	return r, open, x.text()
}

type fraction assessment.Number

func (f fraction) String() string { return assessment.Number(f).Fraction() }

// TestSecondScoring: the core and an implementation written anew from the rules
// make the same of thousands of random sheets.
func TestSecondScoring(t *testing.T) {
	t.Parallel()
	seen := map[assessment.Outcome]int{}
	for seed := range uint64(sheets) {
		f := fill(seed)
		r, _, got := f.score(t)
		if want := refScore(f.list, f.params, f.sheet).text(); got != want {
			t.Fatalf("seed %d: the core says %s, the rules %s", seed, got, want)
		}
		seen[r.Outcome]++
	}
	for _, o := range []assessment.Outcome{assessment.Competent, assessment.NotYetCompetent, assessment.StoppedForSafety, ""} {
		if seen[o] < sheets/40 {
			t.Errorf("only %d sheets came out as %q: too few to show anything", seen[o], o)
		}
	}
}

// TestOrderOfMarksChangesNothing: the order in which a sheet is filled in.
func TestOrderOfMarksChangesNothing(t *testing.T) {
	t.Parallel()
	for seed := range uint64(sheets) {
		f := fill(seed)
		want, wantOpen, _ := f.score(t)
		f.Shuffle(len(f.sheet.Entries), func(i, j int) {
			f.sheet.Entries[i], f.sheet.Entries[j] = f.sheet.Entries[j], f.sheet.Entries[i]
		})
		if got, open, _ := f.score(t); !reflect.DeepEqual(got, want) || !reflect.DeepEqual(open, wantOpen) {
			t.Fatalf("seed %d: filled in another order %+v, not %+v", seed, got, want)
		}
	}
}

// TestWorseMarkNeverHelps: a worse mark at one step never makes a sheet competent
// that was not, and never betters its score, with one exception that follows from
// the words of the rule: where a cue limit binds, marking a cue worse takes it off
// the count of cues (see the vectors paradox-a-cue-…). Even then the score falls.
func TestWorseMarkNeverHelps(t *testing.T) {
	t.Parallel()
	compared := 0
	for seed := range uint64(sheets) {
		f := fill(seed)
		before, open, _ := f.score(t)
		if len(open) > 0 {
			continue
		}
		for i, e := range f.sheet.Entries {
			for _, worse := range assessment.Marks {
				if e.Mark == "" || !e.Mark.AtLeast(worse) || worse == e.Mark {
					continue
				}
				f.sheet.Entries[i].Mark = worse
				after, nowOpen, _ := f.score(t)
				f.sheet.Entries[i].Mark = e.Mark
				if len(nowOpen) > 0 {
					continue
				}
				compared++
				if after.Score != nil && before.Score != nil && after.Score.Cmp(*before.Score) > 0 {
					t.Fatalf("seed %d: step %d from %s to %s raises the score from %s to %s", seed, e.No, e.Mark, worse, before.Score, after.Score)
				}
				offTheCount := e.Mark == assessment.Cued && f.list.Policy.Scoring.CueLimit != nil
				if after.Outcome == assessment.Competent && before.Outcome != assessment.Competent && !offTheCount {
					t.Fatalf("seed %d: step %d from %s to %s makes it competent", seed, e.No, e.Mark, worse)
				}
			}
		}
	}
	if compared < sheets {
		t.Errorf("only %d pairs of marks were compared", compared)
	}
}

// TestValueOutNeverHelps: moving a value out of its range never makes a sheet
// competent that was not. (Without bounds no value is out.)
func TestValueOutNeverHelps(t *testing.T) {
	t.Parallel()
	far := assessment.Quantity{Value: assessment.Whole(1000000), Unit: "kPa"}
	for seed := range uint64(sheets) {
		f := fill(seed)
		before, open, _ := f.score(t)
		if len(open) > 0 || before.Outcome == assessment.Competent {
			continue
		}
		for _, e := range f.sheet.Entries {
			step, _ := f.list.Step(e.No)
			for _, m := range step.Measures {
				kept, given := e.Values[m.Name]
				if !given || m.High == nil {
					continue
				}
				e.Values[m.Name] = far
				if after, _, _ := f.score(t); after.Outcome == assessment.Competent {
					t.Fatalf("seed %d: step %d with %s far out of range makes it competent", seed, e.No, m.Name)
				}
				e.Values[m.Name] = kept
			}
		}
	}
}
