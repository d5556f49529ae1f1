package web

import (
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

func learningAt(person assessment.PersonID) string { return "/learning/" + string(person) }

// plan is a caregiver's own learning plan.
func (s *Site) plan(v *visit) error {
	d, err := s.office.LearningPlan(v.ctx(), v.by(), v.by().Person)
	if err != nil {
		return err
	}
	return v.show(v.planPage(d))
}

func (v *visit) planPage(d office.LearningPlan) PlanPage {
	words := v.words()
	page := PlanPage{Frame: v.frame("home"), Name: d.Person.Name, Answer: words.Of(d.Answer()), Dates: planDates(d, words), Held: len(d.Held), Next: words.Of(d.Next()), Print: learningAt(d.Person.ID) + "/plan.pdf"}
	page.Lines, page.Taught, page.Practice = v.planLines(d)
	if v.may(assessment.NotePractice) && d.Person.ID == v.by().Person {
		page.practise(d)
	}
	return page
}

// practise leads from each skill to where its owner writes down what they practised alone.
func (p *PlanPage) practise(d office.LearningPlan) {
	for i, l := range d.Lines {
		p.Lines[i].Run, p.Lines[i].Own = runAt(d.Person.ID, l), true
	}
}

func runAt(person assessment.PersonID, l office.LearningLine) string {
	return learningAt(person) + "/practice?what=" + l.Skill.Code + "+" + string(l.Client.ID)
}

func (v *visit) planLines(d office.LearningPlan) (lines []LearningLine, taught []TaughtLine, runs []PracticeEntry) {
	words := v.words()
	for _, l := range d.Lines {
		lines = append(lines, learnLine(l, words))
	}
	for _, t := range d.Sessions {
		taught = append(taught, taughtLine(t, d.Person.ID, words))
	}
	for _, r := range d.Runs {
		runs = append(runs, practiceEntry(r, words))
	}
	return lines, taught, runs
}

// learning is somebody's plan: as whoever keeps it reads it, or as its owner does.
func (s *Site) learning(v *visit) error {
	id, err := pathID[assessment.PersonID](v, "id")
	if err != nil {
		return err
	}
	d, err := s.office.LearningPlan(v.ctx(), v.by(), id)
	if err != nil {
		return err
	}
	if !v.whole(assessment.ReadLearning) {
		return v.show(v.planPage(d))
	}
	return v.show(v.learningPage(d))
}

func (v *visit) learningPage(d office.LearningPlan) LearningPage {
	at := learningAt(d.Person.ID)
	page := LearningPage{Frame: v.frame("people"), ID: string(d.Person.ID), Name: d.Person.Name, Answer: strings.ReplaceAll(v.words().Of(d.Answer()), "of you yet", "of them yet"), Dates: planDates(d, v.words()), Next: v.words().Of(d.Next()), Prints: printsOf(d.Person)}
	page.Lines, page.Taught, page.Practice = v.planLines(d)
	for _, h := range d.Held {
		page.Held = append(page.Held, Link{h.Skill.Title + withChild(h.Client) + ", through " + day(h.Through), "/people/" + string(d.Person.ID)})
	}
	if v.may(assessment.PlanLearning) {
		page.Days = "/learning"
		page.Target = TargetForm{Action: at + "/target", Goal: string(d.Goal), Goals: goalOptions()}
		if d.Chosen {
			page.Target.On = isoDay(d.Dates.Target)
		}
		page.Choose = ChooseForm{Action: at + "/choices", Skills: []Option{{Text: "Choose the skill"}}, Teachers: personOptions("nobody yet", d.Teachers)}
		for _, l := range d.Lines {
			page.Choose.Skills = append(page.Choose.Skills, Option{Value: l.Skill.Code + " " + string(l.Client.ID), Text: l.Skill.Title + withChild(l.Client)})
		}
	}
	if v.may(assessment.LogCare) && d.Person.ID != v.by().Person {
		v.teachForms(&page, d)
	}
	return page
}

// teachForms are for whoever writes down what was taught and practised.
func (v *visit) teachForms(page *LearningPage, d office.LearningPlan) {
	at := learningAt(d.Person.ID)
	for i, t := range d.Sessions {
		page.Taught[i].Href = "/teaching/" + string(t.ID)
	}
	f := TeachForm{Action: at + "/sessions", ID: d.ID, On: isoDay(d.Today), Trainer: string(v.by().Person), Trainers: personOptions("Choose who taught", d.Teachers), Clients: []Option{{Text: "no child"}}, How: howOptions(assessment.TaughtHow{})}
	for _, c := range d.Clients {
		f.Clients = append(f.Clients, Option{Value: string(c.ID), Text: clientName(c)})
	}
	for _, s := range d.Skills {
		if !slices.ContainsFunc(f.Skills, func(o Option) bool { return o.Value == s.Skill.Code }) {
			f.Skills = append(f.Skills, Option{Value: s.Skill.Code, Text: s.Skill.Title})
		}
		page.Practise.Skills = append(page.Practise.Skills, Option{Value: s.Skill.Code + " " + string(s.Client.ID), Text: s.Skill.Title + withChild(s.Client)})
	}
	for _, p := range d.Learners {
		if p.ID != d.Person.ID {
			f.Beside = append(f.Beside, Option{Value: string(p.ID), Text: p.Name, Hint: kindOf(p)})
		}
	}
	page.Teach, page.Practise.Action = f, at+"/practice"
	for i, l := range d.Lines {
		page.Lines[i].Run = runAt(d.Person.ID, l)
	}
}

func withChild(c office.ClientRef) string {
	if c.ID == "" {
		return ""
	}
	return ", for " + clientName(c)
}

func goalOptions() []Option {
	return []Option{{Value: string(assessment.GoingHome), Text: "going home"}, {Value: string(assessment.FirstShift), Text: "a first shift"}, {Value: string(assessment.OtherGoal), Text: "something else"}}
}

func personOptions(none string, people []office.PersonRef) []Option {
	all := []Option{{Text: none}}
	for _, p := range people {
		all = append(all, Option{Value: string(p.ID), Text: p.Name})
	}
	return all
}

func (s *Site) learningPlanPDF(v *visit) error {
	id, err := pathID[assessment.PersonID](v, "id")
	if err != nil {
		return err
	}
	body, name, err := s.opt.Papers.LearningPlan(v.ctx(), v.by(), id, v.paperLanguage())
	if err != nil {
		return err
	}
	return file(v.c, body, name, "application/pdf")
}

// printsOf leads to a plan on paper, first in the language of whose it is.
func printsOf(p office.PersonView) []Link {
	var all []Link
	for _, l := range wording.Languages {
		one := Link{"Print it: " + l.Own(), learningAt(p.ID) + "/plan.pdf?language=" + string(l)}
		if string(l) == p.Language {
			all = append([]Link{one}, all...)
			continue
		}
		all = append(all, one)
	}
	return all
}

// onLearning carries out what a form of a plan asks for, and shows the plan with its faults
// where that is refused.
func (s *Site) onLearning(v *visit, done string, do func(assessment.PersonID) error, refused func(*LearningPage, error) error) error {
	id, err := pathID[assessment.PersonID](v, "id")
	if err != nil {
		return err
	}
	wrong := do(id)
	if wrong == nil {
		return v.to(learningAt(id), done)
	}
	d, err := s.office.LearningPlan(v.ctx(), v.by(), id)
	if err != nil {
		return err
	}
	page := v.learningPage(d)
	if err := refused(&page, wrong); err != nil {
		return err
	}
	return v.again(page)
}

func (s *Site) setTarget(v *visit) error {
	return s.onLearning(v, "The target is kept.", func(id assessment.PersonID) error {
		return s.office.SetLearningTarget(v.ctx(), v.by(), office.LearningTargetForm{Person: id, Goal: v.form("goal"), On: v.form("on")})
	}, func(p *LearningPage, err error) error {
		p.Target.Goal, p.Target.On = v.form("goal"), v.form("on")
		return v.take(&p.Target.Faults, err, "The target was not kept.", label("goal", "Toward"), label("on", "Ready by"))
	})
}

func (s *Site) chooseLearning(v *visit) error {
	return s.onLearning(v, "The choice is kept.", func(id assessment.PersonID) error {
		skill, client, _ := strings.Cut(v.form("skill"), " ")
		teacher, err := formID[assessment.PersonID](v, "teacher")
		if err != nil {
			return err
		}
		return s.office.ChooseLearning(v.ctx(), v.by(), office.LearningChoiceForm{Person: id, Skill: skill, Client: assessment.ClientID(client), Teacher: teacher, By: v.form("by")})
	}, func(p *LearningPage, err error) error {
		p.Choose.Skill, p.Choose.Teacher, p.Choose.By = v.c.PostForm("skill"), v.form("teacher"), v.form("by")
		return v.take(&p.Choose.Faults, err, "The choice was not kept.", label("skill", "Skill"), label("teacher", "Teacher"), label("by", "By"), label("client", "Child"))
	})
}

func (s *Site) learningDays(v *visit) error {
	page, err := s.learningDaysPage(v)
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) learningDaysPage(v *visit) (LearningDaysPage, error) {
	d, err := s.office.LearningDesk(v.ctx(), v.by())
	page := LearningDaysPage{Frame: v.frame("checklists"), Action: "/learning/days", Skills: []Option{{Text: "Choose the skill"}}}
	for _, k := range d.Skills {
		row := LearningDaysRow{k.Title, count(k.Days, "day", "days")}
		if !k.Set {
			row.Says += ": common practice, as long as you set none"
		}
		page.Rows, page.Skills = append(page.Rows, row), append(page.Skills, Option{Value: k.Code, Text: k.Title})
	}
	return page, err
}

func (s *Site) setLearningDays(v *visit) error {
	refused := s.office.SetLearningDays(v.ctx(), v.by(), v.form("skill"), v.form("days"))
	if refused == nil {
		return v.to("/learning", "The days are kept.")
	}
	page, err := s.learningDaysPage(v)
	if err != nil {
		return err
	}
	page.Skill, page.Days = v.form("skill"), v.form("days")
	if err := v.take(&page.Faults, refused, "The days were not kept.", label("skill", "Skill"), label("days", "Days")); err != nil {
		return err
	}
	return v.again(page)
}
