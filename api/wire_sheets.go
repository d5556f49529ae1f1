package api

import (
	"time"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
)

// SheetForm opens a demonstration, before it is marked.
type SheetForm struct {
	Learner     string     `json:"learner" doc:"Who shows it: an id."`
	Skill       string     `json:"skill" maxLength:"200" doc:"The code."`
	Client      string     `json:"client,omitempty" doc:"The child: an id. Needed where the skill is held for each child."`
	Place       string     `json:"place" maxLength:"500" example:"at home"`
	Real        bool       `json:"real" doc:"With the child, else in simulation."`
	Formal      bool       `json:"formal" doc:"Counts toward competence, else it is practice."`
	PerformedAt *time.Time `json:"performed_at,omitempty" doc:"Left out: now. Needed where it is from paper."`
	FromPaper   bool       `json:"from_paper,omitempty" doc:"It was marked on paper before and is typed in now."`
	// PaperRevision is checked against the one that was in force.
	PaperRevision int `json:"paper_revision,omitempty" minimum:"1" maximum:"100000" doc:"From paper: which revision is printed on it. Only that which was in force when it was performed is taken."`
}

// Sheet is a demonstration being marked.
type Sheet struct {
	SheetHead
	Parameters []Ordered  `json:"parameters" doc:"The child's values that it relies on, as they stood when it was performed."`
	Checklist  *Checklist `json:"checklist,omitempty" doc:"Only when the sheet itself is asked for or opened."`
	Marks      []Mark     `json:"marks"`
	Pages      []Page     `json:"pages" doc:"Photos and scans of the paper that it is typed in from."`
	Open       []OpenStep `json:"open" doc:"What keeps it from being recorded."`
}

// SheetHead is a sheet without its marks.
type SheetHead struct {
	ID          string    `json:"id" format:"uuid"`
	Learner     Named     `json:"learner"`
	Observer    Named     `json:"observer"`
	Title       string    `json:"title"`
	RevisionID  string    `json:"revision_id" format:"uuid"`
	Revision    int       `json:"revision"`
	Client      *Named    `json:"client,omitempty"`
	Place       string    `json:"place"`
	Real        bool      `json:"real"`
	Formal      bool      `json:"formal"`
	Stopped     bool      `json:"stopped" doc:"Ended early for safety."`
	StopReason  string    `json:"stop_reason,omitempty"`
	PerformedAt time.Time `json:"performed_at"`
	OpenedAt    time.Time `json:"opened_at"`
	FromPaper   bool      `json:"from_paper" doc:"It was marked on paper before and is typed in."`
	Drill       bool      `json:"drill" doc:"It is an emergency drill, with a scenario and a clock."`
	Marked      int       `json:"marked" doc:"How many steps have a mark or do not apply."`
}

// Ordered is one value of the child, as it stood.
type Ordered struct {
	Name  string `json:"name"`
	Value string `json:"value,omitempty" doc:"An exact number."`
	Unit  string `json:"unit,omitempty"`
	Words string `json:"words,omitempty" doc:"In words, with its unit."`
}

// OpenStep is one thing that keeps a sheet from being recorded.
type OpenStep struct {
	Step int    `json:"step"`
	Why  string `json:"why" enum:"mark,value,reason,not allowed,parameter" doc:"A mark, a value or a reason is missing; the step always applies; or a value of the child is not known."`
	Of   string `json:"of,omitempty" doc:"The value concerned."`
}

// Stop is why a performance was ended early for safety.
type Stop struct {
	Reason string `json:"reason,omitempty" maxLength:"2000"`
}

func sheetHead(s postgres.Sheet) SheetHead {
	return SheetHead{ID: string(s.ID), Learner: Named{string(s.LearnerID), s.Learner}, Observer: Named{string(s.ObserverID), s.Observer}, Title: s.Title,
		RevisionID: string(s.RevisionID), Revision: s.Revision, Client: namedClient(s.ClientID, s.Client), Place: s.Place, Real: s.RealClient, Formal: s.Formal,
		Stopped: s.Stopped, StopReason: s.StopReason, PerformedAt: s.PerformedAt.UTC(), OpenedAt: s.OpenedAt.UTC(), FromPaper: s.FromPaper, Drill: s.Drill, Marked: s.Marked}
}

func sheet(v office.SheetView) Sheet {
	s := Sheet{SheetHead: sheetHead(v.Sheet), Parameters: ordered(v.Parameters, v.Words), Marks: []Mark{}, Pages: each(v.Pages, attached)}
	for _, step := range v.Checklist.Steps() {
		if m, ok := v.Marks[step.No]; ok {
			s.Marks = append(s.Marks, mark(m))
		}
	}
	s.Open = each(v.Open, func(o assessment.Open) OpenStep { return OpenStep{o.Step, string(o.Why), o.Of} })
	return s
}

// sheetInFull is a sheet with its checklist.
func sheetInFull(v office.SheetView) Sheet {
	s, c := sheet(v), checklist(v.Checklist)
	for i, section := range v.Checklist.Sections {
		for j, step := range section.Steps {
			read := readings(v.Marks[step.No])
			for k, m := range step.Measures {
				c.Sections[i].Steps[j].Measures[k].fit(m, v.Parameters, read)
			}
		}
	}
	s.Checklist = &c
	return s
}

// fit shows the range as it is for a child. Where a value that it needs is not
// known yet it stays as it is written.
func (w *Measure) fit(m assessment.Measure, known assessment.Parameters, read map[string]assessment.Quantity) {
	a, missing, err := m.Accepted(known, read)
	if err != nil || missing != "" {
		return
	}
	w.Accepted, w.Unit = a.InWords(), a.Unit
	if a.Low != nil {
		w.Low = a.Low.String()
	}
	if a.High != nil {
		w.High = a.High.String()
	}
}

// readings are the values that stand at a step.
func readings(m postgres.SheetMark) map[string]assessment.Quantity {
	read := map[string]assessment.Quantity{}
	for name, r := range m.Readings {
		if n, err := assessment.ParseNumber(r.Value); err == nil {
			read[name] = assessment.Quantity{Value: n, Unit: r.Unit}
		}
	}
	return read
}
