package api_test

import (
	"net/http"

	"wellshown/api"
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
