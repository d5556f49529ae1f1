package web

import (
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
)

// A token is made on a page, shown once, opens no page by itself, and is revoked.
func TestTokensOnPages(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	admin := as(t, site, w, w.Admin)
	if as(t, site, w, w.Coordinator).get("/people").wants(http.StatusOK).has("/tokens") {
		t.Error("a coordinator is offered tokens")
	}
	as(t, site, w, w.Coordinator).get("/tokens").wants(http.StatusForbidden)
	form := admin.get("/people").follow("Tokens of programs").wants(http.StatusOK).sound().headed("No program comes in").form("/tokens")
	form.send("name", "", "days", "400").wants(http.StatusUnprocessableEntity).sound().says("Enter the name of the program.", "from 1 to 365 days", "Choose what the program may do.")
	form.send("name", "Rota", "acts", "edit people", "reading", "yes").wants(http.StatusUnprocessableEntity).sound().says("that only reads cannot allow this")
	made := form.send("name", "Rota", "acts", "read people", "days", "30").wants(http.StatusOK).sound().headed("A token for Rota").says("shown this once", "read people")
	if made.header.Get("Cache-Control") != "no-store" {
		t.Errorf("the page with the token may be kept: %q", made.header.Get("Cache-Control"))
	}
	_, rest, found := strings.Cut(made.text(), "wellshown_")
	if !found {
		t.Fatalf("no token: %s", made.text())
	}
	token := "wellshown_" + strings.Fields(rest)[0]
	list := admin.get("/tokens").headed("One program comes in by token").says("Not used yet.").saysNot(token)
	for _, carry := range []func(*http.Request){
		func(r *http.Request) { r.Header.Set("Authorization", "Bearer "+token) },
		func(r *http.Request) { r.AddCookie(&http.Cookie{Name: plainCookie, Value: token}) },
	} {
		r := httptest.NewRequest(http.MethodGet, "/people", nil)
		carry(r)
		answer := httptest.NewRecorder()
		site.ServeHTTP(answer, r)
		if answer.Code != http.StatusSeeOther || !strings.HasPrefix(answer.Header().Get("Location"), "/sign-in") {
			t.Errorf("a token opens a page: %d", answer.Code)
		}
	}
	_, at, _ := strings.Cut(string(list.body), `action="/tokens/`)
	at, _, _ = strings.Cut(at, `"`)
	list.form("/tokens/"+at).send().wants(http.StatusOK).headed("No program comes in").says("The token is revoked.", "Revoked by "+w.Admin.Name)
	admin.posts("/tokens/" + at).wants(http.StatusNotFound)
	admin.posts("/tokens/nothing/revocation").wants(http.StatusNotFound)
}
