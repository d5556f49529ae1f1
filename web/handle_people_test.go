package web

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/integration/ward"
)

func TestPeople(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	mira := w.Client("7K", "Mira")
	lan := w.Family("Lan Nguyễn", mira)
	cory := as(t, site, w, w.Coordinator)
	page := cory.get("/people").headed("Five people, no skill lapsed").says("Lan Nguyễn", "mother", "nothing required")
	w.Require("bagging", "")
	if err := w.Office.Withdraw(t.Context(), w.Coordinator, withdrawal(lan.Person, "bagging", mira), assessment.Reinstated, false); err != nil {
		t.Fatal(err)
	}
	cory.get("/people").headed("One person has a skill that no longer holds").says("withdrawn", "0 of 1 current")
	page.form("/people").send("find", "nguy").headed("One person fits")
	page.form("/people").send("kind", "aide").headed("Nobody fits").follow("Show everybody").wants(http.StatusOK)
	page.form("/people").send("role", "educator").headed("Two people fit").saysNot("Lan")
	cory.get("/people?kind=king").wants(http.StatusUnprocessableEntity).sound()
	if as(t, site, w, w.Educators[0]).get("/people").has("/people/new") {
		t.Error("an educator is offered to add people")
	}
}

func TestAddAPerson(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	admin := as(t, site, w, w.Admin)
	form := admin.get("/people").follow("Add a person").headed("Add a person").form("/people")
	id := form.fields.Get("id")
	again := form.send("name", "", "email", "dana", "kind", "nurse", "relation", "aunt").wants(http.StatusUnprocessableEntity).sound().
		says("Nobody was added.", "Give the name as it is to be printed.", "This is not an e-mail address.")
	kept := again.form("/people").fields
	if kept.Get("email") != "dana" || kept.Get("kind") != "nurse" || kept.Get("relation") != "aunt" || kept.Get("id") != id || kept.Get("roles") != "caregiver" {
		t.Errorf("after a fault the form holds %v", kept)
	}
	person := again.form("/people").send("name", "Dana Orlova", "email", "dana@ward.example")
	person.headed("Dana Orlova").says("Dana Orlova is added.", "nurse · caregiver")
	if person.at != "/people/"+id {
		t.Errorf("the new person is at %s", person.at)
	}
	person.b.get(person.at).saysNot("Dana Orlova is added.")
	// A second click is the same person; another one with the address is refused.
	if twice := again.form("/people").send("name", "Dana Orlova", "email", "dana@ward.example"); twice.at != person.at {
		t.Errorf("a second click leads to %s", twice.at)
	}
	admin.get("/people/new").form("/people").send("name", "Other", "email", "dana@ward.example", "kind", "aide").wants(http.StatusUnprocessableEntity).
		says("Somebody in this agency has this e-mail address already.")
	// Roles are sent once each.
	fields := admin.get("/people/new").form("/people").fields
	fields.Set("name", "Two Hats")
	fields["roles"] = []string{"educator", "coordinator"}
	admin.post("/people", fields).headed("Two Hats").says("educator", "coordinator")
}

func TestACoordinatorGivesNoRoles(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	cory := as(t, site, w, w.Coordinator)
	page := cory.get("/people/new").headed("Add a person").says("An administrator gives roles")
	added := page.form("/people").send("name", "Dana Orlova", "kind", "nurse").headed("Dana Orlova")
	if f := page.form("/people"); f.fields.Has("roles") {
		t.Errorf("a coordinator's form has %v", f.fields)
	}
	// What is sent all the same gives nothing: the page says so of whoever has no role at all.
	cory.posts("/people", "name", "Sly", "kind", "nurse", "roles", "administrator").headed("Sly").says("no role yet: cannot sign in")
	edit := cory.get(added.at).follow("Change").headed("Change Dana Orlova")
	edit.form(added.at+"/edit").send("name", "Dana Orlova-Reyes").headed("Dana Orlova-Reyes").says("The change is saved.")
	edit.form(added.at+"/edit").send("name", " ").wants(http.StatusUnprocessableEntity).sound().says("The change is not saved.")
}

