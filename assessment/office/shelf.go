package office

import (
	"context"
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/postgres"
)

// Shelf is every checklist that there is to read.
type Shelf struct {
	Ours    []ShelfLine // in teaching order, the newest revision of each skill first
	Starter []StarterLine
}

// ShelfLine is a revision of the agency's with how long it is.
type ShelfLine struct {
	RevisionView
	Scope    assessment.Scope
	Steps    int
	Critical int                   // of the steps
	Waits    assessment.ProposalID // the proposal that waits for a second person; empty: none does
}

// StarterLine is a checklist of the catalogue with how long it is.
type StarterLine struct {
	Code, Title     string
	Steps, Critical int
	Taken           bool // the agency has this skill
}

// Shelf lists revisions whose title holds some words, in a state; empty is no
// condition. Without a state what is retired is left out. The catalogue is always
// all there.
func (o *Office) Shelf(ctx context.Context, by assessment.Actor, find, state string) (Shelf, error) {
	var v Shelf
	err := o.as(ctx, by, assessment.ReadChecklists, func(tx *postgres.Tx, now Moment) error {
		revisions, err := tx.Checklists.Revisions(ctx, "")
		if err != nil {
			return err
		}
		v = Shelf{}
		open, err := tx.Force.Open(ctx)
		if err != nil {
			return err
		}
		waits := map[assessment.RevisionID]assessment.ProposalID{}
		for _, p := range open {
			waits[p.RevisionID] = p.ID
		}
		taken := map[string]bool{}
		for _, r := range revisions {
			taken[r.Code] = true
			if !fits(r, find, state) {
				continue
			}
			list, err := o.listOf(ctx, tx, r)
			if err != nil {
				return err
			}
			steps, critical := lengthOf(*list)
			v.Ours = append(v.Ours, ShelfLine{viewRevision(r), list.Scope, steps, critical, waits[r.ID]})
		}
		newestFirst(v.Ours)
		v.Starter, err = starters(taken)
		return err
	})
	return v, err
}

func fits(r postgres.Revision, find, state string) bool {
	if state == "" && r.State == assessment.Retired || state != "" && string(r.State) != state {
		return false
	}
	return strings.Contains(strings.ToLower(r.Title), strings.ToLower(strings.TrimSpace(find)))
}

// newestFirst keeps the teaching order of skills, in which the lines come.
func newestFirst(lines []ShelfLine) {
	place := map[assessment.SkillID]int{}
	for i, l := range lines {
		if _, known := place[l.Skill]; !known {
			place[l.Skill] = i
		}
	}
	slices.SortStableFunc(lines, func(a, b ShelfLine) int {
		if a.Skill != b.Skill {
			return place[a.Skill] - place[b.Skill]
		}
		return b.Number - a.Number
	})
}

func lengthOf(c assessment.Checklist) (steps, critical int) {
	for _, s := range c.Steps() {
		steps++
		if s.Critical {
			critical++
		}
	}
	return steps, critical
}

func starters(taken map[string]bool) ([]StarterLine, error) {
	all, err := catalog.All()
	if err != nil {
		return nil, err
	}
	var lines []StarterLine
	for _, c := range all {
		steps, critical := lengthOf(c)
		lines = append(lines, StarterLine{c.Code, c.Title, steps, critical, taken[c.Code]})
	}
	return lines, nil
}
