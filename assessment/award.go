package assessment

import (
	"slices"

	"wellshown/assessment/civil"
)

// AwardedBy is what one signed demonstration brought: the competency as it stands on
// the day its last signature was made.
func (c *Case) AwardedBy(id string, on civil.Date) (Standing, bool) {
	s := c.On(on)
	return s, s.Word.Holds() && slices.Contains(s.Because, id)
}
