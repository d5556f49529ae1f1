// Package web is pages for people: one page, one struct, one template, one
// handler, and each handler asks the office one thing. Forms work without
// JavaScript; what somebody typed is never lost to a fault.
package web

import (
	"context"
	"net/http"
	"time"

	"github.com/gin-gonic/gin"

	"wellshown/assessment"
	"wellshown/assessment/intake"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

// Papers draws documents; reports does it. Each answers with the bytes and a
// file name.
type Papers interface {
	Record(context.Context, assessment.Actor, assessment.DemonstrationID, wording.Language) ([]byte, string, error)
	PaperPage(context.Context, assessment.Actor, assessment.DemonstrationID, int) ([]byte, string, error)
	ListTemplate(context.Context, assessment.Actor, intake.Kind, string) ([]byte, string, error)
	CarriedPaper(context.Context, assessment.Actor, assessment.PersonID, assessment.RecordID) ([]byte, string, error)
	Blank(context.Context, assessment.Actor, assessment.RevisionID) ([]byte, string, error)
	CertificatePDF(context.Context, assessment.Actor, assessment.CertificateID) ([]byte, string, error)
	Overdue(context.Context, assessment.Actor, office.OverdueQuery) ([]byte, string, error)
	OverdueCSV(context.Context, assessment.Actor, office.OverdueQuery) ([]byte, string, error)
	OverdueXLSX(context.Context, assessment.Actor, office.OverdueQuery) ([]byte, string, error)
	Coverage(context.Context, assessment.Actor, office.CoverageQuery) ([]byte, string, error)
	VisitsICS(context.Context, assessment.Actor, office.VisitQuery) ([]byte, string, error)
	Visits(context.Context, assessment.Actor, office.VisitQuery) ([]byte, string, error)
	InServiceCSV(context.Context, assessment.Actor) ([]byte, string, error)
	CoverageCSV(context.Context, assessment.Actor, office.CoverageQuery) ([]byte, string, error)
	CoverageXLSX(context.Context, assessment.Actor, office.CoverageQuery) ([]byte, string, error)
	StandingsCSV(context.Context, assessment.Actor, office.GridQuery) ([]byte, string, error)
	StandingsXLSX(context.Context, assessment.Actor, office.GridQuery) ([]byte, string, error)
	Readiness(context.Context, assessment.Actor, assessment.ClientID, time.Time, wording.Language) ([]byte, string, error)
	Questions(context.Context, assessment.Actor, string, wording.Language) ([]byte, string, error)
	Lesson(context.Context, assessment.Actor, string, wording.Language) ([]byte, string, error)
	Lessons(context.Context, assessment.Actor, wording.Language) ([]byte, string, error)
	HomePaper(context.Context, assessment.Actor, assessment.ClientID, assessment.HomePaper, wording.Language) ([]byte, string, error)
	Sitting(context.Context, assessment.Actor, assessment.RecordID) ([]byte, string, error)
	LearningPlan(context.Context, assessment.Actor, assessment.PersonID, wording.Language) ([]byte, string, error)
	SkillsDayCards(context.Context, assessment.Actor, assessment.SkillsDayID) ([]byte, string, error)
	Handover(context.Context, assessment.Actor, assessment.PersonID) ([]byte, string, error)
	Transcript(context.Context, assessment.Actor, assessment.PersonID, civilDate, wording.Language) ([]byte, string, error)
	PacketFile(context.Context, assessment.Actor, assessment.PacketID, string) ([]byte, string, error)
}

// Options are what the pages cannot make themselves.
type Options struct {
	Papers    Papers
	Secure    bool                         // people reach the site over TLS
	RequestID func(context.Context) string // to quote when asking for help
}

// Site is all pages over one office.
type Site struct {
	office *office.Office
	pages  *Pages
	assets *Assets
	opt    Options
}

// Routes puts every page on the engine.
func Routes(engine *gin.Engine, o *office.Office, opt Options) *Site {
	assets, pages := embedded()
	s := &Site{office: o, pages: pages, assets: assets, opt: opt}
	for _, r := range s.routes() {
		engine.Handle(r.Method, r.Path, s.serve(r))
	}
	engine.GET(AssetPrefix+"*file", gin.WrapH(assets))
	bedside := embeddedBedside().serve(s)
	engine.GET(BedsidePrefix, bedside)
	engine.GET(BedsidePrefix+":file", bedside)
	return s
}

// NotFound answers for an address that no page has.
func (s *Site) NotFound(c *gin.Context) {
	v := s.visit(c)
	v.session, v.token, _ = s.signedIn(c.Request)
	s.fail(v, errNoPage)
}

// TooMuch answers whoever asks too much: when to try again. It asks the database
// nothing, not even who it is, since sparing it is what it is for.
func (s *Site) TooMuch(c *gin.Context, seconds int) {
	v := s.visit(c)
	page := ErrorPage{Frame: v.frame(""), Kind: "too much",
		Why: v.words().Count(seconds, "There were too many requests at once, and nothing was done. Try again in %d second.", "There were too many requests at once, and nothing was done. Try again in %d seconds.")}
	if err := s.pages.Write(c.Writer, http.StatusTooManyRequests, page); err != nil {
		logFault(v, err)
	}
}

// FromElsewhere answers what another site's page had a browser send.
func (s *Site) FromElsewhere(c *gin.Context) { s.fail(s.visit(c), errElsewhere) }

// Broke answers where something broke that nobody foresaw: with the page of our own
// faults, as far as nothing has been answered yet.
func (s *Site) Broke(c *gin.Context, err error) {
	v := s.visit(c)
	v.session, v.token, _ = s.signedIn(c.Request)
	s.fail(v, err)
}

// file sends a document for saving or printing.
func file(c *gin.Context, body []byte, name, contentType string) error {
	shown := "inline"
	if contentType != "application/pdf" { // a text or a table is to be kept, not read on the screen
		shown = "attachment"
	}
	c.Header("Content-Disposition", shown+`; filename="`+name+`"`)
	c.Header("Cache-Control", "no-store")
	c.Data(http.StatusOK, contentType, body)
	return nil
}
