package web

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/knowledge"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/assessment/wording"
)

// checkBank shows rule, results and items of one skill's check.
func (s *Site) checkBank(v *visit) error {
	page, err := s.checkBankPage(v)
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) checkBankPage(v *visit) (CheckBankPage, error) {
	d, err := s.office.CheckBank(v.ctx(), v.by(), v.c.Param("code"))
	if err != nil {
		return CheckBankPage{}, err
	}
	r := d.Rule
	page := CheckBankPage{Frame: v.frame("checklists"), Title: d.Skill.Title, At: checksAt + "/" + d.Skill.Code, Asked: checkRuleWords(r), Starter: d.Starter, May: v.may(assessment.EditChecks), Few: office.FewAnswers}
	if page.May {
		page.New = page.At + "/new-item"
	}
	if !r.SetAt.IsZero() {
		page.By = r.SetName + ", " + instant(r.SetAt, v.zone())
	}
	for _, p := range d.People {
		page.People = append(page.People, checkPerson(p, v))
	}
	for _, i := range d.Items {
		line := checkItem(i, v)
		line.Href = itemAt(d.Skill.Code, i.Item.ID)
		if line.CSRF = page.CSRF; page.May {
			line.Retire = line.Href + "/retirement"
		}
		if i.Retired {
			page.Retired = append(page.Retired, line)
		} else {
			page.Items = append(page.Items, line)
		}
	}
	if len(page.Items) > 0 {
		for _, in := range wording.Languages {
			page.Print = append(page.Print, Tongue{in.Own(), string(in), page.At + "/questions.pdf?in=" + string(in)})
		}
	}
	page.Bank.Text = d.Text
	page.Rule = CheckRuleForm{Asked: string(r.Asked), Length: strconv.Itoa(r.Length), PassMark: fmt.Sprintf("%d/%d", r.MarkRight, r.MarkOf), Months: strconv.Itoa(r.Months), WaitHours: strconv.Itoa(r.WaitHours), Tries: strconv.Itoa(r.Tries), OpenFor: strconv.Itoa(int(r.Core().Open / time.Minute)),
		Ways: []Option{{Value: string(knowledge.NotAsked), Text: "Not asked"}, {Value: string(knowledge.ToLearn), Text: "Asked, to learn", Hint: "It hinders nothing."},
			{Value: string(knowledge.First), Text: "Asked before it is shown", Hint: "No formal demonstration of this skill begins without a pass that holds on its day."}}}
	return page, nil
}

// checkRuleWords says the rule in one sentence.
func checkRuleWords(r postgres.KnowledgeRule) string {
	if r.Asked == knowledge.NotAsked {
		return "Not asked."
	}
	says := "Asked, to learn: "
	if r.Asked == knowledge.First {
		says = "Asked before it is shown: "
	}
	says += fmt.Sprintf("%s, of which %d/%d must be right and every critical one", count(r.Length, "question", "questions"), r.MarkRight, r.MarkOf)
	says += "; open for " + openFor(r.Core().Open)
	if r.Months > 0 {
		says += "; it holds for " + count(r.Months, "month", "months")
	}
	if r.WaitHours > 0 {
		says += "; next try after " + count(r.WaitHours, "hour", "hours")
	}
	if r.Tries > 0 {
		says += "; taught again after " + count(r.Tries, "try", "tries")
	}
	return says + "."
}

// openFor is a length of time in hours where it is whole ones, else in minutes.
func openFor(open time.Duration) string {
	if open%time.Hour == 0 {
		return count(int(open/time.Hour), "hour", "hours")
	}
	return count(int(open/time.Minute), "minute", "minutes")
}

func checkPerson(p office.PersonResults, v *visit) CheckPerson {
	line := CheckPerson{Name: p.Person.Name, Href: "/people/" + string(p.Person.ID), Shape: "open", Says: "Not passed yet."}
	switch {
	case p.Holds() && p.Through.IsZero():
		line.Shape, line.Says = "met", "Passed on "+day(p.Passed)+"."
	case p.Holds():
		line.Shape, line.Says = "met", "Passed on "+day(p.Passed)+", holds through "+day(p.Through)+"."
	case p.Waits:
		line.Shape, line.Says = "open", "Passed, but could read what is asked: it counts once somebody else says that a trainer was there. Open the try below to say so."
	case p.Easier:
		line.Shape, line.Says = "open", "Passed by a rule that asked less."
	case !p.Ran.IsZero():
		line.Shape, line.Says = "open", "Held through "+day(p.Ran)+"."
	case p.Next.Teach:
		line.Says = "Not passed yet; is to be taught again before the next try."
	}
	switch {
	case p.Over:
		line.Says += " The time of one try was over on " + instant(p.Ends, v.zone()) + ", and it was not handed in: it comes to no pass."
	case p.Open != "":
		line.Says += " One try goes on, until " + instant(p.Ends, v.zone()) + "."
	}
	for _, t := range p.Tries {
		text := fmt.Sprintf("%s: %d of %d right", day(t.On), t.Right, t.Of)
		if t.Late {
			text += ", handed in when its time was over"
		}
		if t.Critical > 0 {
			text += ", " + strconv.Itoa(t.Critical) + " critical missed"
		}
		if t.Present != nil && *t.Present {
			text += ", a trainer was there"
		}
		line.Tries = append(line.Tries, Link{Text: text, Href: sittingAt(t.ID)})
	}
	return line
}

