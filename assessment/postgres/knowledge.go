package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/knowledge"
)

// Knowledge keeps knowledge checks: items, rules and sittings. No standing is folded from it.
type Knowledge struct{ scope }

// KnowledgeItem is one version of an item.
type KnowledgeItem struct {
	ID        assessment.RecordID
	SkillID   assessment.SkillID
	Code      string
	Version   int
	Retired   bool
	Body      string // JSON
	AddedBy   assessment.PersonID
	AddedName string
	AddedAt   time.Time
}

const itemQuery = `select i.id, i.skill_id, i.code, i.version, i.retired, i.body, i.added_by, p.name as added_name, i.added_at
	from knowledge_item i join person p on p.agency_id = i.agency_id and p.id = i.added_by`

// Bank lists the newest version of each item of a skill, with those retired; of all
// skills for the empty id.
func (k Knowledge) Bank(ctx context.Context, skill assessment.SkillID) ([]KnowledgeItem, error) {
	return list[KnowledgeItem](ctx, k.scope, itemQuery+`
		where ($1 = '' or i.skill_id = nullif($1, '')::uuid)
			and not exists (select from knowledge_item n where n.agency_id = i.agency_id and n.skill_id = i.skill_id and n.code = i.code and n.version > i.version)
		order by i.skill_id, i.code`, string(skill))
}

// Items are the versions with these ids, in no order.
func (k Knowledge) Items(ctx context.Context, ids []string) ([]KnowledgeItem, error) {
	return list[KnowledgeItem](ctx, k.scope, itemQuery+` where i.id = any($1::uuid[])`, ids)
}

// AddItem keeps a version.
func (k Knowledge) AddItem(ctx context.Context, i KnowledgeItem) error {
	return k.exec(ctx, `insert into knowledge_item (agency_id, id, skill_id, code, version, retired, body, added_by, added_at) values ($1, $2, $3, $4, $5, $6, $7, $8, $9)`,
		k.agency, i.ID, i.SkillID, i.Code, i.Version, i.Retired, i.Body, i.AddedBy, i.AddedAt)
}

// LockBank has whoever changes the bank or the rule of a skill take turns.
func (k Knowledge) LockBank(ctx context.Context, skill assessment.SkillID) error {
	return k.turn(ctx, "knowledge "+string(skill))
}

// KnowledgeRule is how a check is asked and judged.
type KnowledgeRule struct {
	ID          assessment.RecordID
	SkillID     assessment.SkillID
	Asked       knowledge.Asked
	Length      int
	MarkRight   int
	MarkOf      int
	Months      int
	WaitHours   int
	Tries       int
	OpenMinutes *int // nil: set before checks had an end
	SetBy       assessment.PersonID
	SetName     string
	SetAt       time.Time
}

// Core is the rule as the core judges by it what is not handed in yet.
func (r KnowledgeRule) Core() knowledge.Rule {
	return knowledge.Rule{Open: openFor(r.OpenMinutes), Length: r.Length, PassMark: assessment.Whole(r.MarkRight).Over(assessment.Whole(r.MarkOf)), Months: r.Months,
		Wait: time.Duration(r.WaitHours) * time.Hour, Tries: r.Tries}
}

func openFor(minutes *int) time.Duration {
	if minutes == nil {
		return knowledge.UsualOpen
	}
	return time.Duration(*minutes) * time.Minute
}

const ruleQuery = `select r.id, r.skill_id, r.asked, r.length, r.mark_right, r.mark_of, r.months, r.wait_hours, r.tries, r.open_minutes, r.set_by, p.name as set_name, r.set_at
	from knowledge_rule r join person p on p.agency_id = r.agency_id and p.id = r.set_by`

// Rules lists the rule of each skill that was the newest at an instant.
func (k Knowledge) Rules(ctx context.Context, at time.Time) ([]KnowledgeRule, error) {
	return list[KnowledgeRule](ctx, k.scope, ruleQuery+`
		where r.id = (select n.id from knowledge_rule n where n.agency_id = r.agency_id and n.skill_id = r.skill_id and n.set_at <= $1 order by n.set_at desc, n.id desc limit 1)`, at)
}

// RuleAt is the newest rule of a skill at an instant; none is "not found".
func (k Knowledge) RuleAt(ctx context.Context, skill assessment.SkillID, at time.Time) (KnowledgeRule, error) {
	return get[KnowledgeRule](ctx, k.scope, ruleQuery+` where r.skill_id = $1 and r.set_at <= $2 order by r.set_at desc, r.id desc limit 1`, skill, at)
}

// Rule is the one with this id.
func (k Knowledge) Rule(ctx context.Context, id assessment.RecordID) (KnowledgeRule, error) {
	return get[KnowledgeRule](ctx, k.scope, ruleQuery+` where r.id = $1`, id)
}

