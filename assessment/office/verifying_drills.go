package office

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"

	"wellshown/assessment/postgres"
)

// drills holds what every record says of its drill to what is kept beside it, and draws
// each scenario again that was drawn.
func (a *audit) drills(ctx context.Context, tx *postgres.Tx) error {
	err := tx.Audit.Drills(ctx, func(d postgres.AuditedDrill) error {
		a.found.Drills++
		if wrong := wrongDrill(d); wrong != "" {
			a.note("demonstration_drill", string(d.ID), "%s", wrong)
		}
		return nil
	})
	if err != nil {
		return fmt.Errorf("look through the drills: %w", err)
	}
	return nil
}

// wrongDrill says what does not match; empty: all does.
func wrongDrill(d postgres.AuditedDrill) string {
	b, err := readBody(d.Body)
	switch {
	case err != nil:
		return "its record cannot be read"
	case b.Drill == nil && !d.Kept:
		return "" // the word stands in it for something else
	case b.Drill == nil:
		return "a drill is kept for it, and its record says of none"
	case !d.Kept:
		return "its record says that it was a drill, and none is kept"
	case d.RealClient || b.Real:
		return "a drill is always in simulation, and its record says otherwise"
	}
	says := b.Drill
	hash := sha256.Sum256([]byte(text(d.Scenario)))
	switch {
	case says.Scenario != d.ScenarioID || says.Seed != d.Seed || !slices.Equal(says.DrawnOf, d.DrawnOf):
		return "its scenario is another one than its record says"
	case says.SHA256 != hex.EncodeToString(hash[:]):
		return "the text of its scenario is another one than its record says"
	case says.Timed != d.Timed || !sameSecond(says.Recognised, d.Recognised) || !sameSecond(says.Acted, d.Acted) || !sameSecond(says.Called, d.Called):
		return "its moments are others than its record says"
	}
	if d.Seed == "" {
		return ""
	}
	if id, err := drawn(d.DrawnOf, d.Seed); err != nil || id != d.ScenarioID {
		return "its seed draws another scenario"
	}
	return ""
}

func sameSecond(a, b *int) bool { return a == b || a != nil && b != nil && *a == *b }

func text(s *string) string {
	if s == nil {
		return ""
	}
	return *s
}
