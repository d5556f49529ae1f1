package office

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"wellshown/assessment"
)

// comesFirst looks at what must be current before something can be shown so that it counts.
// Where that is not held and no visit is planned from its window either, no visit helps; what has a
// window is told as what comes first, and so is a knowledge check that is asked before it is shown. A prerequisite may itself wait for another: it is asked until nothing
// changes any more.
func (b *visitBook) comesFirst(now Moment, book *casebook, checks checkBook) error {
	missing := map[assessment.Window][]*skillbook{}
	for _, w := range b.windows {
		lacks, err := b.lacksFirst(now, book, w)
		if err != nil {
			return err
		}
		if len(lacks) > 0 {
			missing[w] = lacks
		}
	}
	lost := map[assessment.Window][]*skillbook{}
	for again := true; again; {
		again = false
		for w, lacks := range missing {
			if len(b.nowhere(w, lacks)) > 0 {
				b.windows = slices.DeleteFunc(b.windows, func(x assessment.Window) bool { return x == w })
				lost[w] = lacks
				delete(missing, w)
				again = true
			}
		}
	}
	for w, lacks := range lost { // once it is known of all, so that it is told the same each time
		b.helpless = append(b.helpless, helpless{w.Person, w.Need, b.due[w], "nobody can show it before what comes first, and nothing is planned for that: " + titlesOf(b.nowhere(w, lacks))})
	}
	b.before = map[assessment.Window]string{}
	for _, w := range b.windows {
		first := titlesOf(missing[w])
		if skill, known := book.byCode[w.Need.Skill]; known && checks.why(w.Person, skill.ID, skill.Title) != "" { // it can be taken anywhere, and keeps no visit from being planned
			first = strings.TrimPrefix(first+", the knowledge check", ", ")
		}
		if first != "" {
			b.before[w] = first
		}
	}
	slices.SortFunc(b.helpless, func(x, y helpless) int {
		return strings.Compare(fmt.Sprint(x.person, x.need), fmt.Sprint(y.person, y.need))
	})
	return nil
}

// nowhere are those of what comes first for which there is no window.
func (b *visitBook) nowhere(w assessment.Window, lacks []*skillbook) []*skillbook {
	return slices.DeleteFunc(slices.Clone(lacks), func(s *skillbook) bool { return b.hasWindow(w.Person, s, shownWith(w)) })
}

// shownWith is the child with whom something is shown at a visit: whose it is, else whoever
// lives there.
func shownWith(w assessment.Window) assessment.ClientID { return cmp.Or(w.Need.Client, w.Home) }

// lacksFirst are the prerequisites of a skill that somebody does not hold today.
func (b *visitBook) lacksFirst(now Moment, book *casebook, w assessment.Window) ([]*skillbook, error) {
	skill, known := book.byCode[w.Need.Skill]
	if !known || skill.newest == nil {
		return nil, nil
	}
	var lacks []*skillbook
	for _, code := range skill.newest.Prerequisites {
		first, known := book.byCode[code]
		if !known {
			continue
		}
		c, err := book.caseOf(assessment.CaseKey{Person: w.Person, Skill: first.ID, Client: shownWith(w)})
		if err != nil {
			return nil, err
		}
		if !c.Holds(now.Today) {
			lacks = append(lacks, first)
		}
	}
	return lacks, nil
}

// hasWindow reports whether somebody can show a skill at a visit: with the child, where it is
// held for each, or at all.
func (b *visitBook) hasWindow(person assessment.PersonID, s *skillbook, client assessment.ClientID) bool {
	return slices.ContainsFunc(b.windows, func(w assessment.Window) bool {
		return w.Person == person && w.Need.Skill == s.Code && (w.Need.Client == "" || w.Need.Client == client)
	})
}

func titlesOf(skills []*skillbook) string {
	var titles []string
	for _, s := range skills {
		titles = append(titles, s.Title)
	}
	return strings.Join(titles, ", ")
}
