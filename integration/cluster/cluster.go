// Package cluster runs a private PostgreSQL server from the server programs that a machine already has: one data
// folder, one port on 127.0.0.1, no Unix socket, no system service. `make run` keeps its data in one, and the tests
// throw one away each time. It speaks no SQL: whoever starts a cluster connects to its URL.
package cluster

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"runtime"
	"strings"
)

// Owner is the name of the cluster's superuser, who owns the databases and runs the migrations.
const Owner = "wellshown_owner"

// errInUse says that a live process has started the cluster of the same folder.
var errInUse = errors.New("another program is running it; stop that one first")

// Options say where a cluster keeps its files and how careful it is with them.
type Options struct {
	// Dir is the folder for the cluster's files; it is made when missing.
	Dir string
	// Fast gives up crash safety for speed. For tests only: a power cut may ruin such a cluster.
	Fast bool
	// Notice is told what the person at the keyboard ought to know, such as a folder other than Dir being used.
	// Nil means nobody is told.
	Notice func(message string)
}

// Cluster is a running PostgreSQL server that this process started and will stop.
type Cluster struct {
	home   home
	bin    binaries
	port   int
	secret string
	lock   *os.File
	server *server
}

// Start makes the cluster if the folder holds none, then starts it and waits until it takes connections.
//
// It fails with ErrNoBinaries when the machine has no server programs, and says so plainly when another process is
// already running the cluster of the same folder. A folder left behind by a killed process is taken over. As root the
// server runs under the account postgres or nobody, since PostgreSQL refuses to run as root.
func Start(ctx context.Context, o Options) (*Cluster, error) {
	bin, err := findBinaries()
	if err != nil {
		return nil, err
	}
	account, err := serverAccount()
	if err != nil {
		return nil, fmt.Errorf("choose an account for PostgreSQL: %w", err)
	}
	h, err := openHome(o, bin.major, account)
	if err != nil {
		return nil, err
	}
	c := &Cluster{home: h, bin: bin}
	if err := c.start(ctx, o.Fast); err != nil {
		c.unlock()
		return nil, err
	}
	return c, nil
}

func (c *Cluster) start(ctx context.Context, fast bool) error {
	var err error
	if c.lock, err = lockFile(c.home.path("lock")); err != nil {
		return fmt.Errorf("take the PostgreSQL cluster in %s: %w", c.home.dir, err)
	}
	if err := c.home.waitForLeftover(ctx); err != nil {
		return err
	}
	if err := c.initialise(ctx); err != nil {
		return fmt.Errorf("make a PostgreSQL cluster in %s: %w", c.home.dir, err)
	}
	if err := c.run(ctx, fast); err != nil {
		return fmt.Errorf("start PostgreSQL in %s: %w", c.home.dir, err)
	}
	return nil
}

// initialise makes the data folder under another name and renames it at the end, so that an interrupted first start
// leaves nothing that looks like a cluster.
func (c *Cluster) initialise(ctx context.Context) error {
	secretFile := c.home.path("owner-password")
	if _, err := os.Stat(c.home.path("data", "PG_VERSION")); err == nil {
		secret, err := os.ReadFile(secretFile)
		c.secret = strings.TrimSpace(string(secret))
		return err
	}
	c.secret = rand.Text()
	if err := c.home.write(secretFile, c.secret+"\n"); err != nil {
		return err
	}
	fresh := c.home.path("data.new")
	if err := os.RemoveAll(fresh); err != nil {
		return err
	}
	runtime.LockOSThread() // as in launch
	defer runtime.UnlockOSThread()
	initdb := c.home.command(ctx, c.bin.initdb, "-D", fresh, "-U", Owner, "--pwfile", secretFile,
		"-A", "scram-sha-256", "-E", "UTF8", "--locale=C.UTF-8", "--no-sync")
	if out, err := initdb.CombinedOutput(); err != nil {
		return fmt.Errorf("initdb: %w\n%s", err, out)
	}
	return os.Rename(fresh, c.home.path("data"))
}

// URL is the owner's connection string, password included, to the database `postgres`.
func (c *Cluster) URL() string {
	u := url.URL{Scheme: "postgres", User: url.UserPassword(Owner, c.secret),
		Host: fmt.Sprintf("127.0.0.1:%d", c.port), Path: "/postgres", RawQuery: "sslmode=disable"}
	return u.String()
}

// Dir is the folder that holds this cluster's files; it differs from Options.Dir where the server's account could
// not have entered that one.
func (c *Cluster) Dir() string { return filepath.Dir(c.home.dir) }

// Stop ends the server, cutting off whoever is still connected, and waits until its data are on disk. A second call
// does nothing.
func (c *Cluster) Stop() error {
	defer c.unlock()
	if c.server == nil {
		return nil
	}
	err := c.server.stop()
	c.server = nil
	return err
}

func (c *Cluster) unlock() {
	if c.lock != nil {
		c.lock.Close()
		c.lock = nil
	}
}
