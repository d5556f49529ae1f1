package main

import (
	"bytes"
	"context"
	"crypto/rand"
	"errors"
	"io"
	"net"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"wellshown/assessment/fault"
	"wellshown/assessment/ledger"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/cmd/wellshown/demo"
	"wellshown/integration/testdb"
)

// emptyDatabase has the commands work in a database and a folder of their own.
func emptyDatabase(t *testing.T) *testdb.DB {
	t.Helper()
	database := testdb.New(t)
	t.Setenv("DATABASE_URL", database.OwnerURL)
	keys := filepath.Join(t.TempDir(), "ledger-keys")
	need(t, os.WriteFile(keys, []byte(got(ledger.KeyFile(rand.Reader, "test"))(t)), 0o600))
	t.Setenv("WELLSHOWN_LEDGER_KEYS", keys)
	for _, name := range []string{"SERVICE_DATABASE_URL", "HOST", "BASE_URL"} {
		t.Setenv(name, "")
	}
	free, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	t.Setenv("PORT", strconv.Itoa(free.Addr().(*net.TCPAddr).Port))
	free.Close()
	t.Chdir(t.TempDir())
	return database
}

func openFor(t *testing.T, database *testdb.DB) *postgres.DB {
	t.Helper()
	db, err := postgres.Open(t.Context(), database.ServiceURL)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(db.Close)
	return db
}

// listener hears what a command says, and when it begins to make the demo.
type listener struct {
	bytes.Buffer
	making chan struct{}
}

func (l *listener) Write(b []byte) (int, error) {
	if strings.Contains(string(b), "Making the demo agency") {
		defer close(l.making)
	}
	return l.Buffer.Write(b)
}

// breakOff runs a command and ends it as Ctrl-C does, as soon as the agency of the
// demo is there. It answers with what the command said.
func breakOff(t *testing.T, command func(context.Context, []string, io.Writer) error) string {
	t.Helper()
	ctx, interrupt := context.WithCancel(t.Context())
	defer interrupt()
	said, ended := &listener{making: make(chan struct{})}, make(chan error, 1)
	go func() { ended <- command(ctx, nil, said) }()
	select {
	case err := <-ended:
		t.Fatalf("it ended by itself: %v", err)
	case <-said.making:
	}
	c, err := fromEnvironment()
	if err != nil {
		t.Fatal(err)
	}
	for {
		there, err := hasUnfinished(t.Context(), c)
		if err != nil {
			t.Fatal(err)
		}
		if !there {
			time.Sleep(20 * time.Millisecond)
			continue
		}
		interrupt()
		if err := <-ended; !errors.Is(err, context.Canceled) {
			t.Errorf("it was broken off and says %v", err)
		}
		return said.String()
	}
}

// Ctrl-C must not spoil the database for good: the next run begins anew, whichever
// of the two commands it is, and nothing unfinished has the demo's code.
func TestADemoThatWasBrokenOffIsMadeAnew(t *testing.T) {
	database := emptyDatabase(t)
	if said := breakOff(t, runUp); strings.Contains(said, "thrown away") {
		t.Errorf("in an empty database it says %q", said)
	}
	if said := breakOff(t, runDemo); !strings.Contains(said, "thrown away") {
		t.Errorf("after one that was broken off it says %q", said)
	}
	db := openFor(t, database)
	if _, err := db.AtDoor().Agency(t.Context(), demo.Code); fault.KindOf(err) != fault.NotFound {
		t.Errorf("the demo's code leads to an unfinished one: %v", err)
	}
}

// Where others have their records nothing is thrown away, nor while somebody is
// connected, nor by anybody but the owner; what to do is said.
func TestNothingOfOthersIsThrownAway(t *testing.T) {
	database := emptyDatabase(t)
	db := openFor(t, database)
	o := office.New(db, office.Options{})
	found := func(code string) {
		t.Helper()
		if _, err := o.FoundAgency(t.Context(), office.NewAgency{Code: code, Name: "One", Zone: "UTC", AdminName: "Ada",
			AdminEmail: "ada@ourtown.example", AdminPassword: "a pond with nine frogs"}); err != nil {
			t.Fatal(err)
		}
	}
	refused := func(what, says string) {
		t.Helper()
		if err := runDemo(t.Context(), nil, io.Discard); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v; want it to say %q", what, err, says)
		}
	}
	found(demo.Unfinished)
	refused("while somebody is connected", "stop whatever is connected")
	found("ourtown")
	db.Close()
	refused("beside another agency", "empty database")
	t.Setenv("DATABASE_URL", "")
	t.Setenv("SERVICE_DATABASE_URL", database.ServiceURL)
	refused("without the owner's address", "set DATABASE_URL")
	agencies, err := openFor(t, database).AtDoor().Agencies(t.Context())
	if err != nil || len(agencies) != 2 {
		t.Errorf("%d agencies are left, %v", len(agencies), err)
	}
}
