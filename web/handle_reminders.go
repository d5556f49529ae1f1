package web

import (
	"strconv"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
)

const remindersAt = "/reminders"

func (s *Site) reminders(v *visit) error {
	q, bad := remindersQuery(v)
	page, err := s.remindersPage(v, q)
	if err != nil && bad == nil && fault.KindOf(err) == fault.Invalid {
		bad = err
		page, err = s.remindersPage(v, office.RemindersQuery{})
	}
	if err != nil {
		return err
	}
	if bad == nil {
		return v.show(page)
	}
	if err := v.take(&page.Faults, bad, "This cannot be shown.", label("back", "Days back"), label("state", "What became of it"), label("person", "To")); err != nil {
		return err
	}
	page.Back = v.query("back")
	return v.again(page)
}

// remindersQuery reads the address; what is wrong in it is left out and told.
func remindersQuery(v *visit) (office.RemindersQuery, error) {
	q := office.RemindersQuery{State: v.query("state")}
	var faults fault.Fields
	var err error
	if typed := v.query("back"); typed != "" {
		if q.Back, err = strconv.Atoi(typed); err != nil || q.Back == 0 {
			faults.Add("back", "Give the days as a number.")
		}
	}
	if typed := v.query("person"); typed != "" {
		if q.Person, err = assessment.ParseID[assessment.PersonID](typed); err != nil {
			faults.Add("person", "Choose one of the people in the list.")
		}
	}
	if faults.Err() != nil {
		q = office.RemindersQuery{}
	}
	return q, faults.Err()
}

func (s *Site) remindersPage(v *visit, q office.RemindersQuery) (RemindersPage, error) {
	page := RemindersPage{Frame: v.frame("today"), State: q.State, To: string(q.Person)}
	d, err := s.office.Reminders(v.ctx(), v.by(), q)
	if err != nil {
		return page, err
	}
	page.CanSend, page.Off, page.Failed, page.Sent, page.More = d.CanSend, d.Rules.Off, d.Counts[postgres.MailFailed], d.Counts[postgres.MailSent], d.More
	page.Since, page.Back = day(d.From), strconv.Itoa(d.Today.Sub(d.From))
	page.States = []Option{{Text: "all"}, {Value: "sent", Text: "sent"}, {Value: "failed", Text: "failed"}, {Value: "waiting", Text: "waiting"}, {Value: "sending", Text: "being sent"}, {Value: "dropped", Text: "not sent: nobody there"}}
	page.People = []Option{{Text: "everybody"}}
	for _, p := range d.People {
		page.People = append(page.People, Option{Value: string(p.ID), Text: p.Name})
	}
	for _, l := range d.Letters {
		page.Letters = append(page.Letters, mailLine(v, d, l))
	}
	for _, c := range d.Coming {
		line := ComingDay{Day: c.At.Format("Monday 2 January, 15:04")}
		if c.On == d.Today {
			page.Today, line.Day = len(c.Letters), "Today, "+c.At.Format("15:04")
		}
		for _, l := range c.Letters {
			line.Letters = append(line.Letters, ComingLine{l.To.Name, personHref(l.To.ID), tells(l.Counts)})
		}
		page.Coming = append(page.Coming, line)
	}
	if len(page.Coming) > 0 {
		page.Next = page.Coming[0].Day
	}
	for _, p := range d.NoAddress {
		page.NoAddress = append(page.NoAddress, Link{p.Name, personHref(p.ID)})
	}
	page.setRules(v, d)
	return page, nil
}

func personHref(id assessment.PersonID) string { return "/people/" + string(id) }

func (p *RemindersPage) setRules(v *visit, d office.RemindersDesk) {
	r := d.Rules
	var days []string
	for _, n := range r.Days {
		days = append(days, strconv.Itoa(n))
	}
	p.Rules = ruleWords(r, days)
	if d.SetBy.Name != "" {
		p.RulesBy = d.SetBy.Name + ", " + v.instant(d.SetAt)
	}
	yes := map[bool]string{true: "yes"}
	p.Set = RemindersForm{On: yes[!r.Off], At: r.At.String(), Opens: yes[r.Opens], Days: strings.Join(days, ", "), Lapsed: yes[r.Lapsed], Unplanned: strconv.Itoa(r.Unplanned), Rostered: yes[r.Rostered]}
	if v.may(assessment.EditReminders) {
		p.Set.Action = remindersAt + "/settings"
	}
}

