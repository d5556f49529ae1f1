package main

import (
	"maps"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/integration/browser"
)

// realLooks are what each page of the running service is given; the samples of web,
// which have more in them, are given every look there is.
var realLooks = []string{"phone, light", "text at 200 %"}

// TestEveryPageOfTheServiceForEverybody draws every page that the assembled service
// has, for each role that may see it, in a real browser, and holds it to WCAG 2.2 as
// integration/browser names it. The pages are those of the table of routes: a new one
// is looked at without being named here.
func TestEveryPageOfTheServiceForEverybody(t *testing.T) {
	tools := browser.Tools(t)
	w := newWalk(t)
	own, parent := casefile(t, w.own, "go-bag", "7K", "Mira")
	who := map[string]assessment.Actor{"nobody": {}, "administrator": w.own.Admin, "educator": w.own.Educators[0], "coordinator": w.own.Coordinator,
		"caregiver": parent, "surveyor": w.own.Surveyor("Halina Wren")}
	job := browser.AxeJob{Chromium: tools.Chromium}
	drawn := map[string]bool{}
	for _, role := range slices.Sorted(maps.Keys(who)) {
		job.Visitors = append(job.Visitors, w.visitor(role, who[role], own, drawn))
	}
	w.complainOfUndrawn(drawn)
	server := httptest.NewServer(w.handler)
	t.Cleanup(server.Close)
	job.Base = server.URL
	var came browser.Looked
	tools.Play(t, "axe.mjs", job, &came)
	t.Logf("%d pages of %d roles were looked at in %d states, %d of them by axe-core", came.Counts.Pages, len(who), came.Counts.States, came.Counts.Axe)
}

// visitor is somebody with all the pages that there are for them, and one of those
// that turn them away.
func (w walk) visitor(role string, who assessment.Actor, own things, drawn map[string]bool) browser.Visitor {
	w.t.Helper()
	v, turnedAway := browser.Visitor{}, false
	if who.Person != "" {
		token, _ := w.signIn(who)
		v.Cookie = &browser.Cookie{Name: "wellshown", Value: token}
	}
	for _, r := range w.routes {
		if r.method != http.MethodGet || r.api || strings.Contains(r.path, "*") {
			continue
		}
		path, _ := w.filled(r, own)
		a := w.ask(r, who, path, own)
		done := a.status < 300
		drawn[r.path] = drawn[r.path] || done || a.status < 400 && a.refused() == ""
		switch {
		case !strings.HasPrefix(a.kind, "text/html"), a.to != "", !done && turnedAway && a.status == http.StatusForbidden:
			continue
		case a.status == http.StatusForbidden:
			turnedAway = true
		}
		if query, _, _, _ := w.sent(r, own, ""); query != "" {
			path += "?" + query
		}
		v.Pages = append(v.Pages, browser.Page{Name: r.path + " for " + role, Path: path, Looks: realLooks, Status: a.status})
	}
	return v
}

// complainOfUndrawn tells the pages that nobody was shown. What no request of the
// walk of all routes finishes, this one does not either.
func (w walk) complainOfUndrawn(drawn map[string]bool) {
	w.t.Helper()
	for path, shown := range drawn {
		if !shown && !slices.ContainsFunc(slices.Collect(maps.Values(unfinished)), func(routes []string) bool { return slices.Contains(routes, "GET "+path) }) {
			w.t.Errorf("GET %s: nobody was shown this page, so that it was not looked at", path)
		}
	}
}
