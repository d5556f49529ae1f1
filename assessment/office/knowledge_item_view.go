package office

import (
	"context"
	"fmt"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/knowledge"
	"wellshown/assessment/postgres"
	"wellshown/assessment/reading"
)

// ItemView is one item of a bank: as it stands, how it was answered, and as it is typed.
type ItemView struct {
	Skill    SkillRef
	Now      ItemResults // its newest version; version 0: it is new
	Versions []BankItem  // the newest first
	Typed    knowledge.Typed
	Look     *Question                // as it is asked; nil: as it is typed, it cannot be
	Levels   map[string]reading.Level // how hard what is typed is to read, by language
}

// BankItem reads an item with its versions and answers.
func (o *Office) BankItem(ctx context.Context, by assessment.Actor, code, item string) (ItemView, error) {
	var v ItemView
	err := o.as(ctx, by, assessment.ReadBank, func(tx *postgres.Tx, _ Moment) (err error) {
		v, err = viewItem(ctx, tx, code, item)
		return err
	})
	if err == nil {
		v.look(knowledge.TypedOf(v.Now.Item))
	}
	return v, err
}

// NewItem is an empty form for an item of a kind, with an id that is not taken.
func (o *Office) NewItem(ctx context.Context, by assessment.Actor, code string, kind knowledge.Kind) (ItemView, error) {
	var v ItemView
	err := o.as(ctx, by, assessment.EditChecks, func(tx *postgres.Tx, _ Moment) error {
		skill, err := tx.Checklists.SkillByCode(ctx, code)
		if err != nil {
			return err
		}
		bank, err := readBank(ctx, tx, skill.ID)
		v = ItemView{Skill: SkillRef{skill.ID, skill.Code, skill.Title}, Typed: knowledge.Typed{ID: freeID(code, bank), Kind: kind}}
		return err
	})
	return v, err
}

// freeID is the next number after the skill that no item has.
func freeID(code string, bank []BankItem) string {
	for n := len(bank) + 1; ; n++ {
		id := fmt.Sprintf("%s-%02d", code, n)
		if !slices.ContainsFunc(bank, func(b BankItem) bool { return b.Item.ID == id }) {
			return id
		}
	}
}

// TryItem shows what was typed as it would be asked, and keeps nothing. What is wrong with
// it comes beside all that could be read.
func (o *Office) TryItem(ctx context.Context, by assessment.Actor, f ItemForm) (ItemView, error) {
	var v ItemView
	err := o.as(ctx, by, assessment.EditChecks, func(tx *postgres.Tx, _ Moment) (err error) {
		v, err = viewItem(ctx, tx, f.Skill, f.Typed.ID)
		if f.Version == 0 && fault.KindOf(err) == fault.NotFound && v.Skill.ID != "" {
			err = nil
		}
		return err
	})
	if err != nil {
		return v, err
	}
	v.look(f.Typed)
	_, err = f.read()
	return v, err
}

// viewItem reads an item; the skill is told where there is no such item as well.
func viewItem(ctx context.Context, tx *postgres.Tx, code, item string) (ItemView, error) {
	skill, err := tx.Checklists.SkillByCode(ctx, code)
	if err != nil {
		return ItemView{}, err
	}
	v := ItemView{Skill: SkillRef{skill.ID, skill.Code, skill.Title}}
	kept, err := tx.Knowledge.Versions(ctx, skill.ID, item)
	if err != nil {
		return v, fmt.Errorf("read the versions of an item: %w", err)
	}
	if len(kept) == 0 {
		return v, notFound()
	}
	for _, k := range kept {
		b, err := readItem(k)
		if err != nil {
			return v, err
		}
		v.Versions = append(v.Versions, b)
	}
	asked, err := tx.Knowledge.Asked(ctx, skill.ID, item)
	if err != nil {
		return v, fmt.Errorf("read how an item was asked: %w", err)
	}
	results, err := itemResults(kept, asked)
	if err == nil {
		v.Now = results[0]
	}
	return v, err
}

// previewSeed puts options in an order as a sitting does.
const previewSeed = "preview"

// look takes what is typed, and shows it as far as it can be.
func (v *ItemView) look(t knowledge.Typed) {
	v.Typed, v.Levels = t, map[string]reading.Level{}
	for language, said := range t.Said {
		v.Levels[language] = reading.Measure(language, said.Passages()...)
	}
	if i, err := t.Item(); err == nil {
		v.Look = &Question{Place: 1, Item: i, Shown: i.Shown(previewSeed)}
	}
}