// ruleWords says what people are reminded of.
func ruleWords(r assessment.ReminderRules, days []string) []string {
	var words []string
	if r.Opens {
		words = append(words, "Whoever holds a skill, once when it is due.")
	}
	if len(days) > 0 {
		words = append(words, "Whoever holds a skill, "+listed(days)+" days before its last day.")
	}
	if r.Lapsed {
		words = append(words, "Whoever held it, once when it is over.")
	}
	if r.Unplanned > 0 {
		words = append(words, "Coordinators, "+count(r.Unplanned, "day", "days")+" before, where no visit and no skills day is planned by which it could be renewed.")
	}
	if r.Rostered {
		words = append(words, "Coordinators and administrators, when it is over and whoever held it is on a shift within 14 days that asks for it.")
	}
	return words
}

// tells is how much a letter tells.
func tells(c assessment.NoticeCounts) string {
	var words []string
	for _, one := range []struct {
		n         int
		one, more string
	}{{c.Lapsed, "skill is over", "skills are over"}, {c.Due, "skill is due", "skills are due"}, {c.Rostered, "skill is over of somebody on the roster", "skills are over of somebody on the roster"},
		{c.Unplanned, "skill ends, and nothing is planned", "skills end, and nothing is planned"}} {
		if one.n > 0 {
			words = append(words, count(one.n, one.one, one.more))
		}
	}
	return strings.Join(words, "; ")
}

func mailLine(v *visit, d office.RemindersDesk, l office.LetterView) MailLine {
	line := MailLine{To: l.To.Name, Href: personHref(l.To.ID), Day: day(l.FallsOn), Tells: tells(l.Counts()), Shape: "open", State: "waiting", Why: l.Says}
	switch l.State {
	case postgres.MailSent:
		line.Shape, line.State, line.When, line.Why = "met", "sent", v.instant(*l.EndedAt), ""
	case postgres.MailFailed:
		line.Shape, line.State, line.When = "fault", "failed", v.instant(*l.EndedAt)
		if d.CanSend && v.may(assessment.EditReminders) {
			line.Again = remindersAt + "/letters/" + string(l.ID) + "/sending"
		}
	case postgres.MailDropped:
		line.Shape, line.State, line.When, line.Why = "not started", "not sent", v.instant(*l.EndedAt), "They had left or had no address any more."
	case postgres.MailSending:
		line.State = "being sent"
	default:
		if l.Tries > 0 {
			line.When = "tried " + count(l.Tries, "time", "times") + ", again at " + v.instant(l.NextAt)
		}
	}
	return line
}

func (s *Site) setReminders(v *visit) error {
	f := office.RemindersForm{On: v.ticked("on"), At: v.form("at"), Opens: v.ticked("opens"), Days: v.form("days"), Lapsed: v.ticked("lapsed"), Unplanned: v.form("unplanned"), Rostered: v.ticked("rostered")}
	refused := s.office.SetReminders(v.ctx(), v.by(), f)
	if refused == nil {
		return v.to(remindersAt, "Reminders are as you say, from now on.")
	}
	page, err := s.remindersPage(v, office.RemindersQuery{})
	if err != nil {
		return err
	}
	page.Set = RemindersForm{Action: remindersAt + "/settings", On: v.form("on"), At: f.At, Opens: v.form("opens"), Days: f.Days, Lapsed: v.form("lapsed"), Unplanned: f.Unplanned, Rostered: v.form("rostered")}
	if err := v.take(&page.Set.Faults, refused, "Nothing was set.", label("on", "Remind people"), label("at", "Time of day"), label("days", "Days before"), label("unplanned", "Days before, to coordinators")); err != nil {
		return err
	}
	return v.again(page)
}

func (s *Site) sendAgain(v *visit) error {
	id, err := pathID[assessment.DigestID](v, "id")
	if err != nil {
		return err
	}
	if err := s.office.SendAgain(v.ctx(), v.by(), id); err != nil {
		return err
	}
	return v.to(remindersAt, "The letter is on its way again.")
}
