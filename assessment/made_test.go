package assessment_test

import (
	"testing"
	"time"

	"wellshown/assessment"
)

// RFC 9562, appendix A.6: an example of a UUID of version 7, of Tuesday, February 22,
// 2022 2:22:22.00 PM GMT-05:00, 0x017F22E279B0 milliseconds.
func TestRFC9562VersionSeven(t *testing.T) {
	t.Parallel()
	at, err := assessment.MadeAt("017f22e2-79b0-7cc3-98c4-dc0c0c07398f")
	if want := time.Date(2022, 2, 22, 19, 22, 22, 0, time.UTC); err != nil || !at.Equal(want) || at.UnixMilli() != 0x017F22E279B0 {
		t.Errorf("made at %v, %v; want %v", at, err, want)
	}
}

// RFC 9562, section 5.7: the version is 0b0111 in bits 48 to 51, the variant 0b10 in
// bits 64 and 65; appendices A.1 to A.5 have examples of other versions.
func TestRFC9562OtherVersionsAreRefused(t *testing.T) {
	t.Parallel()
	for why, id := range map[string]string{
		"version 1":        "c232ab00-9414-11ec-b3c8-9f6bdeced846",
		"version 3":        "5df41881-3aed-3515-88a7-2f4a814cf09e",
		"version 4":        "919108f7-52d1-4320-9bac-f847db4148a8",
		"version 5":        "2ed6657d-e927-568b-95e1-2665a8aea6a2",
		"version 6":        "1ec9414c-232a-6b00-b3c8-9f6bdeced846",
		"version 8":        "2489e9ad-2ee2-8e00-8ec9-32d5f69181c0",
		"another variant":  "017f22e2-79b0-7cc3-18c4-dc0c0c07398f",
		"a variant beyond": "017f22e2-79b0-7cc3-c8c4-dc0c0c07398f",
		"capitals":         "017F22E2-79B0-7CC3-98C4-DC0C0C07398F",
		"the nil one":      "00000000-0000-0000-0000-000000000000",
		"nothing":          "",
		"too long":         "017f22e2-79b0-7cc3-98c4-dc0c0c07398f0",
	} {
		if at, err := assessment.MadeAt(id); err == nil {
			t.Errorf("%s: taken for one of %v", why, at)
		}
	}
	for _, variant := range []string{"8", "9", "a", "b"} {
		if _, err := assessment.MadeAt("017f22e2-79b0-7cc3-" + variant + "8c4-dc0c0c07398f"); err != nil {
			t.Errorf("variant %s: %v", variant, err)
		}
	}
}
