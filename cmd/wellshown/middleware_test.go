package main

import (
	"errors"
	"io"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"

	"wellshown/integration/ward"
	"wellshown/reports"
	"wellshown/web"

	"github.com/gin-gonic/gin"
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

// A panic in one request is answered and logged, and costs no other request.
func TestAPanicCostsOneRequest(t *testing.T) {
	gin.SetMode(gin.TestMode)
	var broke error
	engine := gin.New()
	engine.Use(logRequests, caught(func(c *gin.Context, err error) {
		broke = err
		c.String(http.StatusInternalServerError, "ours")
	}))
	engine.GET("/boom", func(*gin.Context) { panic("boom") })
	engine.GET("/half", func(c *gin.Context) { c.String(http.StatusOK, "half"); panic("boom") })
	engine.GET("/abort", func(*gin.Context) { panic(http.ErrAbortHandler) })
	ask := func(path string) *httptest.ResponseRecorder {
		w := httptest.NewRecorder()
		engine.ServeHTTP(w, httptest.NewRequest(http.MethodGet, path, nil))
		return w
	}
	if w := ask("/boom"); w.Code != http.StatusInternalServerError || w.Body.String() != "ours" || broke == nil {
		t.Errorf("%d %q, %v", w.Code, w.Body, broke)
	}
	if w := ask("/half"); w.Body.String() != "half" {
		t.Errorf("what was half answered goes on with %q", w.Body)
	}
	defer func() {
		if p := recover(); p != http.ErrAbortHandler {
			t.Errorf("the server's own signal was caught: %v", p)
		}
	}()
	ask("/abort")
}

// Our own faults have a page, also where nobody foresaw them.
func TestAPageForWhatBroke(t *testing.T) {
	w := ward.New(t)
	engine := gin.New()
	pages := web.Routes(engine, w.Office, web.Options{Papers: reports.New(w.Office), RequestID: requestID})
	engine.GET("/boom", func(c *gin.Context) { pages.Broke(c, errors.New("with a name in it")) })
	answer := httptest.NewRecorder()
	engine.ServeHTTP(answer, httptest.NewRequest(http.MethodGet, "/boom", nil))
	if answer.Code != http.StatusInternalServerError || !strings.Contains(answer.Body.String(), "<h1") || strings.Contains(answer.Body.String(), "with a name in it") {
		t.Errorf("%d: %.300s", answer.Code, answer.Body)
	}
}
