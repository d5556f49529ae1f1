package api_test

import (
	"net/http"
	"strings"
	"testing"
	"time"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/integration/ward"
)

// links tells how somebody comes to a password of their own, and to another one,
// and who vouches.
func (d *desk) links(who assessment.Actor) {
	d.t.Helper()
	made := func() api.NewLink {
		var l api.NewLink
		d.post("/people/"+string(who.Person)+"/link", d.Admin, nil).into(http.StatusCreated, &l)
		return l
	}
	take := func(l api.NewLink, password string) *answer {
		_, token, _ := strings.Cut(l.URL, "/link/")
		return d.post("/links", assessment.Actor{}, api.TakenLink{Token: token, Password: password})
	}
	first := made()
	if first.Purpose != "invitation" || first.Person.ID != string(who.Person) || !first.ExpiresAt.Equal(d.Now().Add(72*3600e9)) {
		d.t.Errorf("invited by %+v", first)
	}
	take(first, "short").problem(http.StatusUnprocessableEntity)
	take(first, ward.Password).is(http.StatusNoContent)
	used := take(first, "another grey stair").problem(http.StatusNotFound)
	forged := take(api.NewLink{URL: "https://ward.example/link/" + strings.Repeat("x", 43)}, "another grey stair").problem(http.StatusNotFound)
	if used.Detail != forged.Detail || used.Type != forged.Type {
		d.t.Errorf("a used link answers %+v, a forged one %+v", used, forged)
	}
	d.Pass(time.Minute)
	second := made()
	if second.Purpose != "reset" {
		d.t.Errorf("the second link: %+v", second)
	}
	take(second, "another grey stair").is(http.StatusNoContent)
	var id api.Identity
	d.get("/people/"+string(who.Person)+"/identity", d.Coordinator).into(http.StatusOK, &id)
	if len(id.Links) != 2 || id.Links[0].IssuedBy.Name != d.Admin.Name || id.Links[0].UsedAt == nil || !strings.Contains(id.Waits, "vouch") {
		d.t.Errorf("how they came to their password: %+v", id)
	}
	vouch := "/people/" + string(who.Person) + "/vouching"
	d.post(vouch, d.Admin, api.Signing{Password: ward.Password}).problem(http.StatusUnprocessableEntity)
	d.post(vouch, d.Coordinator, api.Signing{Password: ward.Password}).is(http.StatusNoContent)
	d.post(vouch, d.Coordinator, api.Signing{Password: ward.Password}).problem(http.StatusConflict)
	var after api.Identity
	d.get("/people/"+string(who.Person)+"/identity", d.Coordinator).into(http.StatusOK, &after)
	if after.Links[0].VouchedBy == nil || after.Links[0].VouchedBy.Name != d.Coordinator.Name || after.Waits != "" {
		d.t.Errorf("after somebody vouched: %+v", after)
	}
}

// accounts tells of one's own sessions, PIN and what happened to the account.
func (d *desk) accounts(who assessment.Actor) {
	d.t.Helper()
	var s api.Session
	d.post("/sessions", assessment.Actor{}, api.SignIn{Email: d.Email(who), Password: ward.Password}).into(http.StatusCreated, &s)
	d.put("/me/pin", who, api.NewPIN{Password: ward.Password, PIN: "123456"}).problem(http.StatusUnprocessableEntity)
	d.put("/me/pin", who, api.NewPIN{Password: ward.Password, PIN: "592047"}).is(http.StatusNoContent)
	var a api.Account
	d.get("/me/account", who).into(http.StatusOK, &a)
	var held struct {
		Held map[string]struct {
			Says    string
			Entries []map[string]any
		}
	}
	d.get("/me/held", who).into(http.StatusOK, &held)
	if p := held.Held["person"]; len(p.Entries) != 1 || p.Entries[0]["id"] != string(who.Person) || p.Says == "" || len(held.Held["sessions"].Entries) != 2 {
		d.t.Errorf("what is held: %+v", held)
	}
	if !a.PIN.Set || len(a.Sessions) != 2 || a.Sessions[0].This == a.Sessions[1].This || len(a.Events) == 0 {
		d.t.Errorf("the account: %+v", a)
	}
	for _, o := range a.Sessions {
		if d.get("/me", assessment.Actor{}).status == http.StatusOK || strings.Contains(s.Token, o.Handle) {
			d.t.Error("a handle tells of the token")
		}
		if !o.This {
			d.delete("/me/sessions/"+o.Handle, who).is(http.StatusNoContent)
			d.delete("/me/sessions/"+o.Handle, who).problem(http.StatusNotFound)
		}
	}
	d.delete("/me/sessions", who).is(http.StatusNoContent)
	d.delete("/me/pin", who).is(http.StatusNoContent)
	a = api.Account{}
	d.get("/me/account", who).into(http.StatusOK, &a)
	if a.PIN.Set || len(a.Sessions) != 1 || !a.Sessions[0].This {
		d.t.Errorf("afterwards: %+v", a)
	}
}

// The PIN over the wire: not for the first signature of a session, and for the ones
// after it (21 CFR 11.200(a)(1)(i)).
func TestAPINOverTheWire(t *testing.T) {
	t.Parallel()
	d := newDesk(t)
	by := d.Educators[0]
	d.put("/me/pin", by, api.NewPIN{Password: ward.Password, PIN: "592047"}).is(http.StatusNoContent)
	nurse := d.Nurse("Bo Ree")
	waive := func(proof api.Signing) *answer {
		return d.post("/waivers", by, api.WaiverForm{Person: string(nurse.Person), Skill: "bagging", From: d.Today().String(), Through: d.Today().String(), Reason: "x", Signing: proof})
	}
	if says := field(t, waive(api.Signing{PIN: "592047"}).problem(http.StatusUnprocessableEntity), "pin"); !strings.Contains(says, "first signature of this session") {
		t.Errorf("refused with %q", says)
	}
	waive(api.Signing{Password: ward.Password}).is(http.StatusNoContent)
	waive(api.Signing{PIN: "592047"}).is(http.StatusNoContent)
	waive(api.Signing{}).problem(http.StatusUnprocessableEntity)
}
