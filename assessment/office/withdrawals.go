package office

import (
	"cmp"
	"context"
	"fmt"
	"maps"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// Withdraw takes a competency away at once, with related skills where asked: a
// deficiency that was seen concerns the skill and all related ones (42 CFR
// 484.80(h)(3), from memory).
func (o *Office) Withdraw(ctx context.Context, by assessment.Actor, form ExceptionForm, until assessment.Until, related bool) error {
	proof := form.Proof.over(form, until, related)
	look := func(tx *postgres.Tx, _ Moment) (assessment.PersonID, error) {
		if err := liftedBy(until); err != nil {
			return "", err
		}
		key, err := o.key(ctx, tx, form)
		if err != nil {
			return "", err
		}
		return by.Person, proof.tell(func() (string, error) { return o.saysWithdraw(ctx, tx, key, until, related, form.Reason) })
	}
	return o.signing(ctx, by, assessment.Withdraw, proof, look, o.withdrawing(ctx, by, form, until, related))
}

// PreviewWithdraw tells what withdrawing it now would change. A reason may still be missing.
func (o *Office) PreviewWithdraw(ctx context.Context, by assessment.Actor, form ExceptionForm, until assessment.Until, related bool) (Preview, error) {
	form.ID, form.Reason = "", cmp.Or(form.Reason, lookedAt)
	if err := liftedBy(until); err != nil {
		return Preview{}, err
	}
	return o.rehearse(ctx, by, assessment.Withdraw, "", o.withdrawing(ctx, by, form, until, related))
}

// lookedAt stands where an act asks for words that whoever only looks has not typed yet.
const lookedAt = "Only looked at beforehand."

func liftedBy(until assessment.Until) error {
	if until != assessment.Redemonstrated && until != assessment.Reinstated {
		return &fault.Fault{Kind: fault.Invalid, Message: "One thing needs mending.", Fields: map[string]string{"until": "Choose what lifts it: a new demonstration, or a reinstatement."}}
	}
	return nil
}

func (o *Office) withdrawing(ctx context.Context, by assessment.Actor, form ExceptionForm, until assessment.Until, related bool) func(*postgres.Tx, Moment) error {
	return func(tx *postgres.Tx, now Moment) error {
		key, err := o.key(ctx, tx, form)
		if err != nil {
			return err
		}
		before, err := o.sentBefore(ctx, tx, form, key, func(h postgres.Happening) bool {
			return h.Kind == assessment.WithdrawalEntry && h.Until == until && h.Related == related
		})
		if before || err != nil {
			return err
		}
		return o.withdraw(ctx, tx, now, by, form, key, until, related)
	}
}

// withdraw keeps one withdrawal for each case; all but the first have ids of their own.
func (o *Office) withdraw(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, form ExceptionForm, key assessment.CaseKey, until assessment.Until, related bool) error {
	if err := o.withdrawOne(ctx, tx, now, by, key, until, related, form); err != nil {
		return err
	}
	if related {
		more, err := o.relatedTo(ctx, tx, now, key)
		if err != nil {
			return err
		}
		form.ID = ""
		for _, k := range more {
			if err := o.withdrawOne(ctx, tx, now, by, k, until, false, form); err != nil {
				return err
			}
		}
	}
	return o.reindexPerson(ctx, tx, now, form.Person)
}

func (o *Office) withdrawOne(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, key assessment.CaseKey, until assessment.Until, related bool, form ExceptionForm) error {
	s, err := o.signed(now, by, form.ID, form.Reason)
	if err != nil {
		return err
	}
	if err := tx.Exceptions.AddWithdrawal(ctx, postgres.Withdrawal{Signed: s, Key: key, Until: until, Related: related}); err != nil {
		return err
	}
	return o.note(ctx, tx, now, by, assessment.Withdraw, "withdrawal", string(s.ID))
}

// relatedTo lists the person's cases in skills related to one, as far as anything
// was shown or is being shown there that is or could become a competency: what
// waits for a signature, a card or other equipment would otherwise hold as if
// nothing had been seen.
func (o *Office) relatedTo(ctx context.Context, tx *postgres.Tx, now Moment, key assessment.CaseKey) ([]assessment.CaseKey, error) {
	b, err := o.casebook(ctx, tx, now, postgres.HistoryFilter{People: []assessment.PersonID{key.Person}})
	if err != nil {
		return nil, err
	}
	related := map[string]bool{}
	for _, code := range b.skills[key.Skill].related {
		related[code] = true
	}
	shown, err := o.shownCases(ctx, tx, b, key.Person)
	if err != nil {
		return nil, err
	}
	var keys []assessment.CaseKey
	for _, k := range slices.SortedFunc(maps.Keys(shown), inOrder) {
		if related[b.skills[k.Skill].Code] && (k.Client == "" || key.Client == "" || k.Client == key.Client) {
			keys = append(keys, k)
		}
	}
	return keys, nil
}

func inOrder(a, b assessment.CaseKey) int {
	return cmp.Or(cmp.Compare(a.Skill, b.Skill), cmp.Compare(a.Client, b.Client))
}

// shownCases are those in which a pass was shown, signed or not, or a sheet is open.
func (o *Office) shownCases(ctx context.Context, tx *postgres.Tx, b *casebook, person assessment.PersonID) (map[assessment.CaseKey]bool, error) {
	shown := map[assessment.CaseKey]bool{}
	for _, k := range b.keys() {
		shown[k] = slices.ContainsFunc(b.rows[k], func(e assessment.Entry) bool {
			return e.Kind == assessment.DemonstrationEntry && e.Formal && e.Outcome == assessment.Competent
		})
	}
	sheets, err := tx.Sheets.List(ctx, "")
	if err != nil {
		return nil, fmt.Errorf("read open sheets: %w", err)
	}
	for _, s := range sheets {
		k := assessment.CaseKey{Person: s.LearnerID, Skill: s.SkillID, Client: s.ClientID}
		skill, ok := b.skills[s.SkillID]
		if ok && skill.Scope == assessment.General {
			k.Client = ""
		}
		if ok && s.LearnerID == person && s.Formal {
			shown[k] = true
		}
	}
	maps.DeleteFunc(shown, func(_ assessment.CaseKey, is bool) bool { return !is })
	return shown, nil
}
