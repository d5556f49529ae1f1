package main

import (
	"bytes"
	"strings"
	"testing"
)

func TestRunTellsHowItIsUsed(t *testing.T) {
	for name, c := range map[string]struct {
		args []string
		code int
		says string
	}{
		"nothing":          {nil, exitUsage, "wellshown COMMAND"},
		"help":             {[]string{"help"}, exitAnswered, "wellshown COMMAND"},
		"no such command":  {[]string{"fly"}, exitUsage, `there is no command "fly"`},
		"report, how":      {[]string{"report", "-h"}, exitAnswered, "--agency CODE"},
		"report, badly":    {[]string{"report", "overdue", "--format", "doc", "--within", "0"}, exitUsage, "--format"},
		"report, no day":   {[]string{"report", "overdue", "--agency", "a", "--out", "x", "--on", "2027-02-30"}, exitUsage, "2027-02-30"},
		"found, badly":     {[]string{"found"}, exitUsage, "wellshown found"},
		"found, how":       {[]string{"found", "--help"}, exitAnswered, "wellshown found"},
		"found, in part":   {[]string{"found", "--code", "x", "--name", "X", "--admin", "A", "--email", "a@x.example"}, exitUsage, "--zone is missing"},
		"found, unknown":   {[]string{"found", "--colour", "red"}, exitUsage, "there is no option -colour"},
		"found, too much":  {[]string{"found", "--code", "x", "more"}, exitUsage, `"more" is no option`},
		"score, no file":   {[]string{"score"}, exitUsage, "score"},
		"standing, absent": {[]string{"standing", "no-such-file"}, exitRefused, "no-such-file"},
	} {
		t.Run(name, func(t *testing.T) {
			var out, errw bytes.Buffer
			if code := run(t.Context(), c.args, strings.NewReader(""), &out, &errw); code != c.code {
				t.Errorf("exit code %d, want %d", code, c.code)
			}
			if all := out.String() + errw.String(); !strings.Contains(all, c.says) {
				t.Errorf("says %q, want %q in it", all, c.says)
			}
		})
	}
}

// A command that changes something must not begin where it was asked how, or asked
// for something else: without a database each would fail otherwise than it does.
func TestCommandsWithoutArgumentsTakeNone(t *testing.T) {
	t.Setenv("DATABASE_URL", "")
	for name := range plain {
		for _, c := range []struct {
			args []string
			code int
			says string
		}{
			{[]string{name, "-h"}, exitAnswered, "wellshown " + name},
			{[]string{name, "--help"}, exitAnswered, "wellshown " + name},
			{[]string{name, "extra", "--bogus"}, exitUsage, "takes no arguments"},
			{[]string{name, "--port", "9"}, exitUsage, "takes no arguments"},
			{[]string{name, "-h", "more"}, exitUsage, "takes no arguments"},
		} {
			var out, errw bytes.Buffer
			if code := run(t.Context(), c.args, strings.NewReader(""), &out, &errw); code != c.code || !strings.Contains(out.String()+errw.String(), c.says) {
				t.Errorf("%q: exit code %d, %s%s; want %d and %q", c.args, code, out.String(), errw.String(), c.code, c.says)
			}
		}
	}
}
