package api

import (
	"maps"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
)

// MarkForm is what an observer puts down at one step: a mark with the values that
// the step asks for, or that it does not apply, with the reason.
type MarkForm struct {
	Mark          string             `json:"mark,omitempty" enum:"independent,cued,assisted,not met,unsafe"`
	NotApplicable bool               `json:"not_applicable,omitempty"`
	Reason        string             `json:"reason,omitempty" maxLength:"2000" doc:"Why it does not apply here."`
	Readings      map[string]Reading `json:"readings,omitempty" maxProperties:"50" doc:"Values by the name of the measure."`
	Note          string             `json:"note,omitempty" maxLength:"2000"`
}

// StepMarks are marks of several steps.
type StepMarks struct {
	Marks []StepMark `json:"marks" maxItems:"1000"`
}

// StepMark is what an observer puts down at a step.
type StepMark struct {
	Step int `json:"step" minimum:"1" maximum:"1000"`
	MarkForm
}

// Reading is a value as it was read off, in the unit of what it was read from.
type Reading struct {
	Value string `json:"value" maxLength:"100" doc:"An exact number, as text: a decimal or a fraction." example:"14.9"`
	Unit  string `json:"unit,omitempty" maxLength:"100" example:"s"`
}

// Mark is what stands at a step.
type Mark struct {
	Step          int                `json:"step"`
	Mark          string             `json:"mark,omitempty" enum:"independent,cued,assisted,not met,unsafe"`
	Effective     string             `json:"effective,omitempty" enum:"independent,cued,assisted,not met,unsafe" doc:"The mark after the values were judged; only in records."`
	NotApplicable bool               `json:"not_applicable,omitempty"`
	Reason        string             `json:"reason,omitempty"`
	Readings      map[string]Reading `json:"readings,omitempty"`
	Note          string             `json:"note,omitempty"`
	MarkedAt      *time.Time         `json:"marked_at,omitempty"`
}

func (m MarkForm) form(step int) office.MarkForm {
	f := office.MarkForm{Step: step, Mark: m.Mark, NotApplicable: m.NotApplicable, Reason: m.Reason, Note: m.Note, Readings: map[string]postgres.Reading{}}
	for name, r := range m.Readings {
		f.Readings[name] = postgres.Reading{Value: r.Value, Unit: r.Unit}
	}
	return f
}

func mark(m postgres.SheetMark) Mark {
	w := Mark{Step: m.Step, Mark: string(m.Mark), NotApplicable: m.NotApplicable, Reason: m.Reason, Note: m.Note, MarkedAt: maybeInstant(&m.MarkedAt)}
	for name, r := range m.Readings {
		if w.Readings == nil {
			w.Readings = map[string]Reading{}
		}
		w.Readings[name] = Reading{Value: r.Value, Unit: r.Unit}
	}
	return w
}

// ordered lists a child's values by name.
func ordered(known assessment.Parameters, words map[string]string) []Ordered {
	all := map[string]Ordered{}
	for name, w := range words {
		all[name] = Ordered{Name: name, Words: w}
	}
	for name, q := range known {
		all[name] = Ordered{Name: name, Value: q.Value.String(), Unit: q.Unit, Words: q.String()}
	}
	list := []Ordered{}
	for _, name := range slices.Sorted(maps.Keys(all)) {
		list = append(list, all[name])
	}
	return list
}
