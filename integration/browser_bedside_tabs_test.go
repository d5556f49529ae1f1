package integration

import "testing"

// TestTwiceAndTooLateAtTheBedside: a double tap begins one sheet; a stop that is let go of
// while the screen is drawn anew does not act; a sheet that another tab marked meanwhile is
// not thrown away, and one that it finished is not marked; what could not be sent is sent
// again by itself; and of a sheet that the office has no copy comes back, nor is one left
// to who uses the device next (common practice, no source; the stop: WCAG 2.2, 2.5.2
// Pointer Cancellation; keys that stay turned off: 2.1.4 Character Key Shortcuts).
func TestTwiceAndTooLateAtTheBedside(t *testing.T) {
	_, task := bedsideWard(t)
	var came struct{ Sheets []bedsideSheet }
	browserTools(t).Play(t, "bedside-tabs.mjs", task, &came)
	if len(came.Sheets) != 2 {
		t.Fatalf("kept %+v", came.Sheets)
	}
	for _, s := range came.Sheets {
		if s.State != "sent" || !s.Stopped {
			t.Errorf("kept %+v", s)
		}
	}
}
