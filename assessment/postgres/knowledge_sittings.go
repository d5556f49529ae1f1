package postgres

import (
	"context"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/knowledge"
)

// KnowledgeSitting is one try of one person, with what came of it where it was handed in.
type KnowledgeSitting struct {
	ID          assessment.RecordID
	PersonID    assessment.PersonID
	PersonName  string
	SkillID     assessment.SkillID
	RuleID      assessment.RecordID
	Number      int
	Language    string
	Seed        string
	Items       []string // ids of versions, in the order of the form
	BegunAt     time.Time
	HandedInAt  *time.Time // nil: it goes on
	RightCount  *int
	Passed      *bool
	Missed      []int16
	Critical    []int16
	Present     *bool                // a trainer was there; nil: not known
	PresentBy   *assessment.PersonID // who says so
	PresentName string
	PresentAt   *time.Time // when that was said
	OpenMinutes *int       // by which its result was judged; nil: it has none, or one from before checks had an end
	RuleMinutes *int       // that its rule says; nil: the rule is from before checks had an end
	Reader      bool       // could read what is asked, before or while they took it
}

// Took reports whether it was handed in and passed.
func (s KnowledgeSitting) Took() bool { return s.Passed != nil && *s.Passed }

// Open is how long it is open: as its result was judged, or as it will be. What was handed
// in before checks had an end has none.
func (s KnowledgeSitting) Open() time.Duration {
	switch {
	case s.HandedInAt == nil:
		return s.Ruled()
	case s.OpenMinutes == nil:
		return 0
	}
	return openFor(s.OpenMinutes)
}

// Ruled is how long its rule has it open.
func (s KnowledgeSitting) Ruled() time.Duration { return openFor(s.RuleMinutes) }

// By is a rule with the time that this sitting has.
func (s KnowledgeSitting) By(r KnowledgeRule) knowledge.Rule {
	rule := r.Core()
	rule.Open = s.Open()
	return rule
}

// Ends is when its time is over; zero: it has no end.
func (s KnowledgeSitting) Ends() time.Time { return knowledge.Rule{Open: s.Open()}.Ends(s.BegunAt) }

// Over reports whether its time is over at an instant.
func (s KnowledgeSitting) Over(at time.Time) bool {
	return knowledge.Rule{Open: s.Open()}.Over(s.BegunAt, at)
}

// Ended is when a sitting that was handed in was over.
func (s KnowledgeSitting) Ended() time.Time {
	return knowledge.Rule{Open: s.Open()}.Ended(s.BegunAt, *s.HandedInAt)
}

// Pass is a sitting that was passed as the core weighs it.
func (s KnowledgeSitting) Pass() knowledge.Pass {
	p := knowledge.Pass{HandedIn: *s.HandedInAt, Right: *s.RightCount, Of: len(s.Items), Took: s.HandedInAt.Sub(s.BegunAt), Reader: s.Reader}
	if s.Present != nil && *s.Present && *s.PresentBy != s.PersonID { // nobody's own word counts
		p.Watched = *s.PresentAt
	}
	return p
}

// readerOf asks whether whoever took a sitting s, with its result r, held a role that may
// read banks, at any time from when the first of its questions was written, in whatever words,
// until it was handed in: who read a question knows it when a comma of it was changed.
var readerOf = func() string {
	var roles []string
	for _, r := range assessment.Roles {
		if (assessment.Actor{Roles: []assessment.Role{r}}).Reach(assessment.ReadBank) == assessment.Everything {
			roles = append(roles, "'"+string(r)+"'")
		}
	}
	return `exists (select from person_role g where g.agency_id = s.agency_id and g.person_id = s.person_id and g.role in (` + strings.Join(roles, ", ") + `)
			and g.given_at <= coalesce(r.handed_in_at, 'infinity')
			and (g.ended_at is null or g.ended_at >= (select min(v.added_at) from knowledge_item i join knowledge_item v on v.agency_id = i.agency_id and v.skill_id = i.skill_id and v.code = i.code
				where i.agency_id = s.agency_id and i.id = any(s.items))))`
}()

// presenceOf joins the newest word on whether a trainer was there.
const presenceOf = `left join lateral (select t.present, t.said_at, t.said_by, w.name from knowledge_presence t join person w on w.agency_id = t.agency_id and w.id = t.said_by
			where t.agency_id = s.agency_id and t.sitting_id = s.id order by t.said_at desc, t.id desc limit 1) t on true`

var sittingQuery = `select s.id, s.person_id, p.name as person_name, s.skill_id, s.rule_id, s.number, s.language, s.seed, s.items::text[] as items, s.begun_at,
		r.handed_in_at, r.right_count, r.passed, r.missed, r.critical, t.present, t.said_by as present_by, coalesce(t.name, '') as present_name, t.said_at as present_at,
		r.open_minutes, q.open_minutes as rule_minutes, ` + readerOf + ` as reader
	from knowledge_sitting s
		join person p on p.agency_id = s.agency_id and p.id = s.person_id
		left join knowledge_rule q on q.agency_id = s.agency_id and q.id = s.rule_id
		left join knowledge_result r on r.agency_id = s.agency_id and r.sitting_id = s.id
		` + presenceOf

