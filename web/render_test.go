package web

import (
	"net/http/httptest"
	"reflect"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/jba/templatecheck"

	"wellshown/assessment/wording"
)

// Each template is checked against the struct of its page, branch by branch,
// whether or not a sample happens to take that branch.
func TestTemplatesFitTheirStructs(t *testing.T) {
	pages := NewPages(NewAssets())
	for _, page := range declaredPages {
		set := pages.template(page)
		err := templatecheck.CheckHTML(set.Lookup("layout.html"), page)
		if err != nil {
			t.Errorf("%T: %v", page, err)
		}
	}
}

// A page field with the name of a Frame field would hide it from templates:
// a form would then send the wrong token, or a menu vanish.
func TestNoPageHidesTheFrame(t *testing.T) {
	frame := reflect.TypeOf(Frame{})
	for _, page := range declaredPages {
		typ := reflect.TypeOf(page)
		for i := range typ.NumField() {
			field := typ.Field(i)
			_, hides := frame.FieldByName(field.Name)
			if hides && !field.Anonymous {
				t.Errorf("%s.%s hides Frame.%s", typ.Name(), field.Name, field.Name)
			}
		}
	}
}

func TestEveryPageHasASample(t *testing.T) {
	shown := map[string]bool{}
	for _, page := range samples() {
		shown[templateName(page)] = true
	}
	for _, page := range declaredPages {
		if !shown[templateName(page)] {
			t.Errorf("%T has no sample", page)
		}
	}
}

func TestTemplateName(t *testing.T) {
	for want, page := range map[string]Page{
		"sign-in.html":           SignInPage{},
		"coordinator-today.html": CoordinatorTodayPage{},
		"people.html":            PeoplePage{},
	} {
		got := templateName(page)
		if got != want {
			t.Errorf("%T is %s, want %s", page, got, want)
		}
	}
}

func TestStrayTemplatesAreRefused(t *testing.T) {
	layout := &fstest.MapFile{Data: []byte(`{{template "main" .}}`)}
	part := &fstest.MapFile{Data: []byte(`{{define "part"}}{{end}}`)}
	page := &fstest.MapFile{Data: []byte(`{{define "main"}}<h1>Sign in</h1>{{end}}`)}
	house := func(pages ...string) fstest.MapFS {
		files := fstest.MapFS{"templates/layout.html": layout, "templates/parts/part.html": part}
		for _, name := range pages {
			files["templates/pages/"+name] = page
		}
		return files
	}
	declared := []Page{SignInPage{}}
	for _, c := range []struct {
		files fstest.MapFS
		want  string // part of the refusal; empty = accepted
	}{
		{house("sign-in.html"), ""},
		{house("sign-in.html", "old.html"), "templates/pages/old.html belongs to no declared page"},
		{house(), "sign-in.html"}, // the declared page has no template
	} {
		_, err := parsePages(c.files, NewAssets(), declared)
		switch {
		case c.want == "" && err != nil:
			t.Errorf("refused: %v", err)
		case c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)):
			t.Errorf("got %v, want a refusal naming %q", err, c.want)
		}
	}
}

// Ten functions are the most that a template may call.
func TestTemplateFunctionsAreFew(t *testing.T) {
	n := len(functions(NewAssets(), wording.In(wording.English)))
	if n > 10 {
		t.Errorf("%d template functions, at most 10", n)
	}
}

type strangerPage struct{ Frame }

func TestWriteSendsWholePagesOrNothing(t *testing.T) {
	pages := NewPages(NewAssets())
	w := httptest.NewRecorder()
	err := pages.Write(w, 422, SignInPage{})
	if err != nil {
		t.Fatal(err)
	}
	if w.Code != 422 || w.Header().Get("Content-Type") != "text/html; charset=utf-8" || w.Header().Get("Cache-Control") != "no-store" {
		t.Errorf("status %d, headers %v", w.Code, w.Header())
	}
	if !strings.HasSuffix(strings.TrimSpace(w.Body.String()), "</html>") {
		t.Error("the page is not whole")
	}
	w = httptest.NewRecorder()
	err = pages.Write(w, 200, strangerPage{})
	if err == nil || w.Body.Len() != 0 {
		t.Errorf("an undeclared page gave error %v and %d bytes", err, w.Body.Len())
	}
}

func TestCounts(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{count(1, "day", "days"), "1 day"},
		{count(0, "day", "days"), "0 days"},
		{spelledCount(0, "skill", "skills"), "No skills"},
		{spelledCount(1, "skill", "skills"), "One skill"},
		{spelledCount(12, "skill", "skills"), "Twelve skills"},
		{spelledCount(13, "skill", "skills"), "13 skills"}, // figures from here on
		{spelledCount(-1, "skill", "skills"), "-1 skills"}, // a caller's fault, never a panic
		{slug("not started"), "not-started"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}
