package assessment

import (
	"slices"

	"wellshown/assessment/civil"
)

// AwardedBy is the competency that one signed demonstration made or renewed, as it
// stands on a day, with the ids of the demonstrations that show it: all that made
// the award, or the one that renewed it. It answers false where the demonstration
// brought nothing, or nothing that holds on that day.
func (c *Case) AwardedBy(id string, on civil.Date) (Standing, []string, bool) {
	s := c.On(on)
	if !s.Word.Holds() || !slices.Contains(s.Because, id) {
		return s, nil, false
	}
	if award := c.walk(on).holding.award; slices.Contains(award, id) {
		return s, award, true
	}
	return s, []string{id}, true
}
