package web

import (
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
)

// today is the first page of who keeps things going: it answers what breaks next,
// or whom to see. Who does both chooses by a word of the address.
func (s *Site) today(v *visit) error {
	keeps := v.by().Is(assessment.Coordinator) || v.by().Is(assessment.Administrator)
	observes := v.may(assessment.Observe)
	switch {
	case observes && (!keeps || v.query("as") == "educator"):
		return s.educatorToday(v)
	case keeps:
		return s.coordinatorToday(v)
	}
	return v.to(landingOf(v.by()), "")
}

// mostWaiting is how many records that wait for a signature stand open on a first
// page; the next ones are folded away.
const mostWaiting = 6

// mostBroken is how many shifts that need somebody a first page shows.
const mostBroken = 8

func (s *Site) coordinatorToday(v *visit) error {
	d, err := s.office.CoordinatorDesk(v.ctx(), v.by())
	if err != nil {
		return err
	}
	page := CoordinatorTodayPage{Frame: v.frame("today"), Today: longDay(d.Today), Lapsed: d.Counts.Lapsed + d.Counts.Withdrawn,
		Within7: d.Counts.Week, Within30: d.Counts.Month, Within60: d.Counts.TwoMonths, Within90: d.Counts.All,
		Current: d.Counts.Current, NotYet: d.Counts.NotYet, Waived: d.Counts.Waived, GoingHome: d.GoingHome,
		Waits: d.Waiting.All, Waiting: v.waiting(d.Waiting), AllWaits: moreWaits(d.Waiting, allWaits), Unvouched: unvouched(d.Unvouched), Duties: duties(v.by(), "/today"), Incidents: d.Incidents}
	page.Aides = aideLinks(d.Practice)
	if len(page.Waiting) > mostWaiting {
		page.Waiting, page.Folded = page.Waiting[:mostWaiting], page.Waiting[mostWaiting:]
	}
	if v.may(assessment.ReadReminders) {
		page.Reminders = remindersAt
	}
	page.Breaks, page.OpenYet = d.Coverage.Counts.Breaks, d.Coverage.Counts.Open
	broken := breaksFirst(d.Coverage.Lines)
	if len(broken) > mostBroken {
		page.AllBroken, broken = "/coverage", broken[:mostBroken]
	}
	for _, l := range broken {
		page.Broken = append(page.Broken, coverLine(l))
	}
	page.ShareOut = v.shareOut(broken)
	for _, h := range d.Holding {
		page.Holding = append(page.Holding, Holding{Device: h.Device, Owner: h.Owner.Name, Href: "/people/" + string(h.Owner.ID), Holds: heldInWords(h.Holds), Told: instant(h.ToldAt, v.zone()), Revoked: h.Revoked})
	}
	for _, t := range d.Troubles {
		page.Troubles = append(page.Troubles, v.trouble(t))
	}
	if d.More {
		page.More = "/overdue"
	}
	return v.show(page)
}

func (v *visit) trouble(t office.Trouble) Trouble {
	line := Trouble{Person: t.Person.Name, PersonHref: "/people/" + string(t.Person.ID), Standing: standing(v.words(), t.StandingView)}
	line.Shown = t.Next.Demonstrations > 0 || t.Word.Holds()
	var names []string
	for _, o := range t.Observers {
		names = append(names, o.Name)
		if line.Shown && o.ID == v.by().Person && v.may(assessment.Observe) {
			line.Standing.Start = startAddress(t.Person.ID, t.Skill.Code, t.Client.ID)
		}
	}
	line.Observers = someOf(names)
	if line.Shown && len(names) > 0 && v.may(assessment.PlanVisits) {
		line.Plan = "/visits"
	}
	if v.may(assessment.Waive) && t.Person.ID != v.by().Person {
		line.Waive = line.PersonHref + "#waive"
	}
	return line
}

