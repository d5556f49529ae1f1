package web

import (
	"net/http"
	"strings"
	"testing"
)

// spoken wants a page in a language, and says so where RFC 9110 (8.5) and HTML (lang)
// want it.
func (p *page) spoken(tag string) *page {
	p.t.Helper()
	root := nodes(p.node, "html")[0]
	if attrOf(root, "lang") != tag || attrOf(root, "dir") != "ltr" || p.header.Get("Content-Language") != tag {
		p.t.Errorf("%s is in %q, runs %q and is sent as %q, not %s", p.at, attrOf(root, "lang"), attrOf(root, "dir"), p.header.Get("Content-Language"), tag)
	}
	if v := p.header.Get("Vary"); !strings.Contains(v, "Accept-Language") || !strings.Contains(v, "Cookie") {
		p.t.Errorf("%s varies by %q", p.at, v)
	}
	return p
}

func (b *browser) prefers(path, accepts string) *page {
	b.t.Helper()
	r, err := http.NewRequest(http.MethodGet, b.base+path, nil)
	if err != nil {
		b.t.Fatal(err)
	}
	r.Header.Set("Accept-Language", accepts)
	return b.do(r)
}

// Nobody is signed in: what the browser asks for (RFC 9110, 12.5.4), until a language
// is chosen on the page, without a script.
func TestTheLanguageOfWhoIsNotSignedIn(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	b := visitor(t, engine(w))
	b.get("/sign-in").wants(http.StatusOK).sound().spoken("en")
	b.prefers("/sign-in", "es-MX, es;q=0.9, en;q=0.5").wants(http.StatusOK).sound().spoken("es")
	b.prefers("/nowhere", "es").wants(http.StatusNotFound).sound().spoken("es")
	b.prefers("/check", "vi, en;q=0.2").spoken("en")
	b.get("/sign-in?lang=xx").spoken("en")

	b.get("/check?code=4H7K").follow("Español").wants(http.StatusUnprocessableEntity).sound().spoken("es")
	b.get("/sign-in?next=/clients").spoken("es") // it is remembered
	b.prefers("/sign-in", "en").spoken("es")
	refused := b.get("/sign-in").form("/sign-in").send("email", "a@b.example", "password", "x").wants(http.StatusUnprocessableEntity).sound().spoken("es")
	refused.follow("English").wants(http.StatusOK).spoken("en").follow("Español").spoken("es")
}

// Somebody who is signed in reads in the language that is written down for them, and
// changes it on a page.
func TestTheLanguageOfWhoIsSignedIn(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	mother := as(t, site, w, w.Family("Rosa Quispe", w.Client("7K", "Mira")))
	mother.prefers("/home", "es").wants(http.StatusOK).spoken("en") // what is written down says more
	mother.get("/account").form("/account/language").send("language", "xx").wants(http.StatusUnprocessableEntity).sound().spoken("en").says("Choose English or Spanish.")
	mother.get("/account").form("/account/language").send("language", "es").wants(http.StatusOK).sound().spoken("es").says("Sus páginas están ahora en este idioma.")
	for _, at := range []string{"/home", "/clients", "/checklists", "/password", "/nowhere"} {
		mother.get(at).spoken("es")
	}
	mother.get("/home").form("/sign-out").send().wants(http.StatusOK).spoken("es")

	educator := as(t, site, w, w.Educators[0])
	educator.get("/account").form("/account/language").send("language", "es").wants(http.StatusOK).spoken("es")
	educator.get("/today").wants(http.StatusOK).spoken("en") // the agency's work is written in English so far
}
