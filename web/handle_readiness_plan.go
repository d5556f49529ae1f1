package web

import (
	"context"
	"strconv"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

// startPlan gives a child the standard plan.
func (s *Site) startPlan(v *visit) error {
	return s.onReadiness(v, "The standard plan is there. Change each line for this child.", func(id assessment.ClientID) error {
		return s.office.StartPlan(v.ctx(), v.by(), id)
	}, func(page *ReadinessPage, err error) error { return v.take(&page.Faults, err, "No plan was started.") })
}

// addEvidence keeps what somebody says is so.
func (s *Site) addEvidence(v *visit) error {
	form := office.EvidenceForm{ID: v.form("id"), Word: v.form("word"), Item: v.form("item"), At: v.form("at"), Note: v.form("note")}
	return s.onReadiness(v, "It is written down, in your name.", func(assessment.ClientID) error {
		var err error
		if form.Criterion, err = assessment.ParseID[assessment.CriterionID](v.form("criterion")); err != nil {
			return err
		}
		return s.office.AddEvidence(v.ctx(), v.by(), form)
	}, func(page *ReadinessPage, err error) error {
		return page.onLine(v, v.form("criterion"), err, func(c *Criterion) error {
			if c.Say.Action == "" { // the line shows no such form
				return v.take(&page.Faults, err, "Nothing was kept.")
			}
			c.Say.ID, c.Say.Word, c.Say.Item, c.Say.At, c.Say.Note = form.ID, form.Word, form.Item, form.At, form.Note
			return v.take(&c.Say.Faults, err, "Nothing was kept.", label("word", "It is"), label("item", "Which"), label("at", "When"), label("note", "Evidence"))
		})
	})
}

func (s *Site) waiveCriterion(v *visit) error {
	return s.onWaiver(v, "It is waived, in your name.", "Nothing was waived.", s.office.WaiveCriterion, func(c *Criterion) *CriterionWaiveForm { return &c.Waive })
}

func (s *Site) endWaiver(v *visit) error {
	return s.onWaiver(v, "The waiver has ended. The line counts again.", "The waiver was not ended.", s.office.EndWaiver, func(c *Criterion) *CriterionWaiveForm { return &c.End })
}

type waiving func(ctx context.Context, by assessment.Actor, id assessment.CriterionID, item, reason string) error

func (s *Site) onWaiver(v *visit, done, what string, do waiving, form func(*Criterion) *CriterionWaiveForm) error {
	item, reason := v.form("item"), v.form("reason")
	return s.onReadiness(v, done, func(assessment.ClientID) error {
		id, err := assessment.ParseID[assessment.CriterionID](v.form("criterion"))
		if err != nil {
			return err
		}
		return do(v.ctx(), v.by(), id, item, reason)
	}, func(page *ReadinessPage, err error) error {
		return page.onLine(v, v.form("criterion"), err, func(c *Criterion) error {
			f := form(c)
			if f.Action == "" { // the line shows no such form
				return v.take(&page.Faults, err, what)
			}
			f.Item, f.Reason = item, reason
			return v.take(&f.Faults, err, what, label("item", "Which"), label("reason", "Reason"))
		})
	})
}

// sentCriterion is a line of the plan as it was typed.
func (v *visit) sentCriterion() (CriterionForm, office.CriterionForm, error) {
	typed := CriterionForm{ID: v.form("id"), Kind: v.form("kind"), Title: v.form("title"), Count: v.form("count"), Hours: v.form("hours"), Items: v.form("items"),
		Spanish: v.form("spanish"), ItemsSpanish: v.form("items_spanish"), Says: v.form("says"), Licence: v.form("licence"), By: v.form("by"), Responsible: v.form("responsible"), Source: v.form("source")}
	form := office.CriterionForm{ID: typed.ID, Kind: typed.Kind, Title: typed.Title, Skills: v.c.PostFormArray("skills"), Items: strings.Split(typed.Items, "\n"),
		Plan: &office.PlanForm{Spanish: typed.Spanish, ItemsSpanish: strings.Split(typed.ItemsSpanish, "\n"), Says: typed.Says, Licence: typed.Licence, By: typed.By, Responsible: typed.Responsible}}
	var faults fault.Fields
	form.Count, form.Hours = number(&faults, "count", typed.Count), number(&faults, "hours", typed.Hours)
	return typed, form, faults.Err()
}

// number reads a whole number; nothing is none.
func number(faults *fault.Fields, field, typed string) int {
	if typed == "" {
		return 0
	}
	n, err := strconv.Atoi(typed)
	if err != nil {
		faults.Add(field, "Give a whole number, such as 24.")
	}
	return n
}

// figure writes a number for a field; none is empty.
func figure(n int) string {
	if n == 0 {
		return ""
	}
	return strconv.Itoa(n)
}

var criterionLabels = []FieldFault{label("kind", "Judged by"), label("title", "In words"), label("skills", "Skills"), label("count", "How many"),
	label("hours", "Hours"), label("items", "Items"), label("spanish", "In Spanish"), label("items_spanish", "Items in Spanish"), label("says", "Who may say it"),
	label("licence", "With the licence"), label("by", "By when"), label("responsible", "Who sees to it"), label("source", "Source")}

func (s *Site) addCriterion(v *visit) error {
	typed, form, bad := v.sentCriterion()
	return s.onReadiness(v, "The line is on the plan.", func(id assessment.ClientID) error {
		if bad != nil {
			return bad
		}
		_, err := s.office.AddCriterion(v.ctx(), v.by(), id, form)
		return err
	}, func(page *ReadinessPage, err error) error {
		page.Add.typedAgain(typed, form.Skills)
		return v.take(&page.Add.Faults, err, "No line was added.", criterionLabels...)
	})
}

func (s *Site) changeCriterion(v *visit) error {
	typed, form, bad := v.sentCriterion()
	return s.onReadiness(v, "The line is changed.", func(assessment.ClientID) error {
		id, err := pathID[assessment.CriterionID](v, "criterion")
		if err != nil {
			return err
		}
		if bad != nil {
			return bad
		}
		return s.office.EditCriterion(v.ctx(), v.by(), id, form)
	}, func(page *ReadinessPage, err error) error {
		return page.onLine(v, v.c.Param("criterion"), err, func(c *Criterion) error {
			c.Change.typedAgain(typed, form.Skills)
			return v.take(&c.Change.Faults, err, "The line was not changed.", criterionLabels...)
		})
	})
}

// typedAgain fills a form with what was sent.
func (f *CriterionForm) typedAgain(typed CriterionForm, skills []string) {
	f.Title, f.Count, f.Hours, f.Items, f.Spanish, f.ItemsSpanish = typed.Title, typed.Count, typed.Hours, typed.Items, typed.Spanish, typed.ItemsSpanish
	f.Says, f.Licence, f.By, f.Responsible, f.Source = typed.Says, typed.Licence, typed.By, typed.Responsible, typed.Source
	f.Skills = tickAgain(f.Skills, skills)
	if len(f.Kinds) > 0 {
		f.ID, f.Kind = typed.ID, typed.Kind
	}
}

// tickAgain ticks what was sent.
func tickAgain(options []Option, sent []string) []Option {
	chosen := map[string]bool{}
	for _, s := range sent {
		chosen[s] = true
	}
	for i := range options {
		options[i].Chosen = chosen[options[i].Value]
	}
	return options
}

func (s *Site) removeCriterion(v *visit) error {
	return s.onReadiness(v, "The line is off the plan. What was said about it is kept.", func(assessment.ClientID) error {
		id, err := pathID[assessment.CriterionID](v, "criterion")
		if err != nil {
			return err
		}
		return s.office.RemoveCriterion(v.ctx(), v.by(), id)
	}, func(page *ReadinessPage, err error) error {
		return v.take(&page.Faults, err, "The line was not taken off.")
	})
}

func (s *Site) planShift(v *visit) error {
	person, err := formID[assessment.PersonID](v, "person")
	if err != nil {
		return err
	}
	form := office.ShiftForm{Person: person, Starts: v.form("starts"), Ends: v.form("ends")}
	return s.onReadiness(v, "The shift is planned.", func(id assessment.ClientID) error {
		_, err := s.office.PlanShift(v.ctx(), v.by(), id, form)
		return err
	}, func(page *ReadinessPage, err error) error {
		page.Plan.Person, page.Plan.Starts, page.Plan.Ends = string(person), form.Starts, form.Ends
		return v.take(&page.Plan.Faults, err, "No shift was planned.", label("person", "Caregiver"), label("starts", "Starts"), label("ends", "Ends"))
	})
}

func (s *Site) removeShift(v *visit) error {
	return s.onReadiness(v, "The shift is off the plan.", func(assessment.ClientID) error {
		id, err := pathID[assessment.RecordID](v, "shift")
		if err != nil {
			return err
		}
		return s.office.RemoveShift(v.ctx(), v.by(), id)
	}, func(page *ReadinessPage, err error) error {
		return v.take(&page.Faults, err, "The shift was not taken off.")
	})
}

// onReadiness does something about the way home of the child whom the address
// names. Where that is refused the page is drawn again, with the form as typed.
func (s *Site) onReadiness(v *visit, done string, do func(assessment.ClientID) error, again func(*ReadinessPage, error) error) error {
	id, err := pathID[assessment.ClientID](v, "id")
	if err != nil {
		return err
	}
	refused := do(id)
	if refused == nil {
		return v.to("/clients/"+string(id)+"/readiness", done)
	}
	page, err := s.readinessPage(v, id, civil.Date{})
	if err != nil {
		return err
	}
	if err := again(&page, refused); err != nil {
		return err
	}
	return v.again(page)
}

// onLine does something to a line of the plan. Where the line is no longer there,
// the refusal stands above the page.
func (p *ReadinessPage) onLine(v *visit, id string, err error, do func(*Criterion) error) error {
	for _, lines := range [][]Criterion{p.Left, p.Waived, p.Met} {
		for i := range lines {
			if lines[i].ID == id {
				return do(&lines[i])
			}
		}
	}
	return v.take(&p.Faults, err, "Nothing was changed.")
}
