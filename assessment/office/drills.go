package office

import (
	"context"
	"encoding/hex"
	"fmt"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// DrillForm begins a drill: an ordinary demonstration, always in simulation.
type DrillForm struct {
	ID       string // made by whoever sends it, so that sending twice is harmless; empty: made here
	Learner  assessment.PersonID
	Skill    string // code
	Client   assessment.ClientID
	Place    string
	Formal   bool   // counts toward competence, else practice
	Scenario string // code; empty: drawn at random
	Real     bool   // with the child: refused
}

// DrillView is a drill as its observer sees it.
type DrillView struct {
	postgres.Sheet
	Scenario  DrillScenario
	Drawn     bool
	DrawnOf   int // of how many
	Timed     bool
	Times     assessment.DrillTimes
	TakenBack []assessment.DrillTap
	Language  string // of the learner
	Zone      *time.Location
}

// inSimulation refuses a real child.
const inSimulation = "A drill is always in simulation, on a manikin or with spare equipment. It is never done on the child."

// BeginDrill begins a drill with a scenario that is chosen or drawn. It refuses what could
// not count in the end, as any demonstration does.
func (o *Office) BeginDrill(ctx context.Context, by assessment.Actor, f DrillForm) (DrillView, error) {
	var v DrillView
	err := o.as(ctx, by, assessment.Observe, func(tx *postgres.Tx, now Moment) error {
		if f.Real {
			return faultAt("setting", inSimulation)
		}
		s, err := o.openDrill(ctx, tx, now, by, f)
		if err != nil {
			return err
		}
		v, err = o.viewDrill(ctx, tx, now, s)
		return err
	})
	return v, err
}

// openDrill opens the sheet of a drill, or finds the one that the same form has opened.
func (o *Office) openDrill(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, f DrillForm) (postgres.Sheet, error) {
	if f.Learner != "" {
		if err := tx.History.Lock(ctx, f.Learner); err != nil {
			return postgres.Sheet{}, err
		}
	}
	known := false
	if id, err := assessment.ParseID[assessment.DemonstrationID](f.ID); err == nil {
		_, missing := tx.Sheets.Get(ctx, id)
		if known = missing == nil; !known && fault.KindOf(missing) != fault.NotFound {
			return postgres.Sheet{}, missing
		}
	}
	opened, err := o.openSheet(ctx, tx, now, by, OpenForm{ID: f.ID, Learner: f.Learner, Skill: f.Skill, Client: f.Client, Place: f.Place, Formal: f.Formal})
	switch {
	case err != nil:
		return opened.Sheet, err
	case known && opened.Drill:
		return opened.Sheet, nil
	case known:
		return opened.Sheet, fault.Of(fault.Conflict, "There is another demonstration under this id.")
	}
	d, err := o.scenarioFor(ctx, tx, now, by, opened.Sheet, f.Scenario)
	if err != nil {
		return opened.Sheet, err
	}
	if err := tx.Drills.Begin(ctx, d); err != nil {
		return opened.Sheet, fmt.Errorf("begin a drill: %w", err)
	}
	return tx.Sheets.Get(ctx, opened.ID)
}

// scenarioFor is the scenario that was chosen, or one that is drawn by a seed that is kept.
func (o *Office) scenarioFor(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, s postgres.Sheet, code string) (postgres.SheetDrill, error) {
	d := postgres.SheetDrill{SheetID: s.ID, DrawnOf: []string{}}
	if err := tx.Drills.LockScenarios(ctx); err != nil {
		return d, err
	}
	b, err := o.drills(ctx, tx)
	if err != nil {
		return d, err
	}
	all := b.offered(s.SkillID)
	if len(all) == 0 {
		return d, faultAt("skill", "There is no scenario for this skill. Write one first, or choose an emergency skill.")
	}
	if code != "" {
		n := slices.IndexFunc(all, func(c DrillScenario) bool { return c.ID == code })
		if n < 0 {
			return d, faultAt("scenario", "This scenario is not offered for this skill. Choose another, or have one drawn.")
		}
		d.ScenarioID, err = o.inUse(ctx, tx, now, by, all[n])
		return d, err
	}
	for _, c := range all {
		id, err := o.inUse(ctx, tx, now, by, c)
		if err != nil {
			return d, err
		}
		d.DrawnOf = append(d.DrawnOf, string(id))
	}
	random, err := o.bytes(16)
	if err != nil {
		return d, err
	}
	d.Seed = hex.EncodeToString(random)
	d.ScenarioID, err = drawn(d.DrawnOf, d.Seed)
	return d, err
}

// drawn is which of some versions a seed draws.
func drawn(of []string, seed string) (assessment.RecordID, error) {
	var all []assessment.Scenario
	for _, id := range of {
		all = append(all, assessment.Scenario{ID: id})
	}
	s, err := assessment.DrawScenario(all, seed)
	return assessment.RecordID(s.ID), err
}

// Drill is one's own open drill.
func (o *Office) Drill(ctx context.Context, by assessment.Actor, id assessment.DemonstrationID) (DrillView, error) {
	var v DrillView
	err := o.as(ctx, by, assessment.Observe, func(tx *postgres.Tx, now Moment) error {
		s, err := tx.Sheets.Get(ctx, id)
		if err != nil {
			return orRecorded(ctx, tx, by, id, err)
		}
		if s.ObserverID != by.Person || !s.Drill {
			return notFound()
		}
		v, err = o.viewDrill(ctx, tx, now, s)
		return err
	})
	return v, err
}

func (o *Office) viewDrill(ctx context.Context, tx *postgres.Tx, now Moment, s postgres.Sheet) (DrillView, error) {
	d, err := tx.Drills.OfSheet(ctx, s.ID)
	if err != nil {
		return DrillView{}, err
	}
	learner, err := tx.People.Get(ctx, s.LearnerID)
	if err != nil {
		return DrillView{}, err
	}
	v := DrillView{Sheet: s, Drawn: d.Seed != "", DrawnOf: len(d.DrawnOf), Timed: d.TimedAt != nil, Times: d.Times(), TakenBack: d.TakenBack, Language: string(learner.Language), Zone: now.Zone}
	v.Scenario, err = scenarioVersion(ctx, tx, d.ScenarioID)
	return v, err
}

// scenarioVersion reads one version of a scenario.
func scenarioVersion(ctx context.Context, tx *postgres.Tx, id assessment.RecordID) (DrillScenario, error) {
	k, err := tx.Drills.Scenario(ctx, id)
	if err != nil {
		return DrillScenario{}, fmt.Errorf("read a scenario: %w", err)
	}
	skill, err := tx.Checklists.Skill(ctx, k.SkillID)
	if err != nil {
		return DrillScenario{}, err
	}
	b := drillBook{read: map[assessment.RecordID]assessment.Scenario{}, titled: map[assessment.SkillID]SkillRef{skill.ID: {skill.ID, skill.Code, skill.Title}}}
	if b.read[k.ID], err = readScenario(k, skill.Code); err != nil {
		return DrillScenario{}, err
	}
	return b.view(k), nil
}
