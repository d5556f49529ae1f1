package web

import (
	"errors"
	"fmt"
	"io"
	"net/http"
	"path"
	"strconv"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

// attachPath takes photos and scans of a paper that is typed in.
const attachPath = "/demonstrations/:id/pages"

// takesFile are the addresses that take files larger than any form.
var takesFile = map[string]bool{attachPath: true, carriedPaperPath: true, importsPath: true, checkPath: true, takeInPath: true}

// paperForm is nil where the sheet is not typed in from paper.
func paperForm(r office.ReviewView) *PaperForm {
	if !r.FromPaper {
		return nil
	}
	at := demonstrationAt(r.ID) + "/pages"
	f := &PaperForm{Action: at, Revision: r.Revision, Text: r.TextMark, Needed: len(r.Pages) == 0 && r.Result.Outcome == assessment.Competent}
	if len(r.Pages) >= office.MostPages {
		f.Action = ""
	}
	for _, p := range r.Pages {
		own := at + "/" + strconv.Itoa(p.Number)
		f.Pages = append(f.Pages, PaperPage{p.Number, fmt.Sprintf("%s, %d kB", pageKind(p.MediaType, p.Sheets), (p.Bytes+999)/1000), own, own + "/removal"})
	}
	return f
}

// paper says on a record that it was typed in, when and from what.
func (p *RecordPage) paper(r office.RecordReading) {
	if r.Paper == nil {
		return
	}
	p.FromPaper = "on paper; typed in on " + instant(r.Paper.TypedIn, r.Zone)
	for _, page := range r.Paper.Pages {
		p.Pages = append(p.Pages, PaperPage{page.Number, pageKind(page.Type, page.Sheets) + ", SHA-256 " + page.SHA256[:16] + "…", demonstrationAt(r.ID) + "/pages/" + strconv.Itoa(page.Number), ""})
	}
}

// pageKind says what a photo or scan is.
func pageKind(mediaType string, sheets int) string {
	if mediaType == office.SignedFile {
		return "signed file of another agency"
	}
	if mediaType != "application/pdf" {
		return "photo or picture"
	}
	if sheets == 1 {
		return "scan of one page"
	}
	return fmt.Sprintf("scan of %d pages", sheets)
}

// attachPage puts one more photo or scan to a sheet. What is refused is said on the
// page that it was sent from, where all else stands as it did.
func (s *Site) attachPage(v *visit) error {
	id, err := pathID[assessment.DemonstrationID](v, "id")
	if err != nil {
		return err
	}
	sent, err := v.sentPage()
	if err == nil {
		_, err = s.office.AttachPage(v.ctx(), v.by(), id, 0, sent)
	}
	if err == nil {
		return v.to(demonstrationAt(id)+"/review#paper", "The page is attached.")
	}
	return s.pageRefused(v, err, "The page was not attached.")
}

func (s *Site) pageRefused(v *visit, err error, what string) error {
	if errors.Is(err, office.ErrRecorded) {
		return v.unlessRecorded(err)
	}
	faults, unknown := v.wrong(err, what)
	if unknown != nil {
		return unknown
	}
	page, err := s.reviewPage(v)
	if err != nil {
		return v.unlessRecorded(err)
	}
	if page.Paper == nil {
		page.Faults = faults
	} else {
		page.Paper.Faults = faults
	}
	return v.again(page)
}

// sentPage is the file that was sent.
func (v *visit) sentPage() ([]byte, error) {
	if v.tooLarge {
		return nil, office.PageTooLarge()
	}
	header, err := v.c.FormFile("page")
	if err != nil {
		return nil, fault.Of(fault.Invalid, "Nothing was sent. Choose a photo or a scan of the page.")
	}
	file, err := header.Open()
	if err != nil {
		return nil, fmt.Errorf("open the page that was sent: %w", err)
	}
	defer file.Close()
	sent, err := io.ReadAll(file)
	if err != nil {
		return nil, fmt.Errorf("read the page that was sent: %w", err)
	}
	return sent, nil
}

func (s *Site) removePage(v *visit) error {
	id, number, err := v.page()
	if err != nil {
		return err
	}
	if _, err := s.office.DropPage(v.ctx(), v.by(), id, number); err != nil {
		return s.pageRefused(v, err, "The page was not taken off.")
	}
	return v.to(demonstrationAt(id)+"/review#paper", "The page is taken off.")
}

// page is the demonstration and the number of a page in the address.
func (v *visit) page() (assessment.DemonstrationID, int, error) {
	id, err := pathID[assessment.DemonstrationID](v, "id")
	if err != nil {
		return "", 0, err
	}
	number, err := strconv.Atoi(v.c.Param("number"))
	if err != nil || number < 1 || number > office.MostPages {
		return "", 0, errNoPage
	}
	return id, number, nil
}

// pageTypes are the types of pages by the ending of their names.
var pageTypes = map[string]string{".jpg": "image/jpeg", ".png": "image/png", ".pdf": "application/pdf", ".json": office.SignedFile}

// paperPage hands a page out as a file: nothing that shows it may run anything.
func (s *Site) paperPage(v *visit) error {
	id, number, err := v.page()
	if err != nil {
		return err
	}
	body, name, err := s.opt.Papers.PaperPage(v.ctx(), v.by(), id, number)
	if err != nil {
		return err
	}
	v.asFile(name)
	v.c.Data(http.StatusOK, pageTypes[path.Ext(name)], body)
	return nil
}
