package main

import (
	"io"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"

	"wellshown/integration/ward"
)

// RFC 9110: HEAD is answered as GET but for the body (9.3.2), and whoever asks by a
// method that an address does not know is told which it does (15.5.6).
func TestMethods(t *testing.T) {
	w := ward.New(t)
	server := httptest.NewServer(handler(config{BaseURL: "http://127.0.0.1"}, w.Office))
	t.Cleanup(server.Close)
	server.Client().CheckRedirect = func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }
	ask := func(method, path string) (*http.Response, string) {
		t.Helper()
		r, err := http.NewRequestWithContext(t.Context(), method, server.URL+path, nil)
		if err != nil {
			t.Fatal(err)
		}
		answer, err := server.Client().Do(r)
		if err != nil {
			t.Fatal(err)
		}
		defer answer.Body.Close()
		body, err := io.ReadAll(answer.Body)
		if err != nil {
			t.Fatal(err)
		}
		return answer, string(body)
	}
	for _, path := range []string{"/health", "/sign-in", "/", "/nowhere", "/api/v1/openapi.json", "/api/v1/me", "/api/v1/nowhere"} {
		get, _ := ask(http.MethodGet, path)
		head, body := ask(http.MethodHead, path)
		if head.StatusCode != get.StatusCode || head.Header.Get("Content-Type") != get.Header.Get("Content-Type") || body != "" {
			t.Errorf("HEAD %s: %d %s and %d bytes; GET: %d %s", path, head.StatusCode, head.Header.Get("Content-Type"), len(body), get.StatusCode, get.Header.Get("Content-Type"))
		}
	}
	for path, want := range map[string]string{"/sign-in": "GET HEAD POST", "/health": "GET HEAD", "/api/v1/me": "GET HEAD"} {
		answer, _ := ask(http.MethodDelete, path)
		allowed := strings.Split(answer.Header.Get("Allow"), ", ")
		slices.Sort(allowed)
		if got := strings.Join(allowed, " "); answer.StatusCode != http.StatusMethodNotAllowed || got != want {
			t.Errorf("DELETE %s: %d, allowed %q; want 405 and %q", path, answer.StatusCode, got, want)
		}
	}
}
