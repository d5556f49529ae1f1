package cluster

import (
	"context"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"
)

// folder is a temporary folder that the server's account may enter, which testing's own is not under root.
func folder(t *testing.T) string {
	t.Helper()
	if testing.Short() {
		t.Skip("-short leaves out what needs a database")
	}
	if err := Available(); errors.Is(err, ErrNoBinaries) && os.Getenv("CI") == "" {
		t.Skip(err)
	} else if err != nil {
		t.Fatal(err)
	}
	dir, err := os.MkdirTemp("", "wellshown-cluster-")
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	return dir
}

func start(t *testing.T, dir string) *Cluster {
	t.Helper()
	c, err := Start(t.Context(), Options{Dir: dir, Fast: true})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { c.Stop() })
	return c
}

func ask(t *testing.T, url, sql string) string {
	t.Helper()
	conn, err := pgx.Connect(t.Context(), url)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close(context.WithoutCancel(t.Context()))
	var answer string
	if err := conn.QueryRow(t.Context(), sql).Scan(&answer); err != nil {
		t.Fatal(err)
	}
	return answer
}

func TestDataOutliveARestart(t *testing.T) {
	t.Parallel()
	dir := folder(t)
	c := start(t, dir)
	made := ask(t, c.URL(), "select system_identifier::text from pg_control_system()")
	if err := c.Stop(); err != nil {
		t.Fatalf("first stop: %v", err)
	}
	if err := c.Stop(); err != nil {
		t.Errorf("second stop: %v", err)
	}
	again := start(t, dir)
	if got := ask(t, again.URL(), "select system_identifier::text from pg_control_system()"); got != made {
		t.Errorf("the second start made a new cluster: %s, then %s", made, got)
	}
	if got := ask(t, again.URL(), "select current_setting('listen_addresses') || ' ' || current_setting('unix_socket_directories')"); got != "127.0.0.1 " {
		t.Errorf("listens on %q", got)
	}
}

func TestALiveClusterIsNotTakenOver(t *testing.T) {
	t.Parallel()
	dir := folder(t)
	start(t, dir)
	_, err := Start(t.Context(), Options{Dir: dir, Fast: true})
	if !errors.Is(err, errInUse) || !strings.Contains(err.Error(), dir) {
		t.Errorf("second start on a live folder: %v", err)
	}
}

func TestALeftoverPidFileDoesNotBlock(t *testing.T) {
	t.Parallel()
	gone := exec.Command("true")
	if err := gone.Run(); err != nil {
		t.Fatal(err)
	}
	for name, pid := range map[string]int{
		"of a dead process":                  gone.Process.Pid,
		"number now used by another program": os.Getpid(),
	} {
		t.Run(name, func(t *testing.T) {
			dir := folder(t)
			c := start(t, dir)
			file := c.home.path("data", "postmaster.pid")
			left, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			if err := c.Stop(); err != nil {
				t.Fatal(err)
			}
			_, rest, _ := strings.Cut(string(left), "\n")
			if err := c.home.write(file, strconv.Itoa(pid)+"\n"+rest); err != nil {
				t.Fatal(err)
			}
			start(t, dir)
		})
	}
}

// An interrupted first start leaves half a cluster under the name data.new.
func TestAnInterruptedFirstStartIsBegunAgain(t *testing.T) {
	t.Parallel()
	dir := folder(t)
	c := start(t, dir)
	if err := c.Stop(); err != nil {
		t.Fatal(err)
	}
	if err := os.Rename(c.home.path("data"), c.home.path("data.new")); err != nil {
		t.Fatal(err)
	}
	ask(t, start(t, dir).URL(), "select 'works'")
}

// TestKilledStarterTakesItsServerAlong runs this test binary again as the starter and kills it the hard way.
func TestKilledStarterTakesItsServerAlong(t *testing.T) {
	const variable = "WELLSHOWN_CLUSTER_TEST_DIR"
	if dir := os.Getenv(variable); dir != "" {
		start(t, dir)
		time.Sleep(time.Minute) // killed long before
		return
	}
	t.Parallel()
	dir := folder(t)
	starter := exec.Command(os.Args[0], "-test.run=^TestKilledStarterTakesItsServerAlong$")
	starter.Env = append(os.Environ(), variable+"="+dir)
	if err := starter.Start(); err != nil {
		t.Fatal(err)
	}
	server := awaitServer(t, dir)
	if err := starter.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	starter.Wait()
	next := start(t, dir) // waits for the old server to finish, then reuses its folder
	if worksIn(server, filepath.Join(next.home.dir, "data")) {
		t.Errorf("server %d outlived its starter", server)
	}
}

