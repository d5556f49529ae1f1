package postgres

import (
	"encoding/json"
	"fmt"
	"time"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// entryRow is the shape that every query below fills as far as it goes.
type entryRow struct {
	Person   string
	Skill    string
	Client   string
	ID       string
	At       time.Time
	OnDay    civil.Date
	Through  civil.Date
	Word     string
	Of       string
	Number   int
	Observer string
	Real     bool
	Formal   bool
	Fitted   string
	First    *time.Time
	Second   *time.Time
	Recorded time.Time
}

func (r entryRow) row(kind assessment.EntryKind) (HistoryRow, error) {
	e := assessment.Entry{Kind: kind, ID: r.ID, At: r.At, On: r.OnDay, Through: r.Through, Of: r.Of, Recorded: r.Recorded,
		Observer: r.Observer, Real: r.Real, Formal: r.Formal, Revision: r.Number}
	if r.First != nil {
		e.ObserverSigned = *r.First
	}
	if r.Second != nil {
		e.LearnerSigned = *r.Second
	}
	switch kind {
	case assessment.DemonstrationEntry:
		e.Outcome = assessment.Outcome(r.Word)
		if err := json.Unmarshal([]byte(r.Fitted), &e.Fitted); err != nil {
			return HistoryRow{}, fmt.Errorf("read the equipment of demonstration %s: %w", r.ID, err)
		}
	case assessment.WithdrawalEntry:
		e.Until = assessment.Until(r.Word)
	case assessment.RecheckEntry:
		e.By = r.Through
	}
	return HistoryRow{assessment.CaseKey{
		Person: assessment.PersonID(r.Person), Skill: assessment.SkillID(r.Skill), Client: assessment.ClientID(r.Client),
	}, e}, nil
}

// keyed are the columns that say whose an entry is; general skills have no client.
const keyed = `
	x.person_id::text as person, x.skill_id::text as skill,
	case when s.scope = 'general' then '' else coalesce(x.client_id::text, '') end as client`

const ofSkill = ` join skill s on s.agency_id = x.agency_id and s.id = x.skill_id`

// historyQuery says everything that is known of one kind. Its columns person_id
// and skill_id of x narrow it; columns that it does not name keep their zero.
type historyQuery struct {
	kind              assessment.EntryKind
	byPerson, bySkill bool
	sql               string
}

// narrowed adds only the conditions that are wanted, so that the planner can go
// by an index.
func (q historyQuery) narrowed(f HistoryFilter) (string, []any) {
	sql, args := q.sql, []any(nil)
	if q.byPerson && len(f.People) > 0 {
		args = append(args, f.People)
		sql += fmt.Sprintf(" and x.person_id = any($%d::uuid[])", len(args))
	}
	if q.byPerson && q.bySkill && f.Client != "" {
		args = append(args, f.Client)
		sql += fmt.Sprintf(" and x.client_id = $%d::uuid and s.scope <> 'general'", len(args))
	}
	if q.bySkill && f.Skill != "" {
		args = append(args, f.Skill)
		sql += fmt.Sprintf(" and x.skill_id = $%d::uuid", len(args))
	}
	return sql, args
}

var historyQueries = []historyQuery{
	{assessment.DemonstrationEntry, true, true, `select ` + keyed + `,
			x.id::text as id, x.performed_at as at, x.outcome as word, x.revision as number, x.observer_id::text as observer,
			x.real_client as real, x.formal, x.equipment as fitted, o.signed_at as first, l.signed_at as second, x.recorded_at as recorded
		from (select *, learner_id as person_id from demonstration) x` + ofSkill + `
		left join signature o on o.agency_id = x.agency_id and o.demonstration_id = x.id and o.part = 'observer'
		left join signature l on l.agency_id = x.agency_id and l.demonstration_id = x.id and l.part = 'learner' where true`},
	{assessment.WithdrawalEntry, true, true, `select ` + keyed + `,
			x.id::text as id, x.at, x.until as word, coalesce(x.recorded_at, x.at) as recorded
		from withdrawal x` + ofSkill + ` where true`},
	{assessment.ReinstatementEntry, true, true, `select ` + keyed + `,
			i.id::text as id, i.at, i.withdrawal_id::text as of, i.at as recorded
		from reinstatement i
		join withdrawal x on x.agency_id = i.agency_id and x.id = i.withdrawal_id` + ofSkill + ` where true`},
	{assessment.WaiverEntry, true, true, `select ` + keyed + `,
			x.id::text as id, x.at, x.from_on as on_day, x.through_on as through, x.at as recorded
		from waiver x` + ofSkill + ` where true`},
	{assessment.PracticeEntry, true, true, `select ` + keyed + `,
			x.id::text as id, x.on_day, x.recorded_at as recorded
		from exposure x` + ofSkill + ` where x.kind = 'practice'`},
	{assessment.TeachingEntry, true, true, `select ` + keyed + `,
			x.id::text as id, x.on_day, x.recorded_at as recorded
		from exposure x` + ofSkill + ` where x.kind = 'teaching'`},
	{assessment.RecheckEntry, false, true, `
		select '' as person, x.skill_id::text as skill, '' as client,
			x.id::text as id, x.announced_at as at, x.by_on as through, x.revision as number, x.announced_at as recorded
		from recheck x where true`},
	{assessment.CardEntry, true, false, `
		select x.person_id::text as person, '' as skill, '' as client,
			x.id::text as id, x.recorded_at as at, x.through_on as through, x.recorded_at as recorded
		from resuscitation_card x where true`},
}

const correctionQuery = `select id::text as id, of_kind as kind, of_id::text as of, at from correction`

// withCorrections adds the corrections of the entries read, each to whom the
// corrected entry belongs. An id is of one kind only: another kind's of the same
// id is not corrected.
func withCorrections(answers pgx.BatchResults, rows []HistoryRow) ([]HistoryRow, error) {
	type named struct {
		kind assessment.EntryKind
		id   string
	}
	type row struct {
		ID, Of string
		Kind   assessment.EntryKind
		At     time.Time
	}
	found, err := next(answers, pgx.RowToStructByName[row])
	if err != nil {
		return nil, fmt.Errorf("read corrections: %w", err)
	}
	whose := make(map[named]assessment.CaseKey, len(rows))
	for _, r := range rows {
		whose[named{r.Entry.Kind, r.Entry.ID}] = r.Key
	}
	for _, c := range found {
		if key, ok := whose[named{c.Kind, c.Of}]; ok {
			rows = append(rows, HistoryRow{key, assessment.Entry{
				Kind: assessment.CorrectionEntry, ID: c.ID, Of: c.Of, At: c.At, Recorded: c.At}})
		}
	}
	return rows, nil
}
