package web

import (
	"net/http"

	"wellshown/assessment/phrase"
)

func (s *Site) held(v *visit) error {
	h, err := s.office.HeldAbout(v.ctx(), v.by())
	if err != nil {
		return err
	}
	page := HeldPage{Frame: v.frame("")}
	for _, p := range h.Parts {
		if p.Rows == 0 {
			page.Empty = append(page.Empty, v.words().Of(phrase.Phrase{Format: p.Says}))
			continue
		}
		page.Parts = append(page.Parts, HeldLine{v.words().Of(phrase.Phrase{Format: p.Says}), v.words().Count(p.Rows, "%d entry", "%d entries")})
	}
	return v.show(page)
}

func (s *Site) heldFile(v *visit) error {
	text, err := s.office.Export(v.ctx(), v.by())
	if err != nil {
		return err
	}
	v.c.Header("Content-Disposition", `attachment; filename="what-is-held-about-you.json"`)
	v.c.Header("Cache-Control", "no-store")
	v.c.Data(http.StatusOK, "application/json; charset=utf-8", text)
	return nil
}
