package office

import (
	"context"
	"fmt"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// ForceLessonForm is what a licensed clinician states and signs who puts a lesson in
// force.
type ForceLessonForm struct {
	Lesson     assessment.LessonID
	Version    string // of the text that was read, as a LessonRef tells it
	Statement  string // what was reviewed and against what
	Translator string // the qualified translator who reviewed a translation, with what qualifies them
	Proof      Proof
}

func (f ForceLessonForm) read(l postgres.Lesson) (postgres.Lesson, error) {
	var faults form
	l.Statement = faults.words("statement", f.Statement, 4000)
	if l.Statement == "" && faults.Err() == nil {
		faults.Add("statement", "Say what you reviewed and against what: orders, the maker’s instructions, local rules.")
	}
	l.Translator = ""
	if l.Language != l.WrittenIn {
		l.Translator = faults.line("translator", f.Translator, 200, "Name the qualified translator who reviewed this translation, and what qualifies them.")
	}
	return l, faults.Err()
}

// BeforeLesson is what is looked at before a lesson is put in force.
type BeforeLesson struct {
	LessonView
	Replaces LessonRef // empty: nothing
	Licence  string    // of whoever would sign now
	Now      time.Time
}

// BeforeLesson tells it. It refuses what is no draft, and whoever has no licence.
func (o *Office) BeforeLesson(ctx context.Context, by assessment.Actor, id assessment.LessonID) (BeforeLesson, error) {
	var v BeforeLesson
	err := o.before(ctx, by, assessment.ForceLesson, func(tx *postgres.Tx, now Moment) error {
		l, err := tx.Lessons.Get(ctx, id)
		if err != nil {
			return err
		}
		if l.State != assessment.Draft {
			return fault.Of(fault.Refused, "Version %d is %s already. Only a draft is put in force.", l.Number, l.State)
		}
		if err := o.mustBeLicensed(ctx, tx, by, now); err != nil {
			return err
		}
		v = BeforeLesson{Now: now.At}
		if v.LessonView, err = o.openLesson(ctx, tx, now, l); err != nil {
			return err
		}
		if v.Licence, err = printedLicence(ctx, tx, now, by.Person); err != nil {
			return err
		}
		others, err := tx.Lessons.Of(ctx, l.SkillID, l.Language)
		for _, other := range others {
			if other.State == assessment.InForce {
				v.Replaces = viewLesson(other)
			}
		}
		return err
	})
	return v, err
}

// PutLessonInForce puts a draft in force, in place of what was. It is signed by a
// licensed clinician in their own name: families learn from it.
func (o *Office) PutLessonInForce(ctx context.Context, by assessment.Actor, f ForceLessonForm) error {
	proof := f.Proof.over("lesson", f.Lesson, f.Version, f.Statement, f.Translator)
	look := func(tx *postgres.Tx, now Moment) (assessment.PersonID, error) {
		l, err := o.toForce(ctx, tx, now, by, f)
		if err != nil {
			return "", err
		}
		return by.Person, proof.tell(func() (string, error) {
			return fmt.Sprintf("Put version %d of the lesson “%s” (%s) in force. I reviewed: %s", l.Number, l.Title, l.Language, l.Statement), nil
		})
	}
	return o.signing(ctx, by, assessment.ForceLesson, proof, look, func(tx *postgres.Tx, now Moment) error {
		if _, err := lockLessonDraft(ctx, tx, f.Lesson); err != nil {
			return err
		}
		l, err := o.toForce(ctx, tx, now, by, f)
		if err != nil {
			return err
		}
		text, err := readLesson(l.Source)
		if err != nil {
			return err
		}
		all, err := drawingsFor(ctx, tx, text)
		if err != nil {
			return err
		}
		if err := keepDrawings(ctx, tx, now, by, text, all); err != nil {
			return err
		}
		l.InForceAt, l.InForceBy = &now.At, by.Name
		if l.Licence, err = printedLicence(ctx, tx, now, by.Person); err != nil {
			return err
		}
		if err := tx.Lessons.PutInForce(ctx, l, by.Person); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.ForceLesson, "lesson", string(l.ID))
	})
}

// toForce is a draft with what is signed for it. It refuses whoever may not, what is no
// draft, another text than was read, and drawings that nobody has.
func (o *Office) toForce(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, f ForceLessonForm) (postgres.Lesson, error) {
	l, err := tx.Lessons.Get(ctx, f.Lesson)
	if err != nil {
		return l, err
	}
	if err := mustBeLessonDraft(l); err != nil {
		return l, err
	}
	if err := o.mustBeLicensed(ctx, tx, by, now); err != nil {
		return l, err
	}
	if viewLesson(l).Version != f.Version {
		return l, errLessonSaved(l)
	}
	text, err := readLesson(l.Source)
	if err != nil {
		return l, err
	}
	if err := allDrawn(ctx, tx, text); err != nil {
		return l, err
	}
	return f.read(l)
}

// RetireLesson takes a lesson out of force with none in its place: nobody finds it any
// more. It is signed for by whoever may put one in force.
func (o *Office) RetireLesson(ctx context.Context, by assessment.Actor, id assessment.LessonID, proof Proof) error {
	proof = proof.over("retire lesson", id)
	look := func(tx *postgres.Tx, now Moment) (assessment.PersonID, error) {
		l, err := o.lessonToRetire(ctx, tx, now, by, id)
		if err != nil {
			return "", err
		}
		return by.Person, proof.tell(func() (string, error) {
			return fmt.Sprintf("Retire version %d of the lesson “%s” (%s): from now on nobody learns from it.", l.Number, l.Title, l.Language), nil
		})
	}
	return o.signing(ctx, by, assessment.ForceLesson, proof, look, func(tx *postgres.Tx, now Moment) error {
		l, err := o.lessonToRetire(ctx, tx, now, by, id)
		if err != nil {
			return err
		}
		if err := tx.Checklists.LockSkill(ctx, l.SkillID); err != nil {
			return err
		}
		if _, err := o.lessonToRetire(ctx, tx, now, by, id); err != nil { // whoever held the lock may have put another in its place
			return err
		}
		if err := tx.Lessons.Retire(ctx, id, by.Person, now.At); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.ForceLesson, "lesson", string(id))
	})
}

func (o *Office) lessonToRetire(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, id assessment.LessonID) (postgres.Lesson, error) {
	l, err := tx.Lessons.Get(ctx, id)
	switch {
	case err != nil:
		return l, err
	case l.State != assessment.InForce:
		return l, fault.Of(fault.Refused, "Version %d is %s: only one in force can be retired.", l.Number, l.State)
	}
	return l, o.mustBeLicensed(ctx, tx, by, now)
}
