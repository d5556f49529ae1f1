package reports

import (
	"bytes"
	"context"
	"errors"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/assessment/wording"
)

// desk answers with what a test has laid out, and counts how often it is asked.
type desk struct {
	t     *testing.T
	fails error
	asked int
	taken []office.Export
	blind error // why nobody can write down who takes a paper away
}

func (d *desk) ask() error { d.asked++; return d.fails }

func (d *desk) Demonstration(context.Context, assessment.Actor, assessment.DemonstrationID) (office.DemonstrationView, error) {
	return circuitChange(d.t), d.ask()
}

func (d *desk) Checklist(context.Context, assessment.Actor, assessment.RevisionID) (office.ChecklistView, error) {
	return revision(d.t, starter(d.t, "go-bag")), d.ask()
}

func (d *desk) Certificate(context.Context, assessment.Actor, assessment.CertificateID) (postgres.Certificate, error) {
	return postgres.Certificate{Number: 128, HeldOn: theDay, PDF: []byte("%PDF-1.3 as it was issued")}, d.ask()
}

func (d *desk) CarriedPaper(context.Context, assessment.Actor, assessment.PersonID, assessment.RecordID) (postgres.CarriedPaper, error) {
	return postgres.CarriedPaper{MediaType: "image/jpeg", Content: []byte("as it was kept"), AttachedAt: issued}, d.ask()
}

func (d *desk) PaperPage(context.Context, assessment.Actor, assessment.DemonstrationID, int) (postgres.PaperPage, error) {
	return postgres.PaperPage{MediaType: "application/pdf", Content: []byte("%PDF-1.7 as it was kept")}, d.ask()
}

func (d *desk) Overdue(_ context.Context, _ assessment.Actor, q office.OverdueQuery) (office.Overdue, error) {
	v := january()
	v.BySkill = q.BySkill
	return v, d.ask()
}

func (d *desk) Grid(context.Context, assessment.Actor, office.GridQuery) (office.Grid, error) {
	return aGrid(), d.ask()
}

func (d *desk) HomePapers(context.Context, assessment.Actor, assessment.ClientID) (office.HomeView, error) {
	return atHome(d.t), d.ask()
}

func (d *desk) Readiness(context.Context, assessment.Actor, assessment.ClientID, time.Time) (office.ReadinessView, error) {
	return toGoHome(d.t), d.ask()
}

func (d *desk) Handover(context.Context, assessment.Actor, assessment.PersonID) (office.HandoverMade, error) {
	return office.HandoverMade{Day: civil.MustParse("2027-01-15"), File: []byte("{}")}, d.ask()
}

func (d *desk) Transcript(context.Context, assessment.Actor, assessment.PersonID, civil.Date) (office.Transcript, error) {
	return ofLucja(d.t), d.ask()
}

func (d *desk) HandedIn(context.Context, assessment.Actor, assessment.RecordID) (office.SittingView, error) {
	return ofTheFather(d.t, "es"), d.ask()
}

func (d *desk) LearningPlan(context.Context, assessment.Actor, assessment.PersonID) (office.LearningPlan, error) {
	return ofTheMother(), d.ask()
}

func (d *desk) SkillsDay(context.Context, assessment.Actor, assessment.SkillsDayID) (office.SkillsDayView, error) {
	return winterDay(d.t), d.ask()
}

func (d *desk) Coverage(context.Context, assessment.Actor, office.CoverageQuery) (office.Coverage, error) {
	return twoShifts(d.t), d.ask()
}

func (d *desk) Visits(context.Context, assessment.Actor, office.VisitQuery) (office.VisitsView, error) {
	return twoVisits(), d.ask()
}

func (d *desk) PacketFiles(context.Context, assessment.Actor, assessment.PacketID) (office.PacketView, []byte, []byte, error) {
	return office.PacketView{Packet: postgres.Packet{Kind: "period", AskedAt: issued}}, []byte("%PDF-1.3 as it was made"), []byte("{}"), d.ask()
}

func (d *desk) WritePacket(context.Context, assessment.Actor, office.PacketForm, office.PacketMoment, office.PacketWriter, func(done, total int) error) error {
	return d.ask()
}

func (d *desk) InService(context.Context, assessment.Actor, assessment.PersonID) (office.InServiceView, error) {
	return threeAides(), d.ask()
}

func (d *desk) ReadItems(context.Context, assessment.Actor, string) (office.BankReading, error) {
	return starterQuestions(d.t, "suction"), d.ask()
}

