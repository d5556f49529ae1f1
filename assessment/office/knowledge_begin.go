package office

import (
	"context"
	"encoding/hex"
	"fmt"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/knowledge"
	"wellshown/assessment/postgres"
)

// BeginCheck begins a check, or goes on with the one that the actor has begun.
func (o *Office) BeginCheck(ctx context.Context, by assessment.Actor, code, language string) (assessment.RecordID, error) {
	var id assessment.RecordID
	err := o.as(ctx, by, assessment.TakeCheck, func(tx *postgres.Tx, now Moment) error {
		skill, err := tx.Checklists.SkillByCode(ctx, code)
		if err != nil {
			return err
		}
		if err := tx.History.Lock(ctx, by.Person); err != nil { // two tabs take turns
			return err
		}
		own, err := tx.Knowledge.Sittings(ctx, by.Person, skill.ID)
		if err != nil {
			return err
		}
		if n := len(own); n > 0 && own[n-1].HandedInAt == nil {
			id = own[n-1].ID
			return nil
		}
		id, err = o.begin(ctx, tx, now, by, skill, own, language)
		return err
	})
	return id, err
}

func (o *Office) begin(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, skill postgres.Skill, own []postgres.KnowledgeSitting, language string) (assessment.RecordID, error) {
	rule, err := ruleNow(ctx, tx, now, skill.ID)
	if err != nil {
		return "", err
	}
	if rule.Asked == knowledge.NotAsked {
		return "", notFound()
	}
	next, err := nextTry(ctx, tx, now, by.Person, skill.ID, rule, own)
	if err != nil {
		return "", err
	}
	if err := next.mayBegin(now); err != nil {
		return "", err
	}
	bank, err := readBank(ctx, tx, skill.ID)
	if err != nil {
		return "", err
	}
	if len(inUse(bank)) < rule.Length {
		return "", fault.Of(fault.Refused, "This check has too few questions just now. Tell your educator.")
	}
	s := postgres.KnowledgeSitting{PersonID: by.Person, SkillID: skill.ID, RuleID: rule.ID, Number: len(own) + 1, Language: known(language), BegunAt: now.At}
	if s.ID, err = newID[assessment.RecordID](o, now.At); err != nil {
		return "", err
	}
	random, err := o.bytes(16)
	if err != nil {
		return "", err
	}
	s.Seed = hex.EncodeToString(random)
	if s.Items, err = drawForm(ctx, tx, bank, rule, s.Seed, own); err != nil {
		return "", err
	}
	if err := tx.Knowledge.Begin(ctx, s); err != nil {
		return "", fmt.Errorf("begin a check: %w", err)
	}
	return s.ID, o.note(ctx, tx, now, by, assessment.TakeCheck, "knowledge_sitting", string(s.ID))
}

// known is a language in which checks are asked.
func known(language string) string {
	if language == "es" {
		return language
	}
	return "en"
}

// drawForm draws versions of items, those first that were not asked of this person before.
func drawForm(ctx context.Context, tx *postgres.Tx, bank []BankItem, rule postgres.KnowledgeRule, seed string, own []postgres.KnowledgeSitting) ([]string, error) {
	var asked []string
	for _, s := range own {
		asked = append(asked, s.Items...)
	}
	kept, err := tx.Knowledge.Items(ctx, asked)
	if err != nil {
		return nil, err
	}
	codes := map[string]string{}
	for _, k := range kept {
		codes[string(k.ID)] = k.Code
	}
	for i, id := range asked {
		asked[i] = codes[id]
	}
	form, err := knowledge.Draw(inUse(bank), rule.Length, seed, asked...)
	if err != nil {
		return nil, err
	}
	var ids []string
	for _, i := range form {
		n := slices.IndexFunc(bank, func(b BankItem) bool { return b.Item.ID == i.ID })
		ids = append(ids, string(bank[n].ID))
	}
	return ids, nil
}

// OpenCheck begins a check, or goes on with the one that was begun, and shows its
// questions.
func (o *Office) OpenCheck(ctx context.Context, by assessment.Actor, code, language string) (SittingView, error) {
	id, err := o.BeginCheck(ctx, by, code, language)
	if err != nil {
		return SittingView{}, err
	}
	return o.Sitting(ctx, by, id)
}
