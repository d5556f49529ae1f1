package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
)

// Lessons keeps the versions of lessons, and the drawings that they show. Versions are
// only ever added; a draft may be changed until it is in force.
type Lessons struct{ scope }

// Lesson is one version of what teaches a skill in one language.
type Lesson struct {
	ID         assessment.LessonID
	SkillID    assessment.SkillID
	Code       string // of the skill
	Language   string
	Number     int
	State      assessment.State
	Title      string
	Source     string // Markdown; empty in lists
	SHA256     []byte // of the source
	WrittenIn  string // another language than its own makes it a translation
	Starter    bool   // it began as a starter lesson
	DraftedAt  time.Time
	DraftedBy  string // printed name
	InForceAt  *time.Time
	InForceBy  string // printed name, as it was signed
	Licence    string // theirs, as it was signed
	Statement  string
	Translator string
	RetiredAt  *time.Time
}

const lessonColumns = `
	l.id, l.skill_id, s.code, l.language, l.number, l.state, l.title, l.source_sha256 as sha256, l.written_in, l.starter, l.drafted_at,
	coalesce(d.name, '') as drafted_by, l.in_force_at, coalesce(l.reviewer, '') as in_force_by, coalesce(l.licence, '') as licence,
	coalesce(l.statement, '') as statement, coalesce(l.translator, '') as translator, l.retired_at
	from lesson l
	join skill s on s.agency_id = l.agency_id and s.id = l.skill_id
	left join person d on d.agency_id = l.agency_id and d.id = l.drafted_by`

// List lists all versions without their texts, in teaching order, the newest first.
func (l Lessons) List(ctx context.Context) ([]Lesson, error) {
	return list[Lesson](ctx, l.scope, `select '' as source, `+lessonColumns+` order by s.position, s.code, l.language, l.number desc`)
}

// Working lists what is in force and what is drafted, with the texts.
func (l Lessons) Working(ctx context.Context) ([]Lesson, error) {
	return list[Lesson](ctx, l.scope, `select l.source, `+lessonColumns+` where l.state <> 'retired' order by s.position, s.code, l.language, l.number desc`)
}

// Of lists the versions for a skill in a language with their texts, the newest first.
func (l Lessons) Of(ctx context.Context, skill assessment.SkillID, language string) ([]Lesson, error) {
	return list[Lesson](ctx, l.scope, `select l.source, `+lessonColumns+` where l.skill_id = $1 and l.language = $2 order by l.number desc`, skill, language)
}

// Get is the version with this id.
func (l Lessons) Get(ctx context.Context, id assessment.LessonID) (Lesson, error) {
	return get[Lesson](ctx, l.scope, `select l.source, `+lessonColumns+` where l.id = $1`, id)
}

// InForce lists the lessons in force for a skill, one a language.
func (l Lessons) InForce(ctx context.Context, code string) ([]Lesson, error) {
	return list[Lesson](ctx, l.scope, `select l.source, `+lessonColumns+` where l.state = 'in force' and s.code = $1 order by l.language`, code)
}

// AddDraft adds a version as a draft.
func (l Lessons) AddDraft(ctx context.Context, n Lesson, by assessment.PersonID) error {
	return l.exec(ctx, `
		insert into lesson (agency_id, id, skill_id, language, number, state, title, source, source_sha256, written_in, starter, drafted_at, drafted_by)
		values ($1, $2, $3, $4, $5, 'draft', $6, $7, sha256(convert_to($7, 'UTF8')), $8, $9, $10, $11)`,
		l.agency, n.ID, n.SkillID, n.Language, n.Number, n.Title, n.Source, n.WrittenIn, n.Starter, n.DraftedAt, by)
}

// SaveDraft changes the text of a draft.
func (l Lessons) SaveDraft(ctx context.Context, n Lesson, by assessment.PersonID) error {
	return l.exec(ctx, `
		update lesson set title = $2, source = $3, source_sha256 = sha256(convert_to($3, 'UTF8')), written_in = $4, drafted_at = $5, drafted_by = $6
		where id = $1`, n.ID, n.Title, n.Source, n.WrittenIn, n.DraftedAt, by)
}

// DiscardDraft deletes a draft.
func (l Lessons) DiscardDraft(ctx context.Context, id assessment.LessonID) error {
	return l.exec(ctx, `delete from lesson where id = $1`, id)
}

// PutInForce retires the version in force, if there is one, and puts this one in its place.
func (l Lessons) PutInForce(ctx context.Context, n Lesson, by assessment.PersonID) error {
	err := l.exec(ctx, `
		update lesson set state = 'retired', retired_at = $3, retired_by = $4
		where skill_id = $1 and language = $2 and state = 'in force'`, n.SkillID, n.Language, n.InForceAt, by)
	if err != nil {
		return err
	}
	return l.exec(ctx, `
		update lesson set state = 'in force', in_force_at = $2, in_force_by = $3, reviewer = $4, licence = $5, statement = $6, translator = nullif($7, '')
		where id = $1 and state = 'draft'`, n.ID, n.InForceAt, by, n.InForceBy, n.Licence, n.Statement, n.Translator)
}

// Retire takes a version out of force with none in its place.
func (l Lessons) Retire(ctx context.Context, id assessment.LessonID, by assessment.PersonID, at time.Time) error {
	return l.exec(ctx, `update lesson set state = 'retired', retired_at = $2, retired_by = $3 where id = $1`, id, at, by)
}

// Drawing is a line drawing of the agency, as the program has written it anew.
type Drawing struct {
	Name    string
	SVG     string
	AddedAt time.Time
	AddedBy string // printed name
}

// Drawings lists those with these names, or all for none.
func (l Lessons) Drawings(ctx context.Context, names ...string) ([]Drawing, error) {
	return list[Drawing](ctx, l.scope, `
		select d.name, d.svg, d.added_at, coalesce(p.name, '') as added_by
		from drawing d left join person p on p.agency_id = d.agency_id and p.id = d.added_by
		where cardinality($1::text[]) = 0 or d.name = any($1)
		order by d.name`, append([]string{}, names...))
}

// AddDrawing keeps a drawing under a name that no other has.
func (l Lessons) AddDrawing(ctx context.Context, d Drawing, by assessment.PersonID) error {
	return l.exec(ctx, `
		insert into drawing (agency_id, name, svg, svg_sha256, added_by, added_at)
		values ($1, $2, $3, sha256(convert_to($3, 'UTF8')), $4, $5)`, l.agency, d.Name, d.SVG, by, d.AddedAt)
}

// KeepDrawing keeps a starter drawing, unless one of its name is kept already.
func (l Lessons) KeepDrawing(ctx context.Context, d Drawing, by assessment.PersonID) error {
	return l.exec(ctx, `
		insert into drawing (agency_id, name, svg, svg_sha256, added_by, added_at)
		values ($1, $2, $3, sha256(convert_to($3, 'UTF8')), $4, $5) on conflict do nothing`, l.agency, d.Name, d.SVG, by, d.AddedAt)
}
