package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
)

// PaperPage is a photo or scan of a page that was filled in by hand; Content is only
// filled where one page is asked for.
type PaperPage struct {
	Number     int
	MediaType  string
	Content    []byte
	SHA256     []byte // of the content, also once it is gone
	Bytes      int
	Sheets     int // pages of a PDF
	AttachedAt time.Time
	ErasedAt   *time.Time // since when its content is gone
}

const sheetPage = `number, media_type, sha256(content) as sha256, octet_length(content) as bytes, sheets, attached_at, null::timestamptz as erased_at from sheet_page where sheet_id = $1`

// Pages lists the pages that a sheet is typed in from, without their content.
func (s Sheets) Pages(ctx context.Context, id assessment.DemonstrationID) ([]PaperPage, error) {
	return list[PaperPage](ctx, s.scope, `select null::bytea as content, `+sheetPage+` order by number`, id)
}

// Page is one of them, with its content.
func (s Sheets) Page(ctx context.Context, id assessment.DemonstrationID, number int) (PaperPage, error) {
	return get[PaperPage](ctx, s.scope, `select content, `+sheetPage+` and number = $2`, id, number)
}

// SavePage puts a page to a sheet, in place of one that had its number.
func (s Sheets) SavePage(ctx context.Context, id assessment.DemonstrationID, p PaperPage) error {
	return s.exec(ctx, `
		insert into sheet_page (agency_id, sheet_id, number, media_type, content, sheets, attached_at) values ($1, $2, $3, $4, $5, $6, $7)
		on conflict (agency_id, sheet_id, number) do update
		set media_type = excluded.media_type, content = excluded.content, sheets = excluded.sheets, attached_at = excluded.attached_at`,
		s.agency, id, p.Number, p.MediaType, p.Content, p.Sheets, p.AttachedAt)
}

// RemovePage takes a page from a sheet.
func (s Sheets) RemovePage(ctx context.Context, id assessment.DemonstrationID, number int) error {
	return s.exec(ctx, `delete from sheet_page where sheet_id = $1 and number = $2`, id, number)
}

// PaperPage is a page that a record was typed in from, with its content.
func (d Demonstrations) PaperPage(ctx context.Context, id assessment.DemonstrationID, number int) (PaperPage, error) {
	return get[PaperPage](ctx, d.scope, `
		select content, number, media_type, content_sha256 as sha256, octet_length(content) as bytes, sheets, attached_at, erased_at
		from paper_page where demonstration_id = $1 and number = $2`, id, number)
}

// KeepPages files the pages of a sheet with the record that was made of it.
func (d Demonstrations) KeepPages(ctx context.Context, id assessment.DemonstrationID) error {
	return d.exec(ctx, `
		insert into paper_page (agency_id, demonstration_id, number, media_type, content, content_sha256, sheets, attached_at)
		select agency_id, sheet_id, number, media_type, content, sha256(content), sheets, attached_at
		from sheet_page where sheet_id = $1`, id)
}
