package office

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// PracticeRun is one practice run with its steps. Caregivers may read their own.
func (o *Office) PracticeRun(ctx context.Context, by assessment.Actor, id assessment.RecordID) (PracticeRunView, error) {
	var v PracticeRunView
	err := o.as(ctx, by, assessment.ReadLearning, func(tx *postgres.Tx, now Moment) error {
		r, err := tx.PracticeRuns.Get(ctx, id)
		if err != nil {
			return err
		}
		if err := by.MayFor(assessment.ReadLearning, r.Person, false); err != nil {
			return err
		}
		n, err := o.names(ctx, tx)
		if err != nil {
			return err
		}
		s, err := tx.Checklists.Skill(ctx, r.Skill)
		if err != nil {
			return err
		}
		revision, err := tx.Checklists.Revision(ctx, r.Revision)
		if err != nil {
			return err
		}
		list, err := o.listOf(ctx, tx, revision)
		if err != nil {
			return err
		}
		v = viewPractice(r, n, SkillRef{s.ID, s.Code, s.Title})
		v.Number = revision.Number
		v.take(list)
		return nil
	})
	return v, err
}

func viewPractice(r postgres.PracticeRun, n names, skill SkillRef) PracticeRunView {
	return PracticeRunView{PracticeRun: r, Who: n.people[r.Person], What: skill, Child: n.clients[r.Client], Beside: n.people[r.Helper]}
}

// take sets each step of the checklist beside how it went.
func (v *PracticeRunView) take(list *assessment.Checklist) {
	went := map[int]assessment.PracticeMark{}
	for i, no := range v.Steps {
		went[no] = v.Went[i]
	}
	for _, s := range list.Steps() {
		v.Lines = append(v.Lines, PracticeLine{s.No, s.Text, went[s.No]})
	}
}

// TakeBackPractice says that a practice run was written down by mistake. It stays readable.
// What is about oneself one takes back only where one wrote it down oneself.
func (o *Office) TakeBackPractice(ctx context.Context, by assessment.Actor, id assessment.RecordID, reason string) error {
	return o.as(ctx, by, assessment.NotePractice, func(tx *postgres.Tx, now Moment) error {
		if err := mustSayWhy(reason); err != nil {
			return err
		}
		r, err := tx.PracticeRuns.Get(ctx, id)
		if err != nil {
			return err
		}
		if err := by.MayFor(assessment.NotePractice, r.Person, false); err != nil {
			return err
		}
		switch {
		case r.Back != "":
			return fault.Of(fault.Conflict, "This was taken back already.")
		case r.Person == by.Person && !r.ByMyself():
			return fault.Of(fault.Refused, "You cannot take back what is about yourself. Ask a colleague.")
		}
		if err := tx.PracticeRuns.TakeBack(ctx, id, reason, by.Person, now.At); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.NotePractice, "practice_run_back", string(id))
	})
}

// tell adds to a plan what was taught and practised, as far as the reader may read it.
func (b *learningBook) tell(v *LearningPlan, staff bool) {
	skills := make([]postgres.Skill, 0, len(b.book.skills))
	for _, s := range b.inOrder() {
		skills = append(skills, s.Skill)
	}
	for _, s := range b.sessions {
		t := viewTeaching(s, b.names, skills)
		if !staff {
			t = t.only(b.person, b.clients)
		}
		v.Sessions = append(v.Sessions, t)
	}
	for _, r := range b.runs {
		if s, ok := b.book.skills[r.Skill]; ok {
			v.Runs = append(v.Runs, viewPractice(r, b.names, s.ref()))
		}
	}
}
