package integration

import (
	"testing"

	"wellshown/integration/browser"
)

// TestLighthouse has Lighthouse (npm, the version that package.json pins) look at
// the page that everybody comes in by: nothing to find about accessibility or good
// practice. Its scores for speed are not looked at: they say how busy a machine is.
func TestLighthouse(t *testing.T) {
	tools := browser.Tools(t)
	_, base := served(t, "127.0.0.1")
	type page struct {
		Name string `json:"name"`
		Path string `json:"path"`
	}
	job := struct {
		Chromium string `json:"chromium"`
		Base     string `json:"base"`
		Pages    []page `json:"pages"`
	}{tools.Chromium, base, []page{{"the way in", "/sign-in"}}}
	var came struct{ Scores map[string]map[string]float64 }
	tools.Play(t, "lighthouse.mjs", job, &came)
	for _, p := range job.Pages {
		if s := came.Scores[p.Name]; s["accessibility"] != 1 || s["best-practices"] != 1 {
			t.Errorf("%s scores %v", p.Name, s)
		}
	}
}
