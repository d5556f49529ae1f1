package office

import (
	"slices"

	"wellshown/assessment/handover"
)

// Known reports whether some agency of this house knows the key today.
func (c CheckedHandover) Known() bool {
	return slices.ContainsFunc(c.KnownBy, func(k KnownBy) bool { return k.Ended.IsZero() })
}

// What a file that was looked at is.
const (
	FileOfAnotherKind = "another" // no such file
	FileChanged       = "changed"
	FileKeyUnknown    = "unknown" // unchanged, by a key that nobody here knows: anybody may have made it
	FileKeyKnown      = "known"
	FileKeyEnded      = "ended" // by a key that nobody here trusts any more
	FileSignedHere    = "here"
)

// Answer is what the file is, in a word. None of them says that anybody is current.
func (c CheckedHandover) Answer() string {
	switch {
	case slices.Equal(c.Changed, []handover.Finding{{Part: handover.Another}}):
		return FileOfAnotherKind
	case len(c.Changed) > 0:
		return FileChanged
	case c.Here:
		return FileSignedHere
	case c.Known():
		return FileKeyKnown
	case len(c.KnownBy) > 0:
		return FileKeyEnded
	}
	return FileKeyUnknown
}
