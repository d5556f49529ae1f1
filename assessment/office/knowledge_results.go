package office

import (
	"context"
	"fmt"
	"slices"
	"time"

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

// ItemResults is an item with how it was answered in checks that were handed in. The last
// answer of each counts.
type ItemResults struct {
	BankItem
	Stands QuestionResults   // as it stands
	Before []QuestionResults // what it asked before, the newest first
}

// QuestionResults is how an item was answered while it said one thing. Versions that follow
// each other and say the same are one question: taking an item out and back in changes none.
type QuestionResults struct {
	First, Last int // versions
	From        time.Time
	Until       time.Time // from when on it said something else; zero: it stands
	knowledge.Tally
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
		return o.results(ctx, tx, now, skill.ID, &v)
	})
	return v, err
}

// results fills in who took the check and how each item was answered.
func (o *Office) results(ctx context.Context, tx *postgres.Tx, now Moment, skill assessment.SkillID, v *BankView) error {
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
	versions, err := tx.Knowledge.Versions(ctx, skill, "")
	if err != nil {
		return fmt.Errorf("read the versions of items: %w", err)
	}
	asked, err := tx.Knowledge.Asked(ctx, skill, "")
	if err != nil {
		return fmt.Errorf("read how items were asked: %w", err)
	}
	v.Items, err = itemResults(versions, asked)
	return err
}

// itemResults counts how each question of some items was asked and answered, by all versions
// of these items, of each the newest first.
func itemResults(versions []postgres.KnowledgeItem, asked []postgres.KnowledgeAsked) ([]ItemResults, error) {
	outcomes, answered := map[assessment.RecordID][]knowledge.Outcome{}, map[assessment.RecordID]int{}
	for _, a := range asked {
		outcomes[a.ItemID] = append(outcomes[a.ItemID], knowledge.OutcomeOf(a.Place, a.Length, a.Missed))
		if a.Answered {
			answered[a.ItemID]++
		}
	}
	var all []ItemResults
	for len(versions) > 0 {
		n := slices.IndexFunc(versions, func(v postgres.KnowledgeItem) bool { return v.Code != versions[0].Code })
		if n < 0 {
			n = len(versions)
		}
		b, err := readItem(versions[0])
		if err != nil {
			return nil, err
		}
		questions := questionsAsked(versions[:n], outcomes, answered)
		all = append(all, ItemResults{b, questions[0], questions[1:]})
		versions = versions[n:]
	}
	return all, nil
}

// questionsAsked are the questions that the versions of one item make, the newest first.
func questionsAsked(versions []postgres.KnowledgeItem, outcomes map[assessment.RecordID][]knowledge.Outcome, answered map[assessment.RecordID]int) []QuestionResults {
	var all []QuestionResults
	var until time.Time
	for i := 0; i < len(versions); {
		q := QuestionResults{Last: versions[i].Version, Until: until}
		var own []knowledge.Outcome
		given := 0
		for same := versions[i].Body; i < len(versions) && versions[i].Body == same; i++ {
			v := versions[i]
			q.First, q.From, until = v.Version, v.AddedAt, v.AddedAt
			own, given = append(own, outcomes[v.ID]...), given+answered[v.ID]
		}
		q.Tally = knowledge.TallyOf(given, own)
		all = append(all, q)
	}
	return all
}
