package testdb

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"syscall"

	"wellshown/integration/cluster"
)

// localAvailable tells whether a private cluster can be started. A PG_BIN that is wrong says yes, so that starting one
// fails and names it, instead of running the tests elsewhere or not at all.
func localAvailable() bool { return !errors.Is(cluster.Available(), cluster.ErrNoBinaries) }

// startLocal runs a cluster in a temporary folder for the rest of the process. Go runs no code when a test process
// ends, so two others do the clearing up: the kernel stops the server, and a shell that waits for our end of a pipe
// to close removes the folder.
func startLocal(ctx context.Context) (string, error) {
	dir, err := os.MkdirTemp(folder(), "wellshown-test-")
	if err != nil {
		return "", fmt.Errorf("make a folder for the test cluster: %w", err)
	}
	if err := os.Chmod(dir, 0o755); err != nil { // the server may run under another account
		return "", fmt.Errorf("open the test cluster's folder: %w", err)
	}
	if err := afterUs(removeWhenStopped, dir); err != nil {
		return "", err
	}
	c, err := cluster.Start(ctx, cluster.Options{Dir: dir, Fast: true})
	if err != nil {
		return "", fmt.Errorf("start a test cluster: %w", err)
	}
	return c.URL(), nil
}

// removeWhenStopped waits up to a minute for a server to have gone.
const removeWhenStopped = `
n=0
while [ -e "$1"/postgres-*/data/postmaster.pid ] && [ $n -lt 600 ]; do sleep 0.1; n=$((n + 1)); done
rm -rf "$1"`

// kept holds our ends of the pipes: a pipe that the garbage collector closed would set the shell off too early.
var kept []io.Closer

// afterUs runs a shell script once this process has ended, however it ended.
func afterUs(script, argument string) error {
	shell := exec.Command("sh", "-c", "cat >/dev/null\n"+script, "sh", argument)
	shell.SysProcAttr = &syscall.SysProcAttr{Setpgid: true} // Ctrl-C is meant for the tests, not for the clearing up
	pipe, err := shell.StdinPipe()
	if err != nil {
		return fmt.Errorf("prepare to clear up after the tests: %w", err)
	}
	if err := shell.Start(); err != nil {
		return fmt.Errorf("prepare to clear up after the tests: %w", err)
	}
	kept = append(kept, pipe)
	return nil
}
