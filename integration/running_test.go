package integration

import (
	"bytes"
	"context"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"wellshown/integration/ward"
)

// built is the service as a program, gone when the test ends. flags are for the go
// command.
func built(tb testing.TB, flags ...string) string {
	tb.Helper()
	path := filepath.Join(tb.TempDir(), "wellshown")
	args := append(append([]string{"build"}, flags...), "-o", path, "wellshown/cmd/wellshown")
	if out, err := exec.Command("go", args...).CombinedOutput(); err != nil {
		tb.Fatalf("build the service: %v: %s", err, out)
	}
	return path
}

// running is the service as people run it: a process of its own, over a ward's
// database, that can be killed and started again under the same address.
type running struct {
	tb   testing.TB
	w    *ward.Ward
	path string // of the program
	keys string // path of the file with the ledger's keys
	port string
	Base string

	process *exec.Cmd
	says    bytes.Buffer
}

// run starts the service over a ward. It is gone when the test ends.
func run(tb testing.TB, w *ward.Ward) *running {
	tb.Helper()
	keys := filepath.Join(tb.TempDir(), "ledger-keys")
	if err := os.WriteFile(keys, []byte(w.LedgerKeys), 0o600); err != nil {
		tb.Fatal(err)
	}
	s := &running{tb: tb, w: w, path: built(tb), keys: keys, port: freePort(tb)}
	s.Base = "http://127.0.0.1:" + s.port
	s.Start()
	tb.Cleanup(s.Kill)
	return s
}

// freePort is a port that nobody listens on now.
func freePort(tb testing.TB) string {
	tb.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		tb.Fatal(err)
	}
	defer l.Close()
	_, port, err := net.SplitHostPort(l.Addr().String())
	if err != nil {
		tb.Fatal(err)
	}
	return port
}

// Start starts the service and waits until it answers.
func (s *running) Start() {
	s.tb.Helper()
	s.says.Reset()
	s.process = exec.Command(s.path, "serve")
	s.process.Stdout, s.process.Stderr = &s.says, &s.says
	s.process.Env = append(os.Environ(), "DATABASE_URL="+s.w.DB.OwnerURL, "SERVICE_DATABASE_URL="+s.w.DB.ServiceURL, "PORT="+s.port,
		"WELLSHOWN_LEDGER_KEYS="+s.keys, "RATE_PER_ADDRESS=600000", "RATE_PER_SESSION=600000", "RATE_OF_SIGN_INS=600000")
	if err := s.process.Start(); err != nil {
		s.tb.Fatalf("start the service: %v", err)
	}
	for range 300 {
		if s.answers() {
			return
		}
		time.Sleep(50 * time.Millisecond)
	}
	s.Kill()
	s.tb.Fatalf("the service does not answer: %s", s.says.String())
}

func (s *running) answers() bool {
	ctx, cancel := context.WithTimeout(context.Background(), time.Second)
	defer cancel()
	r, err := http.NewRequestWithContext(ctx, http.MethodGet, s.Base+"/health", nil)
	if err != nil {
		return false
	}
	answer, err := http.DefaultClient.Do(r)
	if err != nil {
		return false
	}
	answer.Body.Close()
	return answer.StatusCode == http.StatusOK
}

// Kill ends the service as a power cut would: it is told nothing.
func (s *running) Kill() {
	if s.process == nil {
		return
	}
	_ = s.process.Process.Signal(syscall.SIGKILL) // it may be gone already
	_ = s.process.Wait()
	s.process = nil
}
