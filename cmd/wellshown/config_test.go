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

func TestSecureFollowsTheBaseURL(t *testing.T) {
	if !(config{BaseURL: "https://shown.example"}).secure() || (config{BaseURL: "http://shown.example"}).secure() {
		t.Error("secure does not follow the scheme of BASE_URL")
	}
}
