package web

import (
	"net/http"
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/integration/ward"
)

// invitation is a person who was just added, and the address of a link for them.
func invitation(t *testing.T, w *ward.Ward, admin *browser) (at, link string) {
	t.Helper()
	added := admin.get("/people/new").form("/people").send("name", "Dana Orlova", "email", "dana@ward.example", "kind", "nurse").headed("Dana Orlova")
	made := added.form(added.at+"/link").send().wants(http.StatusOK).sound().headed("A link for Dana Orlova").says("It is shown this once.", "the first password")
	if made.header.Get("Cache-Control") != "no-store" {
		t.Errorf("the page with the link may be kept: %q", made.header.Get("Cache-Control"))
	}
	_, rest, found := strings.Cut(made.text(), "https://ward.example")
	if !found {
		t.Fatalf("no link: %s", made.text())
	}
	return added.at, strings.Fields(rest)[0]
}

// From an invitation to the first sign-in, by pages alone. Referrer policy and
// caching: ASVS 5.0, chapter 14, on secrets in addresses; from memory.
func TestAnInvitation(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	admin := as(t, site, w, w.Admin)
	at, link := invitation(t, w, admin)
	admin.get(at).saysNot(link)
	dana := visitor(t, site)
	for range 2 { // whoever only looks uses nothing up
		p := dana.get(link).wants(http.StatusOK).sound().headed("Dana Orlova, choose a password only you know").says("Wren Hollow Nursing")
		if p.header.Get("Referrer-Policy") != "no-referrer" || p.header.Get("Cache-Control") != "no-store" {
			t.Errorf("the link's page goes out with %v", p.header)
		}
	}
	form := dana.get(link).form(link)
	form.send("new", "a heron by the weir", "again", "a heron by the mill").wants(http.StatusUnprocessableEntity).sound().says("The two differ.")
	form.send("new", "kurz", "again", "kurz").wants(http.StatusUnprocessableEntity).sound().says("at least 12").saysNot("kurz")
	signIn := form.send("new", "a heron by the weir", "again", "a heron by the weir").wants(http.StatusOK).headed("Sign in").says("Your password is kept.")
	signIn.form("/sign-in").send("email", "dana@ward.example", "password", "a heron by the weir").wants(http.StatusOK).headed("Nothing is asked of you yet")

	// Used, forged and replaced links are one page.
	used := dana.get(link).wants(http.StatusNotFound).sound().says("This link cannot be used")
	stranger := visitor(t, site)
	for _, dead := range []string{link, "/link/x", "/link/" + strings.Repeat("A", 43), strings.TrimSuffix(link, link[len(link)-1:]) + "_"} {
		for _, p := range []*page{stranger.get(dead), stranger.posts(dead, "new", "a heron by the weir", "again", "a heron by the weir")} {
			if p.wants(http.StatusNotFound).text() != stranger.get("/link/never").text() || p.header.Get("Referrer-Policy") != "no-referrer" {
				t.Errorf("%s: %s", dead, p.text())
			}
		}
	}
	used.follow("Go to the sign-in").wants(http.StatusOK)
}

// A reset as an educator's colleague sees it: they cannot sign, somebody vouches,
// they can.
func TestVouchingForAColleague(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	rolf := w.Educators[1]
	at := "/people/" + string(rolf.Person)
	admin, cory := as(t, site, w, w.Admin), as(t, site, w, w.Coordinator)
	if cory.get(at).has(at + "/link") {
		t.Error("a coordinator is offered to make a link")
	}
	cory.posts(at + "/link").wants(http.StatusForbidden)
	made := admin.get(at).form(at+"/link").send().headed("A link for Rolf Teague").says("a new password", "other than you must vouch")
	_, rest, _ := strings.Cut(made.text(), "https://ward.example")
	link := strings.Fields(rest)[0]
	own := visitor(t, site)
	own.get(link).form(link).send("new", "a heron by the weir", "again", "a heron by the weir").form("/sign-in").
		send("email", w.Email(rolf), "password", "a heron by the weir").wants(http.StatusOK)
	own.get("/account").wants(http.StatusOK).sound().says("You cannot sign yet", "made by Ada Minton", "nobody has vouched")
	retire := inForceAddress(t, w, "go-bag")
	own.get(retire).form(retire+"/retirement").send("password", "a heron by the weir").wants(http.StatusUnprocessableEntity).sound().says("by a link that Ada Minton made", "ask an educator, a coordinator or an administrator whose own password does not come from Ada Minton")

	if admin.get(at).has(at + "/vouching") {
		t.Error("who made the link is offered to vouch")
	}
	page := cory.get(at).says("Vouch for them: they cannot sign yet", "made by Ada Minton")
	page = page.form(at+"/vouching").send("password", "not mine").wants(http.StatusUnprocessableEntity).sound().says("You have not vouched.", "does not match")
	if !strings.Contains(page.body, "<title>Not saved: ") || !strings.Contains(page.body, `<a href="#vouch-faults">`) {
		t.Error("the head of the page does not tell that nobody has vouched")
	}
	late := cory.get(at).form(at + "/vouching")
	page.form(at+"/vouching").send("password", ward.Password).wants(http.StatusOK).says("You have vouched for them.")
	if cory.get(at).has(at + "/vouching") {
		t.Error("a second one is offered to vouch")
	}
	late.send("password", ward.Password).wants(http.StatusUnprocessableEntity).sound().says("You have not vouched.", "already").lacksForm(at + "/vouching")
	own.get("/account").says("Cory Vance vouched on").saysNot("You cannot sign yet")
	own.get(retire).form(retire+"/retirement").send("password", "a heron by the weir").wants(http.StatusOK).says("It is retired.")
}

// inForceAddress is the page of the revision of a skill that is in force.
func inForceAddress(t *testing.T, w *ward.Ward, code string) string {
	t.Helper()
	skills, _, err := w.Office.Skills(t.Context(), w.Educators[0])
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range skills {
		for _, r := range s.Revisions {
			if s.Code == code && r.State == assessment.InForce {
				return "/revisions/" + string(r.ID)
			}
		}
	}
	t.Fatalf("%s is not in force", code)
	return ""
}

// Codes that were lost are turned off on the person's page, signed, and only where there
// are any.
func TestLostCodesAreTurnedOffOnThePage(t *testing.T) {
	t.Parallel()
	w := codesWard(t)
	site := engine(w)
	rolf := w.Educators[1]
	at := "/people/" + string(rolf.Person)
	admin := as(t, site, w, w.Admin)
	if admin.get(at).has(at + "/codes/end") {
		t.Error("it is offered where there are no codes")
	}
	made, err := w.Office.BeginCodes(t.Context(), rolf, ward.Password)
	if err == nil {
		_, err = w.Office.ConfirmCodes(t.Context(), rolf, codeOf(t, w, made.Secret))
	}
	if err != nil {
		t.Fatal(err)
	}
	if as(t, site, w, w.Coordinator).get(at).has(at + "/codes/end") {
		t.Error("a coordinator is offered it")
	}
	page := admin.get(at).says("One-time codes lost").form(at+"/codes/end").send("password", "not mine").wants(http.StatusUnprocessableEntity).sound().says("Their codes are still on.", "does not match")
	page.form(at+"/codes/end").send("password", ward.Password).wants(http.StatusOK).says("Their one-time codes are off.")
	if admin.get(at).has(at + "/codes/end") {
		t.Error("it is offered a second time")
	}
}
