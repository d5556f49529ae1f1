package web

import (
	"net/http"
	"net/http/httptest"
	"regexp"
	"strings"
	"testing"
)

// An address is shown once and read without signing in; another one ends it, and what is
// revoked is answered like what never was, to the byte.
func TestACalendarByASecretAddress(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	nan := w.Nurse("Nan Poe")
	asked := func(path string, headers ...string) *httptest.ResponseRecorder {
		r := httptest.NewRequest(http.MethodGet, path, nil)
		for i := 0; i+1 < len(headers); i += 2 {
			r.Header.Set(headers[i], headers[i+1])
		}
		answer := httptest.NewRecorder()
		site.ServeHTTP(answer, r)
		return answer
	}
	secret := regexp.MustCompile(`/feeds/wsfeed_[\w-]{43}\.ics`)
	page := as(t, site, w, nan).get("/account/calendars").wants(http.StatusOK).sound().says("You have none")
	made := page.form("/account/calendars/own").send().wants(http.StatusOK).sound().says("shown this once")
	first := secret.FindString(made.text())
	got := asked(first)
	if got.Code != http.StatusOK || got.Header().Get("Cache-Control") != "private, no-cache" || got.Header().Get("Content-Type") != "text/calendar; charset=utf-8" || !strings.HasPrefix(got.Body.String(), "BEGIN:VCALENDAR\r\n") {
		t.Fatalf("%d %v %s", got.Code, got.Header(), got.Body)
	}
	if same := asked(first, "If-None-Match", got.Header().Get("ETag")); same.Code != http.StatusNotModified || same.Body.Len() > 0 {
		t.Errorf("asked again: %d", same.Code)
	}
	again := as(t, site, w, nan).get("/account/calendars").wants(http.StatusOK).saysNot(first)
	second := secret.FindString(again.form("/account/calendars/own").send().wants(http.StatusOK).text())
	never := asked("/feeds/wsfeed_" + strings.Repeat("A", 43) + ".ics")
	gone := asked(first)
	id := regexp.MustCompile(`try-\d+`)
	if gone.Code != http.StatusNotFound || id.ReplaceAllString(gone.Body.String(), "") != id.ReplaceAllString(never.Body.String(), "") || asked(second).Code != http.StatusOK {
		t.Errorf("after another one was made: the first %d, one that never was %d, the second %d", gone.Code, never.Code, asked(second).Code)
	}
	as(t, site, w, nan).get("/account/calendars").form("/account/calendars/own/end").send().wants(http.StatusOK).says("The address is revoked")
	if asked(second).Code != http.StatusNotFound {
		t.Error("a revoked calendar is read")
	}
	as(t, site, w, nan).posts("/account/calendars/agency").wants(http.StatusForbidden)
	as(t, site, w, w.Coordinator).get("/account/calendars").form("/account/calendars/agency").send().wants(http.StatusOK).sound().says("shown this once")
}
