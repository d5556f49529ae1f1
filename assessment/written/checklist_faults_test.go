package written_test

import (
	"bytes"
	"errors"
	"fmt"
	"regexp"
	"strings"
	"testing"

	"wellshown/assessment/written"
)

// Each row breaks one thing in the short checklist and says what must be found.
var brokenLines = []struct {
	name, old, new string
	line, step     int
	path, says     string
}{
	{"misspelt field", "        note: Any", "        notes: Any", 39, 4, "sections[1].steps[1].notes", `no "notes" here: known are no, text, kind, critical`},
	{"misspelt field of the list", "scope: general", "scop: general", 3, 0, "scop", `no "scop" here`},
	{"field left out", "title: Wash hands\n", "", 1, 0, "title", "title is missing"},
	{"field written twice", "title: Wash hands", "title: Wash hands\ntitle: Again", 3, 0, "title", "written twice, first on line 2"},
	{"field written empty", "title: Wash hands", "title:", 2, 0, "title", "title is empty"},
	{"critical without a reason", "critical: Infection", "critical:", 31, 3, "sections[1].steps[0].critical", "critical is empty"},
	{"critical with an empty reason", "critical: Infection", `critical: ""`, 31, 3, "sections[1].steps[0].critical", "says why it is critical"},
	{"critical as yes or no", "critical: Infection", "critical: true", 31, 3, "sections[1].steps[0].critical", "true or false where text belongs"},
	{"cue limit forgotten", "  cue_limit: null\n", "", 12, 0, "policy.cue_limit", "write a number, or null for no limit"},
	{"lapse limit forgotten", ", lapse_months: null", "", 15, 0, "policy.validity.lapse_months", "null for no limit"},
	{"cue limit as text", "cue_limit: null", "cue_limit: two", 13, 0, "policy.cue_limit", "not a whole number"},
	{"octal", "cue_limit: null", "cue_limit: 010", 13, 0, "policy.cue_limit", "not a whole number"},
	{"fraction of a day", "days: 1,", "days: 1.5,", 14, 0, "policy.award.days", "not a whole number"},
	{"pass mark over 1", "pass_mark: 95/100", "pass_mark: 95", 12, 0, "policy", "between 0 and 1"},
	{"pass mark as float text", "pass_mark: 95/100", "pass_mark: 9.5e-1", 12, 0, "policy.pass_mark", "is not a number"},
	{"renewals that stack", "renewal_days: 30", "renewal_days: 336", 15, 0, "policy.validity", "must be less than 28"},
	{"more days than demonstrations", "days: 1,", "days: 3,", 14, 0, "policy.award", "cannot be more than count"},
	{"no such anchor", "month end", "year end", 15, 0, "policy.validity", "anniversary or month end"},
	{"no such kind", "kind: timed", "kind: tmied", 30, 3, "sections[1].steps[0].kind", `the kind is "tmied"`},
	{"wrong number", "no: 4", "no: 5", 36, 4, "sections[1].steps[1].no", "numbered 5 where 4 comes next"},
	{"least without critical", "        critical: Infection\n", "", 31, 3, "sections[1].steps[0].least", "critical steps only"},
	{"least that no one can miss", "least: cued", "least: not met", 32, 3, "sections[1].steps[0].least", "independent, cued or assisted"},
	{"weight of nothing", "weight: 2", "weight: 0", 33, 3, "sections[1].steps[0].weight", "from 1 to 100"},
	{"range forgotten", ", record_only: true", "", 41, 4, "sections[1].steps[1].measures[0]", "record_only: true where any value will do"},
	{"range and record only", "record_only: true", "record_only: true, low: 20", 41, 4, "sections[1].steps[1].measures[0].record_only", "not for the record only"},
	{"unit of a time", "{name: time, unit: s", "{name: time, unit: min", 35, 3, "sections[1].steps[0].measures[0].unit", "a timed step is in s"},
	{"parameter that is not declared", "{parameter: wash_min}", "{parameter: wash_mni}", 35, 3, "sections[1].steps[0].measures[0].low", "{wash_mni} is no parameter"},
	{"two sources of one end", "{parameter: wash_min}", "{parameter: wash_min, value: 3}", 35, 3, "sections[1].steps[0].measures[0].low", "one of: a value, a parameter, a measure"},
	{"end as a list", "{parameter: wash_min}", "[40]", 35, 3, "sections[1].steps[0].measures[0].low", "a list where a number belongs"},
	{"braces that name nothing", "at least {wash_min}", "at least {wash}", 28, 3, "sections[1].steps[0]", "{wash} is no parameter"},
	{"step without values", "        measures:\n          - {name: time, unit: s, low: {parameter: wash_min}}\n", "", 28, 3, "sections[1].steps[0].measures", "needs a value"},
	{"text that is a number", "title: Wash hands", "title: 12", 2, 0, "title", "a number where text belongs"},
	{"text that is a date", "title: Wash hands", "title: 2026-01-02", 2, 0, "title", "a date where text belongs"},
	{"list that is text", "safety:\n  - Orders come first.", "safety: Orders come first.", 4, 0, "safety", "text where a list belongs"},
	{"steps that are a group", "sections:\n", "sections: {}\nother:\n", 16, 0, "sections", "a group of named parts where a list belongs"},
	{"default in words", "default: 40", "default: forty", 10, 0, "parameters[0].default", "is not a number"},
	{"control character", "title: Wash hands", `title: "Wash\u0007hands"`, 2, 0, "title", "control character"},
	{"code with spaces", "code: wash-hands", "code: Wash hands", 1, 0, "code", "lower-case words"},
	{"anchor", "title: Wash hands", "title: &t Wash hands", 2, 0, "", "anchors (&) and aliases (*) are not read"},
	{"tag", "title: Wash hands", "title: !!str Wash hands", 2, 0, "", "tags (!) are not read"},
	{"merge", "title: Wash hands", "title: Wash hands\n<<: {scope: general}", 3, 0, "?", "there is no"},
	{"YAML that ends early", "safety:\n  - Orders come first.", "safety: [Orders", 4, 0, "", "this is not YAML"},
}

