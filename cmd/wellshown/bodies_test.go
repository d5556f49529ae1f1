package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"mime/multipart"
	"net/http"
	"net/http/cookiejar"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"time"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
	"wellshown/reports"
)

// Only what carries a page of paper may be larger than any form, and such a page has a
// bound of its own; what is beyond it is read no further than it takes to be heard.
func TestOnlyAPageOfPaperMayBeLarge(t *testing.T) {
	for _, r := range []struct {
		method, path string
		large        bool
	}{
		{"POST", "/demonstrations/1/pages", true}, {"PUT", api.Base + "/sheets/1/pages/2", true}, {"PUT", "/demonstrations/1/pages", false}, {"POST", api.Base + "/sheets/1/pages/2", false},
		{"POST", "/imports", true}, {"POST", api.Base + "/imports", true}, {"POST", "/people/1/carried-in/papers", true}, {"POST", "/people/1/carried-in/files", true}, {"POST", "/check", true}, {"POST", api.Base + "/check", true}, {"POST", api.Base + "/people/1/carried-in/files", true}, {"GET", api.Base + "/check/1", false}, {"GET", "/check", false}, {"POST", "/check/1", false}, {"POST", "/imports/1", false}, {"PUT", "/imports", false}, {"POST", "/people/1/carried-in", false},
		{"POST", "/demonstrations/1/pages/1/removal", false}, {"POST", "/demonstrations/1/2/pages", false}, {"POST", "/checklists", false}, {"PUT", api.Base + "/sheets/1/marks/2", false}, {"POST", "/", false},
	} {
		for size, fits := range map[int64]bool{maxBody: true, maxBody + 1: r.large, mostPage: r.large, mostPage + 1: false, 80 << 20: false} {
			for _, says := range []bool{true, false} {
				body := &endless{left: size}
				request := httptest.NewRequest(r.method, r.path, io.NopCloser(body))
				if request.ContentLength = -1; says {
					request.ContentLength = size
				}
				var got int64
				var err error
				dress(http.HandlerFunc(func(_ http.ResponseWriter, r *http.Request) { got, err = io.Copy(io.Discard, r.Body) }), false).ServeHTTP(httptest.NewRecorder(), request)
				var big *http.MaxBytesError
				if fits && (err != nil || got != size) || !fits && !errors.As(err, &big) {
					t.Errorf("%s %s with %d bytes: %d read, %v", r.method, r.path, size, got, err)
				}
				if r.large && !fits && body.left != 0 {
					t.Errorf("%s %s with %d bytes: %d are not drained, so a browser hears nothing", r.method, r.path, size, body.left)
				}
				if r.large && !fits && says && got != 0 {
					t.Errorf("%s %s says that it is too large, and %d bytes were handed on", r.method, r.path, got)
				}
			}
		}
	}
}

// endless is so many bytes.
type endless struct{ left int64 }

func (e *endless) Read(p []byte) (int, error) {
	if e.left == 0 {
		return 0, io.EOF
	}
	n := min(int64(len(p)), e.left)
	clear(p[:n])
	e.left -= n
	return int(n), nil
}

