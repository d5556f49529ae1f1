package integration_test

import (
	"errors"
	"net/url"
	"os"
	"testing"

	"wellshown/integration/cluster"
	"wellshown/migrations"
)

// The service's role belongs to a whole server, so the server is one of this test's
// own. Whoever serves then needs one password, which opens nothing of the owner's.
func TestMigratingLetsTheServiceInWithAPasswordOfItsOwn(t *testing.T) {
	if testing.Short() {
		t.Skip("-short leaves out what needs a database")
	}
	if err := cluster.Available(); errors.Is(err, cluster.ErrNoBinaries) && os.Getenv("CI") == "" {
		t.Skip(err)
	} else if err != nil {
		t.Fatal(err)
	}
	dir, err := os.MkdirTemp("", "wellshown-service-")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	if err := os.Chmod(dir, 0o755); err != nil { // the server may run under another account
		t.Fatal(err)
	}
	server, err := cluster.Start(t.Context(), cluster.Options{Dir: dir, Fast: true})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { server.Stop() })
	as := func(password string) string {
		u, err := url.Parse(server.URL())
		if err != nil {
			t.Fatal(err)
		}
		u.User = url.UserPassword(migrations.ServiceRole, password)
		return u.String()
	}
	if err := migrations.Up(t.Context(), server.URL()); err != nil {
		t.Fatal(err)
	}
	for _, password := range []string{"first of its own", "another one & odd: signs"} {
		if err := migrations.CheckService(t.Context(), as(password)); err == nil {
			t.Fatal("it is let in before it was given the password: this test would show nothing")
		}
		for range 2 { // the second time there is nothing to do
			if err := migrations.LetServiceIn(t.Context(), server.URL(), as(password)); err != nil {
				t.Fatal(err)
			}
		}
		if err := migrations.CheckService(t.Context(), as(password)); err != nil {
			t.Error(err)
		}
		if pending, err := migrations.Pending(t.Context(), as(password)); err != nil || len(pending) > 0 {
			t.Errorf("%v, %v", pending, err)
		}
	}
	if err := migrations.CheckService(t.Context(), as("first of its own")); err == nil {
		t.Error("the password before still opens")
	}
}
