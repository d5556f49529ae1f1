package reports

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// Overdue prints what is overdue on a day and what comes due after it, grouped by
// caregiver or by skill.
func (r *Reports) Overdue(ctx context.Context, by assessment.Actor, q office.OverdueQuery) ([]byte, string, error) {
	v, err := r.office.Overdue(ctx, by, q)
	if err != nil {
		return nil, "", fmt.Errorf("print what is overdue: %w", err)
	}
	p, err := overdue(v, q)
	return r.handOut(ctx, by, office.Export{Act: assessment.ReadReports, Paper: "overdue", Subject: string(q.Client)})(document(p, err, "overdue", overdueParts(v)...))
}

func overdueParts(v office.Overdue) []string {
	if v.BySkill {
		return []string{"by-skill", v.On.String()}
	}
	return []string{v.On.String()}
}

// overdue draws the answer to q. The paper carries noon of the day asked about,
// so that the same answer gives the same bytes whenever it is printed.
func overdue(v office.Overdue, q office.OverdueQuery) (*paper, error) {
	at, zone, err := noonOn(v.On, v.Agency.Zone)
	if err != nil {
		return nil, err
	}
	day := english.date(v.On)
	p, err := newPaper(meta{Title: "Overdue and coming due on " + day, Language: "en", Agency: v.Agency.Name, Demo: v.Agency.Demo, Issued: at, Zone: zone, Stands: "As of " + day})
	if err != nil {
		return nil, err
	}
	p.letterhead(overdueFinding(p.say, v))
	if said := onlyFor(v, q); said != "" {
		p.note(said)
	}
	p.overdueCounts(v)
	p.gap(6)
	p.table(overdueTable(p.say, v))
	return p, nil
}

// overdueFinding is the answer as a sentence: in the past, of today, or what will
// be if nobody renews.
func overdueFinding(say phrases, v office.Overdue) string {
	day := say.date(v.On)
	behind := caregiversBehind(v)
	all := counted(v.Counts.Caregivers, "caregiver", "caregivers")
	switch {
	case v.Counts.Caregivers == 0:
		return "Nobody has to hold any skill on " + day
	case behind == 0 && v.On.Before(v.Today):
		return "Nobody lacked a required skill on " + day
	case behind == 0 && v.On.After(v.Today):
		return "Nobody will lack a required skill on " + day
	case behind == 0:
		return "Nobody lacks a required skill on " + day
	case v.On.After(v.Today):
		return capital(spelled(behind)) + " of " + all + " will lack a required skill on " + day + ", unless they show it before"
	case v.On.Before(v.Today):
		return capital(spelled(behind)) + " of " + all + " lacked a required skill on " + day
	}
	return capital(spelled(behind)) + " of " + all + " " + lack(behind) + " a required skill on " + day
}

func lack(n int) string {
	if n == 1 {
		return "lacks"
	}
	return "lack"
}

// caregiversBehind counts the caregivers who lack something.
func caregiversBehind(v office.Overdue) int {
	behind := map[assessment.PersonID]bool{}
	for _, l := range v.Lines {
		if !l.Word.Holds() {
			behind[l.Person.ID] = true
		}
	}
	return len(behind)
}

// onlyFor says what the report was narrowed to.
func onlyFor(v office.Overdue, q office.OverdueQuery) string {
	who := map[assessment.CaregiverKind]string{assessment.Family: "Only family caregivers", assessment.Nurse: "Only nurses", assessment.Aide: "Only aides"}[q.Kind]
	if q.Client == "" {
		return ended(who)
	}
	if who == "" {
		who = "Only what caregivers need"
	}
	for _, l := range v.Lines {
		if l.Client.ID == q.Client {
			return who + " for " + child(l.Client) + "."
		}
	}
	return who + " for one child."
}

// child is how a child is named on paper: by first name and code alone.
func child(c office.ClientRef) string {
	if c.FirstName == "" {
		return c.Code
	}
	return c.FirstName + ", " + c.Code
}

// overdueCounts sums the report up, worst first, in the words of the page: what was
// never held is not overdue.
func (p *paper) overdueCounts(v office.Overdue) {
	c := v.Counts
	if n := c.Lapsed + c.Withdrawn; n > 0 {
		p.row(label("overdue"), strong(counted(n, "skill no longer holds", "skills no longer hold")+", counted per caregiver and child"),
			text(fmt.Sprintf("%d lapsed, %d withdrawn", c.Lapsed, c.Withdrawn)))
	}
	if c.NotYet > 0 {
		p.row(label("not held yet"), strong(counted(c.NotYet, "skill", "skills")), text("required, and not yet shown in full"))
	}
	ahead := fmt.Sprintf("%d within 7 days, %d within 30, %d within 60", c.Week, c.Month, c.TwoMonths)
	if within := v.Through.Sub(v.On); within != 7 && within != 30 && within != 60 {
		ahead += fmt.Sprintf(", %d by %s", c.All, p.say.date(v.Through))
	}
	if c.All > 0 {
		p.row(label("coming due"), strong(counted(c.All, "skill ends", "skills end")+" by "+p.say.date(v.Through)), text(ahead))
	} else if c.Caregivers > 0 {
		p.row(label("coming due"), text("Nothing ends by "+p.say.date(v.Through)+"."))
	}
	p.row(label("current"), text(fmt.Sprintf("%d, those coming due among them", c.Current)))
	if c.Waived > 0 {
		p.row(label("waived"), text(fmt.Sprintf("%d, by name and with a reason; not counted above", c.Waived)))
	}
}
