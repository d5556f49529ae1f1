package office_test

import (
	"testing"
	"time"

	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

// What a device says it holds stands on the first page of whoever plans the day until it
// says something else. Nobody's standing changes with it (no source; ours).
func TestWhatDevicesHold(t *testing.T) {
	t.Parallel()
	b := atBedside(t, "humidifier")
	seen := func() []office.HoldingView {
		return must(b.Office.CoordinatorDesk(t.Context(), b.Coordinator))(t).Holding
	}
	if got := seen(); got != nil {
		t.Errorf("before anything was told: %+v", got)
	}
	owner, id := b.device.Owner, b.device.ID
	tell := func(f office.HoldingForm) error { return b.Office.TellHolding(t.Context(), owner, id, f) }
	wantNone(t, tell(office.HoldingForm{Finished: 2, Refused: 1, Open: 3}))
	told := b.Now()
	b.Pass(time.Minute)
	got := seen()
	if len(got) != 1 || got[0].Owner.ID != owner.Person || got[0].Holds != (office.HoldingForm{Finished: 2, Refused: 1, Open: 3}) || !got[0].ToldAt.Equal(told) || got[0].Revoked {
		t.Fatalf("told: %+v", got)
	}
	for _, f := range []office.HoldingForm{{Finished: -1}, {Refused: 10000}, {Open: -7}} {
		if err := tell(f); fault.KindOf(err) != fault.Invalid {
			t.Errorf("%+v: %v", f, err)
		}
	}
	if err := b.Office.TellHolding(t.Context(), b.Educators[1], id, office.HoldingForm{}); fault.KindOf(err) != fault.NotFound {
		t.Errorf("somebody else's device: %v", err)
	}
	wantNone(t, b.Office.RevokeDevice(t.Context(), owner, id))
	if err := tell(office.HoldingForm{}); fault.KindOf(err) != fault.Forbidden {
		t.Errorf("a revoked device: %v", err)
	}
	if got := seen(); len(got) != 1 || !got[0].Revoked {
		t.Errorf("revoked with sheets on it: %+v", got)
	}
	fresh := b.Device(owner)
	wantNone(t, b.Office.TellHolding(t.Context(), owner, fresh.ID, office.HoldingForm{Open: 1}))
	b.Pass(time.Minute)
	wantNone(t, b.Office.TellHolding(t.Context(), owner, fresh.ID, office.HoldingForm{}))
	if got := seen(); len(got) != 1 {
		t.Errorf("a device that holds nothing more: %+v", got)
	}
}
