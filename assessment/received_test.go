package assessment_test

import (
	"slices"
	"testing"
	"time"

	"wellshown/assessment"
)

// The instant that counts, and from when on a gap is told (the issue's own figures, no
// other source). All are minutes after noon by the office's clock; a device's clock
// that is ahead shows more.
func TestClocksOfADevice(t *testing.T) {
	t.Parallel()
	const day = 24 * 60
	for name, c := range map[string]struct {
		performed, finished, sent, received int
		shown, changed                      bool
		instants                            []int
	}{
		"right":                                 {0, 20, 60, 60, false, false, []int{0}},
		"ahead by four minutes":                 {4, 24, 64, 60, false, false, []int{4}},
		"ahead by five":                         {5, 25, 65, 60, false, false, []int{5}},
		"ahead by six":                          {6, 26, 66, 60, true, false, []int{0, 6}},
		"ahead by two days":                     {2 * day, 2*day + 20, 2*day + 60, 60, true, false, []int{0, 60}},
		"behind by four":                        {-4, 16, 56, 60, false, false, []int{-4}},
		"behind by six":                         {-6, 14, 54, 60, true, false, []int{-6, 0}},
		"behind by two days":                    {-2 * day, 20 - 2*day, 60 - 2*day, 60, true, false, []int{-2 * day, 0}},
		"set right before it was sent":          {2 * day, 2*day + 20, 60, 60, false, true, []int{60}},
		"set back while it was filled in":       {0, -20, 60, 60, false, true, []int{0}},
		"finished after it was sent":            {0, 70, 60, 60, false, true, []int{0}},
		"a little ahead and sent at once":       {3, 3, 2, 0, false, false, []int{0}},
		"ahead, and sent as soon as it began":   {10, 10, 10, 0, true, false, []int{0}},
		"behind, sent later, as long as it was": {-day, 20 - day, 0, 0, false, false, []int{-day}},
	} {
		at := func(minutes int) time.Time {
			return time.Date(2026, 2, 1, 12, 0, 0, 0, time.UTC).Add(time.Duration(minutes) * time.Minute)
		}
		k := assessment.Clocks{Performed: at(c.performed), Finished: at(c.finished), Sent: at(c.sent), Received: at(c.received)}
		var got []int
		for _, i := range k.Instants() {
			got = append(got, int(i.Sub(at(0))/time.Minute))
		}
		if !slices.Equal(got, c.instants) || k.Shown() != c.shown || k.Changed() != c.changed {
			t.Errorf("%s: performed at %v, shown %v, changed %v; want %v, %v, %v", name, got, k.Shown(), k.Changed(), c.instants, c.shown, c.changed)
		}
	}
}

// No sheet is older than the pack it was begun from, which the office made by its own
// clock: what says so was filled in by a clock that was set since, and lies somewhere
// between the pack and the receipt (the stricter reading, no source). Minutes after noon.
func TestAClockThatWasSetRightInBetween(t *testing.T) {
	t.Parallel()
	const day = 24 * 60
	at := func(minutes int) time.Time {
		return time.Date(2026, 2, 1, 12, 0, 0, 0, time.UTC).Add(time.Duration(minutes) * time.Minute)
	}
	for name, c := range map[string]struct {
		performed, sent, received, packed int
		right                             bool
		instants                          []int
	}{
		"right":                               {0, 60, 60, -30, false, []int{0}},
		"begun as the pack came":              {0, 60, 60, 5, false, []int{0}},
		"behind all the time":                 {-2 * day, 60 - 2*day, 60, -30, false, []int{-2 * day, 0}},
		"behind, then set right":              {-2 * day, 60, 60, -30, true, []int{-30, 60}},
		"behind, then less so":                {-2 * day, 60 - day, 60, -30, true, []int{-30, 60}},
		"behind, then ahead":                  {-2 * day, 60 + day, 60, -30, true, []int{-30, 60}},
		"a pack that is newer than the sheet": {0, 60, 60, 90, true, []int{60, 60}},
	} {
		k := assessment.Clocks{Performed: at(c.performed), Finished: at(c.performed), Sent: at(c.sent), Received: at(c.received), Packed: at(c.packed)}
		var got []int
		for _, i := range k.Instants() {
			got = append(got, int(i.Sub(at(0))/time.Minute))
		}
		if !slices.Equal(got, c.instants) || k.SetRight() != c.right || k.Changed() != c.right {
			t.Errorf("%s: performed at %v, set right %v, changed %v; want %v, %v", name, got, k.SetRight(), k.Changed(), c.instants, c.right)
		}
	}
}
