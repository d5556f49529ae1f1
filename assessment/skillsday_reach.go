package assessment

import (
	"slices"
	"time"

	"wellshown/assessment/civil"
)

// mostRepeats is how often one skill can be shown on a day that CanHold looks at: more
// than any checklist of the catalogue asks for.
const mostRepeats = 12

// CanHold reports whether competent demonstrations in simulation on one day, seen in
// turn by these observers and signed the same day, would make the skill current on it.
func (c *Case) CanHold(on civil.Date, observers []PersonID) bool {
	if c.Holds(on) {
		return true
	}
	if len(observers) == 0 {
		return false
	}
	tried := &Case{zone: c.zone, book: c.book, fittings: c.fittings, entries: slices.Clone(c.entries)}
	revision := 0
	for i, p := range c.book.InForce {
		if i == 0 || !p.From.After(on) {
			revision = p.Revision
		}
	}
	for i := range mostRepeats {
		at := c.endOf(on).Add(time.Duration(i-mostRepeats) * time.Millisecond) // after all that has happened on the day
		tried.entries = append(tried.entries, tried.place(Entry{Kind: DemonstrationEntry, ID: "~" + string(rune('a'+i)), At: at, Outcome: Competent, Formal: true,
			Observer: string(observers[i%len(observers)]), Revision: revision, ObserverSigned: at, LearnerSigned: at, Fitted: c.fittedOn(on)}, on))
		tried.order()
		if tried.Holds(on) {
			return true
		}
	}
	return false
}
