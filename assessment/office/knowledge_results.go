package office

import (
	"context"
	"fmt"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
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
	for _, id := range order {
		lessons, err := tx.Knowledge.Taught(ctx, id, skill)
		if err != nil {
			return fmt.Errorf("read what was taught: %w", err)
		}
		own := byPerson[id]
		v.People = append(v.People, PersonResults{PersonRef{ID: id, Name: own[0].PersonName}, ownCheck(now, v.Skill, v.Rule, own, taughtAt(lessons, now.Zone))})
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
					r.count(k.Version, given[at{s.ID, n + 1}], !slices.Contains(s.Missed, int16(n+1)))
				}
			}
		}
		all = append(all, r)
	}
	return all, nil
}

func (r *ItemResults) count(version int, answered, right bool) {
	n := slices.IndexFunc(r.Versions, func(v VersionResults) bool { return v.Version == version })
	if n < 0 {
		r.Versions, n = append(r.Versions, VersionResults{Version: version}), len(r.Versions)
	}
	r.Asked++
	r.Versions[n].Asked++
	if answered {
		r.Answered++
	}
	if right {
		r.Right++
		r.Versions[n].Right++
	}
	slices.SortFunc(r.Versions, func(a, b VersionResults) int { return b.Version - a.Version })
}

// CheckDay is a check as papers tell of it: what was passed when, and through when.
type CheckDay struct {
	Skill   SkillRef
	On      civil.Date
	Right   int
	Of      int
	Passed  bool
	Through civil.Date // by the rule as it is now; zero: without end, or it was not passed
	Present *bool
}

// checksTaken are somebody's checks that were handed in, newest first.
func checksTaken(ctx context.Context, tx *postgres.Tx, now Moment, person assessment.PersonID) ([]CheckDay, error) {
	sittings, err := tx.Knowledge.Sittings(ctx, person, "")
	if err != nil || len(sittings) == 0 {
		return nil, err
	}
	rules, err := rulesBySkill(ctx, tx, now.At)
	if err != nil {
		return nil, err
	}
	skills, err := tx.Checklists.Skills(ctx)
	if err != nil {
		return nil, err
	}
	refs := skillRefs(skills)
	var all []CheckDay
	for _, s := range slices.Backward(sittings) {
		if s.HandedInAt == nil {
			continue
		}
		d := CheckDay{Skill: refs[s.SkillID], On: civil.DayOf(*s.HandedInAt, now.Zone), Right: *s.RightCount, Of: len(s.Items), Passed: s.Took(), Present: s.Present}
		if d.Passed {
			d.Through = rules[s.SkillID].Core().Through(d.On)
		}
		all = append(all, d)
	}
	return all, nil
}

// BankItemView is one item to be edited.
type BankItemView struct {
	Skill SkillRef
	Item  *BankItem // nil: a new one
	Was   []BankItem
}

// CheckItem reads one item with its versions; an empty id begins a new one.
func (o *Office) CheckItem(ctx context.Context, by assessment.Actor, code, item string) (BankItemView, error) {
	var v BankItemView
	err := o.as(ctx, by, assessment.EditChecks, func(tx *postgres.Tx, _ Moment) error {
		skill, err := tx.Checklists.SkillByCode(ctx, code)
		if err != nil {
			return err
		}
		v = BankItemView{Skill: SkillRef{skill.ID, skill.Code, skill.Title}}
		if item == "" {
			return nil
		}
		kept, err := tx.Knowledge.Versions(ctx, skill.ID, item)
		if err != nil {
			return err
		}
		for _, k := range kept {
			i, err := readItem(k)
			if err != nil {
				return err
			}
			v.Was = append(v.Was, i)
		}
		if len(v.Was) == 0 {
			return fault.Of(fault.NotFound, "There is no such item.")
		}
		v.Item = &v.Was[0]
		return nil
	})
	return v, err
}
