package office_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// kinds are the words of what happened to somebody's account.
func kinds(t *testing.T, w *ward.Ward, who assessment.Actor) []string {
	t.Helper()
	var all []string
	for _, e := range must(w.Office.Account(t.Context(), who))(t).Events {
		all = append(all, e.What+" by "+e.By)
	}
	return all
}

// A device is enrolled once, is its owner's, and they are told of what happens to it
// (ours, no source).
func TestEnrollingADevice(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	edda, other := w.Educators[0], w.Educators[1]
	d := w.Device(edda)
	form := office.DeviceForm{ID: string(d.ID), Name: "Called otherwise", PublicKey: d.Public()}
	again := must(w.Office.EnrolDevice(t.Context(), edda, form))(t)
	if again.ID != d.ID || again.Name != "The grey tablet" || again.Owner != edda.Person {
		t.Errorf("the same once more: %+v", again)
	}
	_, err := w.Office.EnrolDevice(t.Context(), other, form)
	wantRefusal(t, err, fault.Conflict, "another device under this id")
	form.ID = ward.NewID(w.Now())
	_, err = w.Office.EnrolDevice(t.Context(), edda, form)
	wantRefusal(t, err, fault.Conflict, "enrolled already")
	form = office.DeviceForm{ID: string(d.ID), Name: "x", PublicKey: w.Device(other).Public()}
	_, err = w.Office.EnrolDevice(t.Context(), edda, form)
	wantRefusal(t, err, fault.Conflict, "another device under this id")
	_, err = w.Office.EnrolDevice(t.Context(), edda, office.DeviceForm{ID: "919108f7-52d1-4320-9bac-f847db4148a8", Name: " ", PublicKey: "x"})
	f, _ := fault.As(err)
	if f == nil || len(f.Fields) != 3 {
		t.Errorf("an id of version 4, no name and no key: %v", err)
	}
	for _, who := range []assessment.Actor{w.Admin, w.Coordinator, w.Nurse("Nan Orme")} {
		_, err = w.Office.EnrolDevice(t.Context(), who, form)
		wantRefusal(t, err, fault.Forbidden, "observe")
	}
	if all := must(w.Office.Devices(t.Context(), edda))(t); len(all) != 1 || all[0].UsedAt != nil {
		t.Errorf("listed: %+v", all)
	}
	if all := must(w.Office.Devices(t.Context(), w.Admin))(t); len(all) != 0 {
		t.Errorf("the administrator's own: %+v", all)
	}
	if told := kinds(t, w, edda); strings.Count(strings.Join(told, ", "), "A device enrolled") != 1 {
		t.Errorf("the owner was told %q", told)
	}
}

// The owner and the office can revoke a device, nobody else; it is told and stands in
// the ledger.
func TestRevokingADevice(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	edda, other := w.Educators[0], w.Educators[1]
	own, lost := w.Device(edda), w.Device(edda)
	wantRefusal(t, w.Office.RevokeDevice(t.Context(), other, own.ID), fault.NotFound, "no such record")
	wantRefusal(t, w.Office.RevokeDevice(t.Context(), w.Admin, own.ID), fault.NotFound, "no such record")
	wantRefusal(t, w.Office.RevokeDeviceOf(t.Context(), other, edda.Person, own.ID), fault.Forbidden, "edit people")
	wantRefusal(t, w.Office.RevokeDeviceOf(t.Context(), w.Coordinator, other.Person, own.ID), fault.NotFound, "no such record")
	w.Pass(time.Minute)
	wantNone(t, w.Office.RevokeDevice(t.Context(), edda, own.ID))
	wantNone(t, w.Office.RevokeDevice(t.Context(), edda, own.ID))
	w.Pass(time.Minute)
	wantNone(t, w.Office.RevokeDeviceOf(t.Context(), w.Coordinator, edda.Person, lost.ID))
	wantNone(t, w.Office.RevokeDeviceOf(t.Context(), w.Admin, edda.Person, lost.ID))
	all := must(w.Office.Devices(t.Context(), edda))(t)
	if len(all) != 2 || slices.ContainsFunc(all, func(d office.DeviceView) bool { return d.RevokedAt == nil }) {
		t.Fatalf("listed: %+v", all)
	}
	desk := must(w.Office.PersonDesk(t.Context(), w.Coordinator, edda.Person, w.Today()))(t)
	if len(desk.Devices) != 2 {
		t.Errorf("on the page of the person: %+v", desk.Devices)
	}
	for _, d := range desk.Devices {
		if by := map[assessment.DeviceID]string{own.ID: edda.Name, lost.ID: w.Coordinator.Name}[d.ID]; d.RevokedBy != by {
			t.Errorf("revoked by %q, want %q", d.RevokedBy, by)
		}
	}
	if seen := must(w.Office.PersonDesk(t.Context(), other, edda.Person, w.Today()))(t); len(seen.Devices) != 0 {
		t.Errorf("another educator sees %+v", seen.Devices)
	}
	told := strings.Join(kinds(t, w, edda), ", ")
	if strings.Count(told, "A device revoked: it fills in no sheets for the bedside any more by "+w.Coordinator.Name) != 1 || strings.Count(told, "A device revoked") != 2 {
		t.Errorf("the owner was told %s", told)
	}
	must(w.Office.SealAll(t.Context()))(t)
	if v := verified(t, w.Office); v.Found != 0 {
		t.Errorf("verify found %s", listed(v))
	}
}

// Nobody has more devices at a time than they can keep an eye on (ours, no source).
func TestDevicesHaveALimit(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	edda := w.Educators[0]
	first := w.Device(edda)
	for range 19 {
		w.Device(edda)
	}
	form := office.DeviceForm{ID: ward.NewID(w.Now()), Name: "One more", PublicKey: w.Device(w.Educators[1]).Public()}
	_, err := w.Office.EnrolDevice(t.Context(), edda, form)
	wantRefusal(t, err, fault.Refused, "20 devices")
	wantNone(t, w.Office.RevokeDevice(t.Context(), edda, first.ID))
	w.Device(edda)
}
