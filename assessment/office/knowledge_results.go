package office

import (
	"context"
	"fmt"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/knowledge"
	"wellshown/assessment/postgres"
)

// BankView is the check of one skill as those see it who keep it: items, rule and what
// came of it so far.
type BankView struct {
	Skill   SkillRef
	Rule    postgres.KnowledgeRule
	Starter int // starter items that the bank never had
	Items   []ItemResults
	People  []PersonResults
	Text    string // the items in use, as YAML
}

// ItemResults is an item with how it was answered, over all its versions, in checks that
// were handed in. The last answer of each counts.
type ItemResults struct {
	BankItem
	Asked    int
	Answered int
	Right    int
	Versions []VersionResults // of each version that was asked, the newest first
	Tells    *float64         // how well it tells apart those who know the rest; nil: too few sittings, or nobody differs
	outcomes []knowledge.Outcome
}

// VersionResults is how one version was answered.
type VersionResults struct {
	Version      int
	Asked, Right int
}

// FewAnswers is below how many answers a share says little (common practice, no source).
const FewAnswers = 20

// PersonResults is where somebody stands with the check.
type PersonResults struct {
	Person PersonRef
	OwnCheck
}

// CheckBank reads the bank, the rule and the results of a skill's check.
func (o *Office) CheckBank(ctx context.Context, by assessment.Actor, code string) (BankView, error) {
	var v BankView
	err := o.as(ctx, by, assessment.ReadBank, func(tx *postgres.Tx, now Moment) error {
		skill, err := tx.Checklists.SkillByCode(ctx, code)
		if err != nil {
			return err
		}
		v = BankView{Skill: SkillRef{skill.ID, skill.Code, skill.Title}}
		if v.Rule, err = ruleNow(ctx, tx, now, skill.ID); err != nil {
			return err
		}
		bank, err := readBank(ctx, tx, skill.ID)
		if err != nil {
			return err
		}
		if v.Starter, err = missingStarters(code, bank); err != nil {
			return err
		}
		if v.Text, err = textOf(code, bank); err != nil {
			return err
		}
		return o.results(ctx, tx, now, skill.ID, bank, &v)
	})
	return v, err
}

// results fills in who took the check and how each item was answered.
func (o *Office) results(ctx context.Context, tx *postgres.Tx, now Moment, skill assessment.SkillID, bank []BankItem, v *BankView) error {
	sittings, err := tx.Knowledge.Sittings(ctx, "", skill)
	if err != nil {
		return fmt.Errorf("read the sittings of a check: %w", err)
	}
	byPerson := map[assessment.PersonID][]postgres.KnowledgeSitting{}
	var order []assessment.PersonID
	for _, s := range sittings {
		if byPerson[s.PersonID] == nil {
			order = append(order, s.PersonID)
		}
		byPerson[s.PersonID] = append(byPerson[s.PersonID], s)
	}
	lessons, err := tx.Knowledge.Taught(ctx, "", skill)
	if err != nil {
		return fmt.Errorf("read what was taught: %w", err)
	}
	taught := map[assessment.PersonID][]postgres.TaughtOn{}
	for _, l := range lessons {
		taught[l.PersonID] = append(taught[l.PersonID], l)
	}
	for _, id := range order {
		own := byPerson[id]
		v.People = append(v.People, PersonResults{PersonRef{ID: id, Name: own[0].PersonName}, ownCheck(now, v.Skill, v.Rule, own, taughtAt(taught[id], now.Zone))})
	}
	v.Items, err = itemResults(ctx, tx, bank, sittings)
	return err
}

func itemResults(ctx context.Context, tx *postgres.Tx, bank []BankItem, sittings []postgres.KnowledgeSitting) ([]ItemResults, error) {
	var ids, handed []string
	for _, s := range sittings {
		if s.HandedInAt != nil {
			ids, handed = append(ids, s.Items...), append(handed, string(s.ID))
		}
	}
	kept, err := tx.Knowledge.Items(ctx, ids)
	if err != nil {
		return nil, fmt.Errorf("read the items that were asked: %w", err)
	}
	answers, err := tx.Knowledge.Answers(ctx, false, handed...)
	if err != nil {
		return nil, fmt.Errorf("read the answers: %w", err)
	}
	type at struct {
		sitting assessment.RecordID
		place   int
	}
	given := map[at]bool{}
	for _, a := range answers {
		if answerOf("", a).Given() {
			given[at{a.SittingID, a.Place}] = true
		}
	}
	versions := map[string]postgres.KnowledgeItem{}
	for _, k := range kept {
		versions[string(k.ID)] = k
	}
	var all []ItemResults
	for _, b := range bank {
		r := ItemResults{BankItem: b}
		for _, s := range sittings {
			for n, id := range s.Items {
				if k := versions[id]; s.HandedInAt != nil && k.Code == b.Item.ID {
					r.count(k.Version, given[at{s.ID, n + 1}], knowledge.OutcomeOf(n+1, len(s.Items), s.Missed))
				}
			}
		}
		if tells, known := knowledge.Discrimination(r.outcomes); known {
			r.Tells = &tells
		}
		all = append(all, r)
	}
	return all, nil
}

func (r *ItemResults) count(version int, answered bool, of knowledge.Outcome) {
	r.outcomes = append(r.outcomes, of)
	n := slices.IndexFunc(r.Versions, func(v VersionResults) bool { return v.Version == version })
	if n < 0 {
		r.Versions, n = append(r.Versions, VersionResults{Version: version}), len(r.Versions)
	}
	r.Asked++
	r.Versions[n].Asked++
	if answered {
		r.Answered++
	}
	if of.Right {
		r.Right++
		r.Versions[n].Right++
	}
	slices.SortFunc(r.Versions, func(a, b VersionResults) int { return b.Version - a.Version })
}
