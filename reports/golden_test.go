package reports

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var (
	update = flag.Bool("update", false, "write the goldens anew")
	look   = flag.String("look", "", "leave the documents of the tests in this folder, to be looked at")
)

// drawn is a document finished, held to what every document must be: nothing off
// the paper, the same bytes again, no fault found by qpdf, fonts embedded with
// their Unicode map. It returns where the file lies.
func drawn(t *testing.T, called string, draw func() (*paper, error)) string {
	t.Helper()
	p, err := draw()
	if err != nil {
		t.Fatal(err)
	}
	inside(t, p)
	pdf := finished(t, p)
	again, err := draw()
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(pdf, finished(t, again)) {
		t.Errorf("%s: two drawings of the same facts differ", called)
	}
	if *look != "" {
		if err := os.WriteFile(filepath.Join(*look, called+".pdf"), pdf, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	path := filed(t, pdf)
	sound(t, called, path)
	return path
}

func sound(t *testing.T, called, path string) {
	t.Helper()
	if out := tool(t, "qpdf", "--check", path); !strings.Contains(out, "No syntax or stream encoding errors found") {
		t.Errorf("%s: qpdf: %s", called, out)
	}
	for _, f := range strings.Split(strings.TrimSpace(tool(t, "pdffonts", path)), "\n")[2:] { // … emb sub uni object ID
		if cols := strings.Fields(f); len(cols) < 5 || cols[len(cols)-5] != "yes" || cols[len(cols)-3] != "yes" {
			t.Errorf("%s: font not embedded or without Unicode map: %s", called, f)
		}
	}
}

// golden compares what pdftotext reads from a document with testdata, where a
// difference shows in words. The outer spaces of lines are left out: they differ
// between versions of pdftotext.
func golden(t *testing.T, called, path string) {
	t.Helper()
	got := readBack(t, path)
	file := filepath.Join("testdata", called+".txt")
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatalf("%v: go test ./reports -update writes it", err)
	}
	if got != string(want) {
		t.Errorf("%s reads otherwise than %s. Look at it; if it is right: go test ./reports -update\n%s", called, file, difference(string(want), got))
	}
}

// readBack is the text of a document, its runs of spaces as one.
func readBack(t *testing.T, path string) string {
	t.Helper()
	var lines []string
	for line := range strings.Lines(strings.ReplaceAll(tool(t, "pdftotext", "-layout", path, "-"), "\f", "\n---\n")) {
		if line = strings.Join(strings.Fields(line), " "); line != "" {
			lines = append(lines, line)
		}
	}
	return strings.TrimSuffix(strings.Join(lines, "\n"), "\n---") + "\n"
}

// said is the text of a document on one line, so that a sentence is found
// wherever its lines break.
func said(t *testing.T, path string) string {
	t.Helper()
	return strings.Join(strings.Fields(tool(t, "pdftotext", path, "-")), " ")
}

// says fails for each text that a document does not say.
func says(t *testing.T, path string, want ...string) {
	t.Helper()
	got := said(t, path)
	for _, w := range want {
		if !strings.Contains(got, w) {
			t.Errorf("it does not say %q:\n%s", w, got)
		}
	}
}

// saysNot fails for each text that a document says.
func saysNot(t *testing.T, path string, avoid ...string) {
	t.Helper()
	got := said(t, path)
	for _, w := range avoid {
		if strings.Contains(got, w) {
			t.Errorf("it says %q:\n%s", w, got)
		}
	}
}

// difference is the first lines that differ.
func difference(want, got string) string {
	w, g := strings.Split(want, "\n"), strings.Split(got, "\n")
	for i := range max(len(w), len(g)) {
		at := func(lines []string) string {
			if i < len(lines) {
				return lines[i]
			}
			return "(nothing)"
		}
		if at(w) != at(g) {
			return "line " + at(w) + "\nnow  " + at(g)
		}
	}
	return ""
}
