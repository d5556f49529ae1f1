package reports

import (
	"context"
	"fmt"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/assessment/wording"
)

// Reports draws documents from what the office answers. Each method asks once,
// with the rights of whoever asks, has written down who takes the paper away, and
// returns it with a name for its file: ASCII, without names of people. Errors are the office's own, wrapped.
type Reports struct{ office answers }

// answers is what the papers ask of the office.
type answers interface {
	Demonstration(context.Context, assessment.Actor, assessment.DemonstrationID) (office.DemonstrationView, error)
	Checklist(context.Context, assessment.Actor, assessment.RevisionID) (office.ChecklistView, error)
	Certificate(context.Context, assessment.Actor, assessment.CertificateID) (postgres.Certificate, error)
	Overdue(context.Context, assessment.Actor, office.OverdueQuery) (office.Overdue, error)
	Coverage(context.Context, assessment.Actor, office.CoverageQuery) (office.Coverage, error)
	Visits(context.Context, assessment.Actor, office.VisitQuery) (office.VisitsView, error)
	InService(context.Context, assessment.Actor, assessment.PersonID) (office.InServiceView, error)
	Grid(context.Context, assessment.Actor, office.GridQuery) (office.Grid, error)
	Readiness(context.Context, assessment.Actor, assessment.ClientID, time.Time) (office.ReadinessView, error)
	Handover(context.Context, assessment.Actor, assessment.PersonID) (office.HandoverMade, error)
	Transcript(context.Context, assessment.Actor, assessment.PersonID, civil.Date) (office.Transcript, error)
	HandedIn(context.Context, assessment.Actor, assessment.RecordID) (office.SittingView, error)
	LearningPlan(context.Context, assessment.Actor, assessment.PersonID) (office.LearningPlan, error)
	SkillsDay(context.Context, assessment.Actor, assessment.SkillsDayID) (office.SkillsDayView, error)
	WritePacket(context.Context, assessment.Actor, office.PacketForm, office.PacketMoment, office.PacketWriter, func(done, total int) error) error
	PacketFiles(context.Context, assessment.Actor, assessment.PacketID) (v office.PacketView, pdf, data []byte, err error)
	ReadItems(context.Context, assessment.Actor, string) (office.BankReading, error)
	TaughtLesson(context.Context, assessment.Actor, string, wording.Language) (office.TaughtLesson, error)
	TaughtLessons(context.Context, assessment.Actor, wording.Language) ([]office.TaughtLesson, error)
	HomePapers(context.Context, assessment.Actor, assessment.ClientID) (office.HomeView, error)
	Exported(context.Context, assessment.Actor, office.Export) error
	CarriedPaper(context.Context, assessment.Actor, assessment.PersonID, assessment.RecordID) (postgres.CarriedPaper, error)
	PaperPage(context.Context, assessment.Actor, assessment.DemonstrationID, int) (postgres.PaperPage, error)
}

// New opens the papers over an office.
func New(o *office.Office) *Reports { return &Reports{o} }

// CertificatePDF is a certificate as it was issued: the bytes that were kept,
// never drawn again.
func (r *Reports) CertificatePDF(ctx context.Context, by assessment.Actor, id assessment.CertificateID) ([]byte, string, error) {
	t, err := r.office.Certificate(ctx, by, id)
	if err != nil {
		return nil, "", fmt.Errorf("print a certificate: %w", err)
	}
	return r.handOut(ctx, by, office.Export{Act: assessment.ReadRecords, Paper: "certificate", Subject: string(id)})(t.PDF, fileName("pdf", "certificate", fmt.Sprint(t.Number), t.HeldOn.String()), nil)
}

// pageEndings are those of the files that pages of paper are kept as.
var pageEndings = map[string]string{"image/jpeg": "jpg", "image/png": "png", "application/pdf": "pdf", office.SignedFile: "json"}

// PaperPage is a photo or scan of the paper that a record was typed in from, as it was
// kept, never drawn again.
func (r *Reports) PaperPage(ctx context.Context, by assessment.Actor, id assessment.DemonstrationID, number int) ([]byte, string, error) {
	page, err := r.office.PaperPage(ctx, by, id, number)
	if err != nil {
		return nil, "", fmt.Errorf("hand out a page of paper: %w", err)
	}
	return r.handOut(ctx, by, office.Export{Act: assessment.ReadRecords, Paper: "page of paper", Subject: string(id)})(page.Content, fileName(pageEndings[page.MediaType], "page", fmt.Sprint(number)), nil)
}

// document finishes a paper and names its file.
func document(p *paper, err error, what string, parts ...string) ([]byte, string, error) {
	if err != nil {
		return nil, "", fmt.Errorf("draw the %s: %w", what, err)
	}
	pdf, err := p.bytes()
	if err != nil {
		return nil, "", err
	}
	return pdf, fileName("pdf", append([]string{what}, parts...)...), nil
}

// fileName joins parts by hyphens. Whatever is not a small letter, a digit or a
// hyphen is left out, so that the name is safe in a header and on every disk.
func fileName(ending string, parts ...string) string {
	var kept []string
	for _, part := range parts {
		part = strings.Map(func(r rune) rune {
			switch {
			case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
				return r
			case r >= 'A' && r <= 'Z':
				return r + 'a' - 'A'
			case r == ' ' || r == '-' || r == '_':
				return '-'
			}
			return -1
		}, part)
		if part = strings.Trim(part, "-"); part != "" {
			kept = append(kept, part)
		}
	}
	return strings.Join(kept, "-") + "." + ending
}

// noonOn is the middle of a day on the agency's clocks: the instant that a paper
// about a whole day carries, so that the same facts give the same bytes.
func noonOn(d civil.Date, zone string) (time.Time, *time.Location, error) {
	there, err := time.LoadLocation(zone)
	if err != nil {
		return time.Time{}, nil, fmt.Errorf("load the agency's zone %q: %w", zone, err)
	}
	y, m, day := d.Civil()
	return time.Date(y, m, day, 12, 0, 0, 0, there), there, nil
}
