package office

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// TeachingForm is teaching that was held.
type TeachingForm struct {
	ID        string // made by whoever sends it, so that sending twice adds one; empty: made here
	HeldOn    string
	Minutes   string // whole ones
	Trainer   assessment.PersonID
	Client    assessment.ClientID // empty: of no child
	Skills    []string            // codes
	Learners  []TaughtForm
	Note      string
	InService bool // its minutes count toward the in-service hours of aides
}

// TaughtForm is who was taught, and how.
type TaughtForm struct {
	Person assessment.PersonID
	assessment.TaughtHow
}

// LogTeaching writes down a teaching session. It says in the histories of those who were
// taught that they were, as Log does, and makes nobody competent.
func (o *Office) LogTeaching(ctx context.Context, by assessment.Actor, f TeachingForm) (assessment.RecordID, error) {
	var id assessment.RecordID
	err := o.as(ctx, by, assessment.LogCare, func(tx *postgres.Tx, now Moment) error {
		s, learners, err := o.readTeaching(ctx, tx, now, by, f)
		if err != nil {
			return err
		}
		id = s.ID
		known, err := tx.Teaching.Get(ctx, s.ID)
		if err == nil {
			if sameTeaching(known, s) {
				return nil
			}
			return fault.Of(fault.Conflict, "There is another record under this id.")
		}
		if fault.KindOf(err) != fault.NotFound {
			return err
		}
		if len(learners) == 0 {
			return faultAt("learners", "Say who was taught, and how.")
		}
		if err := o.keepTeaching(ctx, tx, now, by, s, learners); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.LogCare, "teaching_session", string(s.ID))
	})
	return id, err
}

// sameTeaching: a form that is sent twice differs in nothing.
func sameTeaching(a, b postgres.TeachingSession) bool {
	return a.HeldOn == b.HeldOn && a.Minutes == b.Minutes && a.Trainer == b.Trainer && a.Client == b.Client && a.Note == b.Note && a.Corrects == b.Corrects && slices.Equal(a.Skills, b.Skills)
}

// readTeaching reads a form and refuses what cannot be.
func (o *Office) readTeaching(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, f TeachingForm) (postgres.TeachingSession, []postgres.Learner, error) {
	var faults form
	s := postgres.TeachingSession{Client: f.Client, HeldOn: faults.day("held_on", f.HeldOn), Minutes: faults.wholeMinutes("minutes", f.Minutes), Trainer: f.Trainer,
		Note: faults.words("note", f.Note, 2000), InService: f.InService, WrittenBy: by.Person, WrittenAt: now.At}
	if s.HeldOn.After(now.Today) {
		faults.Add("held_on", "This day is to come. Write it down once it was held.")
	}
	learners, err := o.readLearners(ctx, tx, by, s.HeldOn, f.Learners, &faults)
	if err != nil {
		return s, nil, err
	}
	if err := readTaught(ctx, tx, f.Skills, &s, &faults); err != nil {
		return s, nil, err
	}
	if err := readTrainer(ctx, tx, o, now, f, learners, &s, &faults); err != nil {
		return s, nil, err
	}
	if f.Client != "" {
		if _, err := tx.Clients.Get(ctx, f.Client); err != nil {
			return s, nil, err
		}
	}
	if err := faults.Err(); err != nil {
		return s, nil, err
	}
	s.ID, err = idOr[assessment.RecordID](o, f.ID, now.At)
	return s, learners, err
}

func (f *form) wholeMinutes(field, typed string) int {
	n, err := strconv.Atoi(strings.TrimSpace(typed))
	if err != nil || n < 1 || n > assessment.MostTeachingMinutes {
		f.Add(field, "Give whole minutes, from 1 to %d, which is a day.", assessment.MostTeachingMinutes)
	}
	return n
}

