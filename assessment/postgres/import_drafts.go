package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
)

// ImportDrafts keeps files between their preview and their import.
type ImportDrafts struct{ scope }

// ImportDraft is a file that somebody has sent and not yet brought in. Content is only
// filled where one is asked for.
type ImportDraft struct {
	ID        assessment.RecordID
	Kind      string
	FileName  string
	Content   []byte
	Bytes     int
	BroughtBy assessment.PersonID
	BroughtAt time.Time
}

const importDraft = ` id, kind, file_name, octet_length(content) as bytes, brought_by, brought_at from import_draft `

// Add keeps a file.
func (d ImportDrafts) Add(ctx context.Context, n ImportDraft) error {
	return d.exec(ctx, `
		insert into import_draft (agency_id, id, kind, file_name, content, brought_by, brought_at) values ($1, $2, $3, $4, $5, $6, $7)`,
		d.agency, n.ID, n.Kind, n.FileName, n.Content, n.BroughtBy, n.BroughtAt)
}

// Get is a file with its content.
func (d ImportDrafts) Get(ctx context.Context, id assessment.RecordID) (ImportDraft, error) {
	return get[ImportDraft](ctx, d.scope, `select content,`+importDraft+`where id = $1`, id)
}

// Of lists the files that somebody has sent, the newest first.
func (d ImportDrafts) Of(ctx context.Context, person assessment.PersonID) ([]ImportDraft, error) {
	return list[ImportDraft](ctx, d.scope, `select null::bytea as content,`+importDraft+`where brought_by = $1 order by brought_at desc, id`, person)
}

// Lock has imports of one agency take turns, so that of two at once the later one sees what
// the first has brought in.
func (d ImportDrafts) Lock(ctx context.Context) error {
	return d.exec(ctx, `select pg_advisory_xact_lock(hashtextextended('bring in ' || $1, 0))`, string(d.agency))
}

// Remove throws a file away; where it is gone already, somebody else was faster.
func (d ImportDrafts) Remove(ctx context.Context, id assessment.RecordID) error {
	return d.change(ctx, `delete from import_draft where id = $1`, id)
}

// Forget throws away what was sent before an instant.
func (d ImportDrafts) Forget(ctx context.Context, before time.Time) error {
	return d.exec(ctx, `delete from import_draft where brought_at < $1`, before)
}
