package migrations_test

import (
	"context"
	"net"
	"net/url"
	"strings"
	"testing"

	"wellshown/integration/testdb"
	"wellshown/migrations"
)

// The name under .invalid leads nowhere (RFC 2606 section 2).
func TestUnreachedSaysWhatToDo(t *testing.T) {
	t.Parallel()
	owner := testdb.Empty(t).OwnerURL
	silent, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	free := silent.Addr().String()
	silent.Close()
	for name, c := range map[string]struct {
		change func(*url.URL)
		says   string
	}{
		"a wrong password":   {func(u *url.URL) { u.User = url.UserPassword(u.User.Username(), "wr0ng") }, "the name or the password"},
		"a missing database": {func(u *url.URL) { u.Path = "/no_such_database" }, "no database of that name"},
		"no server":          {func(u *url.URL) { u.Host = free }, "nothing listens there"},
		"an unknown host":    {func(u *url.URL) { u.Host = "shown.invalid" }, "no host of that name"},
	} {
		t.Run(name, func(t *testing.T) {
			u, err := url.Parse(owner)
			if err != nil {
				t.Fatal(err)
			}
			c.change(u)
			_, err = migrations.Pending(t.Context(), u.String())
			if says := migrations.Unreached(err); !strings.Contains(says, c.says) {
				t.Errorf("%q for %v; want %q in it", says, err, c.says)
			}
			if password, _ := u.User.Password(); strings.Contains(err.Error(), password) {
				t.Errorf("the password is shown: %v", err)
			}
		})
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := migrations.Pending(ctx, owner); err == nil || migrations.Unreached(err) != "" {
		t.Errorf("an interrupt is taken for a fault of the address: %v", err)
	}
	if says := migrations.Unreached(context.DeadlineExceeded); says != "" {
		t.Errorf("%q for an error of another kind", says)
	}
}