func checkItem(i office.ItemResults, v *visit) CheckItemLine {
	sort := []string{string(i.Item.Kind), knowledge.HowHard(i.Item.Difficulty)}
	if i.Item.Critical {
		sort = append(sort, "critical")
	}
	line := CheckItemLine{ID: i.Item.ID, Ask: i.Item.In("en").Ask, Sort: strings.Join(sort, ", "), Source: i.Item.Source, By: fmt.Sprintf("version %d, %s, %s", i.Version, i.By, instant(i.At, v.zone())), Gone: i.Retired}
	if _, spanish := i.Item.Texts["es"]; !spanish {
		line.Also = append(line.Also, "Not in Spanish: it is asked in English.")
	}
	line.Says = answeredWords(i.Stands.Tally)
	if missing := i.Stands.Asked - i.Stands.Answered; missing > 0 {
		line.Also = append(line.Also, "Left without an answer "+count(missing, "time", "times")+".")
	}
	for _, q := range i.Before {
		if q.Asked > 0 {
			line.Also = append(line.Also, questionBefore(q, v)+": "+answeredWords(q.Tally))
		}
	}
	return line
}

// questionBefore names what an item asked before, by its versions and days.
func questionBefore(q office.QuestionResults, v *visit) string {
	name := fmt.Sprintf("Version %d", q.Last)
	if q.First != q.Last {
		name = fmt.Sprintf("Versions %d to %d", q.First, q.Last)
	}
	return fmt.Sprintf("%s, %s to %s", name, dayIn(&q.From, v.zone()), dayIn(&q.Until, v.zone()))
}

// answeredWords says a share only with how many it is of.
func answeredWords(t knowledge.Tally) string {
	switch {
	case t.Asked == 0:
		return "Not asked yet as it stands."
	case t.Asked < office.FewAnswers:
		return fmt.Sprintf("%d of %d right. So few answers say little.", t.Right, t.Asked)
	}
	return fmt.Sprintf("%d of %d right, %s %%.", t.Right, t.Asked, assessment.Whole(t.Right).Over(assessment.Whole(t.Asked)).Percent())
}

// setCheckRule sets the rule.
func (s *Site) setCheckRule(v *visit) error {
	f := office.RuleForm{Skill: v.c.Param("code"), Asked: v.form("asked"), Length: v.form("length"), PassMark: v.form("pass_mark"), Months: v.form("months"), WaitHours: v.form("wait_hours"), Tries: v.form("tries"), OpenFor: v.form("open_minutes")}
	refused := s.office.SetCheckRule(v.ctx(), v.by(), f)
	if refused == nil {
		return v.to(checksAt+"/"+f.Skill, "The rule is set.")
	}
	page, err := s.checkBankPage(v)
	if err != nil {
		return err
	}
	form := &page.Rule
	form.Asked, form.Length, form.PassMark, form.Months, form.WaitHours, form.Tries, form.OpenFor = f.Asked, f.Length, f.PassMark, f.Months, f.WaitHours, f.Tries, f.OpenFor
	if err := v.take(&form.Faults, refused, "The rule was not set.", label("asked", "The check is"), label("length", "Questions"), label("pass_mark", "Share that must be right"), label("months", "Holds for"), label("wait_hours", "Next try after"), label("tries", "Tries before teaching"), label("open_minutes", "Open for")); err != nil {
		return err
	}
	return v.again(page)
}

// takeStarterItems takes the starter items in that the bank lacks.
func (s *Site) takeStarterItems(v *visit) error {
	n, err := s.office.TakeStarterItems(v.ctx(), v.by(), v.c.Param("code"))
	if err != nil {
		return err
	}
	return v.to(checksAt+"/"+v.c.Param("code"), count(n, "item is", "items are")+" taken in.")
}

// addItems takes items in as YAML.
func (s *Site) addItems(v *visit) error {
	code, text := v.c.Param("code"), v.c.PostForm("items")
	n, refused := s.office.AddItems(v.ctx(), v.by(), code, strings.ReplaceAll(text, "\r\n", "\n"))
	if refused == nil {
		return v.to(checksAt+"/"+code, count(n, "item is", "items are")+" new or changed.")
	}
	page, err := s.checkBankPage(v)
	if err != nil {
		return err
	}
	page.Bank.Text = text
	if err := v.take(&page.Bank.Faults, refused, "Nothing was taken in.", label("items", "Items")); err != nil {
		return err
	}
	return v.again(page)
}

// retireItem takes an item out of new forms, or back into them.
func (s *Site) retireItem(v *visit) error {
	code := v.c.Param("code")
	if err := s.office.RetireItem(v.ctx(), v.by(), code, v.c.Param("item"), v.form("retired") == "yes"); err != nil {
		return err
	}
	return v.to(checksAt+"/"+code, "It is done. What was asked before stays.")
}

// questionsPDF prints the items in use, for whoever reads them before they are asked.
func (s *Site) questionsPDF(v *visit) error {
	body, name, err := s.opt.Papers.Questions(v.ctx(), v.by(), v.c.Param("code"), v.lessonIn())
	if err != nil {
		return err
	}
	return file(v.c, body, name, "application/pdf")
}
