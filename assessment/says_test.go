package assessment_test

import (
	"testing"

	"wellshown/assessment"
)

// The invisible characters are of Unicode's property Default_Ignorable_Code_Point.
func TestSays(t *testing.T) {
	for _, text := range []string{"n", "No humidifier at home.", "нет", "なし", "2", "½", "…because"} {
		if !assessment.Says(text) {
			t.Errorf("%q says nothing", text)
		}
	}
	for _, text := range []string{"", " ", ".", "—", "\u200b", "\u00ad", "\u2060", "\u3164", "\u115f \u1160", "?!"} {
		if assessment.Says(text) {
			t.Errorf("%+q says something", text)
		}
	}
}
