package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

const aScore = `{"policy": {"pass_mark": "1"}, "steps": [{"no": 1}], "sheet": {"stopped": false, "marks": [{"no": 1, "mark": "independent"}]}}`

const aStanding = `{"zone": "UTC", "policy": {"award": {"count": 1, "days": 1, "observers": 1, "real": 0, "span_days": 30},
 "validity": {"months": 12, "anchor": "month end", "renewal_days": 30, "notice_days": 30, "absence_days": 0}},
 "history": [{"kind": "teaching", "id": "t1", "on": "2026-01-02"}], "on": ["2026-01-02"]}`

func caseFile(t *testing.T, text string) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "case.json")
	if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return name
}

func TestRulesCommands(t *testing.T) {
	score, standing, bad := caseFile(t, aScore), caseFile(t, aStanding), caseFile(t, `{"steps": 1}`)
	long := caseFile(t, strings.Repeat(" ", 2<<20))
	lines := aScore + "\n{}\n" + aScore + "\n"
	for _, c := range []struct {
		name      string
		run       func([]string, *bytes.Buffer, *bytes.Buffer) int
		args      []string
		code      int
		out, errw string
	}{
		{"one score", scoring(""), []string{score}, 0, `{"outcome":"competent","score":"1","reasons":[]}` + "\n", ""},
		{"one standing", standings(""), []string{standing}, 0, `[{"on":"2026-01-02","standing":"learning","through":null,"since":"2026-01-02","because":["t1"]}]` + "\n", ""},
		{"lines", scoring(lines), []string{"-"}, 0, `{"outcome":"competent","score":"1","reasons":[]}` + "\n" + `{"error":"policy: this is missing","line":2}` + "\n" + `{"outcome":"competent","score":"1","reasons":[]}` + "\n", ""},
		{"lines of standing", standings(strings.ReplaceAll(aStanding, "\n", " ")), []string{"-"}, 0, `[{"on":"2026-01-02"`, ""},
		{"nothing on standard input", standings(""), []string{"-"}, 0, "", ""},
		{"a case that is refused", scoring(""), []string{bad}, 1, "", "wellshown score: " + bad + ": policy: this is missing\n"},
		{"a file that is too long", scoring(""), []string{long}, 1, "", "longer than 1 MiB"},
		{"a file that is not there", standings(""), []string{filepath.Join(t.TempDir(), "none.json")}, 1, "", "wellshown standing: "},
		{"a folder", standings(""), []string{t.TempDir()}, 1, "", "read the case"},
		{"no file", standings(""), nil, 2, "", "takes one file"},
		{"two files", scoring(""), []string{score, score}, 2, "", "takes one file"},
		{"an unknown flag", scoring(""), []string{"--fast"}, 2, "", "takes one file"},
		{"help", scoring(""), []string{"--help"}, 0, "wellshown score FILE", ""},
		{"help on standing", standings(""), []string{"-h"}, 0, "wellshown standing FILE", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			var out, errw bytes.Buffer
			if code := c.run(c.args, &out, &errw); code != c.code {
				t.Errorf("exit code %d, not %d", code, c.code)
			}
			if !strings.HasPrefix(out.String(), c.out) || c.out == "" && out.Len() > 0 {
				t.Errorf("standard output is %q, not %q", out.String(), c.out)
			}
			if !strings.Contains(errw.String(), c.errw) || c.errw == "" && errw.Len() > 0 {
				t.Errorf("standard error is %q, not %q", errw.String(), c.errw)
			}
		})
	}
}

// The files that the README names are answered as they are, and as they want it.
func TestFilesOfTheRulesAreAnsweredAsTheyAre(t *testing.T) {
	for _, c := range []struct {
		run   func([]string, *bytes.Buffer, *bytes.Buffer) int
		file  string
		first string
	}{
		{scoring(""), "score/no-steps.json", `{"outcome":"not yet competent","score":null,"reasons":[{"rule":"nothing shown"}]}`},
		{standings(""), "standing/a-day-in-another-zone.json", `[{"on":"2026-01-04","standing":`},
	} {
		var out, errw bytes.Buffer
		code := c.run([]string{filepath.Join("..", "..", "assessment", "testdata", filepath.FromSlash(c.file))}, &out, &errw)
		if code != 0 || !strings.HasPrefix(out.String(), c.first) {
			t.Errorf("%s: exit code %d, %s%s", c.file, code, out.String(), errw.String())
		}
	}
	for text, says := range map[string]string{
		`{"case": ` + aScore + `, "wont": 1}`:                    "wont: there is no such field beside a case",
		`{"case": {"case": ` + aScore + `}}`:                     "case",
		`{"policy": {"pass_mark": "1"}, "case": ` + aScore + `}`: "policy: there is no such field beside a case",
	} {
		var out, errw bytes.Buffer
		if code := scoring("")([]string{caseFile(t, text)}, &out, &errw); code != 1 || !strings.Contains(errw.String(), says) {
			t.Errorf("%s: exit code %d, %s", text, code, errw.String())
		}
	}
}

// What -h shows is what it is answered with.
func TestTheExamplesOfTheHelpAreTrue(t *testing.T) {
	for _, help := range []struct {
		says string
		run  func([]string, *bytes.Buffer, *bytes.Buffer) int
	}{{scoreHelp, scoring("")}, {standingHelp, standings("")}} {
		_, example, found := strings.Cut(help.says, "\nExample:\n")
		question, answer, parted := strings.Cut(example, "\nis answered with\n")
		if !found || !parted {
			t.Fatalf("no example in %s", help.says)
		}
		var out, errw bytes.Buffer
		if code := help.run([]string{caseFile(t, question)}, &out, &errw); code != 0 || strings.TrimSpace(out.String()) != strings.TrimSpace(answer) {
			t.Errorf("the example is answered with %s%s; the help says %s", out.String(), errw.String(), answer)
		}
	}
}

func scoring(in string) func([]string, *bytes.Buffer, *bytes.Buffer) int {
	return func(args []string, out, errw *bytes.Buffer) int {
		return runScore(args, strings.NewReader(in), out, errw)
	}
}

func standings(in string) func([]string, *bytes.Buffer, *bytes.Buffer) int {
	return func(args []string, out, errw *bytes.Buffer) int {
		return runStanding(args, strings.NewReader(in), out, errw)
	}
}
