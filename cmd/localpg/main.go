// Command localpg runs another command with a PostgreSQL at hand:
//
//	localpg [-dir .data] -- command [argument …]
//
// Where DATABASE_URL is set the command simply gets it. Otherwise localpg starts a private cluster that keeps its data
// under the folder, makes the database wellshown in it when there is none, sets DATABASE_URL for the command and writes
// it to the file `url` in the folder for psql. When the command ends it stops the cluster and exits with the command's
// code. An interrupt or a request to end goes to the command, which is given the time it takes.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"syscall"

	"wellshown/integration/cluster"
	"wellshown/migrations"
)

const database = "wellshown"

// The codes that a shell gives for the same: used wrongly, and a command that could not be started.
const (
	exitFailure = 1
	exitUsage   = 2
	exitNoStart = 127
)

func main() {
	dir := flag.String("dir", ".data", "the `folder` for the database's files")
	flag.Usage = func() {
		fmt.Fprintln(os.Stderr, "usage: localpg [-dir folder] -- command [argument …]")
		flag.PrintDefaults()
	}
	flag.Parse()
	if flag.NArg() == 0 {
		flag.Usage()
		os.Exit(exitUsage)
	}
	// From here on a signal is the command's to act on; before it runs, one ends the start.
	signals := make(chan os.Signal, 4)
	signal.Notify(signals, os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
	if os.Getenv("DATABASE_URL") != "" {
		os.Exit(run(flag.Args(), os.Environ(), signals))
	}
	code, err := withCluster(*dir, flag.Args(), signals)
	if err != nil {
		fmt.Fprintln(os.Stderr, "localpg:", err)
	}
	os.Exit(code)
}

// withCluster runs the command beside a cluster and stops it after.
func withCluster(dir string, command []string, signals <-chan os.Signal) (code int, err error) {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	c, err := cluster.Start(ctx, cluster.Options{Dir: dir, Notice: say})
	if err != nil {
		stop()
		return exitFailure, err
	}
	defer func() {
		if stopErr := c.Stop(); stopErr != nil {
			code, err = max(code, exitFailure), errors.Join(err, stopErr)
		}
	}()
	address, err := wellshownIn(ctx, c.URL())
	stop()
	if err != nil {
		return exitFailure, err
	}
	note := filepath.Join(dir, "url")
	if err := os.WriteFile(note, []byte(address+"\n"), 0o600); err != nil {
		return exitFailure, fmt.Errorf("note the database's URL: %w", err)
	}
	defer os.Remove(note)
	say("PostgreSQL runs until this ends, its data in " + c.Dir() + "; the owner's URL is in " + note + ".")
	return run(command, append(os.Environ(), "DATABASE_URL="+address), signals), nil
}

// wellshownIn makes the database if it is missing and returns its URL.
func wellshownIn(ctx context.Context, serverURL string) (string, error) {
	u, err := url.Parse(serverURL)
	if err != nil {
		return "", err
	}
	u.Path = "/" + database
	return u.String(), migrations.EnsureDatabase(ctx, u.String())
}

// run passes signals on to the command until it ends, and returns its exit code, in a shell's way if a signal ended it.
func run(command, environment []string, signals <-chan os.Signal) int {
	cmd := exec.Command(command[0], command[1:]...)
	cmd.Stdin, cmd.Stdout, cmd.Stderr, cmd.Env = os.Stdin, os.Stdout, os.Stderr, environment
	restore := ownGroup(cmd)
	defer restore()
	ended, err := start(cmd)
	if err != nil {
		fmt.Fprintf(os.Stderr, "localpg: start %s: %v\n", command[0], err)
		return exitNoStart
	}
	for {
		select {
		case s := <-signals:
			_ = cmd.Process.Signal(s) // it may have ended just now
		case <-ended:
			return exitCode(cmd.ProcessState)
		}
	}
}

func exitCode(state *os.ProcessState) int {
	if status, ok := state.Sys().(syscall.WaitStatus); ok && status.Signaled() {
		return 128 + int(status.Signal())
	}
	return state.ExitCode()
}

func say(message string) { fmt.Fprintln(os.Stderr, message) }
