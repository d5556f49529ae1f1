package main

import (
	"bufio"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"wellshown/integration/cluster"
)

// asLocalpg makes this test binary behave as localpg itself.
const asLocalpg = "WELLSHOWN_TEST_AS_LOCALPG"

func init() {
	if os.Getenv(asLocalpg) != "" {
		os.Unsetenv(asLocalpg)
		main()
	}
}

func localpg(t *testing.T, environment []string, args ...string) *exec.Cmd {
	t.Helper()
	cmd := exec.Command(os.Args[0], args...)
	cmd.Env = append(append(os.Environ(), asLocalpg+"=1"), environment...)
	cmd.Stderr = os.Stderr
	return cmd
}

func folder(t *testing.T) string {
	t.Helper()
	if testing.Short() {
		t.Skip("-short leaves out what needs a database")
	}
	if err := cluster.Available(); errors.Is(err, cluster.ErrNoBinaries) && os.Getenv("CI") == "" {
		t.Skip(err)
	} else if err != nil {
		t.Fatal(err)
	}
	dir, err := os.MkdirTemp("", "wellshown-localpg-") // not t.TempDir: the server's account must be able to enter
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	return dir
}

func code(err error) int {
	var exit *exec.ExitError
	if errors.As(err, &exit) {
		return exit.ExitCode()
	}
	if err != nil {
		return -1
	}
	return 0
}

func TestTheCommandGetsADatabaseAndItsCodeIsKept(t *testing.T) {
	t.Parallel()
	dir := folder(t)
	out, err := localpg(t, []string{"DATABASE_URL="}, "-dir", dir, "--", "sh", "-c",
		`test "$(cat "$1")" = "$DATABASE_URL" && echo "$DATABASE_URL"; exit 7`, "sh", filepath.Join(dir, "url")).Output()
	if code(err) != 7 || !strings.HasPrefix(string(out), "postgres://") || !strings.Contains(string(out), "/wellshown?") {
		t.Errorf("code %d, output %q; want 7 and the URL that is in the file too", code(err), out)
	}
	if _, err := os.Stat(filepath.Join(dir, "url")); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("after the command the file url is still there: %v", err)
	}
	stopped(t, dir)
}

func stopped(t *testing.T, dir string) {
	t.Helper()
	if left, _ := filepath.Glob(filepath.Join(dir, "postgres-*", "data", "postmaster.pid")); len(left) > 0 {
		t.Errorf("PostgreSQL was not stopped: %v", left)
	}
}

func TestANamedDatabaseIsUsedAsItIs(t *testing.T) {
	t.Parallel()
	out, err := localpg(t, []string{"DATABASE_URL=postgres://elsewhere/x"}, "-dir", "/nowhere", "--", "sh", "-c", `echo "$DATABASE_URL"`).Output()
	if err != nil || string(out) != "postgres://elsewhere/x\n" {
		t.Errorf("%q, %v", out, err)
	}
}

// The command ends on the signal in its own way and time, and only then does the server stop.
func TestASignalIsPassedOnAndWaitedFor(t *testing.T) {
	t.Parallel()
	for _, sig := range []syscall.Signal{syscall.SIGINT, syscall.SIGTERM} {
		t.Run(sig.String(), func(t *testing.T) {
			t.Parallel()
			dir := folder(t)
			cmd := localpg(t, []string{"DATABASE_URL="}, "-dir", dir, "--", "sh", "-c",
				`trap 'test -e "$1"/postgres-*/data/postmaster.pid && exit 5; exit 6' INT TERM; echo ready; while :; do sleep 0.1; done`, "sh", dir)
			out, err := cmd.StdoutPipe()
			if err != nil {
				t.Fatal(err)
			}
			if err := cmd.Start(); err != nil {
				t.Fatal(err)
			}
			if line, err := bufio.NewReader(out).ReadString('\n'); line != "ready\n" {
				t.Fatalf("%q, %v", line, err)
			}
			if err := cmd.Process.Signal(sig); err != nil {
				t.Fatal(err)
			}
			if got := code(cmd.Wait()); got != 5 {
				t.Errorf("code %d; want the command's 5", got)
			}
			stopped(t, dir)
		})
	}
}

func TestWrongUseIsSaid(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		environment []string
		args        []string
		code        int
		says        string
	}{
		"no command":      {nil, nil, exitUsage, "usage: localpg"},
		"unknown command": {[]string{"DATABASE_URL=postgres://x"}, []string{"--", "no-such-program"}, exitNoStart, "no-such-program"},
		"no server":       {[]string{"DATABASE_URL=", "PG_BIN=/nowhere"}, []string{"--", "true"}, exitFailure, "PG_BIN"},
		"killed":          {[]string{"DATABASE_URL=postgres://x"}, []string{"--", "sh", "-c", "kill -9 $$"}, 137, ""},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			cmd := localpg(t, c.environment, c.args...)
			var said strings.Builder
			cmd.Stderr = &said
			if got := code(cmd.Run()); got != c.code || !strings.Contains(said.String(), c.says) {
				t.Errorf("code %d, said %q; want %d and %q", got, said.String(), c.code, c.says)
			}
		})
	}
}
