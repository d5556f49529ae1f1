package office

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/fault"
	"wellshown/assessment/knowledge"
	"wellshown/assessment/postgres"
)

// BankItem is an item of the agency's bank in its newest version.
type BankItem struct {
	ID      assessment.RecordID
	Item    knowledge.Item
	Version int
	Retired bool
	By      string // name
	At      time.Time
}

// readItem is a kept version as the core reads it.
func readItem(k postgres.KnowledgeItem) (BankItem, error) {
	i, err := knowledge.ReadItem([]byte(k.Body))
	if err != nil {
		return BankItem{}, fmt.Errorf("read version %d of item %s: %w", k.Version, k.Code, err)
	}
	return BankItem{k.ID, i, k.Version, k.Retired, k.AddedName, k.AddedAt}, nil
}

// readBank reads the newest version of each item of a skill.
func readBank(ctx context.Context, tx *postgres.Tx, skill assessment.SkillID) ([]BankItem, error) {
	kept, err := tx.Knowledge.Bank(ctx, skill)
	if err != nil {
		return nil, fmt.Errorf("read the items of a skill: %w", err)
	}
	var all []BankItem
	for _, k := range kept {
		i, err := readItem(k)
		if err != nil {
			return nil, err
		}
		all = append(all, i)
	}
	return all, nil
}

// inUse are the items that a form is drawn from.
func inUse(bank []BankItem) []knowledge.Item {
	var all []knowledge.Item
	for _, i := range bank {
		if !i.Retired {
			all = append(all, i.Item)
		}
	}
	return all
}

// TakeStarterItems takes those starter items of a skill into the bank that it never had.
// It answers how many that were.
func (o *Office) TakeStarterItems(ctx context.Context, by assessment.Actor, code string) (int, error) {
	starter, err := catalog.Items(code)
	if err != nil {
		return 0, err
	}
	return o.addItems(ctx, by, code, func(bank []BankItem) []knowledge.Item {
		return slices.DeleteFunc(slices.Clone(starter.Items), func(i knowledge.Item) bool {
			return slices.ContainsFunc(bank, func(b BankItem) bool { return b.Item.ID == i.ID })
		})
	})
}

// hasStarterItems reports whether there are any for a skill.
func hasStarterItems(code string) bool {
	b, err := catalog.Items(code)
	return err == nil && len(b.Items) > 0
}

// missingStarters counts the starter items that a bank never had.
func missingStarters(code string, bank []BankItem) (int, error) {
	if !hasStarterItems(code) {
		return 0, nil
	}
	starter, err := catalog.Items(code)
	n := 0
	for _, i := range starter.Items {
		if !slices.ContainsFunc(bank, func(b BankItem) bool { return b.Item.ID == i.ID }) {
			n++
		}
	}
	return n, err
}

// textOf is the items in use as YAML; empty where there are none.
func textOf(code string, bank []BankItem) (string, error) {
	items := inUse(bank)
	if len(items) == 0 {
		return "", nil
	}
	text, err := knowledge.Bank{Skill: code, Items: items}.YAML()
	return string(text), err
}

// AddItems takes a bank as YAML in: what is new, and what says something else than its
// newest version, becomes a version. It answers how many that were.
func (o *Office) AddItems(ctx context.Context, by assessment.Actor, code, text string) (int, error) {
	if utf8.RuneCountInString(text) > mostBank {
		return 0, faultAt("items", "This is too long. Send at most 200,000 letters at once.")
	}
	sent, err := knowledge.Read([]byte(text))
	switch {
	case err != nil:
		return 0, faultAt("items", plainly(err))
	case sent.Skill != code:
		return 0, faultAt("items", fmt.Sprintf("These are items of %q, and this is the bank of %q.", sent.Skill, code))
	}
	return o.addItems(ctx, by, code, func(bank []BankItem) []knowledge.Item {
		return slices.DeleteFunc(sent.Items, func(i knowledge.Item) bool {
			n := slices.IndexFunc(bank, func(b BankItem) bool { return b.Item.ID == i.ID })
			return n >= 0 && !bank[n].Retired && same(bank[n].Item, i)
		})
	})
}

// mostBank bounds a bank that is sent as text.
const mostBank = 200_000

func plainly(err error) string {
	if f, ok := fault.As(err); ok {
		return strings.TrimSuffix(f.Error(), ".") + "."
	}
	return err.Error()
}

func same(a, b knowledge.Item) bool {
	x, errX := a.JSON()
	y, errY := b.JSON()
	return errX == nil && errY == nil && string(x) == string(y)
}

func (o *Office) addItems(ctx context.Context, by assessment.Actor, code string, which func([]BankItem) []knowledge.Item) (int, error) {
	added := 0
	err := o.as(ctx, by, assessment.EditChecks, func(tx *postgres.Tx, now Moment) error {
		skill, bank, err := o.heldBank(ctx, tx, code)
		if err != nil {
			return err
		}
		added = 0
		for _, i := range which(bank) {
			if err := o.addVersion(ctx, tx, now, by, skill.ID, bank, i, false); err != nil {
				return err
			}
			added++
		}
		return nil
	})
	return added, err
}

// heldBank reads a bank that nobody else changes meanwhile.
func (o *Office) heldBank(ctx context.Context, tx *postgres.Tx, code string) (postgres.Skill, []BankItem, error) {
	skill, err := tx.Checklists.SkillByCode(ctx, code)
	if err != nil {
		return skill, nil, err
	}
	if err := tx.Knowledge.LockBank(ctx, skill.ID); err != nil {
		return skill, nil, err
	}
	bank, err := readBank(ctx, tx, skill.ID)
	return skill, bank, err
}

// addVersion keeps an item as the next version of its id.
func (o *Office) addVersion(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, skill assessment.SkillID, bank []BankItem, i knowledge.Item, retired bool) error {
	version := 1
	if n := slices.IndexFunc(bank, func(b BankItem) bool { return b.Item.ID == i.ID }); n >= 0 {
		version = bank[n].Version + 1
	}
	body, err := i.JSON()
	if err != nil {
		return err
	}
	id, err := newID[assessment.RecordID](o, now.At)
	if err != nil {
		return err
	}
	if err := tx.Knowledge.AddItem(ctx, postgres.KnowledgeItem{ID: id, SkillID: skill, Code: i.ID, Version: version, Retired: retired, Body: string(body), AddedBy: by.Person, AddedAt: now.At}); err != nil {
		return fmt.Errorf("keep version %d of item %s: %w", version, i.ID, err)
	}
	return o.note(ctx, tx, now, by, assessment.EditChecks, "knowledge_item", string(id))
}
