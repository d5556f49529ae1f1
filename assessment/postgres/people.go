package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// People keeps the agency's people, the roles they have and what proves who they are.
type People struct{ scope }

// Person is someone of the agency, with the roles held now.
type Person struct {
	ID         assessment.PersonID
	Name       string
	Kind       assessment.CaregiverKind
	Relation   string // to the child, such as "mother"
	Email      string // empty: they do not sign in
	Language   string
	LeftOn     civil.Date // first day on which they are no longer there; zero while they are
	Roles      []assessment.Role
	MustChange bool // the password was set by somebody else
}

const personColumns = `
	p.id, p.name, p.kind, p.relation, p.email, p.language, p.left_on,
	array(select r.role from person_role r
		where r.agency_id = p.agency_id and r.person_id = p.id and r.ended_at is null order by r.role) as roles,
	exists (select from credential c
		where c.agency_id = p.agency_id and c.person_id = p.id and c.must_change) as must_change`

// Get is the person with this id.
func (p People) Get(ctx context.Context, id assessment.PersonID) (Person, error) {
	return get[Person](ctx, p.scope, `select`+personColumns+` from person p where p.id = $1`, id)
}

// Lock is Get, with everybody else kept from changing the person until the end of
// the transaction. The person is read after the wait for the lock: a statement that
// waits sees the row as it has become, but roles as they were when it began.
func (p People) Lock(ctx context.Context, id assessment.PersonID) (Person, error) {
	_, err := get[struct{ ID assessment.PersonID }](ctx, p.scope, `select id from person where id = $1 for no key update`, id)
	if err != nil {
		return Person{}, err
	}
	return p.Get(ctx, id)
}

// PeopleFilter narrows a list of people; empty fields are no condition.
type PeopleFilter struct {
	Only        assessment.PersonID   // this one
	Among       []assessment.PersonID // these; nil: no condition
	Find        string                // words that stand in the name or the e-mail address, in any order, whatever their accents
	Kind        assessment.CaregiverKind
	Role        assessment.Role
	OnTeamOf    assessment.ClientID // on the day On
	On          civil.Date
	IncludeLeft bool // also those who are gone on the day On
	AfterName   string
	AfterID     assessment.PersonID // empty: from the start
	Limit       int                 // at most; 0 for all
}

// List lists people by name, whatever the case of its letters, then id.
func (p People) List(ctx context.Context, f PeopleFilter) ([]Person, error) {
	return list[Person](ctx, p.scope, `
		select`+personColumns+`
		from person p
		where ($1 = '' or p.id = nullif($1, '')::uuid)
			and ($2 = '' or not exists (select from regexp_split_to_table(`+folded("$2")+`, '\s+') word
				where position(word in `+folded("p.name || ' ' || p.email")+`) = 0))
			and ($3 = '' or p.kind = $3)
			and ($4 = '' or exists (select from person_role r
				where r.agency_id = p.agency_id and r.person_id = p.id and r.role = $4 and r.ended_at is null))
			and ($5 = '' or exists (select from care_team t
				where t.agency_id = p.agency_id and t.person_id = p.id and t.client_id = nullif($5, '')::uuid
					and t.from_on <= $6 and (t.through_on is null or t.through_on >= $6)))
			and ($7 or p.left_on is null or p.left_on > $6)
			and ($8 = '' or (lower(p.name), p.id) > (lower($9), nullif($8, '')::uuid))
			and ($11::uuid[] is null or p.id = any($11))
		order by lower(p.name), p.id
		limit nullif($10, 0)`,
		string(f.Only), f.Find, string(f.Kind), string(f.Role), string(f.OnTeamOf), f.On, f.IncludeLeft,
		string(f.AfterID), f.AfterName, f.Limit, f.Among)
}

// folded leaves out the case of letters and the accents on them (Unicode's
// combining marks, after canonical decomposition).
func folded(sql string) string {
	return `regexp_replace(normalize(lower(` + sql + `), NFD), U&'[\0300-\036F]', '', 'g')`
}

// Add adds a person without roles.
func (p People) Add(ctx context.Context, n Person, at time.Time) error {
	return p.exec(ctx, `
		insert into person (agency_id, id, name, kind, relation, email, language, created_at)
		values ($1, $2, $3, $4, $5, $6, $7, $8)`,
		p.agency, n.ID, n.Name, n.Kind, n.Relation, n.Email, n.Language, at)
}

// Save changes what is known of a person; roles have their own verbs.
func (p People) Save(ctx context.Context, n Person) error {
	return p.change(ctx, `
		update person
		set name = $2, kind = $3, relation = $4, email = $5, language = $6, left_on = $7
		where id = $1`, n.ID, n.Name, n.Kind, n.Relation, n.Email, n.Language, n.LeftOn)
}
