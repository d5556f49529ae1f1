package assessment

import "testing"

func TestUnitsInWords(t *testing.T) {
	for want, q := range map[string]Quantity{
		"36.5 °C":       {MustNumber("36.5"), "degC"},
		"24 per minute": {Whole(24), "1/min"},
		"-120 mmHg":     {Whole(-120), "mmHg"},
		"3":             {Whole(3), ""},
	} {
		if got := q.InWords(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	if got := UnitInWords("1/min"); got != "per minute" {
		t.Errorf("1/min is %q", got)
	}
}
