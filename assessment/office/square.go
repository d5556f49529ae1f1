package office

import (
	"cmp"
	"slices"

	"wellshown/assessment"
)

// severity orders standings from worst to best, so that nothing bad hides behind
// something good.
var severity = []assessment.StandingWord{assessment.Withdrawn, assessment.Lapsed, assessment.NotStarted, assessment.Learning,
	assessment.Waived, assessment.Due, assessment.Current}

// square is a cell before it is shown: small, for there are many that are only counted.
type square struct {
	stood
	known, required bool
}

// looking goes from person to person over the same skills and children.
type looking struct {
	t      *table
	column []int // by position of the skill; -1 for none
	client assessment.ClientID
	number int32 // of the client
	cells  []candidates
	shown  []square
}

// candidates are what may stand in one cell: somebody may hold a skill for several children.
type candidates struct {
	worst    stood // of all
	required stood // the worst of those required
	other    stood // the best of all others
	n, asked int
}

func (t *table) looking(skills []SkillRef, client assessment.ClientID) *looking {
	l := &looking{t: t, column: make([]int, len(t.skills)), client: client, cells: make([]candidates, len(skills)), shown: make([]square, len(skills))}
	for i := range l.column {
		l.column[i] = -1
	}
	for i, s := range skills {
		l.column[t.position[s.ID]] = i
	}
	l.number = -1 // no child's
	if number, ok := t.numbers[client]; ok {
		l.number = number
	}
	return l
}

// at is what stands of one person, a cell a skill; the next look overwrites it.
func (l *looking) at(person assessment.PersonID) []square {
	clear(l.cells)
	held := l.t.held[person]
	counted := make([]bool, len(held))
	for _, need := range l.t.needs[person] {
		position, known := l.t.byCode[need.Skill]
		if !known || l.column[position] < 0 || l.client != "" && need.Client != "" && need.Client != l.client {
			continue
		}
		s := notStarted(position, l.t.numbers[need.Client])
		if i := slices.IndexFunc(held, func(h stood) bool { return h.skill == s.skill && h.client == s.client }); i >= 0 {
			s, counted[i] = held[i], true
		}
		l.cells[l.column[position]].take(l.t, s, true)
	}
	for i, s := range held {
		if column := l.column[s.skill]; !counted[i] && column >= 0 && (l.client == "" || s.client == 0 || s.client == l.number) {
			l.cells[column].take(l.t, s, false)
		}
	}
	for i := range l.cells {
		l.shown[i] = l.cells[i].telling()
	}
	return l.shown
}

func (c *candidates) take(t *table, s stood, required bool) {
	if c.n == 0 || t.worse(s, c.worst) < 0 {
		c.worst = s
	}
	switch {
	case required && (c.asked == 0 || t.worse(s, c.required) < 0):
		c.required = s
	case !required && (c.n == c.asked || t.worse(s, c.other) > 0):
		c.other = s
	}
	c.n++
	if required {
		c.asked++
	}
}

// telling chooses which of several children's cases a cell shows.
func (c *candidates) telling() square {
	switch {
	case c.n == 0:
		return square{}
	case c.worst.word() == assessment.Withdrawn:
		return square{c.worst, true, c.asked > 0 && c.required == c.worst}
	case c.asked > 0:
		return square{c.required, true, true}
	}
	return square{c.other, true, false}
}

// worse orders standings from worst to best; of two that are alike the one that ends
// first is worse.
func (t *table) worse(a, b stood) int {
	if a.rank != b.rank {
		return int(a.rank) - int(b.rank)
	}
	return cmp.Or(a.through.Compare(b.through), cmp.Compare(t.clients[a.client].Code, t.clients[b.client].Code))
}

// rankOf is the place of a word in severity.
func rankOf(w assessment.StandingWord) int8 { return int8(slices.Index(severity, w)) }

// add counts one cell.
func (n *GridCounts) add(c square) {
	if !c.required {
		return
	}
	n.Needed++
	switch word := c.word(); {
	case word.Holds():
		n.Current++
	case word == assessment.Lapsed || word == assessment.Withdrawn:
		n.Lapsed++
	case word == assessment.Waived:
		n.Waived++
	default:
		n.NotYet++
	}
	if c.word() == assessment.Due {
		n.Due++
	}
}
