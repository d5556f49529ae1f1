package web

import (
	"net/url"
	"strconv"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

// mostAhead is how far ahead the report looks at most: ten years.
const mostAhead = 3660

func (s *Site) overdue(v *visit) error {
	q, bad := overdueQuery(v)
	found, err := s.office.OverdueNext(v.ctx(), v.by(), q)
	if err != nil {
		return err
	}
	page := overduePage(v, q, found)
	if bad == nil {
		return v.show(page)
	}
	faults, unknown := v.wrong(bad, "This cannot be shown.", label("on", "On the day"), label("within", "Ahead"), label("group", "Group by"))
	if unknown != nil {
		return unknown
	}
	page.Faults, page.On, page.Within = faults, v.query("on"), v.query("within")
	return v.again(page)
}

// overdueQuery reads the address; what is wrong in it is left out and told.
func overdueQuery(v *visit) (office.OverdueQuery, error) {
	var faults fault.Fields
	q := office.OverdueQuery{Within: 90, BySkill: v.query("group") == "skill"}
	var err error
	q.On, err = v.day("on")
	faults.Take("on", err)
	if text := v.query("within"); text != "" {
		if q.Within, err = strconv.Atoi(text); err != nil || q.Within < 1 || q.Within > mostAhead {
			faults.Add("within", "Give a number of days from 1 to %d.", mostAhead)
			q.Within = 90
		}
	}
	if group := v.query("group"); group != "" && group != "skill" && group != "caregiver" {
		faults.Add("group", "It is grouped by caregiver or by skill.")
	}
	q.Kind, err = assessment.ParseCaregiverKind(v.query("kind"))
	faults.Take("kind", err)
	q.Client = queryClient(v, &faults)
	return q, faults.Err()
}

func overduePage(v *visit, q office.OverdueQuery, o office.OverdueNext) OverduePage {
	page := OverduePage{Frame: v.frame("papers"), On: isoDay(o.On), Day: day(o.On), Within: strconv.Itoa(q.Within), Group: "caregiver",
		Lapsed: o.Counts.Lapsed + o.Counts.Withdrawn, Due: o.Counts.All, NotYet: o.Counts.NotYet, Standings: "/standings?on=" + isoDay(o.On)}
	if q.BySkill {
		page.Group = "skill"
	}
	ask := url.Values{"on": {page.On}, "within": {page.Within}, "group": {page.Group}}
	page.PDF, page.CSV, page.XLSX = "/overdue.pdf?"+ask.Encode(), "/overdue.csv?"+ask.Encode(), "/overdue.xlsx?"+ask.Encode()
	last := ""
	for i, l := range o.Lines {
		key := string(l.Person.ID)
		if q.BySkill {
			key = l.Skill.Code
		}
		if key != last {
			page.Groups, last = append(page.Groups, overdueGroup(l, q.BySkill)), key
		}
		g := &page.Groups[len(page.Groups)-1]
		g.Rows = append(g.Rows, overdueRow(v, l, o.Next[i], q.BySkill))
	}
	return page
}

func overdueGroup(l office.OverdueLine, bySkill bool) OverdueGroup {
	if bySkill {
		return OverdueGroup{Title: l.Skill.Title, Href: "/standings?skill=" + url.QueryEscape(l.Skill.Code)}
	}
	return OverdueGroup{Title: l.Person.Name, Href: "/people/" + string(l.Person.ID), Kind: kindOf(l.Person)}
}

func overdueRow(v *visit, l office.OverdueLine, next assessment.Next, bySkill bool) OverdueRow {
	row := OverdueRow{Standing: string(l.Word), Name: l.Skill.Title, Client: clientName(l.Client), Through: day(l.Through), Days: max(l.DaysLeft, -l.DaysLeft),
		Next: sentence(next.InWords()), Act: Link{"See", "/people/" + string(l.Person.ID)}}
	if bySkill {
		row.Name = l.Person.Name
	}
	if l.Word == assessment.Withdrawn { // the day through which it would have held says nothing any more
		row.Through = ""
	}
	if v.may(assessment.Observe) && (next.Demonstrations > 0 || l.Word.Holds()) {
		row.Act = Link{"Observe", startAddress(l.Person.ID, l.Skill.Code, l.Client.ID)}
	}
	return row
}

// startAddress is where a demonstration of a skill by somebody begins.
func startAddress(learner assessment.PersonID, skill string, client assessment.ClientID) string {
	q := url.Values{"learner": {string(learner)}, "skill": {skill}}
	if client != "" {
		q.Set("client", string(client))
	}
	return "/demonstrations/new?" + q.Encode()
}

func (s *Site) overduePDF(v *visit) error {
	q, bad := overdueQuery(v)
	if bad != nil {
		return s.papersAgain(v, "overdue", bad)
	}
	body, name, err := s.opt.Papers.Overdue(v.ctx(), v.by(), q)
	if err != nil {
		return err
	}
	return file(v.c, body, name, "application/pdf")
}

func (s *Site) overdueCSV(v *visit) error {
	q, bad := overdueQuery(v)
	if bad != nil {
		return s.papersAgain(v, "overdue", bad)
	}
	body, name, err := s.opt.Papers.OverdueCSV(v.ctx(), v.by(), q)
	if err != nil {
		return err
	}
	return file(v.c, body, name, "text/csv; charset=utf-8")
}

func (s *Site) overdueXLSX(v *visit) error {
	q, bad := overdueQuery(v)
	if bad != nil {
		return s.papersAgain(v, "overdue", bad)
	}
	body, name, err := s.opt.Papers.OverdueXLSX(v.ctx(), v.by(), q)
	if err != nil {
		return err
	}
	return file(v.c, body, name, "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet")
}
