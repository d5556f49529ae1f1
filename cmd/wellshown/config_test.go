package main

import (
	"strings"
	"testing"
)

func TestReadConfigReportsAllFaultsAtOnce(t *testing.T) {
	env := map[string]string{"DATABASE_URL": "mysql://x:verysecret@h/d", "PORT": "eighty", "BASE_URL": "shown.example"}
	_, err := readConfig(func(name string) string { return env[name] })
	if err == nil {
		t.Fatal("three faults were accepted")
	}
	for _, name := range []string{"DATABASE_URL", "PORT", "BASE_URL"} {
		if !strings.Contains(err.Error(), name) {
			t.Errorf("%s is not named: %v", name, err)
		}
	}
	if strings.Contains(err.Error(), "verysecret") {
		t.Errorf("the message repeats a password: %v", err)
	}
}

func TestReadConfigDefaults(t *testing.T) {
	c, err := readConfig(func(name string) string {
		return map[string]string{"DATABASE_URL": "postgres://u:p@127.0.0.1/d"}[name]
	})
	if err != nil {
		t.Fatal(err)
	}
	if c.Host != "127.0.0.1" || c.Port != 8080 || c.BaseURL != "http://127.0.0.1:8080" || c.secure() {
		t.Errorf("defaults are %+v", c)
	}
}

func TestReadConfigWithoutADatabaseSaysHowToGetOne(t *testing.T) {
	_, err := readConfig(func(string) string { return "" })
	if err == nil || !strings.Contains(err.Error(), "make run") {
		t.Errorf("says %v", err)
	}
}

func TestReadPort(t *testing.T) {
	for text, want := range map[string]int{"": 8080, "1": 1, "65535": 65535, "0": 0, "65536": 0, "-1": 0, "8080x": 0, "８０８０": 0} {
		got, err := readPort(text)
		if got != want || (err != nil) != (want == 0) {
			t.Errorf("PORT %q is read as %d, %v; want %d", text, got, err, want)
		}
	}
}

// A literal IPv6 address stands in brackets (RFC 3986 section 3.2.2).
func TestTheBaseURLFollowsFromWhereTheServiceListens(t *testing.T) {
	for _, c := range []struct{ host, base, want string }{
		{"", "", "http://127.0.0.1:8080"},
		{"::1", "", "http://[::1]:8080"},
		{"shown.example", "", "http://shown.example:8080"},
		{"0.0.0.0", "https://shown.example", "https://shown.example"},
		{"0.0.0.0", "", ""},
		{"::", "", ""},
	} {
		got, err := readConfig(func(name string) string {
			return map[string]string{"DATABASE_URL": "postgres://u:p@127.0.0.1/d", "HOST": c.host, "BASE_URL": c.base}[name]
		})
		if got.BaseURL != c.want || (err == nil) != (c.want != "") {
			t.Errorf("HOST %q, BASE_URL %q: %q, %v; want %q", c.host, c.base, got.BaseURL, err, c.want)
		}
		if c.want == "" && (err == nil || !strings.Contains(err.Error(), "BASE_URL")) {
			t.Errorf("HOST %q: %v does not ask for BASE_URL", c.host, err)
		}
	}
}

// Migrating makes no certificate, so it asks for no address to print on one.
func TestMigratingNeedsTheDatabaseAlone(t *testing.T) {
	c, err := readDatabases(func(name string) string {
		return map[string]string{"DATABASE_URL": "postgres://u:p@127.0.0.1/d", "HOST": "0.0.0.0", "PORT": "eighty"}[name]
	})
	if err != nil || c.DatabaseURL == "" {
		t.Errorf("%v", err)
	}
}

func TestSecureFollowsTheBaseURL(t *testing.T) {
	if !(config{BaseURL: "https://shown.example"}).secure() || (config{BaseURL: "http://shown.example"}).secure() {
		t.Error("secure does not follow the scheme of BASE_URL")
	}
}

// Who does what was put off is said plainly or not at all: a misspelt word must not
// leave it undone.
func TestReadJobs(t *testing.T) {
	for text, want := range map[string]struct{ elsewhere, refused bool }{"": {}, "here": {}, "elsewhere": {elsewhere: true}, "no": {refused: true}, "Elsewhere": {refused: true}} {
		elsewhere, err := readJobs(text)
		if elsewhere != want.elsewhere || (err != nil) != want.refused {
			t.Errorf("JOBS %q: %t, %v", text, elsewhere, err)
		}
	}
}
