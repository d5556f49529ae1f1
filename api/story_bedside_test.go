package api_test

import (
	"net/http"
	"slices"
	"strings"
	"time"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/integration/ward"
)

// devices enrols one, lists it and revokes it.
func (d *desk) devices() {
	d.t.Helper()
	owner := d.Educators[0]
	key := d.Device(d.Educators[1])
	d.need(d.Office.RevokeDevice(d.t.Context(), d.Educators[1], key.ID))
	form := api.DeviceForm{ID: ward.NewID(d.Now()), Name: "Grey  tablet", PublicKey: key.Public()}
	d.post("/bedside/devices", owner, form).problem(http.StatusConflict) // a key that was revoked is not enrolled again
	form.PublicKey = rfcKey
	var made, again api.Device
	d.post("/bedside/devices", owner, form).into(http.StatusCreated, &made)
	d.post("/bedside/devices", owner, form).into(http.StatusCreated, &again)
	if made.ID != form.ID || made.Name != "Grey tablet" || made.Person != string(owner.Person) || !made.EnrolledAt.Equal(d.Now()) || again != made {
		d.t.Errorf("enrolled %+v, then %+v", made, again)
	}
	d.post("/bedside/devices", d.Coordinator, form).problem(http.StatusForbidden)
	d.delete("/bedside/devices/"+made.ID, d.Educators[1]).problem(http.StatusNotFound)
	d.delete("/bedside/devices/"+made.ID, owner).is(http.StatusNoContent)
	d.delete("/bedside/devices/"+made.ID, owner).is(http.StatusNoContent)
	var list api.List[api.Device]
	d.get("/bedside/devices", owner).into(http.StatusOK, &list)
	if len(list.Items) != 1 || list.Items[0].RevokedAt == nil || list.Items[0].RevokedBy != owner.Name {
		d.t.Errorf("listed: %+v", list)
	}
}

// rfcKey is the public key of RFC 6979, appendix A.2.5, as a SubjectPublicKeyInfo.
const rfcKey = "MFkwEwYHKoZIzj0CAQYIKoZIzj0DAQcDQgAEYP7UuiVanTHJYet0xjVtaMBJuJI7Yfps5mliLmDyn7Z5A_4QCLi8maQa6elWKLxk8vGyDC1-n1F3o8KU1EYimQ"

