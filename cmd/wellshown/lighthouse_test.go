package main

import (
	"net/http"
	"net/http/httptest"
	"testing"

	"wellshown/integration/browser"
)

// TestLighthouse has Lighthouse (npm, the version that package.json pins) look at the
// page that everybody comes in by, and at the page at the bedside as a device keeps it,
// with the server stopped: nothing to find about accessibility or good practice. Its
// scores for speed are not asked for: they say how busy a machine is.
func TestLighthouse(t *testing.T) {
	tools := browser.Tools(t)
	b, server := bedside(t)
	stop := httptest.NewServer(http.HandlerFunc(func(http.ResponseWriter, *http.Request) {
		server.CloseClientConnections()
		if err := server.Listener.Close(); err != nil {
			t.Errorf("stop the server: %v", err)
		}
	}))
	t.Cleanup(stop.Close)
	job := struct {
		Chromium string         `json:"chromium"`
		Base     string         `json:"base"`
		Cookie   browser.Cookie `json:"cookie"`
		Stop     string         `json:"stop"` // asked for, it stops the server
	}{tools.Chromium, b.Base, b.Cookie, stop.URL}
	var came struct{ Scores map[string]map[string]float64 }
	tools.Play(t, "lighthouse.mjs", job, &came)
	in, installed := came.Scores["the way in"], came.Scores["the bedside, with its server stopped"]
	if in["accessibility"] != 1 || in["best-practices"] != 1 || installed["accessibility"] != 1 {
		t.Errorf("scored %v", came.Scores)
	}
	t.Logf("scored %v", came.Scores)
	if _, err := http.Get(b.Base + "/health"); err == nil {
		t.Error("the server was not stopped")
	}
}
