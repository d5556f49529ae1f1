package office

import (
	"context"
	"fmt"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/knowledge"
	"wellshown/assessment/postgres"
)

// AnswerForm is an answer as it comes from a page: options by the places at which they
// are seen, so that a page tells nobody what is right.
type AnswerForm struct {
	Sitting assessment.RecordID
	Place   int   // of the item in the form, from 1
	Chosen  []int // Single, Multiple: places of options; Order: of them, the first first; Match: for each of the left
	Value   string
	Unit    string
}

// AnswerItem keeps an answer. Whoever thinks again before handing in answers again; all of
// it stays as it was given.
func (o *Office) AnswerItem(ctx context.Context, by assessment.Actor, f AnswerForm) error {
	return o.as(ctx, by, assessment.TakeCheck, func(tx *postgres.Tx, now Moment) error {
		s, err := openSitting(ctx, tx, by, f.Sitting)
		switch {
		case err != nil:
			return err
		case s.HandedInAt == nil && s.Over(now.At):
			return fault.Of(fault.Refused, "The time for this check was over on %s, %s. What you answered until then is kept. Hand it in to see what is right and why, and when the next try is.", civil.DayOf(s.Ends(), now.Zone), s.Ends().In(now.Zone).Format("15:04"))
		}
		questions, err := questionsOf(ctx, tx, s)
		if err != nil {
			return err
		}
		if f.Place < 1 || f.Place > len(questions) {
			return fault.Of(fault.Invalid, "This check has no question %d.", f.Place)
		}
		q := questions[f.Place-1]
		a, err := f.read(q)
		if err != nil {
			return err
		}
		switch {
		case sameAnswer(a, q.Answer): // sent once more
			return nil
		case s.HandedInAt != nil:
			return errHandedIn
		}
		return o.keepAnswer(ctx, tx, now, by, s, q, a)
	})
}

func (f AnswerForm) read(q Question) (knowledge.Answer, error) {
	a := knowledge.Answer{Item: q.Item.ID, Chosen: knowledge.AsShown(q.Shown, f.Chosen)}
	var faults form
	a.Value = faults.maybe("value", f.Value, 40)
	if a.Value != "" { // a unit alone is no answer
		a.Unit = f.Unit
	}
	if err := faults.Err(); err != nil {
		return a, err
	}
	if q.Item.Kind == knowledge.Multiple {
		slices.Sort(a.Chosen)
	}
	if len(a.Chosen) > len(q.Shown) {
		return a, fault.Of(fault.Invalid, "There are not so many answers to choose from.")
	}
	return a, q.Item.Takes(a)
}

func sameAnswer(a, b knowledge.Answer) bool {
	return slices.Equal(a.Chosen, b.Chosen) && a.Value == b.Value && a.Unit == b.Unit
}

func (o *Office) keepAnswer(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, s postgres.KnowledgeSitting, q Question, a knowledge.Answer) error {
	before, err := tx.Knowledge.Answers(ctx, false, string(s.ID))
	if err != nil {
		return err
	}
	kept := postgres.KnowledgeAnswer{SittingID: s.ID, Place: q.Place, Nth: 1, Chosen: []int16{}, Value: a.Value, Unit: a.Unit, GivenAt: now.At}
	for _, b := range before {
		if b.Place == q.Place {
			kept.Nth = b.Nth + 1
		}
	}
	if kept.Nth > mostThoughts {
		return fault.Of(fault.Refused, "This question was answered %d times already. The last answer stands.", mostThoughts)
	}
	for _, c := range a.Chosen {
		kept.Chosen = append(kept.Chosen, int16(c))
	}
	if err := tx.Knowledge.Answer(ctx, kept); err != nil {
		return fmt.Errorf("keep an answer: %w", err)
	}
	return o.note(ctx, tx, now, by, assessment.TakeCheck, "knowledge_answer", string(s.ID))
}

// mostThoughts bounds how often one item is answered in one sitting.
const mostThoughts = 50

// HandIn judges a sitting and ends it. Sent twice, it is the same. Once its time is over it
// comes to no pass, and still tells what was right.
func (o *Office) HandIn(ctx context.Context, by assessment.Actor, id assessment.RecordID) error {
	return o.as(ctx, by, assessment.TakeCheck, func(tx *postgres.Tx, now Moment) error {
		s, err := openSitting(ctx, tx, by, id)
		if err != nil || s.HandedInAt != nil {
			return err
		}
		r, err := judgeSitting(ctx, tx, s, now.At)
		if err != nil {
			return err
		}
		if err := tx.Knowledge.HandIn(ctx, r); err != nil {
			return fmt.Errorf("hand in a check: %w", err)
		}
		return o.note(ctx, tx, now, by, assessment.TakeCheck, "knowledge_result", string(id))
	})
}

// judgeSitting is what a sitting comes to that is handed in at an instant, by the rule by
// which it was begun and the time that it has.
func judgeSitting(ctx context.Context, tx *postgres.Tx, s postgres.KnowledgeSitting, at time.Time) (postgres.KnowledgeResult, error) {
	r := postgres.KnowledgeResult{SittingID: s.ID, HandedInAt: at, OpenMinutes: int(s.Open() / time.Minute), Missed: []int16{}, Critical: []int16{}}
	questions, err := questionsOf(ctx, tx, s)
	if err != nil {
		return r, err
	}
	rule, err := tx.Knowledge.Rule(ctx, s.RuleID)
	if err != nil {
		return r, fmt.Errorf("read the rule of a sitting: %w", err)
	}
	form, answers := SittingView{Questions: questions}.judged()
	v := s.By(rule).Judge(form, answers, s.BegunAt, at)
	r.RightCount, r.Passed = v.Right, v.Passed
	for _, q := range questions {
		if slices.Contains(v.Missed, q.Item.ID) {
			r.Missed = append(r.Missed, int16(q.Place))
		}
		if slices.Contains(v.Critical, q.Item.ID) {
			r.Critical = append(r.Critical, int16(q.Place))
		}
	}
	return r, nil
}

// SayPresence writes down whether a trainer was there while a check was taken. It is said
// by somebody else than took it, and changes nothing of the result. Where a pass counts only
// by that word, it takes two people (see knowledge.Pass).
func (o *Office) SayPresence(ctx context.Context, by assessment.Actor, id assessment.RecordID, present bool) error {
	return o.as(ctx, by, assessment.EditChecks, func(tx *postgres.Tx, now Moment) error {
		s, err := tx.Knowledge.Sitting(ctx, id)
		switch {
		case err != nil:
			return err
		case s.PersonID == by.Person:
			return fault.Of(fault.Refused, "Whether a trainer was there is said by somebody else than took the check.")
		case s.HandedInAt == nil:
			return fault.Of(fault.Refused, "This check goes on. Say it once it was handed in.")
		case s.Present != nil && *s.Present == present:
			return nil
		}
		if s.Reader && present {
			if err := secondPerson(ctx, tx, now, by.Person, s.PersonID, *s.HandedInAt, "You cannot say that a trainer was there with "+s.PersonName); err != nil {
				return err
			}
		}
		p := postgres.KnowledgePresence{SittingID: id, Present: present, SaidBy: by.Person, SaidAt: now.At}
		if p.ID, err = newID[assessment.RecordID](o, now.At); err != nil {
			return err
		}
		if err := tx.Knowledge.SayPresence(ctx, p); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.EditChecks, "knowledge_presence", string(p.ID))
	})
}
