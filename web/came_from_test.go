package web

import (
	"net/http"
	"strings"
	"testing"
)

// "Go back" leads to the page of this site that led here, to no other site, and is
// not offered where there is none.
func TestGoBackLeadsToWhereOneCameFrom(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	b := as(t, site, w, w.Coordinator)
	gone := "/people/01941f29-7c3a-7d52-8000-000000000000"
	for referer, want := range map[string]string{
		b.base + "/people?find=a": `href="/people?find=a">Go back`, "": "", "http://elsewhere.example/people": "", b.base + gone: "",
	} {
		r, err := http.NewRequest(http.MethodGet, b.base+gone, nil)
		if err != nil {
			t.Fatal(err)
		}
		r.Header.Set("Referer", referer)
		answer := b.do(r).wants(http.StatusNotFound)
		if strings.Contains(answer.body, "Go back</a>") != (want != "") || !strings.Contains(answer.body, want) {
			t.Errorf("from %q: %s", referer, answer.text())
		}
	}
}
