package migrations

import "testing"

func TestWithUser(t *testing.T) {
	t.Parallel()
	for from, want := range map[string]string{
		"postgres://o:p@h:1/d?sslmode=disable":    "postgres://s:q@h:1/d?sslmode=disable",
		"postgresql://h/d?user=o&password=p":      "postgresql://s:q@h/d",
		"postgres://o:p@h":                        "postgres://s:q@h/o",
		"postgres://o:p@h/d?options=-c%20a%3Db+c": "postgres://s:q@h/d?options=-c%20a%3Db+c",
		"host=h user=o password=p dbname=d":       "",
	} {
		config, err := parse(from)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := withUser(from, config, "s", "q"); got != want || (err == nil) != (want != "") {
			t.Errorf("withUser(%q) = %q, %v; want %q", from, got, err, want)
		}
	}
}

// Whatever URL the owner connects with, the service's leads to the same server and database, under its own name.
func FuzzWithUser(f *testing.F) {
	for _, seed := range []string{"postgres://o:p@h:1/d?sslmode=disable", "postgresql://h/d?user=o&password=p", "postgres://o@h",
		"postgres://o:p@[::1]:5432/d", "postgres:///d?host=/run/x", "postgres://o:p@a,b:2/d", "postgres://h/?dbname=x", "host=h", "postgres://%zz/"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, owner string) {
		before, err := parse(owner)
		if err != nil {
			return
		}
		service, err := withUser(owner, before, ServiceRole, "secret")
		if err != nil {
			return // refused is safe
		}
		after, err := parse(service)
		if err != nil {
			t.Fatalf("%q became %q, which cannot be read: %v", owner, service, err)
		}
		database := before.Database
		if database == "" {
			database = before.User
		}
		if after.User != ServiceRole || after.Password != "secret" || after.Host != before.Host || after.Port != before.Port || after.Database != database {
			t.Fatalf("%q became %q: user %q, host %q:%d, database %q", owner, service, after.User, after.Host, after.Port, after.Database)
		}
	})
}
