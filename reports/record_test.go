package reports

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/assessment/wording"
)

// starter is a checklist of the catalogue.
func starter(t testing.TB, code string) assessment.Checklist {
	t.Helper()
	c, err := catalog.Get(code)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// mira is the child's values that the circuit change asks for. Invented.
func mira() assessment.Parameters {
	known := assessment.Parameters{}
	for name, q := range map[string]assessment.Quantity{
		"spo2_low": {Value: assessment.Whole(92), Unit: "%"}, "spo2_high": {Value: assessment.Whole(100), Unit: "%"},
		"hr_low": {Value: assessment.Whole(80), Unit: "1/min"}, "hr_high": {Value: assessment.Whole(150), Unit: "1/min"},
		"rr_low": {Value: assessment.Whole(20), Unit: "1/min"}, "rr_high": {Value: assessment.Whole(45), Unit: "1/min"},
		"leak_low": {Value: assessment.Whole(2), Unit: "L/min"}, "leak_high": {Value: assessment.Whole(12), Unit: "L/min"},
		"vte_low": {Value: assessment.Whole(60), Unit: "mL"}, "vte_high": {Value: assessment.Whole(110), Unit: "mL"},
		"peak_pressure_low": {Value: assessment.Whole(12), Unit: "cmH2O"}, "peak_pressure_high": {Value: assessment.Whole(22), Unit: "cmH2O"},
		"off_vent_max": {Value: assessment.Whole(8), Unit: "s"},
		"temp_low":     {Value: assessment.Whole(34), Unit: "degC"}, "temp_high": {Value: assessment.Whole(41), Unit: "degC"},
	} {
		known[name] = q
	}
	return known
}

// circuitChange is a whole demonstration of the circuit change, competent unless
// changed before it is scored.
func circuitChange(t testing.TB, change ...func(*office.DemonstrationView)) office.DemonstrationView {
	t.Helper()
	v := office.DemonstrationView{Zone: denver(t), Checklist: starter(t, "circuit-change"), Parameters: mira(),
		Agency:     office.AgencyView{Name: "Larkmoor Home Nursing", Zone: "America/Denver"},
		Words:      map[string]string{"vent_settings": "as on the card of 2 November", "stay_alone": "no"},
		Entries:    map[int]assessment.SheetEntry{},
		Signatures: bothSigned("Nguyễn Thị Lan")}
	v.Demonstration = postgres.Demonstration{ID: "019a9a3e-0000-7000-8000-000000000001", Learner: "Nguyễn Thị Lan", Observer: "Ольга Мартин",
		Code: "circuit-change", Title: v.Checklist.Title, Revision: 4, Client: "Mira, 7K", Place: "at home", RealClient: true, Formal: true,
		Equipment:   `{"ventilator":"type A","circuit":"single limb, leak port","humidifier":"heated","oximeter":"type B"}`,
		PerformedAt: issued.Add(-40 * time.Minute), RecordedAt: issued.Add(-time.Minute), BodySHA256: []byte{0x5f, 0x20}}
	mark := func(no int, values map[string]string) {
		e := assessment.SheetEntry{No: no, Mark: assessment.Independent, Values: map[string]assessment.Quantity{}}
		for name, value := range values {
			number, unit, _ := strings.Cut(value, " ")
			e.Values[name] = assessment.Quantity{Value: assessment.MustNumber(number), Unit: unit}
		}
		v.Entries[no] = e
	}
	for _, s := range v.Checklist.Steps() {
		mark(s.No, nil)
	}
	mark(3, map[string]string{"rub": "24 s"})
	mark(5, map[string]string{"saturation": "97 %", "heart rate": "112 1/min", "breathing rate": "28 1/min"})
	mark(18, map[string]string{"time to alarm": "6.5 s"})
	mark(20, map[string]string{"old off to new on": "5.8 s"})
	mark(22, map[string]string{"leak": "6 L/min", "pressure": "18 cmH2O"})
	mark(23, map[string]string{"time stayed": "130 s"})
	mark(25, map[string]string{"temperature": "37.5 degC"})
	v.Entries[12] = assessment.SheetEntry{No: 12, NotApplicable: true, Reason: "no reusable probe"}
	for _, f := range change {
		f(&v)
	}
	return scored(t, v)
}

// scored is v with what the rules make of its entries.
func scored(t testing.TB, v office.DemonstrationView) office.DemonstrationView {
	t.Helper()
	sheet := assessment.Sheet{Stopped: v.Stopped}
	for _, e := range v.Entries {
		sheet.Entries = append(sheet.Entries, e)
	}
	result, open, err := assessment.Score(v.Checklist, v.Parameters, sheet)
	if err != nil || len(open) > 0 {
		t.Fatal(err, open)
	}
	v.Result, v.Effective, v.Demonstration.Outcome = result, result.Effective, result.Outcome
	return v
}

func drawnRecord(t *testing.T, called string, v office.DemonstrationView) string {
	t.Helper()
	return drawn(t, called, func() (*paper, error) { return record(v, wording.English) })
}

// What was typed in from paper says so on its paper, for ever.
func TestRecordFromPaper(t *testing.T) {
	says(t, drawnRecord(t, "record-from-paper", circuitChange(t, func(v *office.DemonstrationView) {
		v.Paper = &office.PaperView{TypedIn: issued.Add(-30 * time.Minute), Pages: []office.PaperPageView{
			{Number: 1, Type: "image/jpeg", Sheets: 1, SHA256: strings.Repeat("0123456789abcdef", 4)}, {Number: 2, Type: "application/pdf", Sheets: 6, SHA256: strings.Repeat("fedcba9876543210", 4)}}}
	})), "from paper", "Marked on paper, typed in from it on 18 Nov 2026, 15:12 MST, 2 pages attached.", "1: 0123456789abcdef…", "2: fedcba9876543210…")
	says(t, drawnRecord(t, "record-paper-lost", circuitChange(t, func(v *office.DemonstrationView) {
		v.Paper = &office.PaperView{TypedIn: issued}
	})), "15:42 MST, no page attached.")
	saysNot(t, drawnRecord(t, "record-not-from-paper", circuitChange(t)), "from paper")
}

func entry(no int, change func(*assessment.SheetEntry)) func(*office.DemonstrationView) {
	return func(v *office.DemonstrationView) {
		e := v.Entries[no]
		change(&e)
		v.Entries[no] = e
	}
}

func TestRecord(t *testing.T) {
	v := circuitChange(t)
	v.Certificate = &postgres.Certificate{Number: 128, Code: "4H7K9QXM2TBT"}
	path := drawnRecord(t, "record", v)
	golden(t, "record", path)
	says(t, path, "Competent on 18 November 2026", "Nguyễn Thị Lan", "Single-limb heated-humidified ventilator circuit change",
		"for Mira, 7K · checklist revision 4", "18 Nov 2026, 15:02 MST, at home, with the child", "observed by Ольга Мартин",
		"ventilator: type A · circuit: single limb, leak port · humidifier: heated",
		"Score 100 %, pass mark 95 %.", "Yes, from 18 November 2026, the day of the last signature.", "no. 128, check code 4H7K-9QXM-2TBT",
		"rub: 24 s", "heart rate: 112 per minute", "80 to 150 per minute", "temperature: 37.5 °C", "34 to 41 °C", "not applicable", "no reusable probe",
		"as on the card of 2 November", "Record 019a9a3e-0000-7000-8000-000000000001", "SHA-256 5f20", "As recorded. Last entry: 18 Nov 2026, 15:44 MST")
	saysNot(t, path, "not signed", "oximeter: type B")
}

// 21 CFR 11.50(a), as for certificates: a benchmark, no claim. Cited from memory.
func TestRecordSignaturesSayWhoWhenAndWhat(t *testing.T) {
	says(t, drawnRecord(t, "record-signed", circuitChange(t)), "Ольга Мартин", "licence RN 48213", "“I observed and judged this.”", "18 Nov 2026, 15:42 MST",
		"Nguyễn Thị Lan",
		"“I showed this and we talked it over.”", "18 Nov 2026, 15:44 MST")
}

// A missed critical step is named at the top and stands out at its place.
func TestRecordOfAMissedStep(t *testing.T) {
	v := circuitChange(t, entry(21, func(e *assessment.SheetEntry) { e.Mark, e.Note = assessment.NotMet, "Did not look" }),
		entry(18, func(e *assessment.SheetEntry) {
			e.Values = map[string]assessment.Quantity{"time to alarm": {Value: assessment.Whole(19), Unit: "s"}}
		}),
		func(v *office.DemonstrationView) { v.Signatures = v.Signatures[:1] })
	path := drawnRecord(t, "record-not-yet", v)
	golden(t, "record-not-yet", path)
	says(t, path, "Not yet competent on 18 November 2026", "Critical step 21 was not shown well enough: Watch both sides of the chest rise; listen.",
		"Step 18: time to alarm is outside its accepted range.", "outside: at most 15 s", "counts as not met", "Note: Did not look.",
		"Yes, from 18 November 2026. An outcome that is not competent counts from the day it was shown.",
		"not signed Nguyễn Thị Lan, the learner, has not signed this.")
}

// What keeps a record from counting is in its heading and in plain words.
func TestRecordThatDoesNotCount(t *testing.T) {
	at := issued.Add(24 * time.Hour)
	for called, c := range map[string]struct {
		change func(*office.DemonstrationView)
		want   []string
	}{
		"one-signature": {func(v *office.DemonstrationView) { v.Signatures = v.Signatures[:1] },
			[]string{"Competent on 18 November 2026, not fully signed", "Not yet. A competent demonstration counts once observer and learner have both signed."}},
		"negative-unsigned": {func(v *office.DemonstrationView) {
			v.Stopped, v.StopReason, v.Signatures = true, "Saturation fell", nil
		},
			[]string{"Stopped for safety on 18 November 2026, not fully signed", "Stopped for safety: Saturation fell.", "Not yet. It counts once the observer has signed.", "Ольга Мартин, the observer, has not signed this."}},
		"practice": {func(v *office.DemonstrationView) { v.Formal = false },
			[]string{"Practice on 18 November 2026: competent", "No. It was practice."}},
		"taken-back": {func(v *office.DemonstrationView) {
			v.CorrectedAt, v.CorrectedBy, v.Correction = &at, "Noor Haddadin", "Wrong person chosen"
		}, []string{"Taken back: this record counts no more", "No. It was taken back on 19 Nov 2026, 15:42 MST by Noor Haddadin: Wrong person chosen.", "Last entry: 19 Nov 2026, 15:42 MST"}},
	} {
		path := drawnRecord(t, "record-"+called, circuitChange(t, c.change))
		says(t, path, c.want...)
		saysNot(t, path, "Yes, from")
	}
}

func TestRecordStoppedWithOpenSteps(t *testing.T) {
	v := circuitChange(t, func(v *office.DemonstrationView) {
		v.Stopped, v.StopReason = true, "The child turned blue; the observer took over"
		for no := 21; no <= 29; no++ {
			delete(v.Entries, no)
		}
	})
	path := drawnRecord(t, "record-stopped", v)
	says(t, path, "Stopped for safety on 18 November 2026", "The child turned blue; the observer took over.")
	if n := strings.Count(said(t, path), "not marked"); n != 9 {
		t.Errorf("%d steps are not marked, want 9", n)
	}
}

// Sixty steps with long words: nothing is lost, and every page carries the header.
func TestRecordOfSixtySteps(t *testing.T) {
	v := circuitChange(t, func(v *office.DemonstrationView) {
		v.Checklist = sixtySteps()
		v.Entries = map[int]assessment.SheetEntry{}
		for no := range 60 {
			v.Entries[no+1] = assessment.SheetEntry{No: no + 1, Mark: assessment.Cued, Note: strings.Repeat("seen and said ", 12)}
		}
	})
	path := drawnRecord(t, "record-sixty", v)
	got := said(t, path)
	for no := 1; no <= 60; no++ {
		if want := fmt.Sprintf("Step number %d of the long list", no); !strings.Contains(got, want) {
			t.Errorf("%q is lost", want)
		}
	}
}

func sixtySteps() assessment.Checklist {
	c := assessment.Checklist{Code: "long", Title: "A very long checklist", Scope: assessment.General,
		Policy: assessment.Policy{Scoring: assessment.Scoring{Credits: assessment.DefaultCredits(), PassMark: assessment.MustNumber("19/20")},
			Award:    assessment.Award{Count: 1, Days: 1, Observers: 1, SpanDays: 30},
			Validity: assessment.Validity{Months: 12, Anchor: assessment.Anniversary}}}
	for no := 1; no <= 60; no++ {
		if no%20 == 1 {
			c.Sections = append(c.Sections, assessment.Section{Title: fmt.Sprintf("Part %d", no/20+1)})
		}
		s := &c.Sections[len(c.Sections)-1]
		s.Steps = append(s.Steps, assessment.Step{No: no, Text: fmt.Sprintf("Step number %d of the long list", no), Kind: assessment.Done,
			Weight: 1, Critical: no%3 == 0, Because: "it matters", Least: assessment.Independent, MayNotApply: "No such part."})
	}
	return c
}
