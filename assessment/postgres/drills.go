package postgres

import (
	"context"
	"encoding/json"
	"fmt"
	"time"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// Drills keeps scenarios and what a demonstration has more when it was a drill. No
// standing is folded from it.
type Drills struct{ scope }

// DrillScenario is one version of a scenario.
type DrillScenario struct {
	ID        assessment.RecordID
	SkillID   assessment.SkillID
	Code      string
	Version   int
	Starter   bool // as the program brings it along
	Retired   bool
	Body      string // JSON
	AddedBy   assessment.PersonID
	AddedName string
	AddedAt   time.Time
}

const scenarioQuery = `select s.id, s.skill_id, s.code, s.version, s.starter, s.retired, s.body, s.added_by, p.name as added_name, s.added_at
	from drill_scenario s join person p on p.agency_id = s.agency_id and p.id = s.added_by`

// Scenarios lists every version of every scenario, by code, the newest first.
func (d Drills) Scenarios(ctx context.Context) ([]DrillScenario, error) {
	return list[DrillScenario](ctx, d.scope, scenarioQuery+` order by s.code, s.version desc`)
}

// Scenario is one version.
func (d Drills) Scenario(ctx context.Context, id assessment.RecordID) (DrillScenario, error) {
	return get[DrillScenario](ctx, d.scope, scenarioQuery+` where s.id = $1`, id)
}

// AddScenario keeps a version.
func (d Drills) AddScenario(ctx context.Context, s DrillScenario) error {
	return d.exec(ctx, `insert into drill_scenario (agency_id, id, skill_id, code, version, starter, retired, body, added_by, added_at)
		values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)`, d.agency, s.ID, s.SkillID, s.Code, s.Version, s.Starter, s.Retired, s.Body, s.AddedBy, s.AddedAt)
}

// LockScenarios has whoever adds versions take turns.
func (d Drills) LockScenarios(ctx context.Context) error { return d.turn(ctx, "drill scenarios") }

// SheetDrill is what an open sheet has more when it is a drill.
type SheetDrill struct {
	SheetID    assessment.DemonstrationID
	ScenarioID assessment.RecordID
	Seed       string   // empty: the observer chose the scenario
	DrawnOf    []string // ids of versions
	Recognised *int     // seconds; nil: not done, or not put down yet
	Acted      *int
	Called     *int
	TimedAt    *time.Time
	TakenBack  []assessment.DrillTap
}

// Times are its moments as the core has them.
func (s SheetDrill) Times() assessment.DrillTimes {
	return drillTimes(s.Recognised, s.Acted, s.Called)
}

func drillTimes(recognised, acted, called *int) assessment.DrillTimes {
	at := func(n *int) int {
		if n == nil {
			return assessment.NotInDrill
		}
		return *n
	}
	return assessment.DrillTimes{Recognised: at(recognised), Acted: at(acted), Called: at(called)}
}

// second is null for a moment that did not come.
func second(n int) *int {
	if n == assessment.NotInDrill {
		return nil
	}
	return &n
}

// Begin says that a sheet is a drill.
func (d Drills) Begin(ctx context.Context, s SheetDrill) error {
	return d.exec(ctx, `insert into sheet_drill (agency_id, sheet_id, scenario_id, seed, drawn_of) values ($1, $2, $3, $4, $5::uuid[])`,
		d.agency, s.SheetID, s.ScenarioID, s.Seed, s.DrawnOf)
}

const sheetDrillQuery = `select sheet_id, scenario_id, seed, drawn_of::text[] as drawn_of, recognised, acted, called, timed_at, taken_back from sheet_drill`

// OfSheet is the drill of a sheet; "not found" for one that is none.
func (d Drills) OfSheet(ctx context.Context, id assessment.DemonstrationID) (SheetDrill, error) {
	return get[SheetDrill](ctx, d.scope, sheetDrillQuery+` where sheet_id = $1`, id)
}

// SaveTimes puts down the moments of a drill, with those that were taken back so far.
func (d Drills) SaveTimes(ctx context.Context, id assessment.DemonstrationID, t assessment.DrillTimes, back []assessment.DrillTap, at time.Time) error {
	if back == nil {
		back = []assessment.DrillTap{}
	}
	taken, err := json.Marshal(back)
	if err != nil {
		return fmt.Errorf("write down what was taken back: %w", err)
	}
	return d.exec(ctx, `update sheet_drill set recognised = $2, acted = $3, called = $4, taken_back = $5::text::jsonb, timed_at = $6 where sheet_id = $1`,
		id, second(t.Recognised), second(t.Acted), second(t.Called), string(taken), at)
}

// RecordedDrill is what a record has more when it was of a drill.
type RecordedDrill struct {
	DemonstrationID assessment.DemonstrationID
	ScenarioID      assessment.RecordID
	Seed            string
	DrawnOf         []string
	Timed           bool
	Recognised      *int
	Acted           *int
	Called          *int
}

// Times are its moments as the core has them.
func (r RecordedDrill) Times() assessment.DrillTimes {
	return drillTimes(r.Recognised, r.Acted, r.Called)
}

// Keep keeps the drill of a record, as the record has it.
func (d Drills) Keep(ctx context.Context, r RecordedDrill) error {
	return d.exec(ctx, `insert into demonstration_drill (agency_id, demonstration_id, scenario_id, seed, drawn_of, timed, recognised, acted, called)
		values ($1, $2, $3, $4, $5::uuid[], $6, $7, $8, $9)`, d.agency, r.DemonstrationID, r.ScenarioID, r.Seed, r.DrawnOf, r.Timed, r.Recognised, r.Acted, r.Called)
}

// Last lists for each learner who is with the agency on a day, and each skill, the record of
// the newest drill. Of its text it has the part about the drill alone: the whole is long.
func (d Drills) Last(ctx context.Context, on civil.Date) ([]Demonstration, error) {
	return list[Demonstration](ctx, d.scope, demonstrationHead+`, jsonb_build_object('drill', d.body::jsonb -> 'drill')::text as body`+demonstrationFrom+`
		where d.id in (select distinct on (o.learner_id, o.skill_id) o.id
			from demonstration_drill x
				join demonstration o on o.agency_id = x.agency_id and o.id = x.demonstration_id
				join person w on w.agency_id = o.agency_id and w.id = o.learner_id and (w.left_on is null or w.left_on > $1)
			order by o.learner_id, o.skill_id, o.performed_at desc, o.id desc)
		order by l.name, d.learner_id, d.performed_at desc, d.id desc`, on)
}

// AuditedDrill is the drill of a record beside what the record says of it.
type AuditedDrill struct {
	ID         assessment.DemonstrationID
	Body       string
	RealClient bool
	Kept       bool // there is a row of it
	ScenarioID assessment.RecordID
	Seed       string
	DrawnOf    []string
	Timed      bool
	Recognised *int
	Acted      *int
	Called     *int
	Scenario   *string // the text of the version
}

// Drills goes through every record that says it was of a drill, or that a drill is kept for,
// one after the other: their texts are long.
func (a Audit) Drills(ctx context.Context, look func(AuditedDrill) error) error {
	rows, err := a.tx.Query(ctx, `
		select d.id, d.body, d.real_client, x.demonstration_id is not null as kept, coalesce(x.scenario_id::text, '') as scenario_id, coalesce(x.seed, '') as seed,
			coalesce(x.drawn_of, '{}')::text[] as drawn_of, coalesce(x.timed, false) as timed, x.recognised, x.acted, x.called, s.body as scenario
		from demonstration d
			left join demonstration_drill x on x.agency_id = d.agency_id and x.demonstration_id = d.id
			left join drill_scenario s on s.agency_id = x.agency_id and s.id = x.scenario_id
		where d.agency_id = $1 and (x.demonstration_id is not null or position('"drill"' in d.body) > 0)
		order by d.id`, a.agency)
	if err != nil {
		return err
	}
	defer rows.Close()
	for rows.Next() {
		d, err := pgx.RowToStructByName[AuditedDrill](rows)
		if err != nil {
			return err
		}
		if err := look(d); err != nil {
			return err
		}
	}
	return rows.Err()
}
