package api_test

import (
	"net/http"
	"strings"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/integration/ward"
)

// comesInForce tells of a draft that one educator proposes, takes back and proposes again,
// and the other declines once and then agrees to.
func (d *desk) comesInForce(draft api.Revision) {
	d.t.Helper()
	first, second := d.Educators[0], d.Educators[1]
	at, signing := "/revisions/"+draft.ID, api.Signing{Password: ward.Password}
	var seen api.Preview
	d.post(at+"/preview", first, api.ForceLook{Version: draft.Version}).into(http.StatusOK, &seen)
	form := api.ForceProposal{ForceLook: api.ForceLook{Version: draft.Version}, Seen: "stale", Statement: "Read against the ward's orders.", Signing: signing}
	d.post(at+"/proposals", first, form).problem(http.StatusConflict)
	form.Seen = seen.Version
	propose := func() (p api.Proposal) {
		d.post(at+"/proposals", first, form).into(http.StatusCreated, &p)
		return p
	}
	drop := func(p api.Proposal, by assessment.Actor, reason, verdict string) {
		var v api.ProposalInFull
		d.post(path("/proposals/%s/dropping", p.ID), by, api.Dropping{Reason: reason}).is(http.StatusNoContent)
		d.get("/proposals/"+p.ID, second).into(http.StatusOK, &v)
		if v.Verdict != verdict || v.Reason != reason || v.EndedBy.Name != by.Name || v.EndedAt == nil || v.Preview != nil {
			d.t.Errorf("%s: %+v", verdict, v)
		}
	}
	drop(propose(), first, "", "taken back")
	last := propose()
	d.post(path("/proposals/%s/dropping", last.ID), second, api.Dropping{}).problem(http.StatusUnprocessableEntity)
	drop(last, second, "Say which bag.", "declined")
	last = propose()
	var all api.List[api.Proposal]
	d.get("/proposals", second).into(http.StatusOK, &all)
	if len(all.Items) != 1 || all.Items[0].ID != last.ID || all.Items[0].ProposedBy.Name != first.Name || all.Items[0].Verdict != "" {
		d.t.Errorf("what waits: %+v", all)
	}
	var full api.ProposalInFull
	d.get("/proposals/"+last.ID, first).into(http.StatusOK, &full)
	if full.Preview != nil || !strings.Contains(full.MayNot, "yourself") {
		d.t.Errorf("to whoever proposed it: %+v", full)
	}
	d.get("/proposals/"+last.ID, second).into(http.StatusOK, &full)
	agree := path("/proposals/%s/agreement", last.ID)
	d.post(agree, second, api.Agreement{Seen: "stale", Signing: signing}).problem(http.StatusConflict)
	d.post(agree, first, api.Agreement{Seen: full.Preview.Version, Signing: signing}).problem(http.StatusUnprocessableEntity)
	d.post(agree, second, api.Agreement{Seen: full.Preview.Version, Signing: signing}).is(http.StatusNoContent)
	d.get("/proposals/"+last.ID, second).into(http.StatusOK, &full)
	if full.Verdict != "agreed" || full.EndedBy.Name != second.Name {
		d.t.Errorf("agreed to: %+v", full.Proposal)
	}
}

// looks asks what each change would change, twice: a look changes nothing.
func (d *desk) looks() {
	d.t.Helper()
	child := d.Client("4L", "Ines")
	nurse := d.Nurse("Runa Falk")
	d.Award(nurse, "humidifier", child)
	clear(d.tokens) // that took days
	today := d.Today().String()
	var need api.Requirement
	d.post("/requirements", d.Coordinator, api.RequirementForm{Skill: "humidifier", Kind: "nurse", Client: string(child), From: today}).into(http.StatusCreated, &need)
	for _, look := range []struct {
		at     string
		by     assessment.Actor
		body   any
		people int
	}{
		{"/withdrawals/preview", d.Educators[0], api.WithdrawalLook{Person: string(nurse.Person), Skill: "humidifier", Client: string(child), Until: "reinstated"}, 1},
		{path("/clients/%s/equipment/preview", child), d.Coordinator, api.EquipmentForm{Kind: "humidifier", Type: "another", From: today}, 1},
		{"/requirements/preview", d.Coordinator, api.RequirementForm{Skill: "bagging", Kind: "nurse", From: today}, 0},
		{path("/requirements/%s/end/preview", need.ID), d.Coordinator, api.LastDay{Through: today}, 0},
		{path("/people/%s/departure/preview", nurse.Person), d.Coordinator, api.Departure{On: today}, 0},
	} {
		var first, again api.Preview
		d.post(look.at, look.by, look.body).into(http.StatusOK, &first)
		d.post(look.at, look.by, look.body).into(http.StatusOK, &again)
		if first.Version != again.Version || first.People != look.people || (look.people > 0) != (len(first.Standings) > 0) || first.Today != today {
			d.t.Errorf("%s: %+v, then %+v", look.at, first, again)
		}
		for _, s := range first.Standings {
			if s.Person.ID != string(nurse.Person) || s.Skill.Code != "humidifier" || s.Client.ID != string(child) || s.Before != "current" && s.Before != "due" && s.Before != "lapsed" || s.After == s.Before {
				d.t.Errorf("%s: %+v", look.at, s)
			}
		}
	}
}
