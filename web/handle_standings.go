package web

import (
	"net/url"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

func (s *Site) standings(v *visit) error {
	q, bad := gridQuery(v)
	g, err := s.office.Grid(v.ctx(), v.by(), q)
	if err != nil {
		return err
	}
	page := standingsPage(v, q, g)
	if bad == nil {
		return v.show(page)
	}
	faults, unknown := wrong(bad, "This cannot be shown.", label("on", "On the day"), label("client", "For"), label("kind", "Who"), label("skill", "Skill"))
	if unknown != nil {
		return unknown
	}
	page.Faults, page.On = faults, v.query("on")
	return v.again(page)
}

// gridQuery reads the address; what is wrong in it is left out and told.
func gridQuery(v *visit) (office.GridQuery, error) {
	var faults fault.Fields
	q := office.GridQuery{Skill: v.query("skill"), Find: v.query("find")}
	var err error
	q.On, err = v.day("on")
	faults.Take("on", err)
	q.Kind, err = assessment.ParseCaregiverKind(v.query("kind"))
	faults.Take("kind", err)
	q.Client = queryClient(v, &faults)
	return q, faults.Err()
}

func queryClient(v *visit, faults *fault.Fields) assessment.ClientID {
	if v.query("client") == "" {
		return ""
	}
	id, err := assessment.ParseID[assessment.ClientID](v.query("client"))
	if err != nil {
		faults.Add("client", "There is no such child. Choose one of the list.")
	}
	return id
}

func standingsPage(v *visit, q office.GridQuery, g office.Grid) StandingsPage {
	page := StandingsPage{Frame: v.frame("standings"), On: isoDay(g.On), Day: day(g.On), Today: g.On == g.Today, Client: string(q.Client), Kind: string(q.Kind),
		Skill: q.Skill, Find: q.Find, Filtered: q.Client != "" || q.Kind != "" || q.Skill != "" || q.Find != "",
		Clients: clientOptions("every child", g.Clients), Kinds: kindOptions(), Skills: []Option{{Text: "every skill"}}}
	page.Earlier, page.Later = page.at(g.On.AddDays(-30), q.Skill), page.at(g.On.AddDays(30), q.Skill)
	for _, k := range g.Offered {
		page.Skills = append(page.Skills, Option{Value: k.Code, Text: k.Title})
	}
	for _, k := range g.Skills {
		page.Columns = append(page.Columns, Link{k.Title, page.at(g.On, k.Code)})
	}
	for _, r := range g.Rows {
		row := StandingRow{Name: r.Person.Name, Href: "/people/" + string(r.Person.ID) + "?on=" + isoDay(g.On), Kind: kindOf(r.Person)}
		for i, c := range r.Cells {
			row.Cells = append(row.Cells, page.cell(c, g.Skills[i].Title))
		}
		page.Rows = append(page.Rows, row)
	}
	return page
}

// at is the address of the same question on another day or for another skill.
func (p *StandingsPage) at(on civil.Date, skill string) string {
	q := url.Values{}
	for name, value := range map[string]string{"on": isoDay(on), "client": p.Client, "kind": p.Kind, "skill": skill, "find": p.Find} {
		if value != "" {
			q.Set(name, value)
		}
	}
	return "/standings?" + q.Encode()
}

// cell draws one standing and counts it where it is needed.
func (p *StandingsPage) cell(c office.GridCell, skill string) StandingCell {
	cell := StandingCell{Needed: c.Required, DaysLeft: c.DaysLeft, Through: day(c.Through), Skill: skill, Client: clientName(c.Client)}
	if c.Known {
		cell.Standing = string(c.Word)
	}
	if c.Word == assessment.Withdrawn { // the day through which it would have held says nothing any more
		cell.Through = ""
	}
	if !c.Required {
		return cell
	}
	p.Needed++
	switch {
	case c.Word == assessment.Lapsed || c.Word == assessment.Withdrawn:
		p.Lapsed++
	case c.Word.Holds():
		p.Current++
	case c.Word == assessment.NotStarted || c.Word == assessment.Learning:
		p.NotYet++
	}
	if c.Word == assessment.Due {
		p.Due++
	}
	return cell
}

func clientOptions(none string, clients []office.ClientRef) []Option {
	options := []Option{{Text: none}}
	for _, c := range clients {
		options = append(options, Option{Value: string(c.ID), Text: clientName(c)})
	}
	return options
}

func kindOptions() []Option {
	return []Option{{Text: "everybody"}, {Value: string(assessment.Family), Text: "family"}, {Value: string(assessment.Nurse), Text: "nurses"}, {Value: string(assessment.Aide), Text: "aides"}}
}
