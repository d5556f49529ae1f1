package assessment

import (
	"slices"
	"time"

	"wellshown/assessment/phrase"
)

// What makes a burst: so many marks, each so soon after the one before that nobody
// watched a step in between (common practice, no source).
const (
	burstSteps = 5
	burstGap   = 2 * time.Second
)

// Burst is a run of marks that were made in one go.
type Burst struct {
	From, Through time.Time
	Steps         int
}

// Bursts finds the runs of marks made in one go: five or more, each within two
// seconds of the one before. They are named and refused nowhere: whoever had wet
// hands marks afterwards.
func Bursts(marked []time.Time) []Burst {
	marked = slices.SortedFunc(slices.Values(marked), time.Time.Compare)
	var found []Burst
	for first := 0; first < len(marked); {
		last := first
		for last+1 < len(marked) && marked[last+1].Sub(marked[last]) <= burstGap {
			last++
		}
		if n := last - first + 1; n >= burstSteps {
			found = append(found, Burst{marked[first], marked[last], n})
		}
		first = last + 1
	}
	return found
}

// Words says it in one sentence, with the time on the clocks of a zone.
func (b Burst) Words(zone *time.Location) string { return b.Phrase(zone).String() }

// Phrase says it for the person who reads it.
func (b Burst) Phrase(zone *time.Location) phrase.Phrase {
	took := max(1, int((b.Through.Sub(b.From)+time.Second-1)/time.Second))
	return phrase.Of("%d steps were marked within %s, at %s.", b.Steps, phrase.Count(took, "%d second", "%d seconds"), b.From.In(zone).Format("15:04"))
}
