package web

import (
	"fmt"
	"net/url"
	"slices"
	"strings"

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
	faults, unknown := v.wrong(bad, "This cannot be shown.", label("on", "On the day"), label("client", "For"), label("kind", "Who"), label("skill", "Skill"),
		label("observer", "Last observed by"), label("standing", "Standing"))
	if unknown != nil {
		return unknown
	}
	page.Faults, page.On = faults, v.query("on")
	return v.again(page)
}

// gridQuery reads the address; what is wrong in it is left out and told.
func gridQuery(v *visit) (office.GridQuery, error) {
	var faults fault.Fields
	q := office.GridQuery{Skill: v.query("skill"), Find: v.query("find"), Standing: assessment.StandingWord(v.query("standing")), Limit: mostInGrid}
	var err error
	q.On, err = v.day("on")
	faults.Take("on", err)
	q.Kind, err = assessment.ParseCaregiverKind(v.query("kind"))
	faults.Take("kind", err)
	q.Client = queryClient(v, &faults)
	if q.Standing != "" && !slices.Contains(standingWords, q.Standing) {
		faults.Add("standing", "There is no such standing. Choose one of the list.")
		q.Standing = ""
	}
	if v.query("observer") != "" {
		if q.Observer, err = assessment.ParseID[assessment.PersonID](v.query("observer")); err != nil {
			faults.Add("observer", "There is no such educator. Choose one of the list.")
		}
	}
	if v.query("after") != "" {
		if q.After, err = assessment.ParseID[assessment.PersonID](v.query("after")); err != nil {
			return q, err
		}
	}
	return q, faults.Err()
}

// mostInGrid is how many people a page shows: a few screens, and two sheets of paper.
const mostInGrid = 50

// standingWords are what can be asked for, worst first.
var standingWords = []assessment.StandingWord{assessment.Withdrawn, assessment.Lapsed, assessment.Due, assessment.NotStarted, assessment.Learning, assessment.Waived, assessment.Current}

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
		Skill: q.Skill, Find: q.Find, Observer: string(q.Observer), Standing: string(q.Standing),
		Filtered: q.Client != "" || q.Kind != "" || q.Skill != "" || q.Find != "" || q.Observer != "" || q.Standing != "",
		Clients:  clientOptions("every child", g.Clients), Kinds: kindOptions(), Skills: []Option{{Text: "every skill"}},
		People: g.Counts.People, Lapsed: g.Counts.Lapsed, Due: g.Counts.Due, Current: g.Counts.Current, NotYet: g.Counts.NotYet, Needed: g.Counts.Needed}
	page.Earlier, page.Later = page.at(g.On.AddDays(-30), q.Skill), page.at(g.On.AddDays(30), q.Skill)
	page.Slider = slider(g.On, g.Today)
	page.CSV, page.XLSX = page.address("/standings.csv", g.On, q.Skill, ""), page.address("/standings.xlsx", g.On, q.Skill, "")
	page.offer(g)
	for _, k := range g.Skills {
		page.Columns = append(page.Columns, Link{k.Title, page.at(g.On, k.Code)})
	}
	for _, r := range g.Rows {
		row := StandingRow{Name: r.Person.Name, Href: "/people/" + string(r.Person.ID) + "?on=" + isoDay(g.On), Kind: kindOf(r.Person)}
		for i, c := range r.Cells {
			row.Cells = append(row.Cells, cell(c, g.Skills[i], row.Href))
		}
		page.Rows = append(page.Rows, row)
	}
	page.Pager = page.pager(q, g)
	return page
}

// offer fills in what can be chosen.
func (p *StandingsPage) offer(g office.Grid) {
	for _, k := range g.Offered {
		p.Skills = append(p.Skills, Option{Value: k.Code, Text: k.Title})
	}
	p.Observers, p.Standings = []Option{{Text: "anybody"}}, []Option{{Text: "any"}}
	for _, e := range g.Educators {
		p.Observers = append(p.Observers, Option{Value: string(e.ID), Text: e.Name})
	}
	for _, w := range standingWords {
		p.Standings = append(p.Standings, Option{Value: string(w), Text: string(w) + " in a skill"})
	}
}

// How far the slider goes: a validity of a year each way, and what leads up to it.
const sliderBack, sliderOn = -400, 400

func slider(on, today civil.Date) Slider {
	return Slider{Today: isoDay(today), From: sliderBack, To: sliderOn, At: max(sliderBack, min(sliderOn, on.Sub(today))),
		Beginning: day(today.AddDays(sliderBack)), End: day(today.AddDays(sliderOn))}
}

func (p *StandingsPage) pager(q office.GridQuery, g office.Grid) Pager {
	var pager Pager
	if g.Next != "" || g.Before > 0 {
		pager.Shown = fmt.Sprintf("%d to %d of %d people", g.Before+min(1, len(g.Rows)), g.Before+len(g.Rows), g.Counts.People)
	}
	if q.After != "" {
		pager.First = p.at(g.On, q.Skill)
	}
	if g.Next != "" {
		pager.Next = p.address("/standings", g.On, q.Skill, string(g.Next))
	}
	return pager
}

// at is the address of the same question on another day or for another skill.
func (p *StandingsPage) at(on civil.Date, skill string) string {
	return p.address("/standings", on, skill, "")
}

func (p *StandingsPage) address(path string, on civil.Date, skill, after string) string {
	q := url.Values{}
	for name, value := range map[string]string{"on": isoDay(on), "client": p.Client, "kind": p.Kind, "skill": skill, "find": p.Find,
		"observer": p.Observer, "standing": p.Standing, "after": after} {
		if value != "" {
			q.Set(name, value)
		}
	}
	return path + "?" + q.Encode()
}

// cell draws one standing, with the way to what made it so.
func cell(c office.GridCell, skill office.SkillRef, person string) StandingCell {
	cell := StandingCell{Needed: c.Required, DaysLeft: c.DaysLeft, Through: day(c.Through), Skill: skill.Title, Client: clientName(c.Client)}
	if c.Known {
		cell.Standing = string(c.Word)
		cell.Href = person + "#" + anchorOf(skill.Code, c.Client)
	}
	if c.Word == assessment.Withdrawn { // the day through which it would have held says nothing any more
		cell.Through = ""
	}
	return cell
}

// anchorOf is where a page of somebody tells of a skill, and a child where it is held per child.
func anchorOf(skill string, client office.ClientRef) string {
	return strings.TrimSuffix("skill-"+skill+"-"+strings.ToLower(client.Code), "-")
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

func (s *Site) standingsCSV(v *visit) error {
	q, bad := gridQuery(v)
	if bad != nil {
		return s.standings(v)
	}
	body, name, err := s.opt.Papers.StandingsCSV(v.ctx(), v.by(), q)
	if err != nil {
		return err
	}
	return file(v.c, body, name, "text/csv; charset=utf-8")
}

func (s *Site) standingsXLSX(v *visit) error {
	q, bad := gridQuery(v)
	if bad != nil {
		return s.standings(v)
	}
	body, name, err := s.opt.Papers.StandingsXLSX(v.ctx(), v.by(), q)
	if err != nil {
		return err
	}
	return file(v.c, body, name, "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet")
}
