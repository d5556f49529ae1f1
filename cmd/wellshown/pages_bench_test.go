package main

import (
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"golang.org/x/net/html"
)

// BenchmarkPages asks for one of every page and paper that each role reaches by
// links on the demo, over loopback, and reports the median beside the mean. The
// aim is a median below 50 ms.
func BenchmarkPages(b *testing.B) {
	a := newAgreement(b)
	for _, role := range []string{"administrator", "coordinator", "educator", "surveyor", "family caregiver"} {
		a.signIn(role)
		pages := a.crawl()
		for _, pattern := range sortedKeys(pages) {
			b.Run(strings.ReplaceAll(role, " ", "-")+pattern, func(b *testing.B) {
				var took []time.Duration
				for b.Loop() {
					started := time.Now()
					a.get(pages[pattern])
					took = append(took, time.Since(started))
				}
				slices.Sort(took)
				b.ReportMetric(float64(took[len(took)/2].Microseconds())/1000, "median-ms")
			})
		}
	}
}

func sortedKeys(m map[string]string) []string {
	var keys []string
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}

// crawl follows links from the landing page and keeps the first address of each
// pattern.
func (a *agreement) crawl() map[string]string {
	found := map[string]string{"/": "/"}
	for waiting := []string{"/"}; len(waiting) > 0; {
		at := waiting[0]
		waiting = waiting[1:]
		for _, link := range links(string(a.get(at))) {
			if pattern := patternOf(link); found[pattern] == "" {
				found[pattern] = link
				waiting = append(waiting, link)
			}
		}
	}
	return found
}

var ids = regexp.MustCompile(`[0-9a-f]{8}-[0-9a-f-]{27}|/check/[0-9A-Z-]+|/marks/[0-9]+|/catalogue/[a-z-]+`)

// patternOf is an address with its ids taken out and its query left off.
func patternOf(link string) string {
	path, _, _ := strings.Cut(link, "?")
	return ids.ReplaceAllStringFunc(path, func(id string) string {
		if folder, _, ok := strings.Cut(strings.TrimPrefix(id, "/"), "/"); ok {
			return "/" + folder + "/:id"
		}
		return ":id"
	})
}

// links are the addresses on a page that lead elsewhere in the service.
func links(page string) []string {
	root, err := html.Parse(strings.NewReader(page))
	if err != nil {
		return nil
	}
	var all []string
	for n := range root.Descendants() {
		u, err := url.Parse(attribute(n, "href"))
		if n.Data == "a" && err == nil && u.Host == "" && strings.HasPrefix(u.Path, "/") && !strings.HasPrefix(u.Path, "/static/") {
			u.Fragment = ""
			all = append(all, u.String())
		}
	}
	return all
}
