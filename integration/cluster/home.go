package cluster

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"time"
)

// home is the folder of one cluster: lock, owner-password, server.log and data, all owned by the server's account.
type home struct {
	dir     string
	account account
}

// openHome makes the folder, named after the major version because data of one cannot be read by another. Where the
// server's account cannot enter o.Dir (a checkout in root's home, say), a folder elsewhere stands in for it, the same
// one each time.
func openHome(o Options, major int, a account) (home, error) {
	dir, err := filepath.Abs(o.Dir)
	if err != nil {
		return home{}, fmt.Errorf("find the cluster's folder: %w", err)
	}
	for _, candidate := range a.folders(dir) {
		real, blocked, err := a.prepare(candidate)
		if err != nil {
			return home{}, fmt.Errorf("make a folder for PostgreSQL's data: %w", err)
		}
		if blocked != "" {
			continue
		}
		if candidate != dir && o.Notice != nil {
			o.Notice(fmt.Sprintf("The account %s, which runs PostgreSQL, cannot use %s; its data are kept in %s instead.", a.name, dir, real))
		}
		h := home{dir: filepath.Join(real, "postgres-"+strconv.Itoa(major)), account: a}
		return h, h.make()
	}
	return home{}, fmt.Errorf("the account %s, which runs PostgreSQL, may enter neither %s nor a folder under /var/lib", a.name, dir)
}

// make creates the folder, or checks that an existing one was made for the same account: PostgreSQL starts only as
// the owner of its data.
func (h home) make() error {
	err := os.Mkdir(h.dir, 0o700)
	switch {
	case err == nil:
		return h.account.own(h.dir)
	case !errors.Is(err, os.ErrExist):
		return fmt.Errorf("make the cluster's folder: %w", err)
	case !h.account.owns(h.dir):
		return fmt.Errorf("the PostgreSQL cluster in %s was made by another user; run this as that user, or move the folder away", h.dir)
	}
	return nil
}

func (h home) path(parts ...string) string {
	return filepath.Join(append([]string{h.dir}, parts...)...)
}

// write makes a file that the server's account alone may read.
func (h home) write(path, text string) error {
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		return err
	}
	return h.account.own(path)
}

// command runs a server program as the server's account, with nothing of our environment that could steer it.
func (h home) command(ctx context.Context, program string, args ...string) *exec.Cmd {
	cmd := exec.CommandContext(ctx, program, args...)
	cmd.Dir = h.dir
	cmd.Env = []string{"PATH=" + os.Getenv("PATH"), "LC_ALL=C.UTF-8", "HOME=" + h.dir, "TZ=UTC"}
	cmd.SysProcAttr = h.account.attributes()
	return cmd
}

// postmaster reads what a server writes about itself in its data folder: its process and, on line 8, its state.
func (h home) postmaster() (pid int, ready bool) {
	text, err := os.ReadFile(h.path("data", "postmaster.pid"))
	if err != nil {
		return 0, false
	}
	lines := strings.Split(string(text), "\n")
	pid, _ = strconv.Atoi(strings.TrimSpace(lines[0]))
	return pid, len(lines) > 7 && strings.TrimSpace(lines[7]) == "ready"
}

// waitForLeftover deals with the postmaster.pid of an earlier run. A server whose starter was killed is just shutting
// down, so it gets the time of a start; a number that now belongs to some other process blocks nobody.
func (h home) waitForLeftover(ctx context.Context) error {
	for deadline := time.Now().Add(startLimit); ; time.Sleep(50 * time.Millisecond) {
		pid, _ := h.postmaster()
		switch {
		case pid == 0 || !alive(pid):
			return nil // PostgreSQL itself clears away the file of a dead process
		case !worksIn(pid, h.path("data")):
			err := os.Remove(h.path("data", "postmaster.pid"))
			if errors.Is(err, os.ErrNotExist) {
				return nil
			}
			return err
		case ctx.Err() != nil:
			return ctx.Err()
		case time.Now().After(deadline):
			return fmt.Errorf("PostgreSQL is already running in %s as process %d; stop it first", h.dir, pid)
		}
	}
}