// awaitServer waits until some process has a ready server in dir, and names its process.
func awaitServer(t *testing.T, dir string) int {
	t.Helper()
	for range 1200 {
		if found, _ := filepath.Glob(filepath.Join(dir, "postgres-*")); len(found) == 1 {
			if pid, ready := (home{dir: found[0]}).postmaster(); ready {
				return pid
			}
		}
		time.Sleep(50 * time.Millisecond)
	}
	t.Fatal("no server appeared")
	return 0
}

func TestRootWithAClosedFolderIsGivenAnother(t *testing.T) {
	t.Parallel()
	if os.Geteuid() != 0 {
		t.Skip("only root starts the server under another account")
	}
	closed := filepath.Join(folder(t), "home")
	if err := os.Mkdir(closed, 0o700); err != nil {
		t.Fatal(err)
	}
	var told string
	c, err := Start(t.Context(), Options{Dir: filepath.Join(closed, "data"), Fast: true, Notice: func(m string) { told = m }})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { c.Stop(); os.RemoveAll(c.Dir()) })
	if !strings.HasPrefix(c.Dir(), "/var/lib/wellshown-") || !strings.Contains(told, c.Dir()) || !strings.Contains(told, closed) {
		t.Errorf("data in %s, and was told %q", c.Dir(), told)
	}
	ask(t, c.URL(), "select 'works'")
}

func TestAnotherUsersClusterIsRefused(t *testing.T) {
	t.Parallel()
	if os.Geteuid() != 0 {
		t.Skip("only root can give a folder away")
	}
	dir := folder(t)
	c := start(t, dir)
	if err := c.Stop(); err != nil {
		t.Fatal(err)
	}
	if err := os.Chown(c.home.dir, 4321, 4321); err != nil {
		t.Fatal(err)
	}
	if _, err := Start(t.Context(), Options{Dir: dir}); err == nil || !strings.Contains(err.Error(), "another user") {
		t.Errorf("started on a folder of another user: %v", err)
	}
}

func TestAServerThatCannotStartShowsItsLog(t *testing.T) {
	t.Parallel()
	dir := folder(t)
	c := start(t, dir)
	if err := c.Stop(); err != nil {
		t.Fatal(err)
	}
	if err := c.home.write(c.home.path("data", "postgresql.conf"), "no_such_setting = 1\n"); err != nil {
		t.Fatal(err)
	}
	if _, err := Start(t.Context(), Options{Dir: dir}); err == nil || !strings.Contains(err.Error(), "no_such_setting") {
		t.Errorf("the error does not show the server's own words: %v", err)
	}
}

// The lines are what `postgres --version` prints on Debian, from the server's own source and for a beta.
func TestMajorVersion(t *testing.T) {
	t.Parallel()
	for line, want := range map[string]int{
		"postgres (PostgreSQL) 15.18 (Debian 15.18-0+deb12u1)\n": 15,
		"postgres (PostgreSQL) 18beta1\n":                        18,
		"postgres (PostgreSQL) 9.6.24\n":                         9,
		"initdb (PostgreSQL) 15.18\n":                            0,
		"":                                                       0,
	} {
		got, err := majorVersion(line)
		if got != want || (err == nil) != (want != 0) {
			t.Errorf("majorVersion(%q) = %d, %v; want %d", line, got, err, want)
		}
	}
}

func TestPgBinThatIsWrongIsSaid(t *testing.T) {
	t.Setenv("PG_BIN", filepath.Join(t.TempDir(), "nothing"))
	if err := Available(); err == nil || errors.Is(err, ErrNoBinaries) || !strings.Contains(err.Error(), "PG_BIN") {
		t.Errorf("PG_BIN naming no server: %v", err)
	}
}

func TestStopEndsTheProcess(t *testing.T) {
	t.Parallel()
	c := start(t, folder(t))
	process := c.server.process
	if err := c.Stop(); err != nil {
		t.Fatal(err)
	}
	if err := process.Signal(syscall.Signal(0)); !errors.Is(err, os.ErrProcessDone) {
		t.Errorf("after Stop the server answers a signal: %v", err)
	}
}
