package written_test

import (
	"strings"
	"testing"

	"wellshown/assessment/fault"
	"wellshown/assessment/written"
)

const sheetText = `{"version":1,"id":"017f22e2-79b0-7cc3-98c4-dc0c0c07398f","agency":"ward","learner":"l","skill":"humidifier","revision":"r","client":"c","place":"at home","real":true,"formal":true,` +
	`"performed_at":"2026-02-01T17:00:00.000Z","finished_at":"2026-02-01T17:10:00.123Z","pack":"p","parameters":{"Temp low":{"value":"34","unit":"degC"}},"stopped":false,` +
	`"marks":[{"step":1,"mark":"cued","note":"<b>&","marked_at":"2026-02-01T17:01:00.000Z"},{"step":2,"mark":"independent","readings":{"Rate":{"value":"20","unit":"1/min"}},"marked_at":"2026-02-01T17:02:00.000Z"}],` +
	`"taken_back":[{"at":"2026-02-01T17:03:00.000Z","step":1}],"talked_over":{"note":"n"},"name_checked_at":null,"drawn":{"learner":[[0,1000,5,5]]},"outcome":{"outcome":"competent","score":null,"reasons":[{"rule":"value","step":2,"of":"Rate"}]}}`

// A sheet reads back as it was written (the contract of the bedside, no other source).
func TestReadingASheet(t *testing.T) {
	t.Parallel()
	s, err := written.ReadSheet(sheetText)
	if err != nil {
		t.Fatal(err)
	}
	if s.ID != "017f22e2-79b0-7cc3-98c4-dc0c0c07398f" || !s.Real || s.Stopped || len(s.Marks) != 2 || s.Marks[0].Note != "<b>&" || s.Marks[1].Readings["Rate"].Value != "20" || s.Parameters["Temp low"].Unit != "degC" ||
		s.FinishedAt.Sub(s.PerformedAt).String() != "10m0.123s" || s.NameChecked != nil || s.TakenBack[0].Step != 1 || s.TalkedOver.Note != "n" || s.Drawn.Learner[0][1] != 1000 || s.Outcome.Score != nil || s.Outcome.Reasons[0].Of != "Rate" {
		t.Errorf("read: %+v", s)
	}
	if s.LookedOver != nil {
		t.Errorf("looked over at %s, which the sheet does not say", s.LookedOver)
	}
	back, err := written.ReadSheet(strings.Replace(sheetText, `"drawn"`, `"looked_over_at":"2026-02-01T17:09:00.000Z","drawn"`, 1))
	if err != nil || back.LookedOver == nil || back.FinishedAt.Sub(*back.LookedOver).String() != "1m0.123s" {
		t.Errorf("looked over: %+v, %v", back.LookedOver, err)
	}
}

// What one reader would take for one thing and another for something else is refused
// (RFC 8259, section 4: names in an object should be unique; ECMA-404 has no case folding).
func TestSheetsAreReadStrictly(t *testing.T) {
	t.Parallel()
	swap := func(old, other string) string {
		if !strings.Contains(sheetText, old) {
			t.Fatalf("the sheet has no %s", old)
		}
		return strings.Replace(sheetText, old, other, 1)
	}
	for what, c := range map[string]struct{ text, says string }{
		"nothing":                 {"", "unknown"},
		"no JSON":                 {"{", "unknown"},
		"no object":               {"[" + sheetText + "]", "no object"},
		"two objects":             {sheetText + sheetText, "after it"},
		"something after it":      {sheetText + " x", "not JSON"},
		"another version":         {swap(`"version":1`, `"version":2`), "another version"},
		"an unknown field":        {swap(`"pack":"p"`, `"pack":"p","more":1`), "unknown"},
		"an unknown field below":  {swap(`"note":"n"`, `"nota":"n"`), "unknown"},
		"another case":            {swap(`"stopped":false`, `"stopped":false,"STOPPED":true`), "unknown"},
		"a long s":                {swap(`"stopped":false`, `"stopped":false,"ſtopped":true`), "unknown"},
		"a name twice":            {swap(`"stopped":false`, `"stopped":true,"stopped":false`), "twice"},
		"a mark twice in a step":  {swap(`"mark":"cued"`, `"mark":"unsafe","mark":"cued"`), "twice"},
		"a reading twice":         {swap(`"Rate":{"value":"20","unit":"1/min"}`, `"Rate":{"value":"99","unit":"1/min"},"Rate":{"value":"20","unit":"1/min"}`), "twice"},
		"stopped is null":         {swap(`"stopped":false`, `"stopped":null`), "null"},
		"marks are null":          {swap(`"talked_over":{"note":"n"}`, `"talked_over":null`), "null"},
		"a null among marks":      {swap(`"marks":[`, `"marks":[null,`), "null"},
		"a null reading":          {swap(`"Rate":{"value":"20","unit":"1/min"}`, `"Rate":null`), "null"},
		"no stop at all":          {swap(`"stopped":false,`, ``), "lacks stopped"},
		"nothing taken back":      {swap(`"taken_back":[{"at":"2026-02-01T17:03:00.000Z","step":1}],`, ``), "lacks taken_back"},
		"a truth as text":         {swap(`"stopped":false`, `"stopped":"false"`), "another kind"},
		"a number for a text":     {swap(`"place":"at home"`, `"place":7`), "another kind"},
		"no instant":              {swap(`"2026-02-01T17:00:00.000Z"`, `"yesterday"`), "another kind"},
		"an instant of year 0":    {swap(`"2026-02-01T17:00:00.000Z"`, `"0001-01-01T00:00:00Z"`), "out of bounds"},
		"no time of a mark":       {swap(`,"marked_at":"2026-02-01T17:01:00.000Z"`, ``), "out of bounds"},
		"half a point":            {swap(`[0,1000,5,5]`, `[0,1000,5]`), "no end"},
		"a stroke out of bounds":  {swap(`[0,1000,5,5]`, `[0,1001,5,5]`), "leaves its field"},
		"a fraction of a point":   {swap(`[0,1000,5,5]`, `[0,0.5,5,5]`), "another kind"},
		"too much drawn":          {swap(`[0,1000,5,5]`, `[`+strings.Repeat("1,1,", 2000)+`1,1]`), "too long"},
		"a NUL":                   {swap(`"place":"at home"`, `"place":"at\u0000home"`), "U+0000"},
		"no UTF-8":                {swap(`"place":"at home"`, "\"place\":\"\xff\""), "not UTF-8"},
		"more than fits":          {swap(`"place":"at home"`, `"place":"`+strings.Repeat("x", 256<<10)+`"`), "too large"},
		"nested without end":      {strings.Repeat(`{"a":`, 20_000), "unknown"},
		"a list of lists and end": {strings.Repeat(`[`, 20_000), "no object"},
	} {
		_, err := written.ReadSheet(c.text)
		if fault.KindOf(err) != fault.Invalid || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v, want a word of %q", what, err, c.says)
		}
	}
}

// FuzzSheet: whatever is read without a fault has what it needs, and nothing breaks.
func FuzzSheet(f *testing.F) {
	f.Add(sheetText)
	f.Add(`{"version":1,"stopped":null}`)
	f.Add(strings.ReplaceAll(sheetText, `"`, `'`))
	f.Fuzz(func(t *testing.T, text string) {
		s, err := written.ReadSheet(text)
		if err != nil {
			if _, known := fault.As(err); !known {
				t.Errorf("%q is refused without words: %v", text, err)
			}
			return
		}
		if s.Version != 1 || s.PerformedAt.IsZero() || s.FinishedAt.IsZero() {
			t.Errorf("%q is read as %+v", text, s)
		}
	})
}
