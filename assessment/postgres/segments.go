package postgres

import (
	"context"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// Segments keeps the index of standings. It holds what the fold says and nothing
// of its own; it can be thrown away and made again.
type Segments struct{ scope }

// noClient stands in the key of general skills.
const noClient = "00000000-0000-0000-0000-000000000000"

func clientKey(c assessment.ClientID) string {
	if c == "" {
		return noClient
	}
	return string(c)
}

// Line is what the fold says of one case: its segments, in order.
type Line struct {
	Key      assessment.CaseKey
	Segments []assessment.Segment
}

// Replace puts the segments of some cases in place of what was there.
func (s Segments) Replace(ctx context.Context, lines []Line) error {
	var whose, new columnsOfSegments
	for _, l := range lines {
		whose.add(l.Key, assessment.Segment{}, civil.Date{})
		for i, g := range l.Segments {
			until := civil.Date{}
			if i+1 < len(l.Segments) {
				until = l.Segments[i+1].From.AddDays(-1)
			}
			new.add(l.Key, g, until)
		}
	}
	batch := &pgx.Batch{}
	batch.Queue(`
		delete from standing_segment s using unnest($2::uuid[], $3::uuid[], $4::uuid[]) as x (person, skill, client)
		where s.agency_id = $1 and s.person_id = x.person and s.skill_id = x.skill and s.client_key = x.client`,
		s.agency, whose.person, whose.skill, whose.client)
	batch.Queue(`
		insert into standing_segment (agency_id, person_id, skill_id, client_key, from_on, word, through_on, since_on, until_on)
		select $1, person, skill, client, from_on, word, through_on, since_on, coalesce(until_on, 'infinity')
		from unnest($2::uuid[], $3::uuid[], $4::uuid[], $5::date[], $6::text[], $7::date[], $8::date[], $9::date[])
			as x (person, skill, client, from_on, word, through_on, since_on, until_on)`,
		s.agency, new.person, new.skill, new.client, new.from, new.word, new.through, new.since, new.until)
	return s.tx.SendBatch(ctx, batch).Close()
}

// columnsOfSegments are rows of the index, column by column.
type columnsOfSegments struct {
	person, skill, client, word []string
	from, through, since, until []civil.Date
}

// add adds a segment that stands until a day; none: no other follows.
func (c *columnsOfSegments) add(key assessment.CaseKey, g assessment.Segment, until civil.Date) {
	c.person, c.skill, c.client = append(c.person, string(key.Person)), append(c.skill, string(key.Skill)), append(c.client, clientKey(key.Client))
	c.from, c.through, c.since, c.until = append(c.from, g.From), append(c.through, g.Through), append(c.since, g.Since), append(c.until, until)
	c.word = append(c.word, string(g.Word))
}

// Clear empties the index.
func (s Segments) Clear(ctx context.Context) error {
	return s.exec(ctx, `delete from standing_segment`)
}

type segmentRow struct {
	assessment.CaseKey
	From    civil.Date
	Word    assessment.StandingWord
	Through civil.Date
	Since   civil.Date
}

func byCase(rows []segmentRow) map[assessment.CaseKey][]assessment.Segment {
	all := map[assessment.CaseKey][]assessment.Segment{}
	for _, r := range rows {
		all[r.CaseKey] = append(all[r.CaseKey], assessment.Segment{From: r.From, Word: r.Word, Through: r.Through, Since: r.Since})
	}
	return all
}

// All reads the whole index, in order within each case. A row that does not stand until
// the next one begins is left out: whoever asks for a day between finds another answer.
func (s Segments) All(ctx context.Context) (map[assessment.CaseKey][]assessment.Segment, error) {
	rows, err := list[segmentRow](ctx, s.scope, `
		select person_id as person, skill_id as skill,
			case client_key when '`+noClient+`' then '' else client_key::text end as client,
			from_on as "from", word, through_on as through, since_on as since
		from (select *, lead(from_on) over (partition by agency_id, person_id, skill_id, client_key order by from_on) as next_on from standing_segment) s
		where until_on = coalesce(next_on - 1, 'infinity')
		order by person_id, skill_id, client_key, from_on`)
	return byCase(rows), err
}

// Lines reads what the index says of some people, each with one client, in some skills
// from a day through another, in order within each case: nothing of what was over before.
// What is held for every child comes too, once.
func (s Segments) Lines(ctx context.Context, with []assessment.OnTeam, skills []assessment.SkillID, from, through civil.Date) (map[assessment.CaseKey][]assessment.Segment, error) {
	var people []assessment.PersonID
	var keys []string
	seen := map[assessment.PersonID]bool{}
	for _, w := range with {
		if !seen[w.Person] {
			seen[w.Person] = true
			people, keys = append(people, w.Person), append(keys, noClient)
		}
		people, keys = append(people, w.Person), append(keys, string(w.Client))
	}
	rows, err := list[segmentRow](ctx, s.scope, `
		select g.person_id as person, g.skill_id as skill,
			case g.client_key when '`+noClient+`' then '' else g.client_key::text end as client,
			g.from_on as "from", g.word, g.through_on as through, g.since_on as since
		from (select n.*, lead(n.from_on) over (partition by n.person_id, n.skill_id, n.client_key order by n.from_on) as next_on
			from standing_segment n
			join unnest($1::uuid[], $2::uuid[]) as w (person_id, client_key) on n.person_id = w.person_id and n.client_key = w.client_key
			where n.skill_id = any($3::uuid[]) and n.from_on <= $5) g
		where g.next_on is null or g.next_on > $4
		order by g.person_id, g.skill_id, g.client_key, g.from_on`, people, keys, skills, from, through)
	return byCase(rows), err
}

// Coming reads what the index says from a day on, of everybody in everything: nothing of
// what was over before. It is in order within each case.
func (s Segments) Coming(ctx context.Context, from civil.Date) (map[assessment.CaseKey][]assessment.Segment, error) {
	rows, err := list[segmentRow](ctx, s.scope, `
		select person_id as person, skill_id as skill,
			case client_key when '`+noClient+`' then '' else client_key::text end as client,
			from_on as "from", word, through_on as through, since_on as since
		from standing_segment
		where until_on >= $1
		order by person_id, skill_id, client_key, from_on`, from)
	return byCase(rows), err
}
