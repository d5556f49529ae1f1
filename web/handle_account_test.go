package web

import (
	"net/http"
	"strings"
	"testing"
	"time"

	"wellshown/integration/ward"
)

// The PIN on pages: set under the account, offered once the password has signed,
// and the password stays a way (21 CFR 11.200(a)(1)(i)).
func TestSigningByPINOnPages(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	edda := as(t, site, w, w.Educators[0])
	page := edda.get("/account").wants(http.StatusOK).sound().says("You have none.")
	page = page.form("/account/pin").send("pin", "123456", "again", "123456", "password", ward.Password).wants(http.StatusUnprocessableEntity).sound().says("Your PIN is not kept.", "first that anybody").saysNot("123456")
	page = page.form("/account/pin").send("pin", "592047", "again", "592048", "password", ward.Password).wants(http.StatusUnprocessableEntity).says("The two differ.")
	page.form("/account/pin").send("pin", "592047", "again", "592047", "password", ward.Password).wants(http.StatusOK).says("Your PIN is kept.")

	bag, humidifier, suction := inForceAddress(t, w, "go-bag"), inForceAddress(t, w, "humidifier"), inForceAddress(t, w, "suction")
	first := edda.get(bag).form(bag + "/retirement")
	if first.fields.Has("pin") {
		t.Error("the PIN is offered for the first signature")
	}
	first.send("pin", "592047").wants(http.StatusUnprocessableEntity).sound().says("first signature of this session")
	first.send("password", ward.Password).wants(http.StatusOK).says("It is retired.")
	second := edda.get(humidifier).sound().says("Your PIN", "Sign with your password instead").form(humidifier + "/retirement")
	second.send("pin", "592048").wants(http.StatusUnprocessableEntity).sound().says("Your PIN: This PIN does not match.").
		form(humidifier+"/retirement").send("pin", "592047").wants(http.StatusOK).says("It is retired.")
	edda.get(suction).form(suction+"/retirement").send("pin", "", "password", ward.Password).wants(http.StatusOK).says("It is retired.")
	w.Pass(time.Hour)
	if f := edda.get(inForceAddress(t, w, "bagging")).form(inForceAddress(t, w, "bagging") + "/retirement"); f.fields.Has("pin") {
		t.Error("the PIN is offered an hour after the last signature")
	}
	edda.get("/account").form("/account/pin/end").send().wants(http.StatusOK).says("You have no PIN any more.", "You have none.")
	if as(t, site, w, w.Surveyor("Sue Vey")).get("/account").wants(http.StatusOK).sound().has("/account/pin") {
		t.Error("a surveyor, who signs nothing, is offered a PIN")
	}
}

// The sessions on the account page, and the notice about what others did.
func TestOneSeesAndEndsOnesSessions(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	here, there := as(t, site, w, w.Coordinator), as(t, site, w, w.Coordinator)
	page := here.get("/account").wants(http.StatusOK).sound().says("this one", "End all others", "Signed in")
	for _, cookie := range here.client.Jar.Cookies(page.request.URL) {
		if cookie.Value != "" && strings.Contains(page.body, cookie.Value) {
			t.Error("the page holds the session's token")
		}
	}
	page.form("/account/sessions/end").send().wants(http.StatusOK).says("That session has ended.")
	if p := there.get("/today"); !strings.HasPrefix(p.at, "/sign-in") {
		t.Errorf("an ended session gets to %s", p.at)
	}
	there = as(t, site, w, w.Coordinator)
	here.get("/account").form("/account/sessions/others/end").send().wants(http.StatusOK).says("All other sessions have ended.").saysNot("End all others")
	if p := there.get("/today"); !strings.HasPrefix(p.at, "/sign-in") {
		t.Errorf("an ended session gets to %s", p.at)
	}

	w.Pass(time.Minute)
	stranger := visitor(t, site)
	for range 2 {
		stranger.get("/sign-in").form("/sign-in").send("email", w.Email(w.Coordinator), "password", "guess guess guess").wants(http.StatusUnprocessableEntity)
	}
	again := as(t, site, w, w.Coordinator)
	read := again.get("/today").saysNot("that you did not do").says("one thing happened to your account. See whether you know it.").follow("See what it was").sound().says("2 failed tries")
	read.form("/account/news").send().wants(http.StatusOK).says("The notice is put away.", "2 failed tries")
	again.get("/today").saysNot("happened to your account")
}

// What is held about somebody: said in plain words, and one file.
func TestWhatIsHeldOnPages(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	edda := as(t, engine(w), w, w.Educators[0])
	edda.get("/account").wants(http.StatusOK).sound().says("What is held about you")
	page := edda.get("/account/held").wants(http.StatusOK).sound().says("Download all of it", "Your licences.")
	if !page.has("/account/held.json") {
		t.Error("no file is offered")
	}
	got := edda.get("/account/held.json").wants(http.StatusOK)
	if !strings.Contains(got.body, `"Edda Lorne"`) || strings.Contains(got.body, "argon2id") {
		t.Errorf("the file: %.300s", got.body)
	}
	edda.get("/account").says("Download made of all that is held about you")
}
