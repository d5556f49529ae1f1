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

// SittingView is one try at a check, as whoever takes it or looks at it may see it.
type SittingView struct {
	Agency    AgencyView
	ID        assessment.RecordID
	Person    PersonRef
	Skill     SkillRef
	Called    Called
	Language  string
	BegunAt   time.Time
	Now       time.Time
	Zone      *time.Location
	Mine      bool // of who reads
	Rule      postgres.KnowledgeRule
	Questions []Question
	Ends      time.Time // when its time is over; zero: from before checks had an end
	Over      bool      // it goes on, and its time is over: no pass comes of it
	Reader    bool      // who took it could read what it asks
	HandedIn  time.Time // zero: it goes on
	Result    knowledge.Result
	Through   civil.Date // last day of the pass; zero: without end, or there is none
	Easier    bool       // passed, but more is asked now: it does not hold
	Waits     bool       // passed, and counts only once somebody else says that a trainer was there
	Next      NextTry    // where it was not passed
	Present   *bool      // a trainer was there; nil: not known
	PresentBy string
}

// Question is one item of a form.
type Question struct {
	Place  int // from 1
	Item   knowledge.Item
	Shown  []int // in which order options are seen, as the item counts them
	Answer knowledge.Answer
	Given  bool
	Right  bool // told once it was handed in
}

// Open reports whether it goes on.
func (v SittingView) Open() bool { return v.HandedIn.IsZero() }

// Unanswered are the places without an answer.
func (v SittingView) Unanswered() []int {
	var all []int
	for _, q := range v.Questions {
		if !q.Given {
			all = append(all, q.Place)
		}
	}
	return all
}

// Options are what can be chosen, in a language, in the order in which it is seen; of a
// match the right side. Answers go by the places in that order, so that neither page nor API
// tells by a number which option is right.
func (q Question) Options(language string) []string {
	t := q.Item.In(language)
	from := t.Options
	if q.Item.Kind == knowledge.Match {
		from = t.Right
	}
	var all []string
	for _, n := range q.Shown {
		if n <= len(from) {
			all = append(all, from[n-1])
		}
	}
	return all
}

// Sitting reads a try: one's own, or anybody's for those who look after all of them.
func (o *Office) Sitting(ctx context.Context, by assessment.Actor, id assessment.RecordID) (SittingView, error) {
	var v SittingView
	err := o.as(ctx, by, assessment.ReadChecks, func(tx *postgres.Tx, now Moment) error {
		s, err := tx.Knowledge.Sitting(ctx, id)
		if err != nil {
			return err
		}
		if err := by.MayFor(assessment.ReadChecks, s.PersonID, false); err != nil {
			return err
		}
		v, err = o.viewSitting(ctx, tx, now, by, s)
		return err
	})
	return v, err
}

// HandedIn reads a try as Sitting does, once it was handed in: before, what is right stays
// untold.
func (o *Office) HandedIn(ctx context.Context, by assessment.Actor, id assessment.RecordID) (SittingView, error) {
	v, err := o.Sitting(ctx, by, id)
	if err == nil && v.Open() {
		err = fault.Of(fault.Refused, "This check is not handed in yet. Hand it in first: then it can be printed, with what is right and why.")
	}
	return v, err
}

