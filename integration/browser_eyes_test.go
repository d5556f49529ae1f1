package integration

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"

	"wellshown/integration/browser"
	"wellshown/web"
)

// blemish is a page with one thing wrong, in one state, and what must be said of it.
type blemish struct{ css, body, look, said string }

// blemishes has one page for each check that pages are held to, so that none of
// these checks passes by being blind.
var blemishes = []blemish{
	{"", `<img src="/plain.svg">`, "phone, light", "image-alt (wcag111)"},                                                                        // SC 1.1.1, Non-text Content
	{"", `<input name="a">`, "desk, light", "label (wcag412)"},                                                                                   // SC 4.1.2, Name, Role, Value
	{"p { color: #999 }", `<p>grey</p>`, "phone, light", "color-contrast (wcag143)"},                                                             // SC 1.4.3, Contrast (Minimum)
	{"@media (prefers-color-scheme: dark) { p { color: #999 } }", `<p>grey</p>`, "phone, dark", "color-contrast (wcag143)"},                      // the same
	{"@media (prefers-color-scheme: dark) and (width > 1000px) { p { color: #999 } }", `<p>grey</p>`, "desk, dark", "color-contrast"},            // the same
	{"button { width: 12px; height: 12px; padding: 0; border: 0 }", `<button>a</button><button>b</button>`, "phone, light", "target-size"},       // SC 2.5.8, Target Size (Minimum)
	{"p { width: 300px; margin-left: 30px }", `<p>wide</p>`, "reflow", "too wide"},                                                               // SC 1.4.10, Reflow
	{"p { width: 12rem }", `<p>wide</p>`, "text at 200 %", "too wide"},                                                                           // SC 1.4.4, Resize Text
	{"p { height: 3rem; line-height: 24px; overflow: hidden } p:not(.x) { height: 26px }", `<p>One line.</p>`, "text at 200 %, desk", "cut off"}, // the same
	{"p { display: inline-block; width: 100px; overflow: hidden; white-space: nowrap }", `<p>one two three</p>`, "text spacing", "cut off"},      // SC 1.4.12, Text Spacing
	{"p { position: absolute; left: -40px }", `<p>to the left</p>`, "right to left", "too wide"},                                                 // no criterion
	{"@media (orientation: landscape) { p { width: 700px } }", `<p>wide</p>`, "phone on its side", "too wide"},                                   // SC 1.3.4, Orientation
	{"@media (width: 820px) { p { width: 900px } }", `<p>wide</p>`, "tablet", "too wide"},                                                        // SC 1.4.10
	{"p { width: 1ch; overflow-wrap: anywhere }", `<p>one letter in each line</p>`, "tablet", "squeezed"},                                        // SC 1.4.10, in its sense
	{"", `<div class="menu" popover><input name="b"></div>`, "menu open", "label (wcag412)"},                                                     // SC 4.1.2, in a layer that was closed
	{"p { transition: opacity 1s }", `<p>slow</p>`, "phone, light", "moves"},                                                                     // SC 2.3.3, Animation from Interactions
	{"", `<a href="/a">a</a><a href="/b" tabindex="1">b</a>`, "keys, phone", "the Tab key comes to"},                                             // SC 2.4.3, Focus Order
	{"a:focus-visible { outline: 0 }", `<a href="/a">a</a>`, "keys, phone", "the focus does not show"},                                           // SC 2.4.7, Focus Visible
	{"b { position: fixed; inset: 0 }", `<a href="/a">a</a><b></b>`, "keys, desk", "something lies over the focus"},                              // SC 2.4.11, Focus Not Obscured (Minimum)
	{"", `<a href="/a">a</a> <button>b</button><script src="/trap.js"></script>`, "keys, desk", "does not lead out"},                             // SC 2.1.2, No Keyboard Trap
	{"", `<p style="color: red">red</p>`, "tablet", "console: "},                                                                                 // the policy of the pages
}

// TestEveryCheckOfAPageFindsWhatItIsFor shows each check a page that it must find
// fault with, and all of them a page without fault.
func TestEveryCheckOfAPageFindsWhatItIsFor(t *testing.T) {
	tools := browser.Tools(t)
	server := httptest.NewServer(http.HandlerFunc(blemished))
	t.Cleanup(server.Close)
	var pages []browser.Page
	var looks []string
	for i, b := range blemishes {
		pages = append(pages, browser.Page{Name: fmt.Sprint("page ", i), Path: fmt.Sprint("/page/", i), Looks: []string{b.look}})
		if !slices.Contains(looks, b.look) {
			looks = append(looks, b.look)
		}
	}
	pages = append(pages, browser.Page{Name: "a good page", Path: "/page/none", Looks: looks})
	found := tools.Faults(t, "axe.mjs", browser.AxeJob{Chromium: tools.Chromium, Base: server.URL, Visitors: []browser.Visitor{{Pages: pages}}})
	for i, b := range blemishes {
		ours := slices.IndexFunc(found, func(f string) bool {
			return strings.Contains(f, b.said) && (strings.HasPrefix(f, fmt.Sprintf("page %d, %s: ", i, b.look)) || strings.HasPrefix(f, fmt.Sprintf("%s/page/%d: ", server.URL, i)))
		})
		if ours < 0 {
			t.Errorf("%s: nobody saw it in %q", b.said, b.css+b.body)
			continue
		}
		found = slices.Delete(found, ours, ours+1)
	}
	for _, f := range found {
		t.Errorf("nobody looked for this: %s", f)
	}
}

// blemished serves the pages with something wrong and what they are drawn with.
func blemished(w http.ResponseWriter, r *http.Request) {
	var b blemish
	var n int
	if _, err := fmt.Sscanf(strings.TrimSuffix(r.URL.Path[strings.LastIndex(r.URL.Path, "/")+1:], ".css"), "%d", &n); err == nil {
		b = blemishes[n]
	}
	w.Header().Set("Content-Security-Policy", web.ContentSecurityPolicy)
	switch {
	case strings.HasSuffix(r.URL.Path, ".css"):
		w.Header().Set("Content-Type", "text/css")
		fmt.Fprint(w, "body { color: #000; background: #fff } :focus-visible { outline: 3px solid #000 } a { display: inline-block; padding: 1rem }"+b.css)
	case r.URL.Path == "/trap.js":
		w.Header().Set("Content-Type", "text/javascript")
		fmt.Fprint(w, `document.querySelector("button").addEventListener("keydown", (e) => e.preventDefault())`)
	case r.URL.Path == "/plain.svg":
		w.Header().Set("Content-Type", "image/svg+xml")
		fmt.Fprint(w, `<svg xmlns="http://www.w3.org/2000/svg" width="20" height="20"/>`)
	default:
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		fmt.Fprintf(w, `<!DOCTYPE html><html lang="en"><head><meta name="viewport" content="width=device-width"><title>A page</title><link rel="icon" href="/plain.svg"><link rel="stylesheet" href="/css/%d.css"></head><body><main><h1>A page</h1>%s</main></body></html>`, n, b.body)
	}
}