// offline takes a pack along, fills a sheet in and sends it, twice.
func (d *desk) offline(child assessment.ClientID) {
	d.t.Helper()
	owner, nan := d.Educators[0], d.Nurse("Nan Orme")
	key := d.Device(owner)
	var p api.Pack
	d.get(path("/bedside/pack?device=%s", key.ID), owner).into(http.StatusOK, &p)
	i := slices.IndexFunc(p.Learners, func(l api.PackLearner) bool { return l.ID == string(nan.Person) })
	j := slices.IndexFunc(p.Skills, func(s api.PackSkill) bool { return s.Code == "go-bag" })
	k := slices.IndexFunc(p.Clients, func(c api.PackClient) bool { return c.ID == string(child) })
	if p.Version != 1 || p.MayNot != "" || !p.ExpiresAt.Equal(p.MadeAt.Add(24*time.Hour)) || p.Device.ID != string(key.ID) || p.Agency.Code != ward.Code || i < 0 || j < 0 || k < 0 {
		d.t.Fatalf("the pack: %+v", p)
	}
	s := p.Skills[j]
	if len(s.Rules.Steps) == 0 || len(s.Checklist.Sections) == 0 || !s.Specific || s.Revision.Number != 1 || p.Clients[k].Parameters["suction_low"].Value != "80" || p.Clients[k].Words["call_first"] != "at once" {
		d.t.Errorf("in the pack: %+v, %+v", s.Rules, p.Clients[k])
	}
	d.get("/bedside/pack", owner).problem(http.StatusBadRequest)
	d.put(path("/bedside/devices/%s/holding", key.ID), owner, api.Holding{Finished: 2, Open: 1}).is(http.StatusNoContent)
	d.put(path("/bedside/devices/%s/holding", key.ID), owner, api.Holding{Finished: -1}).problem(http.StatusUnprocessableEntity)
	d.put(path("/bedside/devices/%s/holding", key.ID), d.Educators[1], api.Holding{}).problem(http.StatusNotFound)
	d.get(path("/bedside/pack?device=%s", key.ID), d.Educators[1]).problem(http.StatusNotFound)
	sheet := d.Fill(key, nan, "go-bag", child, d.Now(), ward.Marked(1, assessment.Unsafe))
	d.Pass(time.Hour)
	form := key.Send(sheet, d.Now())
	sent := api.SheetSent{Device: string(key.ID), Sheet: form.Sheet, Signature: form.Signature, SentAt: d.Now()}
	var got, again api.SheetReceived
	d.put("/bedside/sheets/"+sheet.ID, owner, sent).into(http.StatusOK, &got)
	d.put("/bedside/sheets/"+sheet.ID, owner, sent).into(http.StatusOK, &again)
	if got.Demonstration.Outcome != "not yet competent" || got.Differs || got.DeviceOutcome != got.Demonstration.Outcome || got.ClockGap != 0 || !got.ReceivedAt.Equal(d.Now()) ||
		len(got.Demonstration.Reasons) == 0 || !strings.Contains(got.Demonstration.Reasons[0].Words, "Step 1 was unsafe") || again.Demonstration.SHA256 != got.Demonstration.SHA256 {
		d.t.Errorf("sent: %+v, then %+v", got, again)
	}
	var r api.Demonstration
	d.get("/demonstrations/"+sheet.ID, nan).into(http.StatusOK, &r)
	if r.Bedside == nil || r.Bedside.Device.Name != "The grey tablet" || !r.PerformedAt.Equal(r.Bedside.Claimed) || r.Bedside.Pace == nil {
		d.t.Errorf("the record: %+v", r.Bedside)
	}
	d.signedByPasskey(owner, sheet.ID)
	d.notTaken(owner, key, sheet, sent)
}

// notTaken sends what is refused, each with its status.
func (d *desk) notTaken(owner assessment.Actor, key ward.Device, sheet ward.OfflineSheet, sent api.SheetSent) {
	d.t.Helper()
	sheet.Place = "elsewhere"
	other := sent
	form := key.Send(sheet, d.Now())
	other.Sheet, other.Signature = form.Sheet, form.Signature
	d.put("/bedside/sheets/"+sheet.ID, owner, other).problem(http.StatusConflict)
	d.put("/bedside/sheets/"+ward.NewID(d.Now()), owner, sent).problem(http.StatusUnprocessableEntity)
	large := sent
	large.Sheet = strings.Repeat("x", 300<<10)
	d.put("/bedside/sheets/"+sheet.ID, owner, large).problem(http.StatusUnprocessableEntity)
	huge := raw{"application/json", `{"sheet":"` + strings.Repeat("x", 2<<20) + `"}`}
	d.put("/bedside/sheets/"+sheet.ID, owner, huge).problem(http.StatusRequestEntityTooLarge)
	d.put("/bedside/sheets/"+sheet.ID, d.Coordinator, sent).problem(http.StatusForbidden)
	d.delete("/bedside/devices/"+string(key.ID), owner).is(http.StatusNoContent)
	d.get(path("/bedside/pack?device=%s", key.ID), owner).problem(http.StatusForbidden)
	d.put("/bedside/sheets/"+sheet.ID, owner, sent).is(http.StatusOK) // it has been taken in before
	sheet.ID = ward.NewID(d.Now())
	form = key.Send(sheet, d.Now())
	sent.Sheet, sent.Signature = form.Sheet, form.Signature
	if p := d.put("/bedside/sheets/"+sheet.ID, owner, sent).problem(http.StatusForbidden); !strings.Contains(p.Detail, "revoked") {
		d.t.Errorf("of a revoked device: %+v", p)
	}
}
