package api

import (
	"fmt"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// Readiness is whether a child can go home: every criterion, met or not. It is
// never a percentage.
type Readiness struct {
	Client ClientRef       `json:"client"`
	At     time.Time       `json:"at" doc:"The instant asked about."`
	On     string          `json:"on" format:"date" doc:"The day that it is where the agency is."`
	Ready  bool            `json:"ready" doc:"Only if every criterion is met or waived. Whether a clinician has signed that, and it stands, is told by signed."`
	Says   string          `json:"says" doc:"The answer in words. They call a child ready only where a clinician's signature stands."`
	Left   int             `json:"left" doc:"How many are not met."`
	Family []string        `json:"family" doc:"Names of the family caregivers on the team that day."`
	Lines  []ReadinessLine `json:"lines"`
	Shifts []Shift         `json:"shifts"`
	Days   PlanDays        `json:"days"`

	Version string         `json:"version" doc:"Of the plan with all that it rests on: what a clinician signs."`
	Signed  *PlanSignature `json:"signed,omitempty" doc:"The newest signature under the plan."`
}

// ReadinessLine is the answer for one criterion.
type ReadinessLine struct {
	Criterion Criterion `json:"criterion"`
	State     string    `json:"state" enum:"met,not met,waived"`
	Left      []string  `json:"left" doc:"What is left to do."`
	Todo      []Todo    `json:"todo" doc:"The same, with who sees to it and by when."`
	Evidence  []string  `json:"evidence" doc:"What the answer rests on."`
	On        string    `json:"on,omitempty" format:"date" doc:"Of the newest evidence."`
	Flags     []string  `json:"flags" doc:"What is met today and will not be for long."`
}

// Criterion is one line of a child's plan for going home.
type Criterion struct {
	ID     string   `json:"id" format:"uuid"`
	Kind   string   `json:"kind" enum:"family current,emergency drills,cards on file,independent stay,equipment trial,equipment home,early shifts,attested" doc:"How it is judged."`
	Title  string   `json:"title"`
	Skills []string `json:"skills" doc:"Codes."`
	Count  int      `json:"count" doc:"Family caregivers needed."`
	Hours  int      `json:"hours" doc:"Planned hours; 0 is not set and is never assumed."`
	Items  []string `json:"items" doc:"Of equipment."`
	Planned
}

// CriterionForm is a line to be changed. How it is judged stays.
type CriterionForm struct {
	Title  string    `json:"title" maxLength:"1000"`
	Skills []string  `json:"skills,omitempty" maxItems:"200" doc:"Codes."`
	Count  int       `json:"count,omitempty" doc:"Family caregivers needed, at most 20."`
	Hours  int       `json:"hours,omitempty" doc:"Planned hours, at most 2000."`
	Items  []string  `json:"items,omitempty" maxItems:"200"`
	Plan   *PlanForm `json:"plan,omitempty" doc:"Left out: it stays as it is."`
}

// NewCriterion is a line to be added.
type NewCriterion struct {
	CriterionForm
	ID   string `json:"id,omitempty" doc:"A UUID of your own, so that sending twice adds one line."`
	Kind string `json:"kind" enum:"family current,emergency drills,cards on file,independent stay,equipment trial,equipment home,early shifts,attested"`
}

// CriterionID is the line that was added.
type CriterionID struct {
	ID string `json:"id" format:"uuid"`
}

// EvidenceForm is one dated statement about a line, signed with one's name.
type EvidenceForm struct {
	ID   string     `json:"id,omitempty" doc:"A UUID of your own, so that sending twice is harmless."`
	Word string     `json:"word" enum:"met,not met,delivered,started,ended" doc:"Which ones fit depends on how the line is judged."`
	Item string     `json:"item,omitempty" maxLength:"1000" doc:"For equipment: one of the line's items."`
	At   *time.Time `json:"at,omitempty" doc:"The instant that it speaks of. Left out: now."`
	Note string     `json:"note,omitempty" maxLength:"4000"`
}

// CriterionWaiver excuses a child from a line, or from one item of it.
type CriterionWaiver struct {
	Item   string `json:"item,omitempty" maxLength:"1000" doc:"Left out: the whole line."`
	Reason string `json:"reason" maxLength:"4000" doc:"Why. It stays with the plan."`
}

// Shift is one of the early shifts after going home.
type Shift struct {
	ID     string    `json:"id" format:"uuid"`
	Person Named     `json:"person"`
	Starts time.Time `json:"starts"`
	Ends   time.Time `json:"ends"`
}

// ShiftForm plans a shift.
type ShiftForm struct {
	Person string    `json:"person" doc:"An id."`
	Starts time.Time `json:"starts"`
	Ends   time.Time `json:"ends" doc:"At most 24 hours later."`
}

func readiness(v office.ReadinessView) Readiness {
	return Readiness{Client: ClientRef{string(v.Client.ID), v.Client.Code, v.Client.FirstName}, At: v.At.UTC(), On: v.On.String(), Ready: v.Ready, Says: v.Finding().String(),
		Left: v.Left(), Family: texts(v.Family), Lines: each(v.Lines, readinessLine), Shifts: each(v.Shifts, shift),
		Days: PlanDays{v.Days.Meeting.String(), v.Days.Home.String()}, Version: v.Version, Signed: planSignature(v.Signed)}
}

func readinessLine(l assessment.Line) ReadinessLine {
	c := l.Criterion
	return ReadinessLine{State: string(l.State), Left: english(l.Left), Todo: each(l.Left, todo), Evidence: english(l.Evidence), On: l.On.String(), Flags: english(l.Flags),
		Criterion: Criterion{ID: string(c.ID), Kind: string(c.Kind), Title: c.Title, Skills: texts(c.Skills), Count: c.Count, Hours: c.Hours, Items: texts(c.Items), Planned: planned(c)}}
}

func shift(v office.ShiftView) Shift {
	return Shift{ID: string(v.ID), Person: Named{string(v.Person), v.Name}, Starts: v.Starts.UTC(), Ends: v.Ends.UTC()}
}

func (c CriterionForm) form() office.CriterionForm {
	return office.CriterionForm{Title: c.Title, Skills: c.Skills, Count: c.Count, Hours: c.Hours, Items: c.Items, Plan: c.Plan.form()}
}

// english says sentences as the API does, in English.
func english[S fmt.Stringer](said []S) []string {
	return each(said, S.String)
}
