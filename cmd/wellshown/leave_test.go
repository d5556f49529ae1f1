package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"wellshown/cmd/wellshown/demo"
)

var someSignIns = []demo.SignIn{{Role: "educator", Name: "Ines", Email: "ines@brook.example", Secret: "two-ducks"}}

func TestSignInsAreLeftInAFileThatTheirOwnerAloneReads(t *testing.T) {
	t.Chdir(t.TempDir())
	var out bytes.Buffer
	if err := leaveSignIns(someSignIns, &out); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join("out", "sign-ins.txt")
	body, err := os.ReadFile(file)
	if err != nil || string(body) != "educator\tInes\tines@brook.example\ttwo-ducks\n" {
		t.Errorf("the file has %q, %v", body, err)
	}
	if info, err := os.Stat(file); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("others may read it: %v, %v", info, err)
	}
	if !strings.Contains(out.String(), file) || strings.Contains(out.String(), "two-ducks") {
		t.Errorf("it says %q", out.String())
	}
	if says := whereSignIns(); !strings.Contains(says, "are in "+file) {
		t.Errorf("later it says %q", says)
	}
	if left, err := filepath.Glob("out/*"); err != nil || len(left) != 1 {
		t.Errorf("%v are left, %v", left, err)
	}
}

// In a container whose files are read-only nothing can be left. A file in the way
// of the folder refuses everybody, also who may write everywhere.
func TestSignInsAreSaidWhereNoFileCanBeLeft(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.WriteFile("out", nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if mayLeave() == nil {
		t.Error("a file is taken for a folder")
	}
	var out bytes.Buffer
	if err := leaveSignIns(someSignIns, &out); err != nil || !strings.Contains(out.String(), "educator\tInes\tines@brook.example\ttwo-ducks\n") {
		t.Errorf("it says %q, %v", out.String(), err)
	}
	if says := whereSignIns(); !strings.Contains(says, "There is no out/sign-ins.txt") || !strings.Contains(says, "start over") {
		t.Errorf("later it says %q", says)
	}
}
