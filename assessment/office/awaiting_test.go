package office_test

import (
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/integration/ward"
)

// A failure that acts only once its observer signs stays on top of the list,
// however many newer records wait; and the list tells how many there are in all.
func TestWhatWentWrongWaitsOnTop(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	edda := w.Educators[0]
	oldest := w.Demonstrate(nan, "humidifier", mira, ward.Unsigned)
	w.Pass(time.Minute)
	signed := w.Demonstrate(nan, "humidifier", mira, ward.Stopped, ward.UnsignedByLearner)
	w.Pass(time.Minute)
	failed := w.Demonstrate(nan, "humidifier", mira, ward.Stopped, ward.Unsigned)
	for range 30 {
		w.Pass(time.Minute)
		w.Demonstrate(nan, "humidifier", mira, ward.Unsigned)
	}
	const hers, everybodys = 32, 33 // the learner alone has to sign one
	d := must(w.Office.EducatorDesk(t.Context(), edda))(t)
	if got := d.ToSign.Records; len(got) != 30 || got[0].ID != failed.ID || got[0].Counts || got[1].ID != oldest.ID || d.ToSign.All != hers || d.ToSign.Next == "" {
		t.Errorf("%d of %d to sign, first %+v, next %q", len(got), d.ToSign.All, got[0].Demonstration.ID, d.ToSign.Next)
	}
	c := must(w.Office.CoordinatorDesk(t.Context(), w.Coordinator))(t)
	if got := c.Waiting.Records; got[0].ID != failed.ID || got[1].ID != oldest.ID || got[2].ID != signed.ID || !got[2].Counts || c.Waiting.All != everybodys {
		t.Errorf("%d wait, first %s, %s, %s", c.Waiting.All, got[0].ID, got[1].ID, got[2].ID)
	}
	if f := must(w.Office.FamilyDesk(t.Context(), nan))(t); f.ToSign.All != everybodys {
		t.Errorf("%d wait for the learner", f.ToSign.All)
	}
	for everybody, all := range map[bool]int{false: hers, true: everybodys} {
		if seen := pagesOf(t, w, edda, everybody, all); len(seen) != all {
			t.Errorf("%d different records of %d on the pages", len(seen), all)
		}
	}
	// Once signed it acts, and is no longer what must not be overlooked.
	w.Sign(edda, failed.ID, office.PartObserver)
	if d = must(w.Office.EducatorDesk(t.Context(), edda))(t); d.ToSign.Records[0].ID != oldest.ID || d.ToSign.All != hers-1 {
		t.Errorf("%d to sign, first %s", d.ToSign.All, d.ToSign.Records[0].ID)
	}
	_, err := w.Office.Waiting(t.Context(), nan, true, "")
	wantRefusal(t, err, fault.Forbidden, "does not allow")
}

// pagesOf goes through every page of the list that waits.
func pagesOf(t *testing.T, w *ward.Ward, by assessment.Actor, everybody bool, all int) map[assessment.DemonstrationID]bool {
	t.Helper()
	seen := map[assessment.DemonstrationID]bool{}
	for after, n := "", 0; n == 0 || after != ""; n++ {
		v := must(w.Office.Waiting(t.Context(), by, everybody, after))(t)
		for _, r := range v.Records {
			seen[r.ID] = true
		}
		if v.All != all || n > 3 {
			t.Fatalf("page %d says that %d wait", n, v.All)
		}
		after = v.Next
	}
	return seen
}

// Pages together hold every record once, in order; the last one has no next.
func TestPagesHoldEveryRecordOnce(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	var made []assessment.DemonstrationID // newest first
	for range 7 {
		v := w.Demonstrate(nan, "humidifier", mira)
		made = append([]assessment.DemonstrationID{v.ID}, made...)
		w.Pass(45 * 24 * time.Hour)
	}
	for _, size := range []int{1, 2, 3, 7, 8} {
		var got []assessment.DemonstrationID
		f := postgres.DemonstrationFilter{Learner: nan.Person, Limit: size}
		for page := 0; page == 0 || f.After != ""; page++ {
			p := must(w.Office.Demonstrations(t.Context(), w.Coordinator, f))(t)
			for _, d := range p.Items {
				got = append(got, d.ID)
			}
			if f.After = p.Next; len(got) > len(made) {
				break
			}
		}
		wantSame(t, got, made)
	}
	var numbers []int
	after := ""
	for page := 0; page == 0 || after != ""; page++ {
		p := must(w.Office.Certificates(t.Context(), w.Coordinator, nan.Person, after, 2))(t)
		for _, c := range p.Items {
			numbers = append(numbers, c.Number)
		}
		if after = p.Next; len(numbers) > len(made) {
			break
		}
	}
	all := must(w.Office.Transcript(t.Context(), w.Coordinator, nan.Person, w.Today()))(t)
	var whole []int
	for _, c := range all.Certificates {
		whole = append(whole, c.Number)
	}
	if wantSame(t, numbers, whole); len(whole) < 3 || len(all.Records) != len(made) {
		t.Errorf("%d certificates and %d records on the transcript", len(whole), len(all.Records))
	}
}

func wantSame[T comparable](t *testing.T, got, want []T) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("got %v, want %v", got, want)
	}
	for i := range got {
		if got[i] != want[i] {
			t.Fatalf("got %v, want %v", got, want)
		}
	}
}

// A place that no page gave is refused at its field and reads nothing.
func TestAPlaceThatNoPageGave(t *testing.T) {
	t.Parallel()
	w, _, _ := quick(t)
	for _, after := range []string{"x", "0.0", "2.0.01941f29-7c3a-7d52-8000-000000000000", "0.9223372036854775807.01941f29-7c3a-7d52-8000-000000000000",
		"0.-9223372036854775808.01941f29-7c3a-7d52-8000-000000000000", "0.1.' or true", "-1.1.01941f29-7c3a-7d52-8000-000000000000"} {
		_, err := w.Office.Demonstrations(t.Context(), w.Coordinator, postgres.DemonstrationFilter{After: after})
		wantAtField(t, err, "after", "no place in the list")
		_, err = w.Office.Certificates(t.Context(), w.Coordinator, "", after, 0)
		wantAtField(t, err, "after", "no place in the list")
	}
	for _, after := range []string{"0", "-1", "2147483648", "9223372036854775808"} {
		_, err := w.Office.Certificates(t.Context(), w.Coordinator, "", after, 0)
		wantAtField(t, err, "after", "no place in the list")
	}
}

// An educator is told of their own skills before those end: who is not current
// cannot observe.
func TestAnEducatorIsToldOfTheirOwnSkills(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	edda := w.Educators[0]
	w.Demonstrate(edda, "humidifier", mira, ward.SeenBy(w.Educators[1]))
	w.Demonstrate(nan, "humidifier", mira)
	if d := must(w.Office.EducatorDesk(t.Context(), edda))(t); len(d.Own) != 0 {
		t.Errorf("while it holds for long: %+v", d.Own)
	}
	w.Day(w.Today().AddMonths(12).AddDays(-3).String())
	if d := must(w.Office.EducatorDesk(t.Context(), edda))(t); len(d.Own) != 1 || d.Own[0].Word != assessment.Due || d.Own[0].Person.ID != edda.Person {
		t.Errorf("three days before its end: %+v", d.Own)
	}
	w.Pass(5 * 24 * time.Hour)
	if d := must(w.Office.EducatorDesk(t.Context(), edda))(t); len(d.Own) != 1 || d.Own[0].Word != assessment.Lapsed {
		t.Errorf("after its end: %+v", d.Own)
	}
}
