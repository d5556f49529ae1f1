package assessment

import (
	"slices"
	"strings"
)

// SmallestTube is about the smallest inner diameter in mm that a tracheostomy tube is made
// with (SickKids, emergency kit list). Below it there is no smaller one, and the team writes
// another plan.
var SmallestTube = MustNumber("2.5")

// TubeKit is which tubes lie ready for a child: inner diameters in mm.
type TubeKit struct {
	Worn   Number
	Spares []Number
	Plan   string // what to do where there is no smaller tube, as the team wrote it
}

// TubeLack is what a kit of tubes lacks.
type TubeLack string

// What a kit can lack.
const (
	LacksSameTube    TubeLack = "a tube of the same size"
	LacksSmallerTube TubeLack = "a smaller tube"
	LacksPlan        TubeLack = "a plan where there is no smaller tube"
)

// Lacks says what is missing: a spare of the same size and a smaller one are needed, but for
// the smallest tube, where the written plan stands for the smaller one.
func (k TubeKit) Lacks() []TubeLack {
	var all []TubeLack
	if !slices.ContainsFunc(k.Spares, func(n Number) bool { return n.Cmp(k.Worn) == 0 }) {
		all = append(all, LacksSameTube)
	}
	smaller := slices.ContainsFunc(k.Spares, func(n Number) bool { return n.Sign() > 0 && n.Cmp(k.Worn) < 0 })
	switch {
	case smaller:
	case k.Worn.Cmp(SmallestTube) > 0:
		all = append(all, LacksSmallerTube)
	case !SaysAPlan(k.Plan):
		all = append(all, LacksPlan)
	}
	return all
}

// SaysAPlan reports whether a text is a plan: words such as "not needed" are none.
func SaysAPlan(text string) bool {
	said := strings.ToLower(strings.Trim(strings.TrimSpace(text), ".!-–— "))
	return Says(said) && !slices.Contains([]string{"not needed", "none", "no", "no plan", "n/a", "na", "not applicable"}, said)
}
