package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"wellshown/assessment/sealed"
)

// keysCommand runs the command and gives its exit code and what it says.
func keysCommand(args ...string) (int, string) {
	var out bytes.Buffer
	code := run(context.Background(), append([]string{"keys"}, args...), strings.NewReader(""), &out, &out)
	return code, out.String()
}

func TestKeysOfSecretsAreMadeAndAdded(t *testing.T) {
	file := filepath.Join(t.TempDir(), "secret-keys")
	if code, says := keysCommand("secrets", file); code != exitAnswered {
		t.Fatalf("%d: %s", code, says)
	}
	if info, err := os.Stat(file); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("%v, %v", info.Mode(), err)
	}
	first, err := readSecretKeys(file)
	if err != nil {
		t.Fatal(err)
	}
	own := sealed.Bound{Agency: "a", Person: "p", Purpose: "test"}
	kept, err := first.Seal(bytes.NewReader(make([]byte, 12)), []byte("secret"), own)
	if err != nil {
		t.Fatal(err)
	}
	if code, says := keysCommand("secrets", file); code != exitAnswered || !strings.Contains(says, "there already") {
		t.Fatalf("%d: %s", code, says)
	}
	if again, err := readSecretKeys(file); err != nil || !again.Newest(kept) {
		t.Errorf("a file that is there was changed: %v", err)
	}
	if code, says := keysCommand("secrets", "--add", file); code != exitAnswered || !strings.Contains(says, "another key") {
		t.Fatalf("%d: %s", code, says)
	}
	both, err := readSecretKeys(file)
	if err != nil {
		t.Fatal(err)
	}
	if got, err := both.Open(kept, own); err != nil || string(got) != "secret" || both.Newest(kept) {
		t.Errorf("after a key was added: %q, %v", got, err)
	}
	if info, err := os.Stat(file); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("%v, %v", info.Mode(), err)
	}
	if left, _ := filepath.Glob(filepath.Join(filepath.Dir(file), ".keys-*")); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

func TestKeyFilesThatAreRefused(t *testing.T) {
	dir := t.TempDir()
	path := func(name, text string, mode os.FileMode) string {
		file := filepath.Join(dir, name)
		if err := os.WriteFile(file, []byte(text), mode); err != nil {
			t.Fatal(err)
		}
		return file
	}
	good := "a " + strings.Repeat("A", 43) + "=\n"
	for name, c := range map[string]struct{ file, says string }{
		"missing":     {filepath.Join(dir, "none"), "bring back the file"},
		"empty":       {path("empty", "", 0o600), "holds no key"},
		"broken":      {path("broken", "a short\n", 0o600), "line 1"},
		"open to all": {path("open", good, 0o644), "chmod 600"},
	} {
		if _, err := readSecretKeys(c.file); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if keys, err := readSecretKeys(""); keys != nil || err != nil {
		t.Errorf("not set: %v, %v", keys, err)
	}
	// A file that is no key file is left alone.
	file := path("letters", "Dear Ada,\n", 0o600)
	for _, args := range [][]string{{"secrets", file}, {"secrets", "--add", file}, {"secrets", "--add", filepath.Join(dir, "none")}} {
		if code, says := keysCommand(args...); code != exitRefused {
			t.Errorf("%v: %d: %s", args, code, says)
		}
	}
	if text, _ := os.ReadFile(file); string(text) != "Dear Ada,\n" {
		t.Errorf("it is %q now", text)
	}
	for _, args := range [][]string{{}, {"secrets"}, {"other", file}, {"secrets", file, "more"}, {"secrets", "--add"}} {
		if code, says := keysCommand(args...); code != exitUsage || !strings.Contains(says, "keys secrets|ledger [--add] FILE") {
			t.Errorf("%v: %d: %s", args, code, says)
		}
	}
	if code, says := keysCommand("-h"); code != exitAnswered || !strings.Contains(says, "keys secrets|ledger [--add] FILE") {
		t.Errorf("%d: %s", code, says)
	}
}

// The keys of the ledger come from a file too: one more is used from then on, and
// the ones before still count.
func TestKeysOfTheLedger(t *testing.T) {
	file := filepath.Join(t.TempDir(), "ledger-keys")
	for _, args := range [][]string{{"ledger", file}, {"ledger", file}, {"ledger", "--add", file}} {
		if code, says := keysCommand(args...); code != exitAnswered {
			t.Fatalf("%v: %d: %s", args, code, says)
		}
	}
	keys, err := readLedgerKeys(file)
	if err != nil || len(keys.Public()) != 2 {
		t.Fatalf("%v", err)
	}
	code, says := keysCommand("public", file)
	if code != exitAnswered || says != strings.Join(keys.Public(), "\n")+"\n" {
		t.Errorf("%d: %s", code, says)
	}
	if secret, _ := os.ReadFile(file); strings.Contains(says, "PRIVATE") || !strings.Contains(string(secret), "PRIVATE") {
		t.Error("the public halves show the secret ones")
	}
}
