package web

import (
	"net/http"
	"net/url"
	"strings"
)

// cameFrom is the page of this site that led here; empty where none did.
func (v *visit) cameFrom() string {
	r := v.c.Request
	u, err := url.Parse(r.Referer())
	if err != nil || u.Host == "" || u.Host != r.Host || u.RequestURI() == r.URL.RequestURI() {
		return ""
	}
	return u.RequestURI()
}

// signInFirst is where to sign in and then go on: to the page that was asked for,
// or on which the form stood that was sent. Whoever sent one is told that it is lost.
func (s *Site) signInFirst(v *visit) string {
	at := v.c.Request.URL
	if v.c.Request.Method == http.MethodGet {
		return "/sign-in?next=" + url.QueryEscape(at.RequestURI())
	}
	if at.Path == "/sign-out" {
		return "/sign-in"
	}
	return "/sign-in?lost=yes&next=" + url.QueryEscape(s.formsPage(v))
}

// formsPage is the page on which the form stood that was sent, with what its address asked
// for: a page may be nothing without it.
func (s *Site) formsPage(v *visit) string {
	at := v.c.Request.URL
	page, from := s.pageAbove(v.c.FullPath(), at.EscapedPath()), v.cameFrom()
	switch path, _, _ := strings.Cut(from, "?"); {
	case path == page:
		return from
	case page == at.EscapedPath() && at.RawQuery != "":
		return page + "?" + at.RawQuery
	}
	return page
}

// pageAbove is the page of a form that adds something, or else the nearest page at
// or above the address of a form.
func (s *Site) pageAbove(pattern, address string) string {
	pages := map[string]bool{}
	for _, r := range s.routes() {
		pages[r.Path] = pages[r.Path] || r.Method == http.MethodGet
	}
	if pages[pattern+"/new"] {
		return address + "/new"
	}
	for pattern != "" && !pages[pattern] {
		pattern, address = pattern[:strings.LastIndex(pattern, "/")], address[:strings.LastIndex(address, "/")]
	}
	if pattern == "" {
		return "/"
	}
	return address
}
