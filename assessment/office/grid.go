package office

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// GridQuery asks who is competent in what on a day. Empty fields are no condition.
type GridQuery struct {
	On       civil.Date // zero: today
	Client   assessment.ClientID
	Kind     assessment.CaregiverKind
	Skill    string                  // code
	Find     string                  // part of a name
	Observer assessment.PersonID     // by whom they were last observed, on that day or before
	Standing assessment.StandingWord // who stands so in a skill that is shown
	After    assessment.PersonID     // who was last on the page before; empty: from the start
	Limit    int                     // people on a page; 0: all
}

// Grid is people × skills on a day, from the index.
type Grid struct {
	Agency    AgencyView
	On        civil.Date
	Today     civil.Date
	Skills    []SkillRef // those asked for
	Offered   []SkillRef // all in force
	Clients   []ClientRef
	Educators []PersonRef
	Rows      []GridRow
	Before    int                 // people who fit and come before this page
	Next      assessment.PersonID // after whom the next page begins; empty on the last
	Counts    GridCounts          // of all who fit, on this page or not
}

// GridCounts sums up the cells of all who fit that are required.
type GridCounts struct {
	People  int
	Needed  int
	Current int // due ones included
	Due     int
	Lapsed  int // or withdrawn
	NotYet  int // never held
	Waived  int
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
		shown, err := o.fitting(ctx, tx, now, t, q)
		if err != nil {
			return err
		}
		if g, err = t.grid(q, shown); err != nil {
			return err
		}
		g.Agency, g.Today = viewAgency(now.Agency), now.Today
		return nil
	})
	return g, err
}

// fitting lists who fits all that is asked but the standing, by their place in the table.
func (o *Office) fitting(ctx context.Context, tx *postgres.Tx, now Moment, t *table, q GridQuery) ([]int, error) {
	team, err := o.teamOn(ctx, tx, q.Client, q.On)
	if err != nil {
		return nil, err
	}
	var theirs map[assessment.PersonID]bool
	if q.Observer != "" {
		last, err := tx.Demonstrations.LastObservedBy(ctx, q.Observer, q.On.AddDays(1).In(now.Zone))
		if err != nil {
			return nil, fmt.Errorf("read who was last observed by whom: %w", err)
		}
		theirs = map[assessment.PersonID]bool{}
		for _, p := range last {
			theirs[p] = true
		}
	}
	var shown []int
	for i, p := range t.people {
		if t.shows(p, q, team) && (q.Observer == "" || theirs[p.ID]) {
			shown = append(shown, i)
		}
	}
	return shown, nil
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

// grid counts all of some people and shows a page of them.
func (t *table) grid(q GridQuery, people []int) (Grid, error) {
	g := Grid{On: q.On, Clients: slices.Clone(t.clients[1:])}
	slices.SortFunc(g.Clients, func(a, b ClientRef) int { return strings.Compare(a.Code, b.Code) })
	for _, p := range t.people {
		if slices.Contains(p.Roles, assessment.Educator) && !gone(p.LeftOn, t.on) {
			g.Educators = append(g.Educators, t.names.people[p.ID])
		}
	}
	asked := t.asked()
	for _, s := range t.skills {
		if s.InForce != 0 {
			g.Offered = append(g.Offered, SkillRef{s.ID, s.Code, s.Title})
		}
		if (s.InForce != 0 || asked[s.Code]) && (q.Skill == "" || q.Skill == s.Code) {
			g.Skills = append(g.Skills, SkillRef{s.ID, s.Code, s.Title})
		}
	}
	return g, t.fill(&g, q, people)
}

// fill goes through everybody once: counts them, and shows those of the page.
func (t *table) fill(g *Grid, q GridQuery, people []int) error {
	after, err := t.placeOf(q.After)
	if err != nil {
		return err
	}
	look := t.looking(g.Skills, q.Client)
	for _, i := range people {
		person := t.people[i].ID
		cells := look.at(person)
		if q.Standing != "" && !slices.ContainsFunc(cells, func(c square) bool { return c.known && c.word() == q.Standing }) {
			continue
		}
		g.Counts.People++
		for _, c := range cells {
			g.Counts.add(c)
		}
		switch {
		case i <= after:
			g.Before++
		case q.Limit > 0 && len(g.Rows) == q.Limit:
			g.Next = g.Rows[q.Limit-1].Person.ID
		default:
			g.Rows = append(g.Rows, t.row(person, cells))
		}
	}
	return nil
}

// placeOf is where whoever was last on the page before has their place in the table; -1 for
// nobody. They may have left the list meanwhile; the page goes on after their name all the same.
func (t *table) placeOf(id assessment.PersonID) (int, error) {
	i := slices.IndexFunc(t.people, func(p postgres.Person) bool { return p.ID == id })
	if i < 0 && id != "" {
		return i, &fault.Fault{Kind: fault.Invalid, Message: "One thing needs mending.",
			Fields: map[string]string{"after": "This is no place in the list. Send what the page before gave as next, unchanged."}}
	}
	return i, nil
}

// asked are the codes of the skills that somebody must hold: they are shown even where
// nothing of them is in force.
func (t *table) asked() map[string]bool {
	asked := map[string]bool{}
	for _, needs := range t.needs {
		for _, n := range needs {
			asked[n.Skill] = true
		}
	}
	return asked
}

func (t *table) shows(p postgres.Person, q GridQuery, team map[assessment.PersonID]bool) bool {
	left := !p.LeftOn.IsZero() && !q.On.Before(p.LeftOn)
	return p.Kind != "" && !left &&
		(q.Kind == "" || q.Kind == p.Kind) &&
		(q.Client == "" || team[p.ID]) &&
		(q.Find == "" || strings.Contains(strings.ToLower(p.Name), strings.ToLower(strings.TrimSpace(q.Find))))
}

func (t *table) row(person assessment.PersonID, cells []square) GridRow {
	row := GridRow{Person: t.names.people[person], Cells: make([]GridCell, len(cells))}
	for i, c := range cells {
		if c.known {
			row.Cells[i] = t.cellOf(c.stood, c.required)
		}
	}
	return row
}
