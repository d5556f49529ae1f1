package reports

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// tool runs a program that knows PDF better than we do and returns what it says;
// a complaint is a failure.
// Where the program is missing the test is skipped on a desk and fails in CI.
func tool(t testing.TB, name string, args ...string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		if os.Getenv("CI") != "" {
			t.Fatalf("%s is not installed: apt-get install poppler-utils qpdf zbar-tools", name)
		}
		t.Skipf("%s is not installed", name)
	}
	var said, complained bytes.Buffer
	cmd := exec.Command(path, args...)
	cmd.Stdout, cmd.Stderr = &said, &complained
	if err := cmd.Run(); err != nil || complained.Len() > 0 {
		t.Fatalf("%s: %v\n%s%s", name, err, &said, &complained)
	}
	return said.String()
}

// filed puts a document where a tool can read it.
func filed(t testing.TB, pdf []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "paper.pdf")
	if err := os.WriteFile(path, pdf, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}
