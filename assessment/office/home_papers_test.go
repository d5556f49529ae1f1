package office_test

import (
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// The family of a child takes its papers, nobody else's does, and nobody of them changes what
// they say (common practice, no source).
func TestWhoTakesAChildsPapersHome(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	child := w.Client("7K", "Mira")
	lan, other := w.Family("Lan Nguyễn", child), w.Family("Ada Roe", w.Client("8Q", "Tam"))
	if v, err := w.Office.HomePapers(t.Context(), lan, child); err != nil || v.FirstName != "Mira" {
		t.Errorf("her own child's: %v", err)
	}
	if _, err := w.Office.HomePapers(t.Context(), other, child); fault.KindOf(err) != fault.NotFound {
		t.Errorf("another family's: %v", err)
	}
	if _, err := w.Office.SetHomeRecord(t.Context(), lan, child, office.HomeForm{}); fault.KindOf(err) != fault.Forbidden {
		t.Errorf("a family changes: %v", err)
	}
}

// Nothing is guessed: what cannot be a size, in its unit, is not on record; a smaller tube
// that is not smaller is told; the smallest tube needs its plan (SickKids, emergency kit list).
func TestWhatIsOnAChildsPapers(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	child := w.Client("7K", "Mira")
	order := func(forms ...office.ParameterForm) assessment.HomeRecord {
		t.Helper()
		w.Pass(time.Second)
		if _, err := w.Office.SetParameters(t.Context(), w.Educators[0], child, forms); err != nil {
			t.Fatal(err)
		}
		v, err := w.Office.HomePapers(t.Context(), w.Coordinator, child)
		if err != nil {
			t.Fatal(err)
		}
		return v.HomeRecord
	}
	r := order(office.ParameterForm{Name: "tube_id", Value: "0.35", Unit: "cm"}, office.ParameterForm{Name: "tube_small_id", Value: "0", Unit: "mm"}, office.ParameterForm{Name: "cath_fr", Words: "as on the card"},
		office.ParameterForm{Name: "call_first", Words: "After one failed attempt."}, office.ParameterForm{Name: "upper_airway", Words: "none"})
	if r.Tube == nil || r.Tube.String() != "3.5" || r.SmallTube != nil || r.Catheter != nil || r.Call != assessment.CallAfterOne || r.Air != assessment.AirNone {
		t.Errorf("ordered: %+v", r)
	}
	r = order(office.ParameterForm{Name: "tube_small_id", Value: "3.5", Unit: "mm"})
	if _, smaller := r.Smaller(); smaller || r.Smallest() {
		t.Error("a tube of the same size is a smaller one")
	}
	r = order(office.ParameterForm{Name: "tube_id", Value: "2.5", Unit: "mm"}, office.ParameterForm{Name: "tube_small_id"}, office.ParameterForm{Name: "no_smaller_plan", Words: "not needed"})
	missing := func() (n int) {
		for _, m := range r.Missing(assessment.EmergencyCard) {
			if m.String() == "the plan where there is no smaller tube" {
				n++
			}
		}
		return n
	}
	if !r.Smallest() || missing() != 1 {
		t.Errorf("the smallest tube without a plan: %v", r.Missing(assessment.EmergencyCard))
	}
	if r = order(office.ParameterForm{Name: "no_smaller_plan", Words: "Bag over mouth and nose."}); missing() != 0 || len(r.Tubes().Lacks()) != 0 {
		t.Errorf("with a plan: %v", r.Missing(assessment.EmergencyCard))
	}
}

// Numbers are numbers, turns are not given twice, and each refusal names its field.
func TestHomeRecordRefused(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	child := w.Client("7K", "Mira")
	for field, f := range map[string]office.HomeForm{
		"telephone-hospital-team":       {Contacts: []office.ContactForm{{Role: "hospital team", Telephone: "ask Ada"}}},
		"telephone-emergency-number":    {Contacts: []office.ContactForm{{Role: "emergency number", Telephone: "9"}}},
		"place-hospital-team":           {Contacts: []office.ContactForm{{Role: "hospital team", Telephone: "555 0140", Place: "first"}}},
		"place-power-company":           {Contacts: []office.ContactForm{{Role: "power company", Telephone: "555 0140", Place: "1"}}},
		"place-equipment-company":       {Contacts: []office.ContactForm{{Role: "hospital team", Telephone: "555 0140", Place: "1"}, {Role: "equipment company", Telephone: "555 0141", Place: "1"}}},
		"name-uncle":                    {Contacts: []office.ContactForm{{Role: "uncle", Telephone: "555 0140"}}},
		"checked-by-ventilator":         {Suppliers: []office.SupplierForm{{Kind: "ventilator", CheckedBy: "uncle"}}},
		"checked-when-ventilator":       {Suppliers: []office.SupplierForm{{Kind: "ventilator", CheckedWhen: "now and then"}}},
		"supplier-telephone-ventilator": {Suppliers: []office.SupplierForm{{Kind: "ventilator", Telephone: "none"}}},
		"kit_place":                     {KitPlace: "on\x00the hook"},
	} {
		_, err := w.Office.SetHomeRecord(t.Context(), w.Coordinator, child, f)
		if got, ok := fault.As(err); !ok || got.Fields[field] == "" {
			t.Errorf("%s: %v", field, err)
		}
	}
	good := office.HomeForm{Contacts: []office.ContactForm{{Role: "emergency number", Telephone: "911", Place: "1"}, {Role: "equipment company", Telephone: "+1 (555) 0141-22 ext. 7", Place: "2"}}}
	w.Pass(time.Second)
	v, err := w.Office.SetHomeRecord(t.Context(), w.Coordinator, child, good)
	if err != nil {
		t.Fatal(err)
	}
	again := office.HomeForm{Version: v.Version, Contacts: []office.ContactForm{{Role: "hospital team", Telephone: "555 0140", Place: "2"}}}
	if _, err := w.Office.SetHomeRecord(t.Context(), w.Coordinator, child, again); err == nil {
		t.Error("a turn that another office has was given away")
	}
	if _, err := w.Office.SetHomeRecord(t.Context(), w.Coordinator, child, office.HomeForm{KitPlace: "Hook"}); fault.KindOf(err) != fault.Conflict {
		t.Errorf("read before somebody else changed it: %v", err)
	}
}
