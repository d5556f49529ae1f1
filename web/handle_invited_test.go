package web

import (
	"net/http"
	"strings"
	"testing"
)

// An invitation for somebody who reads Spanish: the sheet, the page behind it and the
// sign-in after it are in Spanish, whatever the browser asks for. RFC 9110, section
// 12.5.4, has a server free to know better than Accept-Language.
func TestAnInvitationSpeaksTheLanguageOfTheInvited(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	admin := as(t, site, w, w.Admin)
	added := admin.get("/people/new").form("/people").send("name", "Rosa Ibarra", "email", "rosa@ward.example", "kind", "family", "relation", "mother", "language", "es").headed("Rosa Ibarra")
	made := added.form(added.at+"/link").send().wants(http.StatusOK).sound().headed("A link for Rosa Ibarra").says("Le damos la bienvenida, Rosa Ibarra", "Sirve una sola vez", "En una emergencia")
	if !strings.Contains(made.body, `<section class="invitation" lang="es" dir="ltr">`) || strings.Count(made.body, `<path fill="#000"`) != 1 {
		t.Error("the sheet is not marked as Spanish, or has no square")
	}
	_, rest, _ := strings.Cut(made.text(), "https://ward.example")
	link := strings.Fields(rest)[0]
	rosa := visitor(t, site)
	page := rosa.get(link).wants(http.StatusOK).sound().headed("Rosa Ibarra, elija una contraseña que solo usted sepa")
	if !strings.Contains(page.body, `<html lang="es"`) {
		t.Error("the page behind the link is not in Spanish")
	}
	if !strings.Contains(page.body, `hreflang="en"`) || strings.Contains(page.body, `hreflang="es"`) {
		t.Error("the page in Spanish does not offer English")
	}
	page.form(link).send("new", "corta", "again", "otra").wants(http.StatusUnprocessableEntity).says("Su contraseña todavía no se guardó.", "No escribió lo mismo las dos veces.")
	rosa.get(link + "?lang=en").headed("Rosa Ibarra, choose a password only you know")
	form := visitor(t, site).get(link).form(link)
	form.send("new", "una garza en la presa", "again", "una garza en la presa").wants(http.StatusOK).says("Su contraseña está guardada.")
}

// An invitation that reached the wrong person: they end it, it is dead for everybody, and
// whose it is finds that among what happened.
func TestAnInvitationGivenBack(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	admin := as(t, site, w, w.Admin)
	at, link := invitation(t, w, admin)
	stranger := visitor(t, site)
	back := stranger.get(link).form(link + "/not-mine").send().wants(http.StatusOK).sound().headed("Thank you. The link has ended")
	if back.header.Get("Referrer-Policy") != "no-referrer" || strings.Contains(back.body, "Dana") {
		t.Errorf("the answer tells more than it should: %v", back.header)
	}
	visitor(t, site).get(link).wants(http.StatusNotFound).says("This link cannot be used")
	visitor(t, site).posts(link, "new", "a heron by the weir", "again", "a heron by the weir").wants(http.StatusNotFound)
	// A second time, a forged one and one that was used look the same.
	for _, dead := range []string{link, "/link/x", "/link/" + strings.Repeat("A", 43)} {
		if p := visitor(t, site).posts(dead + "/not-mine").wants(http.StatusOK); p.text() != back.text() {
			t.Errorf("%s: %s", dead, p.text())
		}
	}
	again := admin.get(at).form(at + "/link").send().wants(http.StatusOK)
	_, rest, _ := strings.Cut(again.text(), "https://ward.example")
	dana := visitor(t, site)
	anew := strings.Fields(rest)[0]
	dana.get(anew).form(anew).send("new", "a heron by the weir", "again", "a heron by the weir").form("/sign-in").
		send("email", "dana@ward.example", "password", "a heron by the weir").wants(http.StatusOK)
	dana.get("/account").says("said that it was not for them")
}