func (s *Site) educatorToday(v *visit) error {
	d, err := s.office.EducatorDesk(v.ctx(), v.by())
	if err != nil {
		return err
	}
	page := EducatorTodayPage{Frame: v.frame("today"), Today: longDay(d.Today), ToSign: v.waiting(d.ToSign), Waits: d.ToSign.All,
		AllWaits: moreWaits(d.ToSign, myWaits), MayNot: d.MayNot, Unvouched: unvouched(d.Unvouched),
		Duties: duties(v.by(), "/today?as=educator"), Incidents: d.Incidents}
	page.Proposals, page.Decide = v.proposalLines(d.Proposals)
	for _, o := range d.Open {
		page.Open = append(page.Open, OpenSheet{Href: "/demonstrations/" + string(o.ID) + "/marks", Learner: o.Learner, Skill: o.Title,
			Client: o.Client, Begun: instant(o.OpenedAt, v.zone()), Marked: o.Marked, Steps: o.Steps})
	}
	for _, l := range d.Learners {
		learner := Learner{Name: l.Person.Name, Href: "/people/" + string(l.Person.ID), Kind: kindOf(l.Person)}
		for _, row := range l.Skills {
			line := standing(v.words(), row)
			if row.Next.Demonstrations > 0 {
				line.Start = startAddress(row.Person.ID, row.Skill.Code, row.Client.ID)
			}
			learner.Skills = append(learner.Skills, line)
		}
		page.Learners = append(page.Learners, learner)
	}
	for _, x := range d.Visits {
		own := OwnVisit{Day: x.On.Format("Mon 2 Jan"), Client: clientName(x.Client), Href: "/visits/" + string(x.ID)}
		if x.On == d.Today {
			own.Day = "Today"
		}
		page.Visits = append(page.Visits, own)
	}
	for _, row := range d.Own {
		page.Own = append(page.Own, standing(v.words(), row))
	}
	page.Me = "/people/" + string(v.by().Person)
	if page.All = d.All; d.All > len(d.Learners) {
		page.More = "/overdue"
	}
	return v.show(page)
}

// breaksFirst puts shifts that break before those that clash, and these before open ones,
// which have nobody on them who is not current; each by day.
func breaksFirst(lines []office.CoverLine) []office.CoverLine {
	rank := func(l office.CoverLine) int {
		switch l.Word {
		case assessment.Breaks:
			return 0
		case assessment.OpenYet:
			return 2
		}
		return 1
	}
	sorted := slices.Clone(lines)
	slices.SortStableFunc(sorted, func(a, b office.CoverLine) int { return rank(a) - rank(b) })
	return sorted
}

// heldInWords says what a device holds.
func heldInWords(h office.HoldingForm) string {
	var parts []string
	if h.Finished > 0 {
		parts = append(parts, count(h.Finished, "finished sheet that was not sent", "finished sheets that were not sent"))
	}
	if h.Refused > 0 {
		parts = append(parts, count(h.Refused, "sheet that was refused", "sheets that were refused"))
	}
	if h.Open > 0 {
		parts = append(parts, count(h.Open, "sheet that is being marked", "sheets that are being marked"))
	}
	return listed(parts)
}

// unvouched are those who wait for somebody to vouch for them, for the reader.
func unvouched(found []office.UnvouchedView) []Unvouched {
	var all []Unvouched
	for _, u := range found {
		all = append(all, Unvouched{Name: u.Person.Name, Href: "/people/" + string(u.Person.ID), Issuer: u.Issuer, May: u.May})
	}
	return all
}

// someOf names up to three, and says how many others there are.
func someOf(names []string) string {
	if len(names) <= 3 {
		return listed(names)
	}
	return listed(append(names[:2:2], count(len(names)-2, "other", "others")))
}

// duties are the first pages of the other roles of somebody.
func duties(a assessment.Actor, here string) []Link {
	pages := []struct {
		role       assessment.Role
		text, href string
	}{
		{assessment.Coordinator, "coordinator", "/today"}, {assessment.Administrator, "administrator", "/today"},
		{assessment.Educator, "educator", "/today?as=educator"}, {assessment.Surveyor, "surveyor", "/survey"},
		{assessment.Caregiver, "caregiver", "/home"},
	}
	known := map[string]bool{here: true}
	if here == "/today?as=educator" && !a.Is(assessment.Coordinator) && !a.Is(assessment.Administrator) {
		known["/today"] = true
	}
	var links []Link
	for _, p := range pages {
		if a.Is(p.role) && !known[p.href] {
			links, known[p.href] = append(links, Link{p.text, p.href}), true
		}
	}
	return links
}

// longDay is a day at the head of a page, "Wednesday 25 November 2026".
func longDay(d civil.Date) string { return d.Format("Monday 2 January 2006") }
