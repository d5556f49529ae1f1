package office

import (
	"encoding/hex"
	"fmt"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// bodyPaper is what a record has of the paper that it was typed in from: since when
// it was, and each photo or scan of it by its hash.
type bodyPaper struct {
	TypedIn string          `json:"typed_in_at"`
	Pages   []bodyPaperPage `json:"pages"`
}

type bodyPaperPage struct {
	Number int    `json:"number"`
	Type   string `json:"media_type"`
	Sheets int    `json:"sheets"`
	SHA256 string `json:"sha256"`
}

func paperOf(v SheetView) *bodyPaper {
	if !v.FromPaper {
		return nil
	}
	p := &bodyPaper{TypedIn: v.OpenedAt.UTC().Format(instantForm), Pages: []bodyPaperPage{}}
	for _, page := range v.Pages {
		p.Pages = append(p.Pages, bodyPaperPage{page.Number, page.MediaType, page.Sheets, hex.EncodeToString(page.SHA256)})
	}
	return p
}

// PaperView is what a record was typed in from.
type PaperView struct {
	TypedIn time.Time // when that was begun
	Pages   []PaperPageView
}

// PaperPageView is one photo or scan of it.
type PaperPageView struct {
	Number int
	Type   string // as Content-Type says it
	Sheets int    // pages of a PDF
	SHA256 string // of its content, in hexadecimal
}

func (p *bodyPaper) view() (*PaperView, error) {
	if p == nil {
		return nil, nil
	}
	at, err := time.Parse(instantForm, p.TypedIn)
	if err != nil {
		return nil, fmt.Errorf("read when a paper was typed in: %w", err)
	}
	v := &PaperView{TypedIn: at}
	for _, page := range p.Pages {
		v.Pages = append(v.Pages, PaperPageView(page))
	}
	return v, nil
}

// onPaper refuses a paper of another revision than the one that was in force when the
// skill was performed: its steps are not those that are typed into.
func onPaper(asked OpenForm, revision postgres.Revision, now Moment) error {
	switch {
	case !asked.FromPaper:
		return nil
	case asked.PaperRevision == 0:
		return faultAt("paper_revision", "Say which revision is printed on the paper: at the foot of each page.")
	case asked.PaperRevision != revision.Number:
		return faultAt("paper_revision", fmt.Sprintf("On %s revision %d was in force, and the paper is of revision %d: its steps cannot be typed in as those of another. Let the skill be shown again on the revision in force.",
			asked.PerformedAt.In(now.Zone).Format("2 January 2006"), revision.Number, asked.PaperRevision))
	}
	return nil
}

// mayStandOnPaper asks for the paper itself before it makes anybody competent. What
// went wrong is recorded also where the paper is lost.
func mayStandOnPaper(v SheetView, outcome assessment.Outcome) error {
	if !v.FromPaper || len(v.Pages) > 0 || outcome != assessment.Competent {
		return nil
	}
	return fault.Of(fault.Refused, "This was marked on paper, and no page of it is attached. Attach a photo or scan of each page, then record it.")
}
