package api

import (
	"time"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// PlanTemplate is what new plans for going home begin with.
type PlanTemplate struct {
	Own   bool           `json:"own" doc:"It is the agency's own. Else it is the standard one, and its lines have no ids."`
	Lines []TemplateLine `json:"lines"`
}

// TemplateLine is a line of the template.
type TemplateLine struct {
	ID     string   `json:"id,omitempty" format:"uuid"`
	Kind   string   `json:"kind" enum:"family current,emergency drills,cards on file,independent stay,equipment trial,equipment home,early shifts,attested" doc:"How it is judged."`
	Title  string   `json:"title"`
	Skills []string `json:"skills" doc:"Codes. None: what the family must hold for the child."`
	Count  int      `json:"count" doc:"Family caregivers needed."`
	Hours  int      `json:"hours" doc:"Planned hours; 0 is not set and is never assumed."`
	Items  []string `json:"items" doc:"Of equipment."`
	Planned
}

// Planned is what else is planned for a line.
type Planned struct {
	TitleSpanish string   `json:"title_spanish,omitempty"`
	ItemsSpanish []string `json:"items_spanish" doc:"In the order of the items."`
	Says         string   `json:"says,omitempty" enum:"clinician,educator,coordinator" doc:"Who alone may say that it is so. Left out: whoever keeps the plan."`
	Licence      string   `json:"licence,omitempty" doc:"The kind of licence that it takes to say so."`
	Source       string   `json:"source,omitempty" doc:"Where the line comes from, as published."`
	By           string   `json:"by,omitempty" format:"date" doc:"Of a child's plan: its last day. Left out: that of the plan."`
	Responsible  string   `json:"responsible,omitempty" doc:"Of a child's plan: who sees to it."`
}

func planned(c assessment.Criterion) Planned {
	return Planned{TitleSpanish: c.Spanish, ItemsSpanish: texts(c.ItemsSpanish), Says: string(c.Says), Licence: c.Licence, Source: c.Source, By: c.By.String(), Responsible: c.Responsible}
}

func planTemplate(v office.TemplateView) PlanTemplate {
	return PlanTemplate{Own: v.Own, Lines: each(v.Lines, func(l office.TemplateLine) TemplateLine {
		return TemplateLine{ID: string(l.ID), Kind: string(l.Kind), Title: l.Title, Skills: texts(l.Skills), Count: l.Count, Hours: l.Hours, Items: texts(l.Items), Planned: planned(l.Criterion)}
	})}
}

// PlanForm is what else is planned for a line. Left out as a whole, it stays as it is.
type PlanForm struct {
	TitleSpanish string   `json:"title_spanish,omitempty" maxLength:"1000"`
	ItemsSpanish []string `json:"items_spanish,omitempty" maxItems:"200" doc:"In the order of the items."`
	Says         string   `json:"says,omitempty" enum:"clinician,educator,coordinator" doc:"Who alone may say that it is so. Left out: whoever keeps the plan."`
	Licence      string   `json:"licence,omitempty" maxLength:"1000" doc:"The kind of licence that it takes."`
	By           string   `json:"by,omitempty" format:"date" doc:"Its last day. Left out: that of the plan."`
	Responsible  string   `json:"responsible,omitempty" maxLength:"1000" doc:"Who sees to it."`
}

func (f *PlanForm) form() *office.PlanForm {
	if f == nil {
		return nil
	}
	return &office.PlanForm{Spanish: f.TitleSpanish, ItemsSpanish: f.ItemsSpanish, Says: f.Says, Licence: f.Licence, By: f.By, Responsible: f.Responsible}
}

// TemplateLineForm is a line of the template to be changed. How it is judged stays.
type TemplateLineForm struct {
	CriterionForm
	Source string `json:"source,omitempty" maxLength:"1000" doc:"As published. Left out: the agency's own."`
}

func (f TemplateLineForm) templateForm() office.TemplateLineForm {
	return office.TemplateLineForm{CriterionForm: f.form(), Source: f.Source}
}

// NewTemplateLine is a line of the template to be added.
type NewTemplateLine struct {
	TemplateLineForm
	ID   string `json:"id,omitempty" doc:"A UUID of your own, so that sending twice adds one line."`
	Kind string `json:"kind" enum:"family current,emergency drills,cards on file,independent stay,equipment trial,equipment home,early shifts,attested"`
}

// PlanDays are when a child is to go home. What is left out is not set.
type PlanDays struct {
	Meeting string `json:"meeting,omitempty" format:"date" doc:"Of the discharge meeting."`
	Home    string `json:"home,omitempty" format:"date" doc:"Of going home."`
}

// PlanSignatureForm signs a whole plan as ready.
type PlanSignatureForm struct {
	Signing
	ID      string `json:"id,omitempty" doc:"A UUID of your own, so that sending twice is harmless."`
	Version string `json:"version" maxLength:"1000" doc:"Of the plan as it was read."`
}

// PlanSignature is the newest signature under a plan.
type PlanSignature struct {
	By      string    `json:"by"`
	Licence string    `json:"licence"`
	Meaning string    `json:"meaning"`
	At      time.Time `json:"at"`
	Stands  bool      `json:"stands" doc:"Nothing has changed since, and all is still in place."`
}

func planSignature(s *office.PlanSigned) *PlanSignature {
	if s == nil {
		return nil
	}
	return &PlanSignature{s.By, s.Licence, s.Meaning, s.At.UTC(), s.Stands}
}

// Todo is one thing that is left.
type Todo struct {
	What string `json:"what"`
	Who  string `json:"who" enum:"family,agency,clinician" doc:"Who sees to it."`
	Name string `json:"name,omitempty" doc:"Of the one whom it takes, or whom the plan names."`
	By   string `json:"by,omitempty" format:"date" doc:"Its last day."`
}

func todo(t assessment.Todo) Todo { return Todo{t.String(), string(t.Who), t.Name, t.By.String()} }
