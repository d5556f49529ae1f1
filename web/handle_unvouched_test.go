package web

import (
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	"wellshown/integration/ward"
)

// Who waits for a vouch is seen where a day begins: by those who may give it, by whose
// link it was, and by the person.
func TestWhoWaitsForAVouchIsSeen(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	rosa := w.Client("4B", "Rosa")
	mother := w.Family("Ilse Brandt", rosa)
	at := "/people/" + string(mother.Person)
	cory, admin, edda := as(t, site, w, w.Coordinator), as(t, site, w, w.Admin), as(t, site, w, w.Educators[0])
	cory.get("/today").wants(http.StatusOK).saysNot("Waits for somebody to vouch")

	w.Pass(time.Minute)
	w.Take(w.Link(w.Admin, mother), ward.Password)
	for _, b := range []*browser{cory, edda} {
		p := b.get("/today").wants(http.StatusOK).sound().says("Waits for somebody to vouch", "Ilse Brandt", "a link that Ada Minton made")
		if !p.has(at + "#vouch") {
			t.Error("nothing leads to the form")
		}
	}
	cory.get(at).says("Cannot sign yet; vouch for them below")
	p := admin.get("/today").wants(http.StatusOK).sound().says("Waits for somebody to vouch", "Somebody other than you must vouch.")
	if p.has(at+"#vouch") || !p.has(at) {
		t.Error("who made the link is led to a form that is not there, or not to the person")
	}
	admin.get(at).sound().says("Cannot sign yet; somebody other than you must vouch.")

	own := as(t, site, w, mother)
	home := own.get("/home").wants(http.StatusOK).sound().says("You cannot sign yet", "ask an educator", "There is no plan yet.")
	if home.has("/clients/" + string(rosa) + "/readiness") {
		t.Error("/home leads to a plan that is not there")
	}
	cory.get(at).form(at+"/vouching").send("password", ward.Password).wants(http.StatusOK)
	own.get("/home").saysNot("You cannot sign yet")
	// The invitation before is over: nobody need vouch for it any more.
	own.get("/account").sound().says("Invitation", "another one was used after it", "Cory Vance vouched on").saysNot("nobody has vouched")
	edda.get("/today").saysNot("Waits for somebody to vouch")
}

// Without a role a password lets nobody in: no link is made before there is one.
func TestNoLinkWithoutARole(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	admin := as(t, site, w, w.Admin)
	f := admin.get("/people/new").form("/people")
	f.fields.Del("roles")
	p := f.send("name", "Dana Orlova", "email", "dana@ward.example").headed("Dana Orlova").sound().
		says("no role yet: cannot sign in", "Give a role first, under Change.")
	p.lacksForm(p.at + "/link")
	admin.posts(p.at + "/link").wants(http.StatusUnprocessableEntity).says("Give a role first, under Change.")
	as(t, site, w, w.Coordinator).get(p.at).wants(http.StatusOK).says("cannot sign in before an administrator gives one and invites them")
	edit := admin.get(p.at + "/edit").formAt("/edit")
	edit.send("roles", "coordinator").wants(http.StatusOK).saysNot("no role yet").form(p.at + "/link").send().headed("A link for Dana Orlova")
}

// What the account says of its owner's password and browsers is true also where
// nothing is known of them.
func TestTheAccountSaysNoMoreThanIsKnown(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	b := visitor(t, engine(w))
	r, err := http.NewRequest(http.MethodPost, b.base+"/sign-in", strings.NewReader(url.Values{"email": {w.Email(w.Admin)}, "password": {ward.Password}}.Encode()))
	if err != nil {
		t.Fatal(err)
	}
	r.Header = http.Header{"Content-Type": {"application/x-www-form-urlencoded"}, "User-Agent": {""}}
	b.do(r).wants(http.StatusOK)
	b.get("/account").wants(http.StatusOK).sound().says("No link was ever made for you.", "How your password was set stands below", "An unknown browser").saysNot("You chose your password yourself")
}
