// Package browser has a real browser do a job for a test: the scripts beside this
// file drive Chromium, take what to do as JSON on their standard input, and answer
// on their standard output what came of it.
package browser

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"
)

// Desk is where the programs are that a browser test needs.
type Desk struct {
	Chromium string // goes into the job of every script
	node     string
	scripts  string
}

// Tools finds a desk. It skips the test where a program is missing; in CI that is a
// failure, and so is a CHROMIUM that leads nowhere.
func Tools(t testing.TB) Desk {
	t.Helper()
	if testing.Short() {
		t.Skip("-short leaves out what needs a browser")
	}
	chromium := os.Getenv("CHROMIUM")
	if chromium == "" {
		chromium = "chromium"
	} else if _, err := exec.LookPath(chromium); err != nil {
		t.Fatalf("CHROMIUM: %v", err)
	}
	house := root(t)
	if _, err := os.Stat(filepath.Join(house, "node_modules", "playwright-core")); err != nil {
		Lacking(t, "the driver of the browser is not installed: run npm ci")
	}
	return Desk{Chromium: Found(t, chromium), node: Found(t, "node"), scripts: filepath.Join(house, "integration", "browser")}
}

// root is the folder of the project, above the folder that a test runs in.
func root(t testing.TB) string {
	t.Helper()
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir
		}
		above := filepath.Dir(dir)
		if above == dir {
			t.Fatal("no folder above has a go.mod")
		}
		dir = above
	}
}

// Found is the path of a program, which the test cannot do without.
func Found(t testing.TB, program string) string {
	t.Helper()
	path, err := exec.LookPath(program)
	if err != nil {
		Lacking(t, err.Error())
	}
	return path
}

// Lacking skips a test that cannot run here; in CI it fails.
func Lacking(t testing.TB, why string) {
	t.Helper()
	if os.Getenv("CI") != "" {
		t.Fatal(why)
	}
	t.Skip(why)
}

// Play has a script do a job in a browser, and reads what came of it. What the
// script found wrong fails the test.
func (d Desk) Play(t testing.TB, script string, job, came any) {
	t.Helper()
	var found struct{ Faults []string }
	d.play(t, script, job, &found, came)
	for _, f := range found.Faults {
		t.Error(f)
	}
}

// Faults has a script do a job in a browser, and gives what it found wrong.
func (d Desk) Faults(t testing.TB, script string, job any) []string {
	t.Helper()
	var found struct{ Faults []string }
	d.play(t, script, job, &found)
	return found.Faults
}

// lastMoment is when a script that hangs is ended, so that its test can still say so.
func lastMoment(t testing.TB) time.Time {
	if test, ok := t.(interface{ Deadline() (time.Time, bool) }); ok { // a benchmark has none
		if ends, limited := test.Deadline(); limited {
			return ends.Add(-20 * time.Second)
		}
	}
	return time.Now().Add(time.Hour)
}

func (d Desk) play(t testing.TB, script string, job any, came ...any) {
	t.Helper()
	told, err := json.Marshal(job)
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithDeadline(t.Context(), lastMoment(t))
	defer cancel()
	cmd := exec.CommandContext(ctx, d.node, filepath.Join(d.scripts, script))
	cmd.Stdin = bytes.NewReader(told)
	var stderr bytes.Buffer
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v: %s", err, stderr.String())
	}
	for _, into := range came {
		if err := json.Unmarshal(out, into); err != nil {
			t.Fatalf("%v: %s", err, out)
		}
	}
}