func TestEveryFaultIsNamedWithItsPlace(t *testing.T) {
	for _, row := range brokenLines {
		t.Run(row.name, func(t *testing.T) {
			if !strings.Contains(short, row.old) {
				t.Fatalf("%q is not in the checklist", row.old)
			}
			all := faultsIn(t, strings.Replace(short, row.old, row.new, 1))
			for _, f := range all {
				if f.Line == row.line && f.Step == row.step && f.Path == row.path && strings.Contains(f.Says, row.says) {
					return
				}
			}
			t.Errorf("found\n%v", all)
		})
	}
}

// faultsIn reads what must not be read.
func faultsIn(t *testing.T, src string) []written.Fault {
	t.Helper()
	_, err := written.DecodeYAML("short.yaml", []byte(src))
	var all *written.Faults
	if !errors.As(err, &all) {
		t.Fatalf("it was read, with the error %v", err)
	}
	return all.List
}

func TestAllFaultsComeAtOnceInTheOrderOfTheFile(t *testing.T) {
	src := short
	for _, r := range [][2]string{
		{"title: Wash hands", "titel: Wash hands"}, {"pass_mark: 95/100", "pass_mark: high"},
		{"kind: done", "kind: made"}, {"unit: s, low", "unit: kg, low"}, {"weight: 2", "weight: two"},
		{"note: Any", "nota: Any"},
	} {
		src = strings.Replace(src, r[0], r[1], 1)
	}
	var lines []int
	for _, f := range faultsIn(t, src) {
		lines = append(lines, f.Line)
	}
	// Line 1 for the title that is missing; line 35 for the unit that no time has
	// and for the parameter that does not fit it.
	want := []int{1, 2, 12, 24, 33, 35, 35, 39}
	if fmt.Sprint(lines) != fmt.Sprint(want) {
		t.Errorf("faults on lines %v, want %v:\n%v", lines, want, faultsIn(t, src))
	}
}

func TestAFaultReadsAsASentence(t *testing.T) {
	_, err := written.DecodeYAML("short.yaml", []byte(strings.Replace(short, "kind: timed", "kind: slow", 1)))
	want := `short.yaml, line 30, step 3, sections[1].steps[0].kind: the kind is "slow": it is done, timed, measured or said aloud`
	if err == nil || err.Error() != want {
		t.Errorf("got %v\nwant %s", err, want)
	}
}

