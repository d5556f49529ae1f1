package office

import (
	"cmp"
	"context"
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// GridQuery asks who is competent in what on a day. Empty fields are no condition.
type GridQuery struct {
	On     civil.Date // zero: today
	Client assessment.ClientID
	Kind   assessment.CaregiverKind
	Skill  string // code
	Find   string // part of a name
}

// Grid is people × skills on a day, from the index.
type Grid struct {
	On      civil.Date
	Today   civil.Date
	Skills  []SkillRef // those asked for
	Offered []SkillRef // all in force
	Clients []ClientRef
	Rows    []GridRow
}

// GridRow is one person.
type GridRow struct {
	Person PersonRef
	Cells  []GridCell // one a skill, in the order of Grid.Skills
}

// GridCell is what stands where a person meets a skill. Of several children it
// tells a withdrawal first, then the worst case that is required, else the best
// one that is held.
type GridCell struct {
	Required bool
	Known    bool // something stands here; else it is neither required nor begun
	Word     assessment.StandingWord
	Through  civil.Date
	DaysLeft int
	Client   ClientRef
}

// Grid answers from the index, which says what the fold says.
func (o *Office) Grid(ctx context.Context, by assessment.Actor, q GridQuery) (Grid, error) {
	var g Grid
	err := o.as(ctx, by, assessment.ReadReports, func(tx *postgres.Tx, now Moment) error {
		if q.On.IsZero() {
			q.On = now.Today
		}
		t, err := o.table(ctx, tx, q.On, nil)
		if err != nil {
			return err
		}
		team, err := o.teamOn(ctx, tx, q.Client, q.On)
		if err != nil {
			return err
		}
		g = t.grid(q, team)
		g.Today = now.Today
		return nil
	})
	return g, err
}

func (o *Office) teamOn(ctx context.Context, tx *postgres.Tx, client assessment.ClientID, on civil.Date) (map[assessment.PersonID]bool, error) {
	if client == "" {
		return nil, nil
	}
	team, err := tx.Teams.List(ctx, postgres.TeamFilter{Client: client})
	if err != nil {
		return nil, err
	}
	members := map[assessment.PersonID]bool{}
	for _, m := range team {
		if (assessment.OnTeam{From: m.FromOn, Through: m.ThroughOn}).CoversOn(on) {
			members[m.Person] = true
		}
	}
	return members, nil
}

// table is the index on one day beside what is required then.
type table struct {
	on     civil.Date
	names  names
	skills []postgres.Skill
	cells  map[assessment.CaseKey]postgres.Indexed
	with   map[assessment.CaseKey][]assessment.ClientID // by person and skill: with whom there is a cell
	needs  map[assessment.PersonID][]assessment.Need
	people []postgres.Person

	demands *demands // on that day, of everybody
}

func (o *Office) table(ctx context.Context, tx *postgres.Tx, on civil.Date, people []assessment.PersonID) (*table, error) {
	t := &table{on: on, cells: map[assessment.CaseKey]postgres.Indexed{}, with: map[assessment.CaseKey][]assessment.ClientID{}}
	var err error
	if t.names, err = o.names(ctx, tx); err != nil {
		return nil, err
	}
	if t.people, err = tx.People.List(ctx, postgres.PeopleFilter{IncludeLeft: true}); err != nil {
		return nil, err
	}
	if t.skills, err = tx.Checklists.Skills(ctx); err != nil {
		return nil, err
	}
	if t.demands, err = o.demands(ctx, tx, on, postgres.TeamFilter{}); err != nil {
		return nil, err
	}
	t.needs = t.demands.byPerson()
	indexed, err := tx.Segments.On(ctx, on, people)
	if err != nil {
		return nil, err
	}
	for _, i := range indexed {
		key := assessment.CaseKey{Person: i.Person, Skill: i.Skill}
		t.with[key] = append(t.with[key], i.Client)
		key.Client = i.Client
		t.cells[key] = i
	}
	return t, nil
}

func (t *table) grid(q GridQuery, team map[assessment.PersonID]bool) Grid {
	g := Grid{On: q.On}
	for _, c := range t.names.clients {
		g.Clients = append(g.Clients, c)
	}
	slices.SortFunc(g.Clients, func(a, b ClientRef) int { return strings.Compare(a.Code, b.Code) })
	for _, s := range t.skills {
		if s.InForce != 0 {
			g.Offered = append(g.Offered, SkillRef{s.ID, s.Code, s.Title})
		}
		if (s.InForce != 0 || t.asked(s.Code)) && (q.Skill == "" || q.Skill == s.Code) {
			g.Skills = append(g.Skills, SkillRef{s.ID, s.Code, s.Title})
		}
	}
	for _, p := range t.people {
		if !t.shows(p, q, team) {
			continue
		}
		row := GridRow{Person: t.names.people[p.ID]}
		for _, s := range g.Skills {
			row.Cells = append(row.Cells, t.cell(p.ID, s, q.Client))
		}
		g.Rows = append(g.Rows, row)
	}
	return g
}

// asked reports whether anybody must hold a skill: that is shown even where nothing
// of it is in force.
func (t *table) asked(code string) bool {
	for _, needs := range t.needs {
		if slices.ContainsFunc(needs, func(n assessment.Need) bool { return n.Skill == code }) {
			return true
		}
	}
	return false
}

func (t *table) shows(p postgres.Person, q GridQuery, team map[assessment.PersonID]bool) bool {
	gone := !p.LeftOn.IsZero() && !q.On.Before(p.LeftOn)
	return p.Kind != "" && !gone &&
		(q.Kind == "" || q.Kind == p.Kind) &&
		(q.Client == "" || team[p.ID]) &&
		(q.Find == "" || strings.Contains(strings.ToLower(p.Name), strings.ToLower(strings.TrimSpace(q.Find))))
}

// severity orders standings from worst to best, so that nothing bad hides behind
// something good.
var severity = []assessment.StandingWord{assessment.Withdrawn, assessment.Lapsed, assessment.NotStarted, assessment.Learning,
	assessment.Waived, assessment.Due, assessment.Current}

func (t *table) cell(person assessment.PersonID, skill SkillRef, client assessment.ClientID) GridCell {
	var required, others []GridCell
	seen := map[assessment.ClientID]bool{}
	for _, need := range t.needs[person] {
		if need.Skill == skill.Code && (client == "" || need.Client == "" || need.Client == client) {
			seen[need.Client] = true
			required = append(required, t.one(person, skill, need.Client, true))
		}
	}
	for _, with := range t.with[assessment.CaseKey{Person: person, Skill: skill.ID}] {
		if !seen[with] && (client == "" || with == "" || with == client) {
			others = append(others, t.one(person, skill, with, false))
		}
	}
	return telling(required, others)
}

// telling chooses which of several children's cases a cell shows.
func telling(required, others []GridCell) GridCell {
	all := slices.Concat(required, others)
	switch {
	case len(all) == 0:
		return GridCell{}
	case slices.MinFunc(all, worse).Word == assessment.Withdrawn:
		return slices.MinFunc(all, worse)
	case len(required) > 0:
		return slices.MinFunc(required, worse)
	}
	return slices.MaxFunc(others, worse)
}

// worse orders cells from worst to best; of two that are alike the one that ends
// first is worse.
func worse(a, b GridCell) int {
	return cmp.Or(slices.Index(severity, a.Word)-slices.Index(severity, b.Word), a.Through.Compare(b.Through), cmp.Compare(a.Client.Code, b.Client.Code))
}

func (t *table) one(person assessment.PersonID, skill SkillRef, client assessment.ClientID, required bool) GridCell {
	cell := GridCell{Required: required, Known: true, Word: assessment.NotStarted, Client: t.names.clients[client]}
	if i, ok := t.cells[assessment.CaseKey{Person: person, Skill: skill.ID, Client: client}]; ok {
		cell.Word, cell.Through = i.Word, i.Through
		if i.Word.Holds() {
			cell.DaysLeft = i.Through.Sub(t.on)
		}
	}
	return cell
}
