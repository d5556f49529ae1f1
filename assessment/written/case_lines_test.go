package written_test

import (
	"bytes"
	"errors"
	"strings"
	"testing"
	"testing/iotest"

	"wellshown/assessment/written"
)

func oneLine(text string) string { return strings.ReplaceAll(text, "\n", " ") }

func TestLinesAreAnsweredInOrder(t *testing.T) {
	in := strings.Join([]string{
		oneLine(standingCase), `{"zone": 1}`, "", "  \t ", `not JSON`, oneLine(standingCase) + "\r",
		strings.Repeat("[", written.MaxCaseBytes+10), strings.Replace(oneLine(standingCase), `"on": ["2026-01-06", "2026-05-01"]`, `"on": ["2026-01-06"]`, 1),
	}, "\n")
	var out bytes.Buffer
	if err := written.AnswerLines(strings.NewReader(in), &out, written.AnswerStanding); err != nil {
		t.Fatal(err)
	}
	want, err := written.AnswerStanding([]byte(standingCase))
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSuffix(out.String(), "\n"), "\n")
	if len(lines) != 6 {
		t.Fatalf("%d answers to six cases: %q", len(lines), lines)
	}
	for i, starts := range []string{string(want), `{"error":"zone: this is a number`, `{"error":"the case is not one JSON value`, string(want), `{"error":"the case is longer than 1 MiB","line":7}`, `[{"on":"2026-01-06","standing":"current"`} {
		if !strings.HasPrefix(lines[i], starts) {
			t.Errorf("answer %d is %.120s, not %s…", i, lines[i], starts)
		}
	}
}

func TestLinesEnd(t *testing.T) {
	for _, in := range []string{"", "\n", "\n\n  \n"} {
		var out bytes.Buffer
		if err := written.AnswerLines(strings.NewReader(in), &out, written.AnswerScore); err != nil || out.Len() > 0 {
			t.Errorf("%q is answered with %q, %v", in, out.String(), err)
		}
	}
	slow := iotest.OneByteReader(strings.NewReader(oneLine(scoreCase) + "\n" + oneLine(scoreCase)))
	var out bytes.Buffer
	if err := written.AnswerLines(slow, &out, written.AnswerScore); err != nil || strings.Count(out.String(), "7/8") != 2 {
		t.Errorf("byte by byte: %q, %v", out.String(), err)
	}
}

type brokenPipe struct{}

func (brokenPipe) Write([]byte) (int, error) { return 0, errors.New("broken pipe") }

func TestLinesTellOfBrokenPipes(t *testing.T) {
	lost := iotest.ErrReader(errors.New("cable pulled"))
	if err := written.AnswerLines(lost, new(bytes.Buffer), written.AnswerScore); err == nil || !strings.Contains(err.Error(), "cable pulled") {
		t.Errorf("reading: %v", err)
	}
	if err := written.AnswerLines(strings.NewReader(oneLine(scoreCase)), brokenPipe{}, written.AnswerScore); err == nil || !strings.Contains(err.Error(), "broken pipe") {
		t.Errorf("writing: %v", err)
	}
}

// A byte order mark is no part of JSON (RFC 8259 section 8.1). Blank lines get no
// answer and are counted, so that a number leads to the line as an editor shows it.
func TestLinesAreNumberedAsTheyStand(t *testing.T) {
	var out bytes.Buffer
	if err := written.AnswerLines(strings.NewReader("\n\xef\xbb\xbf{}\n\n{}\n"), &out, written.AnswerScore); err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSuffix(out.String(), "\n"), "\n")
	if len(lines) != 2 || !strings.Contains(lines[0], "byte order mark") || !strings.HasSuffix(lines[0], `,"line":2}`) ||
		lines[1] != `{"error":"policy: this is missing","line":4}` {
		t.Errorf("%q", lines)
	}
}
