package main

import (
	"bytes"
	"errors"
	"fmt"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/gin-gonic/gin"

	"wellshown/integration/ward"
)

// Nobody keeps a connection by sending or reading slowly (OWASP ASVS 5.0, 13.1.3 and
// 4.2; the bounds are common practice, no source): looked at in the configuration.
func TestTheServerHasLimits(t *testing.T) {
	s := limited(http.NotFoundHandler())
	for name, bound := range map[string]struct{ has, most time.Duration }{
		"head": {s.ReadHeaderTimeout, 10 * time.Second}, "request": {s.ReadTimeout, time.Minute},
		"answer": {s.WriteTimeout, 2 * time.Minute}, "idle": {s.IdleTimeout, 5 * time.Minute}, "work": {patience, s.WriteTimeout},
	} {
		if bound.has <= 0 || bound.has > bound.most {
			t.Errorf("%s: %s, at most %s", name, bound.has, bound.most)
		}
	}
	if s.MaxHeaderBytes <= 0 || s.MaxHeaderBytes > 1<<16 || maxBody > 1<<20 {
		t.Errorf("a head of %d bytes, a body of %d", s.MaxHeaderBytes, maxBody)
	}
}

// A head beyond the limit is refused before anything is done with it (RFC 6585,
// section 5).
func TestAHeadWithoutEndIsRefused(t *testing.T) {
	asked := false
	server := httptest.NewUnstartedServer(nil)
	server.Config = limited(http.HandlerFunc(func(http.ResponseWriter, *http.Request) { asked = true }))
	server.Start()
	t.Cleanup(server.Close)
	r, err := http.NewRequestWithContext(t.Context(), http.MethodGet, server.URL, nil)
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("X-Long", strings.Repeat("a", 1<<20))
	answer, err := server.Client().Do(r)
	if err == nil { // else the server hung up while it was still being sent to
		defer answer.Body.Close()
		if answer.StatusCode != http.StatusRequestHeaderFieldsTooLarge {
			t.Errorf("answered with %d", answer.StatusCode)
		}
	}
	if asked {
		t.Error("it was handed on")
	}
}

// No method sends back what was sent, and none but those of the routes is known
// (RFC 9110, section 9.3.8; OWASP ASVS 5.0, 4.1.4 and 13.4.4).
func TestNoMethodEchoes(t *testing.T) {
	w := ward.New(t)
	h := handler(config{BaseURL: "https://shown.example"}, w.Office)
	for _, method := range []string{http.MethodTrace, http.MethodConnect, http.MethodOptions, "PROPFIND", "get"} {
		for _, path := range []string{"/sign-in", "/api/v1/me", "/nowhere"} {
			r := httptest.NewRequest(http.MethodGet, path, nil)
			r.Method = method
			r.Header.Set("X-Said", "canarybird")
			answer := httptest.NewRecorder()
			h.ServeHTTP(answer, r)
			if answer.Code != http.StatusMethodNotAllowed && answer.Code != http.StatusNotFound && answer.Code != http.StatusForbidden || strings.Contains(answer.Body.String(), "canarybird") {
				t.Errorf("%s %s: %d %.200s", method, path, answer.Code, answer.Body)
			}
		}
	}
}

// Files that are the same for everybody may be kept, and carry all else that pages do.
func TestFilesForEverybodyAreDressed(t *testing.T) {
	w := ward.New(t)
	h := handler(config{BaseURL: "https://shown.example"}, w.Office)
	page := httptest.NewRecorder()
	h.ServeHTTP(page, httptest.NewRequest(http.MethodGet, "/sign-in", nil))
	files := regexp.MustCompile(`"(/static/[^"]+)"`).FindAllStringSubmatch(page.Body.String(), -1)
	if len(files) < 2 {
		t.Fatalf("the page asks for %d files", len(files))
	}
	for _, f := range files {
		answer := httptest.NewRecorder()
		h.ServeHTTP(answer, httptest.NewRequest(http.MethodGet, f[1], nil))
		if kept := answer.Header().Get("Cache-Control"); answer.Code != http.StatusOK || !strings.Contains(kept, "immutable") || strings.Contains(kept, "no-store") {
			t.Errorf("%s: %d, %q", f[1], answer.Code, kept)
		}
		answer.Header().Set("Cache-Control", "no-store")
		checkDressed(t, [2]string{http.MethodGet, f[1]}, answer)
	}
}

// A program sends no Origin: its token alone speaks for it, and what is refused is
// refused by the API.
func TestProgramsNeedNoOrigin(t *testing.T) {
	w := ward.New(t)
	token := signedIn(t, w, w.Admin)
	h := handler(config{BaseURL: "https://shown.example"}, w.Office)
	for bearer, want := range map[string]int{token: http.StatusUnprocessableEntity, "nobodys": http.StatusUnauthorized} {
		r := httptest.NewRequest(http.MethodPost, "/api/v1/people", strings.NewReader(`{}`))
		r.Host = "inside.internal"
		r.Header.Set("Authorization", "Bearer "+bearer)
		r.Header.Set("Content-Type", "application/json")
		answer := httptest.NewRecorder()
		h.ServeHTTP(answer, r)
		if answer.Code != want {
			t.Errorf("%d, want %d: %.200s", answer.Code, want, answer.Body)
		}
	}
}

// What a panic carries may be a name: the log keeps its type and where it was, or what
// the runtime says of itself.
func TestAPanicKeepsItsWordsOutOfTheLog(t *testing.T) {
	const canary = "canarybird"
	var log bytes.Buffer
	before := slog.Default()
	slog.SetDefault(slog.New(slog.NewJSONHandler(&log, nil)))
	t.Cleanup(func() { slog.SetDefault(before) })
	gin.SetMode(gin.TestMode)
	engine := gin.New()
	engine.Use(logRequests, caught(func(c *gin.Context, err error) {
		slog.Error("broke", "error", err.Error())
		c.Status(http.StatusInternalServerError)
	}))
	var none map[string]string
	for path, p := range map[string]func(){
		"/text":  func() { panic("of " + canary) },
		"/error": func() { panic(fmt.Errorf("of %s: %w", canary, errors.New(canary))) },
		"/nil":   func() { none[canary] = canary },
	} {
		engine.GET(path+"/:word", func(*gin.Context) { p() })
		answer := httptest.NewRecorder()
		dress(engine, true).ServeHTTP(answer, httptest.NewRequest(http.MethodGet, path+"/"+canary+"?find="+canary, nil))
		checkDressed(t, [2]string{http.MethodGet, path}, &httptest.ResponseRecorder{Code: http.StatusServiceUnavailable, HeaderMap: answer.Header()})
		if answer.Code != http.StatusInternalServerError {
			t.Errorf("%s: %d", path, answer.Code)
		}
	}
	for _, kept := range []string{`"panic":"string"`, `"panic":"*fmt.wrapError"`, "assignment to entry in nil map", `"route":"/text/:word"`, "goroutine"} {
		if !strings.Contains(log.String(), kept) {
			t.Errorf("the log lacks %s", kept)
		}
	}
	if strings.Contains(log.String(), canary) {
		t.Errorf("the log has the word: %.600s", log.String())
	}
}