func TestWhatIsNoChecklistIsRefused(t *testing.T) {
	bomb := "a: &a [x, x]\n"
	for i := 'b'; i < 'z'; i++ {
		bomb += fmt.Sprintf("%c: &%c [%s*%c]\n", i, i, strings.Repeat(fmt.Sprintf("*%c, ", i-1), 9), i-1)
	}
	for name, row := range map[string]struct{ src, says string }{
		"nothing":             {"", "no checklist in it"},
		"a comment":           {"# later\n", "no checklist in it"},
		"an empty document":   {"---\n", "nothing where named parts belong"},
		"a word":              {"checklist", "text where named parts belong"},
		"a list":              {"- a\n- b\n", "a list where named parts belong"},
		"two documents":       {short + "---\n" + short, "line 42: a second document begins"},
		"a broken second":     {short + "---\n[", "this is not YAML"},
		"growing aliases":     {bomb, "anchors (&) and aliases (*) are not read"},
		"a loop":              {"code: &a [*a]\n", "are not read"},
		"over 1 MiB":          {short + "# " + strings.Repeat("x", 1<<20), "longer than 1 MiB"},
		"bytes of no text":    {"code: \xff\xfe\n", "not UTF-8"},
		"brackets to no end":  {strings.Repeat("[", 100000), "this is not YAML"},
		"a name that is long": {strings.Repeat("k", 500) + ": 1\n", `no "kkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkk…" here`},
		"a name that is none": {"? [a]\n: b\n", "no such name here"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := written.DecodeYAML("", []byte(row.src))
			if err == nil || !strings.Contains(err.Error(), row.says) || len(err.Error()) > 50000 {
				t.Errorf("the answer is %.2000v", err)
			}
		})
	}
}

func TestManyFaultsAreCutShort(t *testing.T) {
	_, err := written.DecodeYAML("", []byte(strings.Repeat("x: 1\n", 5000)))
	// 100 are listed; that 4900 others and those of what is missing are there is
	// said on one line more.
	if err == nil || !regexp.MustCompile(`\nand 49[0-9]{2} more$`).MatchString(err.Error()) || strings.Count(err.Error(), "\n") != 100 {
		t.Errorf("the answer is %.300v", err)
	}
}

func TestMoreStepsThanAnyoneShowsAreRefused(t *testing.T) {
	for n, ok := range map[int]bool{written.MaxSteps: true, written.MaxSteps + 1: false} {
		src := short[:strings.Index(short, "sections:")] + "sections:\n  - title: All\n    steps:\n"
		for i := range n {
			src += fmt.Sprintf("      - {no: %d, text: Step, kind: done}\n", i+1)
		}
		_, err := written.DecodeYAML("", []byte(src))
		if (err == nil) != ok || err != nil && !strings.Contains(err.Error(), "sections: there are 501 steps: at most 500 are read") {
			t.Errorf("%d steps: %.300v", n, err)
		}
	}
}

func TestJSONIsReadAsStrictly(t *testing.T) {
	c, err := written.DecodeYAML("", []byte(short))
	if err != nil {
		t.Fatal(err)
	}
	good, err := written.EncodeJSON(c)
	if err != nil {
		t.Fatal(err)
	}
	for name, row := range map[string]struct{ old, new, says string }{
		"unknown field":      {`"title":`, `"Title":`, `there is no "Title" here`},
		"field twice":        {`"title":`, `"code":"x","title":`, "code is written twice"},
		"null":               {`"Wash hands"`, `null`, "title is empty"},
		"number as text":     {`"cue_limit":null`, `"cue_limit":"2"`, "not a whole number"},
		"text as number":     {`"Wash hands"`, `7`, "a number where text belongs"},
		"exponent":           {`"0.95"`, `95e-2`, `"95e-2" is not a number`},
		"trailing":           {`}]}]}`, `}]}]}{}`, "not one JSON value"},
		"cut off":            {`}]}]}`, `}]}]`, "line 1: this is not one JSON value"},
		"step with a fault":  {`"kind":"done"`, `"kind":"made"`, "line 1, step 2, sections[0].steps[1].kind"},
		"brackets too deep":  {`"Wash hands"`, strings.Repeat("[", 40) + strings.Repeat("]", 40), "deeper than 32"},
		"control character":  {`Wash hands`, `Wash\u0000hands`, "control character"},
		"no text":            {`Wash hands`, "Wash \xff", "not UTF-8"},
		"beyond one MiB":     {`Wash hands`, strings.Repeat("x", 1<<20), "longer than 1 MiB"},
		"name with brackets": {`"title":`, `"sections[9].steps[9]":1,"title":`, "there is no"},
	} {
		t.Run(name, func(t *testing.T) {
			src := bytes.Replace(good, []byte(row.old), []byte(row.new), 1)
			_, err := written.DecodeJSON(src)
			if err == nil || !strings.Contains(err.Error(), row.says) {
				t.Errorf("the answer is %.500v", err)
			}
		})
	}
}

// A program that lays its JSON out gets the lines of its own layout.
func TestJSONFaultsKnowTheirLines(t *testing.T) {
	_, err := written.DecodeJSON([]byte("{\n \"code\": \"a\",\n \"title\":\n  7\n}"))
	if err == nil || !strings.Contains(err.Error(), "line 4, title: this is a number") {
		t.Errorf("the answer is %v", err)
	}
}