func (o *Office) viewSitting(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, s postgres.KnowledgeSitting) (SittingView, error) {
	v := SittingView{Agency: viewAgency(now.Agency), ID: s.ID, Person: PersonRef{ID: s.PersonID, Name: s.PersonName}, Language: s.Language, BegunAt: s.BegunAt, Now: now.At, Zone: now.Zone, Mine: s.PersonID == by.Person, Present: s.Present, PresentBy: s.PresentName, Ends: s.Ends(), Reader: s.Reader}
	skill, err := tx.Checklists.Skill(ctx, s.SkillID)
	if err != nil {
		return v, fmt.Errorf("read the skill of a sitting: %w", err)
	}
	v.Skill = SkillRef{skill.ID, skill.Code, skill.Title}
	called, err := lessonTitles(ctx, tx)
	if err != nil {
		return v, err
	}
	v.Called = Called{v.Skill, called[skill.ID]}
	if v.Rule, err = tx.Knowledge.Rule(ctx, s.RuleID); err != nil {
		return v, fmt.Errorf("read the rule of a sitting: %w", err)
	}
	if v.Questions, err = questionsOf(ctx, tx, s); err != nil || s.HandedInAt == nil {
		v.Over = s.Over(now.At)
		return v, err
	}
	v.HandedIn = *s.HandedInAt
	form, answers := v.judged()
	v.Result = s.By(v.Rule).Judge(form, answers, s.BegunAt, v.HandedIn)
	for i := range v.Questions {
		v.Questions[i].Right = !slices.Contains(v.Result.Missed, v.Questions[i].Item.ID)
	}
	rule, err := ruleNow(ctx, tx, now, s.SkillID)
	if err != nil {
		return v, err
	}
	if v.Result.Passed {
		if v.Easier, v.Waits = !rule.Core().Suffices(s.Pass()), s.Pass().Unwatched(now.At); v.Easier || v.Waits {
			return v, nil
		}
		v.Through = rule.Core().Through(civil.DayOf(v.HandedIn, now.Zone))
		return v, nil
	}
	own, err := tx.Knowledge.Sittings(ctx, s.PersonID, s.SkillID)
	if err == nil {
		v.Next, err = nextTry(ctx, tx, now, s.PersonID, s.SkillID, rule, own)
	}
	return v, err
}

// judged are form and answers as the core judges them.
func (v SittingView) judged() (form []knowledge.Item, answers []knowledge.Answer) {
	for _, q := range v.Questions {
		form = append(form, q.Item)
		if q.Given {
			answers = append(answers, q.Answer)
		}
	}
	return form, answers
}

// questionsOf reads the form of a sitting with the last answer to each of its items.
func questionsOf(ctx context.Context, tx *postgres.Tx, s postgres.KnowledgeSitting) ([]Question, error) {
	kept, err := tx.Knowledge.Items(ctx, s.Items)
	if err != nil {
		return nil, fmt.Errorf("read the items of a sitting: %w", err)
	}
	answers, err := tx.Knowledge.Answers(ctx, false, string(s.ID))
	if err != nil {
		return nil, fmt.Errorf("read the answers of a sitting: %w", err)
	}
	var all []Question
	for n, id := range s.Items {
		i := slices.IndexFunc(kept, func(k postgres.KnowledgeItem) bool { return string(k.ID) == id })
		if i < 0 {
			return nil, fmt.Errorf("item %d of sitting %s is not in the bank", n+1, s.ID)
		}
		read, err := readItem(kept[i])
		if err != nil {
			return nil, err
		}
		q := Question{Place: n + 1, Item: read.Item, Shown: read.Item.Shown(s.Seed)}
		for _, a := range answers {
			if a.Place == q.Place {
				q.Answer = answerOf(read.Item.ID, a)
				q.Given = q.Answer.Given()
			}
		}
		all = append(all, q)
	}
	return all, nil
}

func answerOf(item string, a postgres.KnowledgeAnswer) knowledge.Answer {
	out := knowledge.Answer{Item: item, Value: a.Value, Unit: a.Unit}
	for _, c := range a.Chosen {
		out.Chosen = append(out.Chosen, int(c))
	}
	return out
}

// openSitting is the actor's own that goes on, held so that two tabs take turns.
func openSitting(ctx context.Context, tx *postgres.Tx, by assessment.Actor, id assessment.RecordID) (postgres.KnowledgeSitting, error) {
	if err := tx.History.Lock(ctx, by.Person); err != nil {
		return postgres.KnowledgeSitting{}, err
	}
	s, err := tx.Knowledge.Sitting(ctx, id)
	if err == nil && s.PersonID != by.Person {
		err = notFound()
	}
	return s, err
}

// errHandedIn: answers stay as they were.
var errHandedIn = fault.Of(fault.Conflict, "This check was handed in already. Its answers stay as they were.")