func (d *desk) TaughtLesson(context.Context, assessment.Actor, string, wording.Language) (office.TaughtLesson, error) {
	return taughtGoBag(d.t), d.ask()
}

func (d *desk) TaughtLessons(context.Context, assessment.Actor, wording.Language) ([]office.TaughtLesson, error) {
	return []office.TaughtLesson{taughtGoBag(d.t), taughtGoBag(d.t)}, d.ask()
}

func (d *desk) Exported(_ context.Context, _ assessment.Actor, e office.Export) error {
	d.taken = append(d.taken, e)
	return d.blind
}

// every document, by the name of its file.
func every(r *Reports) map[string]func() ([]byte, string, error) {
	ctx, by := context.Background(), assessment.Actor{}
	return map[string]func() ([]byte, string, error){
		"record-circuit-change-2026-11-18.pdf": func() ([]byte, string, error) { return r.Record(ctx, by, "d", wording.English) },
		"checklist-go-bag-revision-4.pdf":      func() ([]byte, string, error) { return r.Blank(ctx, by, "r") },
		"certificate-128-2027-01-15.pdf":       func() ([]byte, string, error) { return r.CertificatePDF(ctx, by, "c") },
		"old-paper-2026-11-18.jpg":             func() ([]byte, string, error) { return r.CarriedPaper(ctx, by, "p", "a") },
		"page-2.pdf":                           func() ([]byte, string, error) { return r.PaperPage(ctx, by, "d", 2) },
		"overdue-2027-01-15.pdf":               func() ([]byte, string, error) { return r.Overdue(ctx, by, office.OverdueQuery{}) },
		"overdue-by-skill-2027-01-15.pdf": func() ([]byte, string, error) {
			return r.Overdue(ctx, by, office.OverdueQuery{BySkill: true})
		},
		"overdue-2027-01-15.csv":                                      func() ([]byte, string, error) { return r.OverdueCSV(ctx, by, office.OverdueQuery{}) },
		"overdue-2027-01-15.xlsx":                                     func() ([]byte, string, error) { return r.OverdueXLSX(ctx, by, office.OverdueQuery{}) },
		"coverage-2027-03-12-2027-03-25.pdf":                          func() ([]byte, string, error) { return r.Coverage(ctx, by, office.CoverageQuery{}) },
		"visits-2027-03-12-2027-05-06.pdf":                            func() ([]byte, string, error) { return r.Visits(ctx, by, office.VisitQuery{}) },
		"visits-2027-03-12-2027-05-06.ics":                            func() ([]byte, string, error) { return r.VisitsICS(ctx, by, office.VisitQuery{}) },
		"coverage-2027-03-12-2027-03-25.csv":                          func() ([]byte, string, error) { return r.CoverageCSV(ctx, by, office.CoverageQuery{}) },
		"coverage-2027-03-12-2027-03-25.xlsx":                         func() ([]byte, string, error) { return r.CoverageXLSX(ctx, by, office.CoverageQuery{}) },
		"readiness-7k-2026-11-18.pdf":                                 func() ([]byte, string, error) { return r.Readiness(ctx, by, "m", time.Time{}, wording.English) },
		"packet-period-" + issued.UTC().Format("2006-01-02") + ".pdf": func() ([]byte, string, error) { return r.PacketFile(ctx, by, "p", "pdf") },
		"packet-period-" + issued.UTC().Format("2006-01-02") + ".zip": func() ([]byte, string, error) { return r.PacketFile(ctx, by, "p", "zip") },
		"cards-2026-11-30.pdf":                                        func() ([]byte, string, error) { return r.SkillsDayCards(ctx, by, "s") },
		"handover-2027-01-15.json":                                    func() ([]byte, string, error) { return r.Handover(ctx, by, "p") },
		"transcript-2027-01-15.pdf":                                   func() ([]byte, string, error) { return r.Transcript(ctx, by, "p", civil.Date{}, wording.English) },
		"standings-2027-01-15.csv":                                    func() ([]byte, string, error) { return r.StandingsCSV(ctx, by, office.GridQuery{}) },
		"standings-2027-01-15.xlsx":                                   func() ([]byte, string, error) { return r.StandingsXLSX(ctx, by, office.GridQuery{}) },
		"questions-suction-es.pdf":                                    func() ([]byte, string, error) { return r.Questions(ctx, by, "suction", wording.Spanish) },
		"lesson-go-bag-es.pdf":                                        func() ([]byte, string, error) { return r.Lesson(ctx, by, "go-bag", wording.Spanish) },
		"lessons-es.pdf":                                              func() ([]byte, string, error) { return r.Lessons(ctx, by, wording.Spanish) },
		"knowledge-check-suction-2026-11-18.pdf":                      func() ([]byte, string, error) { return r.Sitting(ctx, by, "s") },
		"learning-plan-2026-11-18.pdf":                                func() ([]byte, string, error) { return r.LearningPlan(ctx, by, "p", wording.Spanish) },
		"in-service-2026-03-01.csv":                                   func() ([]byte, string, error) { return r.InServiceCSV(ctx, by) },
	}
}