// A photo of 80 MB is refused on the page that it was sent from, in words, over a real
// line; all that was marked still stands, and a photo that is small enough is taken.
func TestAPhotoOf80MB(t *testing.T) {
	need(t, reports.Prepare())
	w := ward.New(t)
	mira := w.Client("7K", "Mira")
	nan := w.Nurse("Nan Orme")
	s := got(w.Office.Open(t.Context(), w.Educators[0], office.OpenForm{Learner: nan.Person, Skill: "humidifier", Client: mira, Place: "at home", Real: true, Formal: true,
		PerformedAt: w.Now(), FromPaper: true, PaperRevision: 1}))(t)
	got(w.Office.Mark(t.Context(), w.Educators[0], s.ID, ward.Form(t, s.Checklist.Steps()[0], s.Parameters, assessment.Independent)))(t)
	server := httptest.NewUnstartedServer(nil)
	server.Config = limited(handler(config{BaseURL: "http://127.0.0.1"}, w.Office))
	server.Start()
	t.Cleanup(server.Close)
	b := signedInAt(t, server, w, w.Educators[0])
	page := server.URL + "/demonstrations/" + string(s.ID)
	csrf := regexp.MustCompile(`name="csrf" value="([^"]+)"`).FindStringSubmatch(b.get(page + "/review"))[1]
	for name, try := range map[string]struct {
		photo io.Reader
		size  int64
		says  string
		code  int
	}{
		"80 MB":              {&endless{80 << 20}, 80 << 20, "This file is too large: a page has at most 8 MB.", 422},
		"a little too much":  {&endless{office.MostPageBytes + 1}, office.MostPageBytes + 1, "This file is too large: a page has at most 8 MB.", 422},
		"a page with script": {strings.NewReader("<script>alert(1)</script>"), 25, "This is no JPEG, PNG or PDF, whatever its name says.", 422},
		"nothing":            {strings.NewReader(""), 0, "Nothing was sent.", 422},
	} {
		code, said := b.send(page+"/pages", csrf, try.photo, try.size)
		if code != try.code || !strings.Contains(said, try.says) || !strings.Contains(said, "The page was not attached.") || !strings.Contains(said, "The paper it is typed in from") {
			t.Errorf("%s: %d %s", name, code, said)
		}
	}
	if code, said := b.send(page+"/pages", csrf, strings.NewReader(photo(t)), int64(len(photo(t)))); code != http.StatusOK || !strings.Contains(said, "The page is attached.") {
		t.Errorf("a photo: %d %s", code, said)
	}
	if code, _ := b.send(page+"/pages", "another", strings.NewReader(photo(t)), int64(len(photo(t)))); code != http.StatusForbidden {
		t.Errorf("without the word of the session: %d", code)
	}
	v := got(w.Office.Sheet(t.Context(), w.Educators[0], s.ID))(t)
	if len(v.Pages) != 1 || v.Marked != 1 {
		t.Errorf("%d pages, %d marks", len(v.Pages), v.Marked)
	}
}

// seat is a browser that somebody has signed in with.
type seat struct {
	t *testing.T
	*http.Client
}

func signedInAt(t *testing.T, server *httptest.Server, w *ward.Ward, who assessment.Actor) seat {
	t.Helper()
	c := *server.Client()
	c.Timeout = time.Minute
	c.Jar = got(cookiejar.New(nil))(t)
	b := seat{t, &c}
	answer := got(c.PostForm(server.URL+"/sign-in", url.Values{"email": {w.Email(who)}, "password": {ward.Password}}))(t)
	answer.Body.Close()
	return b
}

func (b seat) get(address string) string {
	b.t.Helper()
	answer := got(b.Get(address))(b.t)
	defer answer.Body.Close()
	return string(got(io.ReadAll(answer.Body))(b.t))
}

// send sends a form with one file.
func (b seat) send(address, csrf string, photo io.Reader, size int64) (int, string) {
	b.t.Helper()
	var head bytes.Buffer
	form := multipart.NewWriter(&head)
	need(b.t, form.WriteField("csrf", csrf))
	got(form.CreateFormFile("page", "page 1.jpg"))(b.t)
	tail := fmt.Sprintf("\r\n--%s--\r\n", form.Boundary())
	r := got(http.NewRequestWithContext(b.t.Context(), http.MethodPost, address, io.MultiReader(bytes.NewReader(head.Bytes()), photo, strings.NewReader(tail))))(b.t)
	r.ContentLength = int64(head.Len()) + size + int64(len(tail))
	r.Header.Set("Content-Type", form.FormDataContentType())
	r.Header.Set("Referer", address)
	answer := got(b.Do(r))(b.t)
	defer answer.Body.Close()
	return answer.StatusCode, string(got(io.ReadAll(answer.Body))(b.t))
}