func (o *Office) readLearners(ctx context.Context, tx *postgres.Tx, by assessment.Actor, on civil.Date, typed []TaughtForm, faults *form) ([]postgres.Learner, error) {
	var learners []postgres.Learner
	for _, l := range typed {
		p, err := tx.People.Get(ctx, l.Person)
		switch {
		case err != nil:
			return nil, err
		case !l.Any():
			faults.Add("learners", "Say of %s what happened: shown, explained, practised with help, or taught back.", p.Name)
		case p.ID == by.Person:
			faults.Add("learners", "What you were taught yourself is written down by somebody else. Ask a colleague.")
		case p.Kind == "":
			faults.Add("learners", "%s is no caregiver.", p.Name)
		case gone(p.LeftOn, on):
			faults.Add("learners", "%s was no longer with the agency on that day.", p.Name)
		case slices.ContainsFunc(learners, func(k postgres.Learner) bool { return k.Person == l.Person }):
			faults.Add("learners", "%s is named twice.", p.Name)
		}
		learners = append(learners, postgres.Learner{Person: l.Person, TaughtHow: l.TaughtHow})
	}
	// By id, so that two who lock the histories of several never wait for each other.
	slices.SortFunc(learners, func(x, y postgres.Learner) int { return strings.Compare(string(x.Person), string(y.Person)) })
	return learners, nil
}

func readTaught(ctx context.Context, tx *postgres.Tx, codes []string, s *postgres.TeachingSession, faults *form) error {
	for _, code := range codes {
		skill, err := tx.Checklists.SkillByCode(ctx, code)
		if err != nil {
			faults.Add("skills", "Choose the skills from the list.")
			return nil
		}
		s.Skills = append(s.Skills, skill.ID)
	}
	slices.Sort(s.Skills)
	if s.Skills = slices.Compact(s.Skills); len(s.Skills) == 0 {
		faults.Add("skills", "Choose at least one skill.")
	}
	return nil
}

// readTrainer faults whoever could not teach on that day, and minutes that cannot count
// toward in-service hours.
func readTrainer(ctx context.Context, tx *postgres.Tx, o *Office, now Moment, f TeachingForm, learners []postgres.Learner, s *postgres.TeachingSession, faults *form) error {
	if f.Trainer == "" {
		faults.Add("trainer", "Say who taught.")
		return nil
	}
	var who []assessment.PersonID
	for _, l := range learners {
		who = append(who, l.Person)
	}
	if err := mayTeach(ctx, tx, s.HeldOn, "trainer", f.Trainer, who, faults); err != nil {
		return err
	}
	if !f.InService || s.HeldOn.IsZero() {
		return nil
	}
	seen, err := o.loadObservation(ctx, tx, now, f.Trainer, "")
	if err != nil {
		return err
	}
	if !assessment.MayCountInService(seen.Licences, s.HeldOn) {
		faults.Add("in_service", "Only what a registered nurse teaches counts toward in-service hours (42 CFR 484.80), and the teacher has no such licence on file that covers %s. Have it recorded, or let it not count.", s.HeldOn)
	}
	return nil
}

// keepTeaching writes a session down, and into each history that they were taught: of what
// is held per child only where the session was about a child.
func (o *Office) keepTeaching(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, s postgres.TeachingSession, learners []postgres.Learner) error {
	if err := tx.Teaching.Add(ctx, s, learners); err != nil {
		return fmt.Errorf("keep a teaching session: %w", err)
	}
	for _, l := range learners {
		for _, id := range s.Skills {
			skill, err := tx.Checklists.Skill(ctx, id)
			if err != nil {
				return err
			}
			key := assessment.CaseKey{Person: l.Person, Skill: id}
			if skill.Scope == assessment.ClientSpecific {
				key.Client = s.Client
			}
			if skill.Scope == assessment.ClientSpecific && s.Client == "" {
				continue
			}
			if err := o.noteTaught(ctx, tx, now, by, s, key); err != nil {
				return err
			}
		}
		if err := o.reindexPerson(ctx, tx, now, l.Person); err != nil {
			return err
		}
	}
	return nil
}

func (o *Office) noteTaught(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, s postgres.TeachingSession, key assessment.CaseKey) error {
	id, err := newID[assessment.RecordID](o, now.At)
	if err != nil {
		return err
	}
	x := postgres.Exposure{ID: id, Key: key, Kind: assessment.TeachingEntry, On: s.HeldOn, RecordedAt: now.At, RecordedBy: by.Person}
	if err := tx.Exceptions.AddExposure(ctx, x); err != nil {
		return fmt.Errorf("note what was taught: %w", err)
	}
	return tx.Teaching.Wrote(ctx, s.ID, id)
}
