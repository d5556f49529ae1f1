package office

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// PutInForceForm is what a licensed clinician states and signs who proposes to put a draft
// in force.
type PutInForceForm struct {
	Revision  assessment.RevisionID
	Version   string // of the text that was read, as a RevisionView tells it
	Statement string // what was reviewed and against what
	RecheckBy string // YYYY-MM-DD; empty: no recheck is demanded
	Seen      string // the version of the preview that was looked at
	Proof     Proof
}

// mayStillSign refuses what is no draft, and a draft that is another one than what
// was read.
func (f PutInForceForm) mayStillSign(r postgres.Revision) error {
	if err := mustBeDraft(r); err != nil {
		return err
	}
	return unchanged(r, f.Version)
}

func (f PutInForceForm) check(now Moment) (civil.Date, error) {
	var faults form
	if faults.words("statement", f.Statement, 4000) == "" {
		faults.Add("statement", "Say what you reviewed and against what: orders, the maker's instructions, local rules.")
	}
	by := faults.recheck(f.RecheckBy, now)
	return by, faults.Err()
}

// recheck is the day by which a revision must have been shown, today or later.
func (f *form) recheck(typed string, now Moment) civil.Date {
	if typed == "" {
		return civil.Date{}
	}
	by, err := civil.Parse(typed)
	if err != nil {
		f.Take("recheck_by", err)
	} else if by.Before(now.Today) {
		f.Add("recheck_by", "This day is past. Choose today or later.")
	}
	return by
}

// mustBeLicensed refuses whoever has no current licence on file.
func (o *Office) mustBeLicensed(ctx context.Context, tx *postgres.Tx, by assessment.Actor, now Moment) error {
	seen, err := o.loadObservation(ctx, tx, now, by.Person, "")
	if err != nil {
		return err
	}
	for _, l := range seen.Licences {
		if l.CurrentOn(now.Today) {
			return nil
		}
	}
	return fault.Of(fault.Refused, "Only a licensed clinician may do this, and you have no current licence on file. Have it recorded under People first.")
}

// mayComeInForce refuses a checklist whose prerequisites the agency does not have, or with
// which skills would wait for each other in a circle.
func (o *Office) mayComeInForce(ctx context.Context, tx *postgres.Tx, r postgres.Revision) error {
	list, err := o.listOf(ctx, tx, r)
	if err != nil {
		return err
	}
	skills, err := tx.Checklists.Skills(ctx)
	if err != nil {
		return err
	}
	have := map[string]bool{}
	for _, s := range skills {
		have[s.Code] = true
	}
	for _, code := range list.Prerequisites {
		if !have[code] {
			return fault.Of(fault.Refused, "It asks for %s first, and your agency has no such skill. Add that checklist, or take it out of the prerequisites.", code)
		}
	}
	if err := o.goesNoCircle(ctx, tx, r, list, skills); err != nil {
		return err
	}
	return list.Err()
}

// goesNoCircle refuses a checklist that waits for another which waits for it, near or far:
// none of them could be learnt first.
func (o *Office) goesNoCircle(ctx context.Context, tx *postgres.Tx, r postgres.Revision, list *assessment.Checklist, skills []postgres.Skill) error {
	revisions, err := tx.Checklists.Revisions(ctx, "")
	if err != nil {
		return err
	}
	first := map[assessment.SkillID][]string{}
	for _, other := range revisions {
		if other.State != assessment.InForce || other.SkillID == r.SkillID {
			continue
		}
		before, err := o.listOf(ctx, tx, other)
		if err != nil {
			return err
		}
		first[other.SkillID] = before.Prerequisites
	}
	first[r.SkillID] = list.Prerequisites
	var all []assessment.ToLearn
	for _, s := range skills {
		title := s.Title
		if s.ID == r.SkillID {
			title = list.Title
		}
		all = append(all, assessment.ToLearn{Skill: s.Code, Title: title, First: first[s.ID]})
	}
	_, err = assessment.LearningOrder(assessment.Unlearnt(all, []string{list.Code}, func(string) bool { return false }))
	return err
}

// putInForce puts in force what somebody proposed and somebody else agrees to.
func (o *Office) putInForce(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, r postgres.Revision, p postgres.ForceProposal) error {
	if err := tx.Force.End(ctx, p.ID, assessment.ForceAgreed, "", by.Person, now.At); err != nil {
		return err
	}
	if err := tx.Checklists.PutInForce(ctx, r, p.ProposedBy, p.Statement, now.At); err != nil {
		return err
	}
	if !p.RecheckOn.IsZero() {
		id, err := newID[assessment.RecordID](o, now.At)
		if err != nil {
			return err
		}
		k := postgres.Recheck{ID: id, SkillID: r.SkillID, Revision: r.Number, By: p.RecheckOn.String(), AnnouncedAt: now.At}
		if err := tx.Checklists.AddRecheck(ctx, k, p.ProposedBy); err != nil {
			return err
		}
	}
	if err := o.note(ctx, tx, now, by, assessment.PutInForce, "revision", string(r.ID)); err != nil {
		return err
	}
	return o.reindexSkill(ctx, tx, now, r.SkillID)
}

// Retire takes a revision out of force with none in its place: nobody can be seen
// in the skill until another comes into force. It is signed for by whoever may put
// one in force.
func (o *Office) Retire(ctx context.Context, by assessment.Actor, id assessment.RevisionID, proof Proof) error {
	proof = proof.over("retire", id)
	look := func(tx *postgres.Tx, now Moment) (assessment.PersonID, error) {
		if err := o.mustBeLicensed(ctx, tx, by, now); err != nil {
			return "", err
		}
		r, err := toRetire(ctx, tx, id)
		if err != nil {
			return "", err
		}
		return by.Person, proof.tell(func() (string, error) {
			return fmt.Sprintf("Retire revision %d of %s: from now on nobody can be observed by it.", r.Number, r.Title), nil
		})
	}
	return o.signing(ctx, by, assessment.PutInForce, proof, look, func(tx *postgres.Tx, now Moment) error {
		if err := o.mustBeLicensed(ctx, tx, by, now); err != nil {
			return err
		}
		r, err := toRetire(ctx, tx, id)
		if err != nil {
			return err
		}
		if err := tx.Checklists.LockSkill(ctx, r.SkillID); err != nil {
			return err
		}
		if _, err := toRetire(ctx, tx, id); err != nil { // whoever held the lock may have put another in its place
			return err
		}
		if err := tx.Checklists.Retire(ctx, id, by.Person, now.At); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.PutInForce, "revision", string(id))
	})
}

// toRetire is a revision in force; it refuses any other.
func toRetire(ctx context.Context, tx *postgres.Tx, id assessment.RevisionID) (postgres.Revision, error) {
	r, err := tx.Checklists.Revision(ctx, id)
	if err == nil && r.State != assessment.InForce {
		return r, fault.Of(fault.Refused, "Revision %d is %s: only one in force can be retired.", r.Number, r.State)
	}
	return r, err
}
