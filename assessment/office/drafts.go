package office

import (
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/hex"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
	"wellshown/assessment/written"
)

// AdoptStarter takes a checklist of the catalogue as a draft: a starting point
// that a licensed clinician reviews, edits and puts in force.
func (o *Office) AdoptStarter(ctx context.Context, by assessment.Actor, code string) (RevisionView, error) {
	list, err := catalog.Get(code)
	if err != nil {
		return RevisionView{}, err
	}
	return o.addChecklist(ctx, by, list)
}

// AddChecklist takes a hand-written checklist (YAML) for a new skill as a draft.
func (o *Office) AddChecklist(ctx context.Context, by assessment.Actor, name, source string) (RevisionView, error) {
	list, err := written.Known(catalog.Parameters()).DecodeYAML(name, []byte(source))
	if err != nil {
		return RevisionView{}, err
	}
	return o.addChecklist(ctx, by, list)
}

func (o *Office) addChecklist(ctx context.Context, by assessment.Actor, list assessment.Checklist) (RevisionView, error) {
	var v RevisionView
	err := o.as(ctx, by, assessment.EditChecklists, func(tx *postgres.Tx, now Moment) error {
		skill, err := newID[assessment.SkillID](o, now.At)
		if err != nil {
			return err
		}
		if err := tx.Checklists.AddSkill(ctx, postgres.Skill{ID: skill, Code: list.Code, Scope: list.Scope}, now.At); err != nil {
			return err
		}
		v, err = o.addDraft(ctx, tx, now, by, skill, 1, list)
		return err
	})
	return v, err
}

func (o *Office) addDraft(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, skill assessment.SkillID, number int, list assessment.Checklist) (RevisionView, error) {
	body, err := written.EncodeJSON(list)
	if err != nil {
		return RevisionView{}, err
	}
	id, err := newID[assessment.RevisionID](o, now.At)
	if err != nil {
		return RevisionView{}, err
	}
	sum := sha256.Sum256(body) // as the database has it
	r := postgres.Revision{ID: id, SkillID: skill, Code: list.Code, Number: number, State: assessment.Draft, Title: list.Title,
		SHA256: sum[:], DraftedAt: now.At, DraftedBy: by.Name}
	if err := tx.Checklists.AddDraft(ctx, r, string(body), by.Person); err != nil {
		return RevisionView{}, err
	}
	return viewRevision(r), o.note(ctx, tx, now, by, assessment.EditChecklists, "revision", string(id))
}

// DraftRevision drafts the next revision of a skill from its newest one.
func (o *Office) DraftRevision(ctx context.Context, by assessment.Actor, skill assessment.SkillID) (RevisionView, error) {
	var v RevisionView
	err := o.as(ctx, by, assessment.EditChecklists, func(tx *postgres.Tx, now Moment) error {
		if err := tx.Checklists.LockSkill(ctx, skill); err != nil {
			return err
		}
		revisions, err := tx.Checklists.Revisions(ctx, skill)
		if err != nil {
			return err
		}
		if len(revisions) == 0 {
			return notFound()
		}
		newest := revisions[len(revisions)-1]
		if newest.State == assessment.Draft {
			return fault.Of(fault.Conflict, "There is a draft of this checklist already. Go on with that one.")
		}
		list, err := o.listOf(ctx, tx, newest)
		if err != nil {
			return err
		}
		v, err = o.addDraft(ctx, tx, now, by, skill, newest.Number+1, *list)
		return err
	})
	return v, err
}

// DraftSource is a revision as YAML, for editing by hand.
func (o *Office) DraftSource(ctx context.Context, by assessment.Actor, id assessment.RevisionID) (DraftView, error) {
	v, err := o.Checklist(ctx, by, id)
	if err != nil {
		return DraftView{}, err
	}
	src, err := written.EncodeYAML(v.Checklist)
	return DraftView{RevisionView: v.RevisionView, Source: string(src)}, err
}

// DraftForm is a draft as somebody has written it anew.
type DraftForm struct {
	Revision assessment.RevisionID
	Version  string // of the text that it was made from, as a RevisionView tells it
	Source   string // YAML
}

