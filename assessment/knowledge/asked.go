package knowledge

import (
	"time"

	"wellshown/assessment/civil"
)

// Asked is what a check is for.
type Asked string

// What a check may be for.
const (
	NotAsked Asked = "not asked"
	ToLearn  Asked = "to learn"           // it hinders nothing
	First    Asked = "before it is shown" // no demonstration of the skill counts without a pass that holds
)

// AskedAs lists them.
var AskedAs = []Asked{NotAsked, ToLearn, First}

// HeldAt reports whether a pass held at an instant, of passes that were handed in at
// some. What was handed in later does not count, also on the same day.
func (r Rule) HeldAt(passed []time.Time, at time.Time, zone *time.Location) bool {
	var days []civil.Date
	for _, p := range passed {
		if !p.After(at) {
			days = append(days, civil.DayOf(p, zone))
		}
	}
	return r.Holds(days, civil.DayOf(at, zone))
}
