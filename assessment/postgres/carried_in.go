package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// CarriedIn keeps what people are said to have shown elsewhere, and the papers that say so.
// No standing is folded from it.
type CarriedIn struct{ scope }

// CarriedLine is one competency by an old paper.
type CarriedLine struct {
	ID         assessment.RecordID
	PersonID   assessment.PersonID
	SkillID    assessment.SkillID
	SkillCode  string
	Title      string
	ClientID   assessment.ClientID // empty: of a general skill
	Code       string              // the child's
	FirstName  string
	ObservedOn civil.Date
	ThroughOn  civil.Date // zero: the paper says none
	Signer     string
	Place      string
	BroughtBy  assessment.PersonID
	BroughtAt  time.Time
	Papers     []string // ids of the papers that show it, in order
}

// Of lists what was carried in of a person, or of everybody for the empty id, by skill and day.
func (c CarriedIn) Of(ctx context.Context, person assessment.PersonID) ([]CarriedLine, error) {
	return list[CarriedLine](ctx, c.scope, `
		select i.id, i.person_id, i.skill_id, s.code as skill_code, coalesce(r.title, s.code) as title,
			coalesce(i.client_id::text, '') as client_id, coalesce(k.code, '') as code, coalesce(k.first_name, '') as first_name,
			i.observed_on, i.through_on, i.signer, i.place, i.brought_by, i.brought_at,
			array(select p.paper_id::text from carried_in_paper p join carried_paper a on a.agency_id = p.agency_id and a.id = p.paper_id
				where p.agency_id = i.agency_id and p.carried_in_id = i.id order by a.attached_at, a.id) as papers
		from carried_in i
			join skill s on s.agency_id = i.agency_id and s.id = i.skill_id
			left join client k on k.agency_id = i.agency_id and k.id = i.client_id
			left join lateral (select title from revision r where r.agency_id = s.agency_id and r.skill_id = s.id order by r.state = 'in force' desc, r.number desc limit 1) r on true
		where $1 = '' or i.person_id = nullif($1, '')::uuid
		order by s.position, s.code, i.observed_on, i.id`, string(person))
}

// Add carries one in.
func (c CarriedIn) Add(ctx context.Context, n CarriedLine) error {
	return c.exec(ctx, `
		insert into carried_in (agency_id, id, person_id, skill_id, client_id, observed_on, through_on, signer, place, brought_by, brought_at)
		values ($1, $2, $3, $4, nullif($5, '')::uuid, $6, $7, $8, $9, $10, $11)`,
		c.agency, n.ID, n.PersonID, n.SkillID, string(n.ClientID), n.ObservedOn, n.ThroughOn, n.Signer, n.Place, n.BroughtBy, n.BroughtAt)
}

// Remove takes one off, and papers that show nothing else with it.
func (c CarriedIn) Remove(ctx context.Context, person assessment.PersonID, id assessment.RecordID) error {
	if err := c.exec(ctx, `delete from carried_in_paper where carried_in_id = $1 and exists (select from carried_in i where i.id = $1 and i.person_id = $2)`, id, person); err != nil {
		return err
	}
	if err := c.change(ctx, `delete from carried_in where id = $1 and person_id = $2`, id, person); err != nil {
		return err
	}
	return c.exec(ctx, `delete from carried_paper a where a.person_id = $1 and not exists (select from carried_in_paper p where p.agency_id = a.agency_id and p.paper_id = a.id)`, person)
}

// CarriedPaper is a photo or scan of an old paper; Content is only filled where one is asked for.
type CarriedPaper struct {
	ID         assessment.RecordID
	PersonID   assessment.PersonID
	MediaType  string
	Content    []byte
	SHA256     []byte
	Bytes      int
	Sheets     int
	AttachedBy assessment.PersonID
	AttachedAt time.Time
}

const carriedPaper = ` id, person_id, media_type, content_sha256 as sha256, octet_length(content) as bytes, sheets, attached_by, attached_at from carried_paper `

// Papers lists somebody's old papers, the first attached first.
func (c CarriedIn) Papers(ctx context.Context, person assessment.PersonID) ([]CarriedPaper, error) {
	return list[CarriedPaper](ctx, c.scope, `select null::bytea as content,`+carriedPaper+`where person_id = $1 order by attached_at, id`, person)
}

// Paper is one of them, with its content.
func (c CarriedIn) Paper(ctx context.Context, person assessment.PersonID, id assessment.RecordID) (CarriedPaper, error) {
	return get[CarriedPaper](ctx, c.scope, `select content,`+carriedPaper+`where person_id = $1 and id = $2`, person, id)
}

// Attach keeps a paper, or finds the same one that is there already, and says what it shows.
func (c CarriedIn) Attach(ctx context.Context, p CarriedPaper, shows []assessment.RecordID) error {
	err := c.exec(ctx, `
		insert into carried_paper (agency_id, id, person_id, media_type, content, content_sha256, sheets, attached_by, attached_at)
		values ($1, $2, $3, $4, $5, sha256($5), $6, $7, $8) on conflict on constraint carried_paper_is_there_once do nothing`,
		c.agency, p.ID, p.PersonID, p.MediaType, p.Content, p.Sheets, p.AttachedBy, p.AttachedAt)
	if err != nil {
		return err
	}
	return c.exec(ctx, `
		insert into carried_in_paper (agency_id, carried_in_id, paper_id)
		select a.agency_id, i.id, a.id from carried_paper a join carried_in i on i.agency_id = a.agency_id and i.person_id = a.person_id and i.id = any($3::uuid[])
		where a.person_id = $1 and a.content_sha256 = sha256($2)
		on conflict do nothing`, p.PersonID, p.Content, shows)
}
