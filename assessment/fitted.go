package assessment

import (
	"slices"
	"strings"
)

// Fitted is which type of each kind of equipment a client has, by kind.
type Fitted map[string]string

// Types writes down the types of the kinds that a skill depends on, so that two
// of them can be compared: "circuit=single limb; ventilator=type A". What the
// client does not have is written as having none.
func (f Fitted) Types(kinds []string) string {
	sorted := slices.Clone(kinds)
	slices.Sort(sorted)
	parts := make([]string, len(sorted))
	for i, k := range sorted {
		parts[i] = k + "=" + f[k]
	}
	return strings.Join(parts, "; ")
}
