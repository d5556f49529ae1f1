package cluster

import (
	"context"
	"errors"
	"fmt"
	"net"
	"os"
	"os/exec"
	"runtime"
	"strconv"
	"strings"
	"syscall"
	"time"
)

const (
	startLimit = time.Minute // a first start takes about a second, one after a crash or on a busy machine longer
	stopLimit  = 30 * time.Second
)

// server is a running postgres process; exited is closed once it has ended, failed says how.
type server struct {
	process *os.Process
	exited  chan struct{}
	failed  error
}

// run starts postgres on a free port. Another program may take the port between our looking and PostgreSQL's binding
// it, hence three tries.
func (c *Cluster) run(ctx context.Context, fast bool) error {
	var err error
	for range 3 {
		if c.port, err = freePort(); err != nil {
			return fmt.Errorf("find a free port: %w", err)
		}
		if err = c.runOn(ctx, fast); err == nil || !strings.Contains(err.Error(), "could not bind") {
			return err
		}
	}
	return err
}

func (c *Cluster) runOn(ctx context.Context, fast bool) error {
	logPath := c.home.path("server.log")
	if err := c.home.write(logPath, ""); err != nil {
		return fmt.Errorf("make the log file: %w", err)
	}
	log, err := os.OpenFile(logPath, os.O_APPEND|os.O_WRONLY, 0)
	if err != nil {
		return fmt.Errorf("open the log file: %w", err)
	}
	defer log.Close()
	// Not CommandContext: the server outlives the context of its start and is ended by Stop.
	cmd := c.home.command(context.WithoutCancel(ctx), c.bin.postgres, arguments(c.home.path("data"), c.port, fast)...)
	cmd.Stdout, cmd.Stderr = log, log
	if c.server, err = launch(cmd); err != nil {
		return err
	}
	if err := c.awaitReady(ctx); err != nil {
		text, _ := os.ReadFile(logPath)
		err = fmt.Errorf("%w; its log ends:\n%s", err, tail(string(text), 15))
		stopErr := c.server.stop()
		c.server = nil
		return errors.Join(err, stopErr)
	}
	return nil
}

// arguments leave no Unix socket (its folder may be unwritable, its path too long) and listen on this machine alone.
func arguments(data string, port int, fast bool) []string {
	settings := []string{"listen_addresses=127.0.0.1", "unix_socket_directories=", "timezone=UTC"}
	if fast {
		settings = append(settings, "fsync=off", "synchronous_commit=off", "full_page_writes=off",
			"max_connections=300", "checkpoint_timeout=1h", "wal_level=minimal", "max_wal_senders=0")
	}
	args := []string{"-D", data, "-p", strconv.Itoa(port)}
	for _, s := range settings {
		args = append(args, "-c", s)
	}
	return args
}

// launch starts the process from a thread that stays alive as long as it does: the kernel's signal at the parent's
// death follows the thread that forked, not the process.
func launch(cmd *exec.Cmd) (*server, error) {
	s := &server{exited: make(chan struct{})}
	started := make(chan error, 1)
	go func() {
		runtime.LockOSThread()
		defer runtime.UnlockOSThread()
		err := cmd.Start()
		started <- err
		if err == nil {
			s.failed = cmd.Wait()
			close(s.exited)
		}
	}()
	if err := <-started; err != nil {
		return nil, err
	}
	s.process = cmd.Process
	return s, nil
}

// awaitReady waits for the state that the server itself writes once it takes connections.
func (c *Cluster) awaitReady(ctx context.Context) error {
	limit, cancel := context.WithTimeout(ctx, startLimit)
	defer cancel()
	poll := time.NewTicker(20 * time.Millisecond)
	defer poll.Stop()
	for {
		select {
		case <-c.server.exited:
			return fmt.Errorf("PostgreSQL ended at once: %w", c.server.failed)
		case <-limit.Done():
			return fmt.Errorf("PostgreSQL takes no connections: %w", limit.Err())
		case <-poll.C:
			if pid, ready := c.home.postmaster(); ready && pid == c.server.process.Pid {
				return nil
			}
		}
	}
}

// stop asks for a fast shutdown, which ends every session and writes the data out; only a server that hangs is
// ended the hard way, from which it recovers at its next start.
func (s *server) stop() error {
	for _, sig := range []os.Signal{syscall.SIGINT, syscall.SIGQUIT, syscall.SIGKILL} {
		if err := s.process.Signal(sig); err != nil && !errors.Is(err, os.ErrProcessDone) {
			return fmt.Errorf("stop PostgreSQL: %w", err)
		}
		select {
		case <-s.exited:
			return s.failed
		case <-time.After(stopLimit):
		}
	}
	return errors.New("stop PostgreSQL: it did not end")
}

func freePort() (int, error) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return 0, err
	}
	defer l.Close()
	return l.Addr().(*net.TCPAddr).Port, nil
}

func tail(text string, lines int) string {
	all := strings.Split(strings.TrimSpace(text), "\n")
	return strings.Join(all[max(0, len(all)-lines):], "\n")
}
