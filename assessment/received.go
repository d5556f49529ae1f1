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
// sent, and by the office's when it came in and when the pack was made that it was begun
// from; zero where that is not known.
type Clocks struct {
	Performed, Finished, Sent, Received, Packed time.Time
}

// Gap is by how much the device's clock was behind when it sent the sheet; less than
// nothing: ahead. The time on the way counts with it.
func (c Clocks) Gap() time.Duration { return c.Received.Sub(c.Sent) }

// Shown reports whether the gap is one to be told of.
func (c Clocks) Shown() bool { return c.Gap() > ShownGap || c.Gap() < -ShownGap }

// Instants are those at which it may have been performed, the earliest first: as
// claimed and, where the clocks differ by more than five minutes, moved by the gap. None
// is after the sheet came in. Of a clock that was set right in between only this is
// known: the performance lies between the pack and the receipt.
func (c Clocks) Instants() []time.Time {
	if c.SetRight() {
		return []time.Time{earlier(c.Packed, c.Received), c.Received}
	}
	return c.told()
}

// told are the instants that the device's clock tells.
func (c Clocks) told() []time.Time {
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

// SetRight reports whether the device's clock was behind and was set right before the
// sheet was sent, as a network does by itself: by it the performance began before the
// pack was made from which it was begun.
func (c Clocks) SetRight() bool {
	told := c.told()
	return !c.Packed.IsZero() && c.Packed.Sub(told[len(told)-1]) > ShownGap
}

// AfterPack is an instant as the clock tells it, or that of the pack where that is later:
// nothing is shown on a sheet before its pack is there.
func (c Clocks) AfterPack(at time.Time) time.Time {
	if pack := earlier(c.Packed, c.Received); pack.After(at) {
		return pack
	}
	return at
}

func earlier(a, b time.Time) time.Time {
	if b.Before(a) {
		return b
	}
	return a
}

// Changed reports whether the device's clock was set in between: what comes later has
// the earlier time, by more than five minutes. When it was performed is then not known.
func (c Clocks) Changed() bool {
	return c.SetRight() || c.Performed.Sub(c.Finished) > ShownGap || c.Performed.Sub(c.Sent) > ShownGap || c.Finished.Sub(c.Sent) > ShownGap
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
