package api

import (
	"encoding/hex"
	"time"

	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
)

// Page is a photo or scan of a paper.
type Page struct {
	Number int    `json:"number"`
	Type   string `json:"type" enum:"image/jpeg,image/png,application/pdf"`
	Sheets int    `json:"sheets" doc:"Pages of a PDF; 1 for a picture."`
	SHA256 string `json:"sha256" doc:"Of its content as it is kept."`
}

// Paper is what a record was typed in from.
type Paper struct {
	TypedInAt time.Time `json:"typed_in_at" doc:"When that was begun."`
	Pages     []Page    `json:"pages"`
}

func attached(p postgres.PaperPage) Page {
	return Page{Number: p.Number, Type: p.MediaType, Sheets: p.Sheets, SHA256: hex.EncodeToString(p.SHA256)}
}

func paper(v *office.PaperView) *Paper {
	if v == nil {
		return nil
	}
	return &Paper{TypedInAt: v.TypedIn.UTC(), Pages: each(v.Pages, func(p office.PaperPageView) Page { return Page(p) })}
}