// Each document asks the office once and draws what it was told.
func TestEachDocumentAsksOnce(t *testing.T) {
	d := &desk{t: t}
	for want, draw := range every(&Reports{d}) {
		d.asked, d.taken = 0, nil
		body, name, err := draw()
		if err != nil || name != want || d.asked != 1 || len(d.taken) != 1 || d.taken[0].Paper == "" {
			t.Errorf("%s: named %q, asked %d times, written down as %v, %v", want, name, d.asked, d.taken, err)
		}
		if strings.HasSuffix(want, ".pdf") && !bytes.HasPrefix(body, []byte("%PDF-")) {
			t.Errorf("%s begins with %q", want, body[:min(len(body), 8)])
		}
	}
}

func TestCertificatePDFIsWhatWasIssued(t *testing.T) {
	body, _, err := (&Reports{&desk{t: t}}).CertificatePDF(context.Background(), assessment.Actor{}, "c")
	if err != nil || string(body) != "%PDF-1.3 as it was issued" {
		t.Errorf("%q, %v", body, err)
	}
}

// A refusal of the office comes through as such, and nothing is drawn.
func TestRefusalsComeThrough(t *testing.T) {
	refused := fault.Of(fault.Forbidden, "This is not yours to read.")
	for name, draw := range every(&Reports{&desk{t: t, fails: refused}}) {
		body, file, err := draw()
		if !errors.Is(err, refused) || fault.KindOf(err) != fault.Forbidden || body != nil || file != "" {
			t.Errorf("%s: %d bytes in %q, %v", name, len(body), file, err)
		}
	}
}

// Nothing leaves that cannot be written down, and what is refused leaves no line.
func TestNoPaperLeavesUnseen(t *testing.T) {
	blind := errors.New("the database is away")
	for name, draw := range every(&Reports{&desk{t: t, blind: blind}}) {
		if body, file, err := draw(); !errors.Is(err, blind) || body != nil || file != "" {
			t.Errorf("%s: %d bytes in %q, %v", name, len(body), file, err)
		}
	}
	d := &desk{t: t, fails: fault.Of(fault.NotFound, "There is no such record.")}
	for _, draw := range every(&Reports{d}) {
		_ = third(draw())
	}
	if len(d.taken) != 0 {
		t.Errorf("written down though refused: %v", d.taken)
	}
}

func TestFileNames(t *testing.T) {
	for want, parts := range map[string][]string{
		"record-circuit-change.pdf": {"record", "circuit-change"},
		"a-b-c.pdf":                 {" A_b ", "", "C/../\"\r\n"},
		"x.pdf":                     {"x", "Ольга", "…"},
	} {
		if got := fileName("pdf", parts...); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

func TestCounting(t *testing.T) {
	for want, got := range map[string]string{
		"1 day": counted(1, "day", "days"), "0 days": counted(0, "day", "days"), "21 days": counted(21, "day", "days"),
		"twelve": spelled(12), "13": spelled(13), "no": spelled(0), "-1": spelled(-1),
		"a, b and c": listed([]string{"a", "b", "c"}), "a and b": listed([]string{"a", "b"}), "a": listed([]string{"a"}),
		"Łucja": capital("łucja"), "Done.": ended("Done"), "Really?": ended(" Really? "), "and so on…": ended("and so on…"),
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	if listed(nil)+capital("")+ended(" ") != "" {
		t.Error("nothing has words")
	}
}

// Every standing has a shape of its own.
func TestEveryStandingHasItsShape(t *testing.T) {
	seen := map[shape]bool{noShape: true}
	for _, w := range []assessment.StandingWord{assessment.NotStarted, assessment.Learning, assessment.Current, assessment.Due, assessment.Lapsed, assessment.Withdrawn, assessment.Waived} {
		s := standing(w)
		if seen[s.shape] || s.text != string(w) {
			t.Errorf("%s has shape %d and says %q", w, s.shape, s.text)
		}
		seen[s.shape] = true
	}
}