// SetRule sets it from now on.
func (k Knowledge) SetRule(ctx context.Context, r KnowledgeRule) error {
	return k.exec(ctx, `insert into knowledge_rule (agency_id, id, skill_id, asked, length, mark_right, mark_of, months, wait_hours, tries, open_minutes, set_by, set_at)
		values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13)`,
		k.agency, r.ID, r.SkillID, string(r.Asked), r.Length, r.MarkRight, r.MarkOf, r.Months, r.WaitHours, r.Tries, r.OpenMinutes, r.SetBy, r.SetAt)
}

// Taught are the days on which somebody was taught a skill, and when that was written
// down, without what was taken back; of everybody, or in all skills, for an empty id.
func (k Knowledge) Taught(ctx context.Context, person assessment.PersonID, skill assessment.SkillID) ([]TaughtOn, error) {
	return list[TaughtOn](ctx, k.scope, `
		select x.on_day, x.recorded_at, x.person_id, x.skill_id from exposure x
		where ($1 = '' or x.person_id = nullif($1, '')::uuid) and ($2 = '' or x.skill_id = nullif($2, '')::uuid) and x.kind = 'teaching'
			and not exists (select from correction c where c.agency_id = x.agency_id and c.of_kind = 'teaching' and c.of_id = x.id)
		order by x.on_day, x.recorded_at`, string(person), string(skill))
}

// TaughtOn is teaching as it was written down.
type TaughtOn struct {
	PersonID   assessment.PersonID
	SkillID    assessment.SkillID
	OnDay      civil.Date
	RecordedAt time.Time
}

// KnowledgeCount is how much there is of the check of one skill.
type KnowledgeCount struct {
	SkillID                        assessment.SkillID
	Items, Retired, Handed, Passed int
}

// Counts counts items in use and retired, and sittings that were handed in and passed.
func (k Knowledge) Counts(ctx context.Context) ([]KnowledgeCount, error) {
	return list[KnowledgeCount](ctx, k.scope, `
		select s.id as skill_id, coalesce(i.items, 0) as items, coalesce(i.retired, 0) as retired, coalesce(r.handed, 0) as handed, coalesce(r.passed, 0) as passed
		from skill s
			left join (select i.skill_id, count(*) filter (where not i.retired)::int as items, count(*) filter (where i.retired)::int as retired from knowledge_item i
				where not exists (select from knowledge_item n where n.agency_id = i.agency_id and n.skill_id = i.skill_id and n.code = i.code and n.version > i.version)
				group by i.skill_id) i on i.skill_id = s.id
			left join (select s.skill_id, count(*)::int as handed, count(*) filter (where r.passed)::int as passed
				from knowledge_sitting s join knowledge_result r on r.agency_id = s.agency_id and r.sitting_id = s.id group by s.skill_id) r on r.skill_id = s.id`)
}

// Versions lists the versions of one item, the newest first; of all items of the skill for
// the empty code.
func (k Knowledge) Versions(ctx context.Context, skill assessment.SkillID, code string) ([]KnowledgeItem, error) {
	return list[KnowledgeItem](ctx, k.scope, itemQuery+` where i.skill_id = $1 and ($2 = '' or i.code = $2) order by i.code, i.version desc`, skill, code)
}

// KnowledgeAsked is one version as it was asked in a check that was handed in.
type KnowledgeAsked struct {
	ItemID   assessment.RecordID // of the version
	Place    int
	Length   int // of the form
	Missed   []int16
	Answered bool // the last answer before handing in was one
}

// Asked lists how the versions of one item were asked in checks that were handed in; of all
// items of the skill for the empty code. Of other sittings nothing is read.
func (k Knowledge) Asked(ctx context.Context, skill assessment.SkillID, code string) ([]KnowledgeAsked, error) {
	return list[KnowledgeAsked](ctx, k.scope, `
		select f.item_id, f.place::int, cardinality(s.items) as length, r.missed,
			coalesce((select cardinality(a.chosen) > 0 or btrim(a.value) <> '' from knowledge_answer a
				where a.agency_id = s.agency_id and a.sitting_id = s.id and a.place = f.place order by a.nth desc limit 1), false) as answered
		from knowledge_sitting s
			join knowledge_result r on r.agency_id = s.agency_id and r.sitting_id = s.id
			cross join lateral unnest(s.items) with ordinality as f (item_id, place)
		where s.skill_id = $1 and ($2 = '' or s.items && array(select v.id from knowledge_item v where v.skill_id = $1 and v.code = $2))
			and ($2 = '' or f.item_id = any(array(select v.id from knowledge_item v where v.skill_id = $1 and v.code = $2)))
		order by r.handed_in_at, s.id, f.place`, skill, code)
}
