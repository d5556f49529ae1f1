package main

import (
	"fmt"
	"io"
	"os"
	_ "time/tzdata" // the same zones on every machine, also where none are installed

	"wellshown/assessment/written"
)

// Exit codes of the commands that answer cases.
const (
	exitAnswered = 0
	exitRefused  = 1 // the case, or the file, cannot be read
	exitUsage    = 2
)

// ruleCommand is one of the commands that need no database.
type ruleCommand struct {
	name   string
	says   string
	answer func([]byte) ([]byte, error)
}

// runScore is `wellshown score FILE`: the outcome of one sheet, with its reasons.
func runScore(args []string, in io.Reader, out, errw io.Writer) int {
	return ruleCommand{"score", scoreHelp, written.AnswerScore}.run(args, in, out, errw)
}

// runStanding is `wellshown standing FILE`: the standing of one history on each
// of some days.
func runStanding(args []string, in io.Reader, out, errw io.Writer) int {
	return ruleCommand{"standing", standingHelp, written.AnswerStanding}.run(args, in, out, errw)
}

const scoreHelp = `wellshown score FILE
Answers one scoring case: what the marks on a sheet make, and why.
FILE is JSON with "policy", "parameters", "steps" and "sheet". The answer is
{"outcome", "score", "reasons"}, or {"open"} where steps keep the sheet from
being recorded.

Example:
{
  "policy": {"credits": {"independent": "1", "cued": "1/2", "assisted": "0", "not met": "0"}, "pass_mark": "95/100", "cue_limit": 2},
  "parameters": {"suction_high": {"value": "120", "unit": "mmHg"}},
  "steps": [
    {"no": 1, "weight": 1, "critical": true, "least": "independent"},
    {"no": 2, "weight": 2, "measures": [{"name": "pressure", "unit": "mmHg", "low": "80", "high": {"parameter": "suction_high"}, "magnitude": true}]},
    {"no": 3, "weight": 1, "may_not_apply": true}
  ],
  "sheet": {"stopped": false, "marks": [
    {"no": 1, "mark": "independent"},
    {"no": 2, "mark": "cued", "values": {"pressure": {"value": "-13.3", "unit": "kPa"}}},
    {"no": 3, "not_applicable": "no probe on this circuit"}
  ]}
}
is answered with
{"outcome":"not yet competent","score":"2/3","reasons":[{"rule":"score"}]}
`

const standingHelp = `wellshown standing FILE
Answers one standing case: what a history makes of one caregiver in one skill,
on each of the days asked about.
FILE is JSON with "zone", "policy", "history" and "on". The answer is a list of
{"on", "standing", "through", "since", "because"}, one for each day.

Example:
{
  "zone": "America/Denver",
  "policy": {
    "award": {"count": 1, "days": 1, "observers": 1, "real": 0, "span_days": 180, "consecutive": true},
    "validity": {"months": 12, "anchor": "month end", "renewal_days": 60, "notice_days": 30, "lapse_months": null, "absence_days": 0}
  },
  "history": [
    {"kind": "demonstration", "id": "d1", "performed_at": "2026-01-05T10:00:00-07:00", "outcome": "competent", "observer": "o1", "real": true, "formal": true, "revision": 1,
     "observer_signed_at": "2026-01-05T10:20:00-07:00", "learner_signed_at": "2026-01-06T08:00:00-07:00"},
    {"kind": "withdrawal", "id": "w1", "at": "2026-03-01T09:00:00-07:00", "until": "redemonstrated"}
  ],
  "on": ["2026-01-05", "2026-01-06", "2026-03-01"]
}
is answered with
[{"on":"2026-01-05","standing":"not started","through":null,"since":null,"because":[]},{"on":"2026-01-06","standing":"current","through":"2027-01-31","since":"2026-01-06","because":["d1"]},{"on":"2026-03-01","standing":"withdrawn","through":"2027-01-31","since":"2026-03-01","because":["w1"]}]
`

const linesHelp = `
A file of assessment/testdata, which has its case under "case" beside "why",
"rule" and "want", is answered too; "want" is not compared.

FILE may be "-": then each line of standard input is one case, and each line of
standard output its answer, in order. Blank lines get no answer. A line that
cannot be read is answered with {"error": "…", "line": n} (lines are counted
from 1, blank ones too) and the rest go on; the exit code is 0 once every line
has its answer. With a file the exit code is 1 where the case cannot be read.
`

func (c ruleCommand) run(args []string, in io.Reader, out, errw io.Writer) int {
	switch {
	case len(args) == 1 && (args[0] == "-h" || args[0] == "--help"):
		fmt.Fprint(out, c.says+linesHelp)
		return exitAnswered
	case len(args) != 1 || len(args[0]) > 1 && args[0][0] == '-':
		fmt.Fprintf(errw, "wellshown %s takes one file, or - for many cases as JSON Lines.\n\n%s", c.name, c.says+linesHelp)
		return exitUsage
	case args[0] == "-":
		return c.lines(in, out, errw)
	}
	return c.file(args[0], out, errw)
}

func (c ruleCommand) lines(in io.Reader, out, errw io.Writer) int {
	if err := written.AnswerLines(in, out, c.answer); err != nil {
		fmt.Fprintf(errw, "wellshown %s: %v\n", c.name, err)
		return exitRefused
	}
	return exitAnswered
}

func (c ruleCommand) file(name string, out, errw io.Writer) int {
	data, err := readCase(name)
	if err == nil {
		data, err = c.answer(data)
	}
	if err != nil {
		fmt.Fprintf(errw, "wellshown %s: %s: %v\n", c.name, name, err)
		return exitRefused
	}
	if _, err := out.Write(append(data, '\n')); err != nil {
		fmt.Fprintf(errw, "wellshown %s: write the answer: %v\n", c.name, err)
		return exitRefused
	}
	return exitAnswered
}

// readCase reads no more of a file than what shows that it is too long.
func readCase(name string) ([]byte, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, fmt.Errorf("open the case: %w", err)
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, written.MaxCaseBytes+1))
	if err != nil {
		return nil, fmt.Errorf("read the case: %w", err)
	}
	return data, nil
}
