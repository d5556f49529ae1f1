package web

import (
	"net/http/httptest"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"
)

func TestAssetsAreServedUnderTheirHash(t *testing.T) {
	assets := NewAssets()
	for name, kind := range map[string]string{
		"app.css": "text/css; charset=utf-8", "app.js": "text/javascript; charset=utf-8", "favicon.svg": "image/svg+xml",
	} {
		url, err := assets.URL(name)
		if err != nil {
			t.Fatal(err)
		}
		if !regexp.MustCompile(`^/static/[a-z]+\.[0-9a-f]{16}\.[a-z]+$`).MatchString(url) {
			t.Errorf("%s is at %s", name, url)
		}
		w := httptest.NewRecorder()
		assets.ServeHTTP(w, httptest.NewRequest("GET", url, nil))
		if w.Code != 200 || w.Body.Len() == 0 {
			t.Errorf("%s: status %d, %d bytes", url, w.Code, w.Body.Len())
		}
		if got := w.Header().Get("Content-Type"); got != kind {
			t.Errorf("%s is %q, want %q", name, got, kind)
		}
		// A year in seconds, and immutable (RFC 9111 and RFC 8246).
		if got := w.Header().Get("Cache-Control"); got != "public, max-age=31536000, immutable" {
			t.Errorf("%s: Cache-Control %q", name, got)
		}
	}
}

func TestUnknownAssets(t *testing.T) {
	assets := NewAssets()
	_, err := assets.URL("missing.css")
	if err == nil {
		t.Error("a missing file has an address")
	}
	for _, path := range []string{"/static/app.css", "/static/app.0000000000000000.css", "/static/../render.go"} {
		w := httptest.NewRecorder()
		assets.ServeHTTP(w, httptest.NewRequest("GET", path, nil))
		if w.Code != 404 {
			t.Errorf("%s: status %d, want 404", path, w.Code)
		}
	}
}

func TestTheNameChangesWithTheContent(t *testing.T) {
	urlOf := func(body string) string {
		assets, err := readAssets(fstest.MapFS{"static/a.css": {Data: []byte(body)}})
		if err != nil {
			t.Fatal(err)
		}
		url, err := assets.URL("a.css")
		if err != nil {
			t.Fatal(err)
		}
		return url
	}
	if urlOf("a{}") == urlOf("b{}") {
		t.Error("two contents have one name")
	}
}

// Modules name one another by plain names, so a folder of them is not hashed.
func TestFoldersAreNotHashed(t *testing.T) {
	assets, err := readAssets(fstest.MapFS{"static/a.css": {Data: []byte("a{}")}, "static/folder/b.js": {Data: []byte("b")}})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := assets.URL("a.css"); err != nil {
		t.Error(err)
	}
	for _, name := range []string{"folder", "b.js", "folder/b.js"} {
		if url, err := assets.URL(name); err == nil {
			t.Errorf("%s is at %s", name, url)
		}
	}
}

func TestThePolicyAllowsNothingInlineOrForeign(t *testing.T) {
	for _, word := range []string{"unsafe-inline", "unsafe-eval", "http:", "https:", "*", "data:"} {
		if strings.Contains(ContentSecurityPolicy, word) {
			t.Errorf("the policy allows %s", word)
		}
	}
	if !strings.HasPrefix(ContentSecurityPolicy, "default-src 'none'") {
		t.Error("what is not named is not refused")
	}
	// OWASP ASVS 5.0, 3.4.3 and 3.4.6, wants these by name; base-uri, form-action and
	// frame-ancestors do not follow from default-src (W3C CSP3, 6.3 and 6.4).
	for _, named := range []string{"object-src 'none'", "base-uri 'none'", "frame-ancestors 'none'", "form-action 'self'"} {
		if !strings.Contains(ContentSecurityPolicy, named) {
			t.Errorf("the policy does not say %s", named)
		}
	}
}
