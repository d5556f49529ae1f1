package assessment

import (
	"time"

	"wellshown/assessment/civil"
)

// ShownGap is from how much on the clock of a device is said to be wrong (the issue's
// own figure, no other source).
const ShownGap = 5 * time.Minute

// Clocks are the instants of a sheet that was filled in on a device: by the clock of
// the device when the performance began, when the sheet was finished and when it was
// sent, and by the office's when it came in.
type Clocks struct {
	Performed, Finished, Sent, Received time.Time
}

// Gap is by how much the device's clock was behind when it sent the sheet; less than
// nothing: ahead. The time on the way counts with it.
func (c Clocks) Gap() time.Duration { return c.Received.Sub(c.Sent) }

// Shown reports whether the gap is one to be told of.
func (c Clocks) Shown() bool { return c.Gap() > ShownGap || c.Gap() < -ShownGap }

// Instants are those at which it may have been performed, the earliest first: as
// claimed and, where the clocks differ by more than five minutes, moved by the gap. None
// is after the sheet came in.
func (c Clocks) Instants() []time.Time {
	claimed := earlier(c.Performed, c.Received)
	if !c.Shown() {
		return []time.Time{claimed}
	}
	moved := earlier(c.Performed.Add(c.Gap()), c.Received)
	switch moved.Compare(claimed) {
	case -1:
		return []time.Time{moved, claimed}
	case 1:
		return []time.Time{claimed, moved}
	}
	return []time.Time{claimed}
}

func earlier(a, b time.Time) time.Time {
	if b.Before(a) {
		return b
	}
	return a
}

// Changed reports whether the device's clock was set back in between: what comes
// later has the earlier time, by more than five minutes. When it was performed is then
// not known.
func (c Clocks) Changed() bool {
	return c.Performed.Sub(c.Finished) > ShownGap || c.Performed.Sub(c.Sent) > ShownGap || c.Finished.Sub(c.Sent) > ShownGap
}

// NeverKinder reports whether case a, on each of some days from the first one on,
// holds only where case b does.
func NeverKinder(a, b *Case, from civil.Date, days int) bool {
	for i := range days {
		if x := from.AddDays(i); a.Holds(x) && !b.Holds(x) {
			return false
		}
	}
	return true
}
