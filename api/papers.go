package api

import (
	"context"
	"fmt"
	"reflect"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

// Papers draw documents; each gives the bytes and a name for the file. They are
// handed in, so that nothing here needs to know how a paper is made, nor how it is
// written down who took one away.
type Papers struct {
	Record         func(context.Context, assessment.Actor, assessment.DemonstrationID, wording.Language) ([]byte, string, error)
	Page           func(context.Context, assessment.Actor, assessment.DemonstrationID, int) ([]byte, string, error)
	Blank          func(context.Context, assessment.Actor, assessment.RevisionID) ([]byte, string, error)
	Certificate    func(context.Context, assessment.Actor, assessment.CertificateID) ([]byte, string, error)
	Questions      func(context.Context, assessment.Actor, string, wording.Language) ([]byte, string, error)
	Lesson         func(context.Context, assessment.Actor, string, wording.Language) ([]byte, string, error)
	Lessons        func(context.Context, assessment.Actor, wording.Language) ([]byte, string, error)
	Transcript     func(context.Context, assessment.Actor, assessment.PersonID, civil.Date, wording.Language) ([]byte, string, error)
	Handover       func(context.Context, assessment.Actor, assessment.PersonID) ([]byte, string, error)
	Readiness      func(context.Context, assessment.Actor, assessment.ClientID, time.Time, wording.Language) ([]byte, string, error)
	HomePaper      func(context.Context, assessment.Actor, assessment.ClientID, assessment.HomePaper, wording.Language) ([]byte, string, error)
	LearningPlan   func(context.Context, assessment.Actor, assessment.PersonID, wording.Language) ([]byte, string, error)
	SkillsDayCards func(context.Context, assessment.Actor, assessment.SkillsDayID) ([]byte, string, error)
	Overdue        func(context.Context, assessment.Actor, office.OverdueQuery) ([]byte, string, error)
	OverdueCSV     func(context.Context, assessment.Actor, office.OverdueQuery) ([]byte, string, error)
	OverdueXLSX    func(context.Context, assessment.Actor, office.OverdueQuery) ([]byte, string, error)
	Coverage       func(context.Context, assessment.Actor, office.CoverageQuery) ([]byte, string, error)
	Packet         func(context.Context, assessment.Actor, assessment.PacketID, string) ([]byte, string, error)
	VisitsICS      func(context.Context, assessment.Actor, office.VisitQuery) ([]byte, string, error)
	Visits         func(context.Context, assessment.Actor, office.VisitQuery) ([]byte, string, error)
	CoverageCSV    func(context.Context, assessment.Actor, office.CoverageQuery) ([]byte, string, error)
	CoverageXLSX   func(context.Context, assessment.Actor, office.CoverageQuery) ([]byte, string, error)
	StandingsCSV   func(context.Context, assessment.Actor, office.GridQuery) ([]byte, string, error)
	StandingsXLSX  func(context.Context, assessment.Actor, office.GridQuery) ([]byte, string, error)
}

func (p Papers) mustBeWhole() {
	v := reflect.ValueOf(p)
	for i := range v.NumField() {
		if v.Field(i).IsNil() {
			panic(fmt.Sprintf("api: nobody draws the paper %s", v.Type().Field(i).Name))
		}
	}
}
