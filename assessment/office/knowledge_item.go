package office

import (
	"context"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/knowledge"
	"wellshown/assessment/postgres"
)

// ItemForm is an item as an educator types it.
type ItemForm struct {
	Skill   string
	Typed   knowledge.Typed
	Version int // that was read; 0: it is new
}

// read is the item that was typed.
func (f ItemForm) read() (knowledge.Item, error) {
	if f.Version == 0 {
		if err := knowledge.CheckID(f.Typed.ID); err != nil {
			return knowledge.Item{}, err
		}
	}
	return f.Typed.Item()
}

// SaveItem keeps an item as a new version, unless somebody else has changed it meanwhile.
func (o *Office) SaveItem(ctx context.Context, by assessment.Actor, f ItemForm) error {
	return o.as(ctx, by, assessment.EditChecks, func(tx *postgres.Tx, now Moment) error {
		typed, err := f.read()
		if err != nil {
			return err
		}
		skill, bank, err := o.heldBank(ctx, tx, f.Skill)
		if err != nil {
			return err
		}
		known, err := f.goesOn(bank, typed)
		if err != nil || known != nil && !known.Retired && same(known.Item, typed) {
			return err
		}
		return o.addVersion(ctx, tx, now, by, skill.ID, bank, typed, false)
	})
}

// goesOn is the item that a form was read from; nil: it is new. A form that was sent twice
// is the same one.
func (f ItemForm) goesOn(bank []BankItem, typed knowledge.Item) (*BankItem, error) {
	n := slices.IndexFunc(bank, func(b BankItem) bool { return b.Item.ID == typed.ID })
	switch {
	case n < 0 && f.Version == 0:
		return nil, nil
	case n < 0:
		return nil, notFound()
	case same(bank[n].Item, typed):
		return &bank[n], nil
	case f.Version == 0:
		return nil, faultAt("id", "There is an item with this id already. Choose another id.")
	case bank[n].Version != f.Version:
		return nil, fault.Of(fault.Conflict, "Somebody else has changed this item meanwhile. Look at it again, then save.")
	case bank[n].Item.Kind != typed.Kind:
		return nil, faultAt("kind", "An item keeps its kind. Write another item, and ask this one no more.")
	}
	return &bank[n], nil
}

// RetireItem takes an item out of forms that are drawn from now on, or back into them.
// What was asked of it stays.
func (o *Office) RetireItem(ctx context.Context, by assessment.Actor, code, item string, retired bool) error {
	return o.as(ctx, by, assessment.EditChecks, func(tx *postgres.Tx, now Moment) error {
		skill, bank, err := o.heldBank(ctx, tx, code)
		if err != nil {
			return err
		}
		n := slices.IndexFunc(bank, func(b BankItem) bool { return b.Item.ID == item })
		if n < 0 {
			return notFound()
		}
		if bank[n].Retired == retired {
			return nil
		}
		rule, err := ruleNow(ctx, tx, now, skill.ID)
		if err != nil {
			return err
		}
		if left := len(inUse(bank)) - 1; retired && rule.Asked != knowledge.NotAsked && left < rule.Length {
			return fault.Of(fault.Refused, "The check asks %d questions, and without this one only %d would be left. Add an item first, or make the check shorter.", rule.Length, left)
		}
		return o.addVersion(ctx, tx, now, by, skill.ID, bank, bank[n].Item, retired)
	})
}
