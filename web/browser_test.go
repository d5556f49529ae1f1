package web

import (
	"iter"
	"maps"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"slices"
	"testing"

	desk "wellshown/integration/browser"
)

// everyLook is what each sample page is given: colours, sizes and readers' settings.
var everyLook = []string{"phone, light", "phone, dark", "desk, light", "desk, dark", "tablet", "phone on its side", "reflow",
	"text at 200 %", "text at 200 %, desk", "text spacing", "right to left"}

// byKeys are the samples that are gone through by the Tab key as well: the longest,
// those at the bedside, forms with and without a fault, and a grid; their menu is opened too.
var byKeys = []string{"sign-in-fault", "today-coordinator", "home-family", "marking", "review", "person", "standings", "checklist", "client", "readiness", "account", "survey-found"}

// TestEveryPageForEverybody has every sample page drawn in a real browser under its
// policy and looked at by axe-core and by checks of our own, each named in
// integration/browser beside the success criterion of WCAG 2.2 that asks for it.
func TestEveryPageForEverybody(t *testing.T) {
	tools := desk.Tools(t)
	server := httptest.NewServer(sampleSite(t))
	t.Cleanup(server.Close)
	var pages []desk.Page
	families := 0
	for name, sample := range inOrder(samples()) {
		page := desk.Page{Name: name, Path: "/samples/" + name, Looks: everyLook}
		if slices.Contains(byKeys, name) {
			page.Looks = append(slices.Clone(everyLook), "keys, phone", "keys, desk", "menu open")
		}
		if f := sample.frame(); f.Person == "" || f.Person == motherFrame().Person { // what a family reads, in any language
			page.Looks = append(slices.Clone(page.Looks), "right to left, reflow")
			families++
		}
		pages = append(pages, page)
	}
	var came desk.Looked
	tools.Play(t, "axe.mjs", desk.AxeJob{Chromium: tools.Chromium, Base: server.URL, Visitors: []desk.Visitor{{Pages: pages}}}, &came)
	t.Logf("%d pages in %d states were looked at, %d of them by axe-core", came.Counts.Pages, came.Counts.States, came.Counts.Axe)
	if want := len(pages)*len(everyLook) + 3*len(byKeys) + families; families < 12 || came.Counts.States != want {
		t.Errorf("%d states were looked at, and there are %d", came.Counts.States, want)
	}
}

// inOrder goes through pages by their names.
func inOrder(pages map[string]Page) iter.Seq2[string, Page] {
	return func(yield func(string, Page) bool) {
		for _, name := range slices.Sorted(maps.Keys(pages)) {
			if !yield(name, pages[name]) {
				return
			}
		}
	}
}

// TestPicturesOfEveryPage writes a picture of every sample page at three sizes, in
// light and in dark, into the folder that WELLSHOWN_PICTURES names: see make shots.
func TestPicturesOfEveryPage(t *testing.T) {
	out := os.Getenv("WELLSHOWN_PICTURES")
	if out == "" {
		t.Skip("WELLSHOWN_PICTURES names no folder")
	}
	tools := desk.Tools(t)
	server := httptest.NewServer(sampleSite(t))
	t.Cleanup(server.Close)
	job := desk.ShotsJob{Chromium: tools.Chromium, Base: server.URL, Out: filepath.Join(out, "pages"), Visitors: []desk.Visitor{{}}}
	for _, name := range slices.Sorted(maps.Keys(samples())) {
		job.Visitors[0].Pages = append(job.Visitors[0].Pages, desk.Page{Name: name, Path: "/samples/" + name})
	}
	var came struct{ Pictures int }
	tools.Play(t, "shots.mjs", job, &came)
	t.Logf("%d pictures of %d pages are in %s", came.Pictures, len(samples()), job.Out)
}

// sampleSite serves the samples, and what they are drawn with, under the policy of
// the real pages.
func sampleSite(t *testing.T) http.Handler {
	t.Helper()
	assets, pages := embedded()
	mux := http.NewServeMux()
	mux.Handle(AssetPrefix, assets)
	for name, file := range NewBedside().files { // of which every page's passkeys have their part
		mux.Handle(BedsidePrefix+name, file)
	}
	for name, page := range samples() {
		body, err := pages.HTML(page)
		if err != nil {
			t.Errorf("%s: %v", name, err)
		}
		mux.HandleFunc("/samples/"+name, func(w http.ResponseWriter, _ *http.Request) {
			w.Header().Set("Content-Type", "text/html; charset=utf-8")
			w.Header().Set("Content-Security-Policy", ContentSecurityPolicy)
			_, _ = w.Write(body)
		})
	}
	return mux
}
