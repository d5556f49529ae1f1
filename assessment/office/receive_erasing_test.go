package office_test

import (
	"testing"

	"wellshown/assessment/office"
)

// An erasure takes the text of a sheet, what was talked over and what was drawn; the hash
// stays, and all is still proven (the contract of the bedside, no other source).
func TestErasingWhatCameFromADevice(t *testing.T) {
	t.Parallel()
	b := atBedside(t, "humidifier")
	p := &parting{Ward: b.Ward, second: b.Administrator("Bodil Krane"), nurse: b.Nurse(nurseName)}
	owner := asOwner(t, b.Ward)
	s := b.Fill(b.device, p.nurse, "humidifier", b.child, b.Now())
	s.TalkedOver = map[string]string{"note": nurseName + " was calm."}
	s.Marks[0].Note = nurseName
	s.Drawn = map[string][][]int{"learner": {{417, 418, 419, 420}}}
	form := b.device.Send(s, b.Now().Add(3600e9))
	b.Pass(3600e9)
	shown := must(b.Office.Receive(t.Context(), b.device.Owner, form))(t)
	b.Sign(b.device.Owner, shown.ID, office.PartObserver)
	b.Sign(p.nurse, shown.ID, office.PartLearner)
	wantNone(t, b.Office.PersonLeaves(t.Context(), b.Admin, p.nurse.Person, b.Today()))
	b.Day("2033-10-03")
	p.observer(t) // whoever may still observe
	p.head = []byte(must(b.Office.LedgerHead(t.Context(), b.Admin))(t).Signed)
	p.keep(t, "6")
	erased := p.erase(t, p.nurse.Person, "")
	for _, text := range []string{"Osterkamp", "417, 418", "417,418"} {
		if left := holding(t, owner, text); len(left) > 0 {
			t.Errorf("%q still stands in %v", text, left)
		}
	}
	v := must(b.Office.Demonstration(t.Context(), b.Admin, shown.ID))(t)
	if v.Bedside == nil || v.Bedside.Name != "The grey tablet" || v.Bedside.SHA256 != shown.Bedside.SHA256 || v.Bedside.TalkedOver != "erased" || len(v.Bedside.Drawn) != 0 || string(v.BodySHA256) != string(shown.BodySHA256) {
		t.Errorf("left: %+v", v.Bedside)
	}
	p.stillProven(t, erased.Rows)
	wantNone(t, b.Office.PersonLeaves(t.Context(), b.Admin, b.device.Owner.Person, b.Today().AddMonths(-12*7)))
	erased2 := p.erase(t, b.device.Owner.Person, "")
	if v := must(b.Office.Demonstration(t.Context(), b.Admin, shown.ID))(t); v.Bedside.Name != "erased" {
		t.Errorf("of the observer: %+v", v.Bedside)
	}
	if left := holding(t, owner, "The grey tablet"); len(left) > 0 {
		t.Errorf("the name of the device still stands in %v", left)
	}
	p.stillProven(t, erased.Rows+erased2.Rows)
}
