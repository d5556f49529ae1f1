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
