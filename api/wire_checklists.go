package api

import (
	"time"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// Skill is something to be shown, with the revisions of its checklist.
type Skill struct {
	SkillRef
	Scope     string     `json:"scope" enum:"general,client-specific" doc:"Whether it is held for every child or for each by itself."`
	InForce   int        `json:"in_force,omitempty" doc:"Number of the revision in force; left out for none."`
	Revisions []Revision `json:"revisions" doc:"Newest first."`
}

// Starter is a checklist of the catalogue that the agency has not taken up yet.
type Starter struct {
	Code  string `json:"code"`
	Title string `json:"title"`
}

// Revision is one version of a checklist, without its steps.
type Revision struct {
	ID        string     `json:"id" format:"uuid"`
	Skill     SkillRef   `json:"skill"`
	Number    int        `json:"number"`
	State     string     `json:"state" enum:"draft,in force,retired"`
	Version   string     `json:"version" doc:"The same for the same text and another for every other, as a draft is changed. Whoever proposes to put the draft in force says which one they read."`
	DraftedAt time.Time  `json:"drafted_at"`
	DraftedBy string     `json:"drafted_by,omitempty"`
	InForceAt *time.Time `json:"in_force_at,omitempty"`
	InForceBy string     `json:"in_force_by,omitempty"`
	Statement string     `json:"statement,omitempty" doc:"What was reviewed and against what when it came into force."`
	RetiredAt *time.Time `json:"retired_at,omitempty"`
}

// RevisionInFull is one version of a checklist with its steps.
type RevisionInFull struct {
	Revision
	Checklist Checklist `json:"checklist"`
}

// Checklist is what is shown, and by which rules it is judged.
type Checklist struct {
	Title         string             `json:"title"`
	Scope         string             `json:"scope" enum:"general,client-specific"`
	ManikinOnly   bool               `json:"manikin_only" doc:"Never shown on a child."`
	Purpose       string             `json:"purpose"`
	Safety        []string           `json:"safety" doc:"Cautions to be shown with it."`
	Equipment     []string           `json:"equipment" doc:"What to lay out."`
	Prerequisites []string           `json:"prerequisites" doc:"Codes of skills that must be current first."`
	Related       []string           `json:"related" doc:"Codes of skills shown again with it after a deficiency."`
	Parameters    []ChecklistOrdered `json:"parameters" doc:"The values of the child that it relies on."`
	Sections      []Section          `json:"sections"`
	Policy        []string           `json:"policy" doc:"How it is scored, what makes a competency and how long that holds, in words."`
	Sources       []string           `json:"sources"`
}

// ChecklistOrdered is a value of the child that a checklist relies on.
type ChecklistOrdered struct {
	Name    string `json:"name"`
	Says    string `json:"says"`
	Unit    string `json:"unit,omitempty"`
	Default string `json:"default,omitempty"`
}

// Section groups steps under a heading.
type Section struct {
	Title string `json:"title"`
	Steps []Step `json:"steps"`
}

// Step is one line of a checklist.
type Step struct {
	No          int       `json:"no"`
	Text        string    `json:"text"`
	Kind        string    `json:"kind" enum:"done,timed,measured,said aloud"`
	Critical    bool      `json:"critical"`
	Because     string    `json:"because,omitempty" doc:"Why it is critical."`
	Weight      int       `json:"weight"`
	Least       string    `json:"least,omitempty" doc:"The least mark that it accepts, where it is critical."`
	MayNotApply string    `json:"may_not_apply,omitempty" doc:"When it may be marked as not applicable; left out for never."`
	Note        string    `json:"note,omitempty" doc:"For the observer."`
	Measures    []Measure `json:"measures"`
}

// Measure is one value that a step asks for.
type Measure struct {
	Name      string `json:"name"`
	Unit      string `json:"unit,omitempty" doc:"Left out: the one in which the child's value is ordered."`
	Accepted  string `json:"accepted" doc:"The accepted range, in words; on a sheet as it is for this child."`
	Low       string `json:"low,omitempty" doc:"Only on a sheet: the least accepted, an exact number in the unit."`
	High      string `json:"high,omitempty" doc:"Only on a sheet: the most accepted, an exact number in the unit."`
	Exclusive bool   `json:"exclusive,omitempty" doc:"The ends themselves are not accepted."`
	Magnitude bool   `json:"magnitude,omitempty" doc:"Compared without sign."`
	Either    string `json:"either,omitempty" doc:"Of those that share this word one is enough."`
}

// Comparison is what makes one revision differ from another.
type Comparison struct {
	Older   Revision `json:"older"`
	Newer   Revision `json:"newer"`
	Changes []Change `json:"changes"`
}

// Change is one difference, in words.
type Change struct {
	Where  string `json:"where" example:"Step 5"`
	What   string `json:"what" example:"text"`
	Before string `json:"before,omitempty" doc:"Left out for what was added."`
	After  string `json:"after,omitempty" doc:"Left out for what was removed."`
}

func skill(v office.SkillView) Skill {
	return Skill{SkillRef: SkillRef{string(v.ID), v.Code, v.Title}, Scope: string(v.Scope), InForce: v.InForce, Revisions: each(v.Revisions, revision)}
}

func revision(v office.RevisionView) Revision {
	return Revision{ID: string(v.ID), Skill: SkillRef{string(v.Skill), v.Code, v.Title}, Number: v.Number, State: string(v.State), Version: v.Version, DraftedAt: v.DraftedAt.UTC(),
		DraftedBy: v.DraftedBy, InForceAt: maybeInstant(v.InForceAt), InForceBy: v.InForceBy, Statement: v.Statement, RetiredAt: maybeInstant(v.RetiredAt)}
}

func checklist(c assessment.Checklist) Checklist {
	v := Checklist{Title: c.Title, Scope: string(c.Scope), ManikinOnly: c.ManikinOnly, Purpose: c.Purpose, Safety: texts(c.Safety), Equipment: texts(c.Equipment),
		Prerequisites: texts(c.Prerequisites), Related: texts(c.Related), Policy: texts(c.Policy.InWords()), Sources: texts(c.Sources)}
	v.Parameters = each(c.Parameters, func(p assessment.Parameter) ChecklistOrdered {
		o := ChecklistOrdered{Name: p.Name, Says: p.Says, Unit: p.Unit}
		if p.Default != nil {
			o.Default = p.Default.String()
		}
		return o
	})
	v.Sections = each(c.Sections, func(s assessment.Section) Section { return Section{Title: s.Title, Steps: each(s.Steps, step)} })
	return v
}

func step(s assessment.Step) Step {
	return Step{No: s.No, Text: s.Text, Kind: string(s.Kind), Critical: s.Critical, Because: s.Because, Weight: s.Weight, Least: string(s.Least),
		MayNotApply: s.MayNotApply, Note: s.Note, Measures: each(s.Measures, func(m assessment.Measure) Measure {
			return Measure{Name: m.Name, Unit: m.Unit, Accepted: m.RangeInWords(), Exclusive: m.Exclusive, Magnitude: m.Magnitude, Either: m.Either}
		})}
}

func change(c assessment.Change) Change {
	return Change{c.Where.String(), c.Called(), c.Before.String(), c.After.String()}
}
