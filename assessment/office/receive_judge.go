package office

import (
	"context"
	"fmt"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// judgedReceived is a sheet as it was if it was performed at one instant.
type judgedReceived struct {
	view   SheetView
	result assessment.Result
	fitted assessment.Fitted
}

// judgeReceived asks the rules again. Where the clocks differ, so that there are two
// instants at which it may have been performed, the one counts by which nobody is
// competent on more days: a wrong clock makes nobody current.
func (o *Office) judgeReceived(ctx context.Context, tx *postgres.Tx, now Moment, in incoming, s postgres.Sheet, list *assessment.Checklist) (judgedReceived, error) {
	instants := in.clocks.Instants()
	var all []judgedReceived
	for _, at := range instants {
		j, err := o.judgedAt(ctx, tx, now, in, s, list, at)
		if err != nil {
			return j, err
		}
		all = append(all, j)
	}
	counts := all[0]
	if len(all) > 1 {
		var err error
		if counts, err = o.leastKind(ctx, tx, now, all[0], all[1]); err != nil {
			return counts, err
		}
	}
	if err := o.wasInForce(ctx, tx, in, counts, instants); err != nil {
		return counts, err
	}
	if counts.result.Outcome != assessment.Competent {
		return counts, nil
	}
	return counts, o.passReceived(ctx, tx, now, in, counts, instants)
}

// judgedAt scores the marks by the child's values of an instant; where they lack then, by
// those of the pack, before which nothing was performed. A pass by such is refused later.
func (o *Office) judgedAt(ctx context.Context, tx *postgres.Tx, now Moment, in incoming, s postgres.Sheet, list *assessment.Checklist, at time.Time) (judgedReceived, error) {
	var j judgedReceived
	s.PerformedAt = at
	known, words, err := o.valuesReceived(ctx, tx, in, s, list)
	if err != nil {
		return j, err
	}
	j.view = SheetView{Sheet: s, Checklist: *list, Parameters: known, Words: words, Marks: map[int]postgres.SheetMark{}, Zone: now.Zone}
	for _, m := range in.marks {
		j.view.Marks[m.Step] = m
	}
	sheet, err := coreSheet(s, in.marks)
	if err != nil {
		return j, err
	}
	var open []assessment.Open
	if j.result, open, err = assessment.Score(*list, known, sheet); err != nil {
		return j, err
	}
	if len(open) > 0 {
		return j, stillOpen(open)
	}
	for _, t := range in.text.TakenBack {
		if _, there := list.Step(t.Step); !there && t.Step != 0 {
			return j, fault.Of(fault.Invalid, "The checklist has no step %d.", t.Step)
		}
	}
	changes, err := tx.History.Equipment(ctx)
	j.fitted = fittedAt(changes, s.ClientID, at, now.Zone)
	return j, err
}

// valuesReceived are a child's values as they stood when a sheet was performed, or, where
// one that is judged was not ordered yet, when its pack was made.
func (o *Office) valuesReceived(ctx context.Context, tx *postgres.Tx, in incoming, s postgres.Sheet, list *assessment.Checklist) (assessment.Parameters, map[string]string, error) {
	known, words, err := o.parametersOf(ctx, tx, s.ClientID, s.PerformedAt, list)
	if err != nil {
		return nil, nil, err
	}
	for _, p := range list.Parameters {
		if _, there := known[p.Name]; !there && list.Judges(p.Name) {
			return o.parametersOf(ctx, tx, s.ClientID, in.clocks.AfterPack(s.PerformedAt), list)
		}
	}
	return known, words, nil
}

// stillOpen says what keeps a sheet from being judged. What the child's record lacks
// cannot be mended on the device.
func stillOpen(open []assessment.Open) error {
	for _, gap := range open {
		if gap.Why == assessment.WhyParameter {
			return fault.Of(fault.Refused, "This cannot be judged: the child's record had no value for %s when it was shown. Nothing of it is kept here. If what you saw calls for it, withdraw the competency on the learner's page, and show the skill again once the value is ordered.", gap.Of)
		}
	}
	return openSteps(open)
}

// yearsAhead is how far standings are compared: longer than any competency holds.
const yearsAhead = 10

// leastKind chooses between two instants, of which a is the earlier: by its history and
// this sheet, signed, the learner must not hold the skill on a day on which they would
// not by the other one. Where neither is so on all days, what is no pass counts at the
// instant that withholds from today on, and a pass does not count.
func (o *Office) leastKind(ctx context.Context, tx *postgres.Tx, now Moment, a, b judgedReceived) (judgedReceived, error) {
	book, err := o.casebook(ctx, tx, now, postgres.HistoryFilter{People: []assessment.PersonID{a.view.LearnerID}, Skill: a.view.SkillID})
	if err != nil {
		return a, err
	}
	early, err := book.with(now, a)
	if err != nil {
		return a, err
	}
	late, err := book.with(now, b)
	if err != nil {
		return a, err
	}
	from := civil.DayOf(a.view.PerformedAt, now.Zone)
	days := now.Today.AddMonths(12 * yearsAhead).Sub(from)
	ahead := days - now.Today.Sub(from)
	switch {
	case assessment.NeverKinder(early, late, from, days):
		return a, nil
	case assessment.NeverKinder(late, early, from, days):
		return b, nil
	case a.result.Outcome == assessment.Competent && b.result.Outcome == assessment.Competent:
		return a, fault.Of(fault.Refused, "The clock of the device was wrong, so it is not sure when this was performed, and for this learner that decides how long it holds. A pass cannot count so. Set the clock right, and have it shown again.")
	case assessment.NeverKinder(late, early, now.Today, ahead):
		return b, nil
	}
	return a, nil
}

// with is the case of the learner as if a sheet were recorded and signed by both.
func (b *casebook) with(now Moment, j judgedReceived) (*assessment.Case, error) {
	key := assessment.CaseKey{Person: j.view.LearnerID, Skill: j.view.SkillID, Client: j.view.ClientID}
	if s, known := b.skills[key.Skill]; known && s.Scope == assessment.General {
		key.Client = ""
	}
	before := b.rows[key]
	b.rows[key] = append(before[:len(before):len(before)], assessment.Entry{Kind: assessment.DemonstrationEntry, ID: string(j.view.ID), At: j.view.PerformedAt, Outcome: j.result.Outcome,
		Observer: string(j.view.ObserverID), Real: j.view.RealClient, Formal: j.view.Formal, Revision: j.view.Revision, ObserverSigned: now.At, LearnerSigned: now.At,
		Fitted: j.fitted, Recorded: now.At})
	defer func() { b.rows[key] = before }()
	return b.caseOf(key)
}

// wasInForce refuses a checklist that was not in force when the skill was shown: for a
// pass, at each instant at which it may have been; for what is no pass, at none of them,
// none of which is before the pack.
func (o *Office) wasInForce(ctx context.Context, tx *postgres.Tx, in incoming, j judgedReceived, instants []time.Time) error {
	r, err := tx.Checklists.Revision(ctx, j.view.RevisionID)
	if err != nil {
		return err
	}
	held, pass := 0, j.result.Outcome == assessment.Competent
	for _, at := range instants {
		if !pass {
			at = in.clocks.AfterPack(at)
		}
		if r.InForceAt != nil && !r.InForceAt.After(at) && (r.RetiredAt == nil || r.RetiredAt.After(at)) {
			held++
		}
	}
	if held == len(instants) || held > 0 && !pass {
		return nil
	}
	return fault.Of(fault.Refused, "Revision %d of %s was not in force when this was performed. Have it shown again on the one that is.", r.Number, r.Title)
}

// passReceived asks of a pass all that is asked where one is opened and recorded here,
// at each instant at which it may have been performed.
func (o *Office) passReceived(ctx context.Context, tx *postgres.Tx, now Moment, in incoming, j judgedReceived, instants []time.Time) error {
	switch {
	case in.clocks.SetRight():
		return fault.Of(fault.Refused, "The sheet says that it was performed before its pack was made: the clock of the device was behind and was set right in between, and when it was performed is not known. A pass cannot count so. Have it shown again.")
	case in.clocks.Changed():
		return fault.Of(fault.Refused, "The sheet says that it was performed or finished after it was sent: the clock of the device was set back in between, and when it was performed is not known. A pass cannot count so. Have it shown again.")
	}
	for _, at := range instants {
		s := j.view.Sheet
		s.PerformedAt = at
		if err := o.mayOpen(ctx, tx, now, s, &j.view.Checklist); err != nil {
			return fmt.Errorf("take in a pass: %w", err)
		}
	}
	return nil
}