// SaveDraft puts a hand-written text in place of a draft, as long as the draft is
// still what it was made from. The skill stays what it is: its code and scope do
// not change.
func (o *Office) SaveDraft(ctx context.Context, by assessment.Actor, form DraftForm) (RevisionView, error) {
	var v RevisionView
	list, err := written.Known(catalog.Parameters()).DecodeYAML("draft", []byte(form.Source))
	if err != nil {
		return v, err
	}
	body, err := written.EncodeJSON(list)
	if err != nil {
		return v, err
	}
	err = o.as(ctx, by, assessment.EditChecklists, func(tx *postgres.Tx, now Moment) error {
		if err := o.maySaveDraft(ctx, tx, form, list); err != nil {
			return err
		}
		if err := tx.Checklists.SaveDraft(ctx, form.Revision, list.Title, string(body), now.At, by.Person); err != nil {
			return err
		}
		r, err := tx.Checklists.Revision(ctx, form.Revision)
		if err != nil {
			return err
		}
		v = viewRevision(r)
		return o.note(ctx, tx, now, by, assessment.EditChecklists, "revision", string(form.Revision))
	})
	return v, err
}

// maySaveDraft locks the draft and refuses what would put a text in place of one
// that its writer has not seen, or make another skill of it.
func (o *Office) maySaveDraft(ctx context.Context, tx *postgres.Tx, form DraftForm, list assessment.Checklist) error {
	r, err := o.lockDraft(ctx, tx, form.Revision)
	if err != nil {
		return err
	}
	if err := unchanged(r, form.Version); err != nil {
		return err
	}
	if err := notProposed(ctx, tx, r); err != nil {
		return err
	}
	skill, err := tx.Checklists.Skill(ctx, r.SkillID)
	if err != nil {
		return err
	}
	if list.Code != skill.Code || list.Scope != skill.Scope {
		return fault.Of(fault.Refused, "The code stays %s and the scope stays %s: another skill needs a checklist of its own.", skill.Code, skill.Scope)
	}
	return nil
}

// DiscardDraft throws a draft away.
func (o *Office) DiscardDraft(ctx context.Context, by assessment.Actor, id assessment.RevisionID) error {
	return o.as(ctx, by, assessment.EditChecklists, func(tx *postgres.Tx, now Moment) error {
		r, err := o.lockDraft(ctx, tx, id)
		if err != nil {
			return err
		}
		if err := notProposed(ctx, tx, r); err != nil {
			return err
		}
		if err := tx.Checklists.DiscardDraft(ctx, id); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.EditChecklists, "revision", string(id))
	})
}

func (o *Office) lockDraft(ctx context.Context, tx *postgres.Tx, id assessment.RevisionID) (postgres.Revision, error) {
	r, err := tx.Checklists.Revision(ctx, id)
	if err != nil {
		return r, err
	}
	if err := tx.Checklists.LockSkill(ctx, r.SkillID); err != nil {
		return r, err
	}
	if r, err = tx.Checklists.Revision(ctx, id); err != nil {
		return r, err
	}
	return r, mustBeDraft(r)
}

func mustBeDraft(r postgres.Revision) error {
	if r.State != assessment.Draft {
		return fault.Of(fault.Refused, "Revision %d is %s and never changes. Draft a new one.", r.Number, r.State)
	}
	return nil
}

// notProposed refuses to change a draft that waits for a second person: what they agree to
// stays what was proposed.
func notProposed(ctx context.Context, tx *postgres.Tx, r postgres.Revision) error {
	p, err := waitingOf(ctx, tx, r.ID)
	if err != nil || p.ID == "" {
		return err
	}
	return fault.Of(fault.Conflict, "%s has proposed to put this draft in force as it is, and it waits for a second person. First take the proposal back, or have it declined.", p.Proposer)
}

// unchanged refuses a draft that is another one than what somebody has read.
func unchanged(r postgres.Revision, read string) error {
	if hex.EncodeToString(r.SHA256) != read {
		return fault.Of(fault.Conflict, "%s has saved this draft since you read it, and it says something else now.", cmp.Or(r.DraftedBy, "Somebody"))
	}
	return nil
}
