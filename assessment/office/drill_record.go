package office

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// bodyDrill is what a record has more when it was of a drill. Seconds that are null say
// that the moment did not come; timed is false where the drill was stopped before any
// moment was put down.
type bodyDrill struct {
	Scenario   assessment.RecordID   `json:"scenario"` // the version that was read out
	Code       string                `json:"code"`
	Version    int                   `json:"version"`
	Title      string                `json:"title"`
	SHA256     string                `json:"scenario_sha256"`
	Seed       string                `json:"seed,omitempty"`     // by which it was drawn
	DrawnOf    []string              `json:"drawn_of,omitempty"` // versions, in order
	Timed      bool                  `json:"timed"`
	Recognised *int                  `json:"recognised_s"`
	Acted      *int                  `json:"acted_s"`
	Called     *int                  `json:"called_s"`
	TakenBack  []assessment.DrillTap `json:"taken_back,omitempty"`
}

// drillOf is the part of a record that says which drill a sheet was; nil for none. The
// moments are asked for unless it was stopped for safety.
func drillOf(ctx context.Context, tx *postgres.Tx, s postgres.Sheet) (*bodyDrill, error) {
	if !s.Drill {
		return nil, nil
	}
	d, err := tx.Drills.OfSheet(ctx, s.ID)
	if err != nil {
		return nil, fmt.Errorf("read a drill: %w", err)
	}
	switch {
	case s.RealClient:
		return nil, fault.Of(fault.Refused, inSimulation)
	case d.TimedAt == nil && !s.Stopped:
		return nil, fault.Of(fault.Refused, "The moments of this drill are not put down yet. Say when they came, or that they did not, then record it.")
	}
	k, err := tx.Drills.Scenario(ctx, d.ScenarioID)
	if err != nil {
		return nil, fmt.Errorf("read a scenario: %w", err)
	}
	text, err := readScenario(k, "")
	if err != nil {
		return nil, err
	}
	hash := sha256.Sum256([]byte(k.Body))
	return &bodyDrill{Scenario: k.ID, Code: k.Code, Version: k.Version, Title: text.In("en").Title, SHA256: hex.EncodeToString(hash[:]), Seed: d.Seed, DrawnOf: d.DrawnOf,
		Timed: d.TimedAt != nil, Recognised: d.Recognised, Acted: d.Acted, Called: d.Called, TakenBack: d.TakenBack}, nil
}

// keepDrill keeps beside a record what it says of the drill.
func keepDrill(ctx context.Context, tx *postgres.Tx, id assessment.DemonstrationID, b *bodyDrill) error {
	if b == nil {
		return nil
	}
	of := b.DrawnOf
	if of == nil {
		of = []string{}
	}
	err := tx.Drills.Keep(ctx, postgres.RecordedDrill{DemonstrationID: id, ScenarioID: b.Scenario, Seed: b.Seed, DrawnOf: of, Timed: b.Timed, Recognised: b.Recognised, Acted: b.Acted, Called: b.Called})
	if err != nil {
		return fmt.Errorf("keep the drill of a record: %w", err)
	}
	return nil
}

// RecordedDrill is the drill that a record is of.
type RecordedDrill struct {
	Code      string
	Version   int
	Title     string // in English
	Drawn     bool
	Timed     bool
	Times     assessment.DrillTimes
	TakenBack []assessment.DrillTap
	Scenario  assessment.Scenario // as it was read out; empty in lists
}

// DrillOf is the drill that a record is of, without its scenario; nil: it is of none.
func DrillOf(d postgres.Demonstration) (*RecordedDrill, error) {
	if !strings.Contains(d.Body, `"drill":`) { // most are of none, and their texts are long
		return nil, nil
	}
	b, err := readBody(d.Body)
	if err != nil {
		return nil, err
	}
	return b.Drill.view(), nil
}

func (b *bodyDrill) view() *RecordedDrill {
	if b == nil {
		return nil
	}
	times := postgres.RecordedDrill{Recognised: b.Recognised, Acted: b.Acted, Called: b.Called}.Times()
	return &RecordedDrill{Code: b.Code, Version: b.Version, Title: b.Title, Drawn: b.Seed != "", Timed: b.Timed, Times: times, TakenBack: b.TakenBack}
}

// debrief adds the scenario to what is shown of a record.
func (v *DemonstrationView) debrief(ctx context.Context, tx *postgres.Tx, b *bodyDrill) error {
	if v.Drill = b.view(); v.Drill == nil {
		return nil
	}
	k, err := tx.Drills.Scenario(ctx, b.Scenario)
	if err != nil {
		return fmt.Errorf("read the scenario of a record: %w", err)
	}
	v.Drill.Scenario, err = readScenario(k, v.Code)
	return err
}
