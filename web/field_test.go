package web

import (
	"strings"
	"testing"
)

func TestMenuFor(t *testing.T) {
	keys := func(roles ...string) string {
		var all []string
		for _, e := range MenuFor(roles, "people") {
			key := e.Key
			if e.Here {
				key += "*"
			}
			all = append(all, key)
		}
		return strings.Join(all, " ")
	}
	for _, c := range []struct{ got, want string }{
		{keys(), ""},
		{keys("unheard of"), ""},
		{keys("caregiver"), "home learn children checklists"},
		{keys("coordinator"), "today standings people* children checklists papers"},
		{keys("caregiver", "educator"), "today home learn start standings people* children checklists papers"}, // each place once
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}

func TestFieldKeepsWhatWasTypedBesideItsFault(t *testing.T) {
	faults := Faults{Fields: []FieldFault{{"on", "On the day", "There is no 30 February."}}}.In("waive")
	f, err := newField(faults, "on", "On the day", "2026-02-30", "type=date", "hint=A day = a date", "required")
	if err != nil {
		t.Fatal(err)
	}
	if f.ID != "waive-on" || f.Value != "2026-02-30" || f.Fault != "There is no 30 February." || f.Hint != "A day = a date" || !f.Required {
		t.Errorf("got %+v", f)
	}
	if f.Describes() != "waive-on-hint waive-on-fault" {
		t.Errorf("described by %q", f.Describes())
	}
}

func TestUnknownSettingIsAFault(t *testing.T) {
	_, err := newField(Faults{}, "on", "On", "", "colour=red")
	if err == nil || !strings.Contains(err.Error(), `field on: unknown setting "colour=red"`) {
		t.Errorf("got %v", err)
	}
}

func TestASettingTakesTheNextWordAsItsValue(t *testing.T) {
	options := []Option{{Value: "a", Text: "A"}}
	f, err := newField(Faults{}, "on", "On", "a", options, "hint=", "Un día = una fecha", "type=radios", "unit=", "")
	if err != nil || f.Hint != "Un día = una fecha" || f.Kind != "radios" || len(f.Options) != 1 || f.Unit != "" {
		t.Errorf("got %+v, %v", f, err)
	}
	for _, settings := range [][]any{{"hint="}, {7}, {"hint=", 7}} {
		if _, err := newField(Faults{}, "on", "On", "", settings...); err == nil {
			t.Errorf("%v is taken", settings)
		}
	}
}

func TestTwoFormsOfOnePageHaveTheirOwnIDs(t *testing.T) {
	a, b := Faults{}.In("waive").ID("reason"), Faults{}.In("withdraw").ID("reason")
	if a == b || a == (Faults{}).ID("reason") {
		t.Errorf("ids %s and %s", a, b)
	}
}