func TestWhoIsNotTheirsIsNotThere(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	mira := w.Client("7K", "Mira")
	lan, ada := w.Family("Lan", mira), w.Nurse("Ada Marsh")
	other := ward.New(t)
	stranger := other.Nurse("Stranger")
	elsewhere := other.Client("9Z", "Noor")
	cory, mother := as(t, site, w, w.Coordinator), as(t, site, w, lan)
	mother.get("/people/" + string(lan.Person)).wants(http.StatusOK).sound().saysNot("See who must hold what")
	mother.get("/clients/" + string(mira)).wants(http.StatusOK).sound()
	// Whoever is outside the reader's reach looks like whoever was never there.
	want := cory.get("/people/" + nobody).wants(http.StatusNotFound).sound().text()
	for _, path := range []string{"/people/" + string(stranger.Person), "/people/x", "/clients/" + string(elsewhere), "/clients/" + nobody,
		"/clients/" + string(elsewhere) + "/readiness", "/people/" + string(stranger.Person) + "/edit", "/clients/" + string(elsewhere) + "/edit",
		"/clients/" + string(elsewhere) + "/parameters/new", "/clients/" + string(elsewhere) + "/equipment/new"} {
		by := cory
		if path == "/clients/"+string(elsewhere)+"/parameters/new" {
			by = as(t, site, w, w.Educators[0])
			by.get(path).wants(http.StatusNotFound).sound()
			continue
		}
		if got := by.get(path).wants(http.StatusNotFound).text(); got != want {
			t.Errorf("%s says something else than for nobody: %s", path, got)
		}
	}
	for _, path := range []string{"/people/" + string(ada.Person), "/clients/" + nobody, "/clients/" + nobody + "/readiness"} {
		mother.get(path).wants(http.StatusNotFound).sound().saysNot("Ada")
	}
	for path, fields := range map[string]url.Values{
		"/people/" + string(stranger.Person) + "/papers":  {"paper": {"licence"}, "kind": {"RN"}, "number": {"1"}},
		"/people/" + string(stranger.Person) + "/leaving": {"on": {"2026-02-01"}},
		"/clients/" + string(elsewhere) + "/team":         {"person": {string(ada.Person)}, "from": {"2026-02-01"}},
		"/clients/" + string(mira) + "/team":              {"person": {string(stranger.Person)}, "from": {"2026-02-01"}},
		"/clients/" + string(elsewhere) + "/readiness":    {},
		"/requirements/" + nobody + "/end":                {"through": {"2026-02-01"}},
	} {
		fields.Set("csrf", cory.csrf())
		cory.post(path, fields).wants(http.StatusNotFound).sound()
	}
	mother.posts("/people/"+string(lan.Person)+"/papers", "paper", "licence", "kind", "RN", "number", "1").wants(http.StatusForbidden).sound()
	cory.posts("/people/"+string(ada.Person)+"/waivers", "skill", "suction").wants(http.StatusForbidden).sound()
}

// Two pages change one person: the second is told what the first changed, undoes
// none of it, and keeps what was typed.
func TestTwoChangeOnePerson(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	rolf := w.Educators[1]
	at := "/people/" + string(rolf.Person)
	one, other := as(t, site, w, w.Admin), as(t, site, w, w.Admin)
	mine, theirs := one.get(at+"/edit").form(at+"/edit"), other.get(at+"/edit").form(at+"/edit")
	theirs.fields["roles"] = []string{"surveyor"}
	theirs.send("language", "es").wants(http.StatusOK).says("The change is saved.")
	mine.fields["roles"] = append(mine.fields["roles"], "coordinator")
	p := mine.send("name", "Rolf Teague-Hale").wants(http.StatusUnprocessableEntity).sound().says("The change is not saved.", "Somebody has changed this person since you opened this page.",
		"May act as", "before: educator", "now: surveyor", "before: en", "now: es")
	form := p.form(at + "/edit")
	if f := form.fields; f.Get("name") != "Rolf Teague-Hale" || f.Get("language") != "es" || strings.Join(f["roles"], " ") != "coordinator surveyor" {
		t.Errorf("the form holds %v", f)
	}
	one.get(at).headed("Rolf Teague").saysNot("Hale")
	form.send().wants(http.StatusOK).headed("Rolf Teague-Hale").says("surveyor", "coordinator").saysNot("educator")
	// A fault in between does not make an older page a new one.
	theirs.send("name", " ").wants(http.StatusUnprocessableEntity).form(at+"/edit").send("name", "Rolf").wants(http.StatusUnprocessableEntity).says("Somebody has changed this person")
}

// Whoever goes back to a form that was sent and types somebody else over it is told.
func TestAnotherPersonWithTheSameForm(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	admin := as(t, engine(w), w, w.Admin)
	form := admin.get("/people/new").form("/people")
	form.send("name", "Ann Lee", "kind", "nurse").headed("Ann Lee")
	p := form.send("name", "Bea Mott", "kind", "aide").wants(http.StatusUnprocessableEntity).sound().says("Nobody was added.", "Somebody else was added with this form already.")
	p.form("/people").send().headed("Bea Mott").says("Bea Mott is added.")
	admin.get("/people").says("Ann Lee", "Bea Mott")
}