// Sitting is the one with this id.
func (k Knowledge) Sitting(ctx context.Context, id assessment.RecordID) (KnowledgeSitting, error) {
	return get[KnowledgeSitting](ctx, k.scope, sittingQuery+` where s.id = $1`, id)
}

// Sittings lists those of a person and a skill, in the order in which they were begun; of
// everybody, or in all skills, for an empty id.
func (k Knowledge) Sittings(ctx context.Context, person assessment.PersonID, skill assessment.SkillID) ([]KnowledgeSitting, error) {
	return list[KnowledgeSitting](ctx, k.scope, sittingQuery+`
		where ($1 = '' or s.person_id = nullif($1, '')::uuid) and ($2 = '' or s.skill_id = nullif($2, '')::uuid)
		order by s.begun_at, s.person_id, s.number`, string(person), string(skill))
}

// Begin keeps a new sitting.
func (k Knowledge) Begin(ctx context.Context, s KnowledgeSitting) error {
	return k.exec(ctx, `insert into knowledge_sitting (agency_id, id, person_id, skill_id, rule_id, number, language, seed, items, begun_at)
		values ($1, $2, $3, $4, $5, $6, $7, $8, $9::uuid[], $10)`, k.agency, s.ID, s.PersonID, s.SkillID, s.RuleID, s.Number, s.Language, s.Seed, s.Items, s.BegunAt)
}

// KnowledgeAnswer is an answer as it was given.
type KnowledgeAnswer struct {
	SittingID assessment.RecordID
	Place     int
	Nth       int
	Chosen    []int16
	Value     string
	Unit      string
	GivenAt   time.Time
}

// Answers are the last ones given to each item of sittings, by place; where all is said,
// also those given before, in the order in which they were given.
func (k Knowledge) Answers(ctx context.Context, all bool, sittings ...string) ([]KnowledgeAnswer, error) {
	return list[KnowledgeAnswer](ctx, k.scope, `
		select a.sitting_id, a.place, a.nth, a.chosen, a.value, a.unit, a.given_at from knowledge_answer a
		where a.sitting_id = any($1::uuid[]) and ($2 or not exists (select from knowledge_answer n
			where n.agency_id = a.agency_id and n.sitting_id = a.sitting_id and n.place = a.place and n.nth > a.nth))
		order by a.sitting_id, a.place, a.nth`, sittings, all)
}

// Answer keeps one.
func (k Knowledge) Answer(ctx context.Context, a KnowledgeAnswer) error {
	return k.exec(ctx, `insert into knowledge_answer (agency_id, sitting_id, place, nth, chosen, value, unit, given_at) values ($1, $2, $3, $4, $5, $6, $7, $8)`,
		k.agency, a.SittingID, a.Place, a.Nth, a.Chosen, a.Value, a.Unit, a.GivenAt)
}

// KnowledgeResult is what a sitting came to.
type KnowledgeResult struct {
	SittingID   assessment.RecordID
	HandedInAt  time.Time
	RightCount  int
	Passed      bool
	Missed      []int16
	Critical    []int16
	OpenMinutes int // by how long an open time it was judged
}

// HandIn keeps what a sitting came to.
func (k Knowledge) HandIn(ctx context.Context, r KnowledgeResult) error {
	return k.exec(ctx, `insert into knowledge_result (agency_id, sitting_id, handed_in_at, right_count, passed, missed, critical, open_minutes) values ($1, $2, $3, $4, $5, $6, $7, $8)`,
		k.agency, r.SittingID, r.HandedInAt, r.RightCount, r.Passed, r.Missed, r.Critical, r.OpenMinutes)
}

// KnowledgePresence is whether a trainer was there.
type KnowledgePresence struct {
	ID        assessment.RecordID
	SittingID assessment.RecordID
	Present   bool
	SaidBy    assessment.PersonID
	SaidAt    time.Time
}

// SayPresence keeps it.
func (k Knowledge) SayPresence(ctx context.Context, p KnowledgePresence) error {
	return k.exec(ctx, `insert into knowledge_presence (agency_id, id, sitting_id, present, said_by, said_at) values ($1, $2, $3, $4, $5, $6)`,
		k.agency, p.ID, p.SittingID, p.Present, p.SaidBy, p.SaidAt)
}

// Passes are the sittings of these people that were handed in and passed, in the order in
// which they were; of everybody where nobody is named.
func (k Knowledge) Passes(ctx context.Context, people ...string) ([]KnowledgeSitting, error) {
	return list[KnowledgeSitting](ctx, k.scope, sittingQuery+`
		where r.passed and (cardinality($1::uuid[]) = 0 or s.person_id = any($1::uuid[])) order by r.handed_in_at, s.id`, orNone(people))
}

func orNone(ids []string) []string {
	if ids == nil {
		return []string{}
	}
	return ids
}
