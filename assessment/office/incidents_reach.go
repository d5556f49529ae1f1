package office

import (
	"context"
	"fmt"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/postgres"
)

// concernedBy lists the person's other cases that an incident withdraws: the same skill with
// every other child, and all related skills. Also what was never shown: a sheet on paper or on a
// device may come in later, of a day before the incident.
func (o *Office) concernedBy(ctx context.Context, tx *postgres.Tx, now Moment, i postgres.Incident) ([]assessment.CaseKey, error) {
	b, err := o.casebook(ctx, tx, now, postgres.HistoryFilter{People: []assessment.PersonID{i.Person}})
	if err != nil {
		return nil, err
	}
	children, err := o.childrenOf(ctx, tx, b, i)
	if err != nil {
		return nil, err
	}
	named := map[string][]string{}
	for code, s := range b.byCode {
		named[code] = s.related
	}
	code := b.skills[i.Skill].Code
	var keys []assessment.CaseKey
	for _, related := range append(assessment.RelatedSkills(code, named), code) {
		s, known := b.byCode[related]
		switch {
		case !known:
		case s.Scope == assessment.General:
			keys = append(keys, assessment.CaseKey{Person: i.Person, Skill: s.ID})
		default:
			for _, child := range children {
				keys = append(keys, assessment.CaseKey{Person: i.Person, Skill: s.ID, Client: child})
			}
		}
	}
	keys = slices.DeleteFunc(keys, func(k assessment.CaseKey) bool { return k == i.Key() })
	slices.SortFunc(keys, inOrder)
	return keys, nil
}

// childrenOf are all with whom anything of the person is known or being shown, and those whose
// team they are, were or will be on.
func (o *Office) childrenOf(ctx context.Context, tx *postgres.Tx, b *casebook, i postgres.Incident) ([]assessment.ClientID, error) {
	children := []assessment.ClientID{i.Client}
	for _, k := range b.keys() {
		children = append(children, k.Client)
	}
	sheets, err := tx.Sheets.List(ctx, "")
	if err != nil {
		return nil, fmt.Errorf("read open sheets: %w", err)
	}
	for _, s := range sheets {
		if s.LearnerID == i.Person {
			children = append(children, s.ClientID)
		}
	}
	teams, err := tx.Teams.List(ctx, postgres.TeamFilter{Person: i.Person})
	if err != nil {
		return nil, fmt.Errorf("read teams: %w", err)
	}
	for _, m := range teams {
		children = append(children, m.Client)
	}
	slices.Sort(children)
	return slices.DeleteFunc(slices.Compact(children), func(c assessment.ClientID) bool { return c == "" }), nil
}
