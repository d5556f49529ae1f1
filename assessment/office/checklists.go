package office

import (
	"context"
	"encoding/hex"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// SkillView is a skill with the revisions of its checklist, newest first.
type SkillView struct {
	postgres.Skill
	Revisions []RevisionView
}

// RevisionView is a revision without its steps.
type RevisionView struct {
	ID        assessment.RevisionID
	Skill     assessment.SkillID
	Code      string
	Number    int
	State     assessment.State
	Title     string
	Version   string // the same for the same text and another for every other, as a draft is changed
	DraftedAt time.Time
	DraftedBy string
	InForceAt *time.Time
	InForceBy string
	Statement string
	RetiredAt *time.Time
}

// TextMark is the beginning of a hash in hexadecimal, in groups that are easy to
// compare by eye: by it somebody tells which text a paper was printed from.
func TextMark(hash string) string {
	if len(hash) < 12 {
		return hash
	}
	return hash[:4] + "-" + hash[4:8] + "-" + hash[8:12]
}

// ChecklistView is a revision with its steps.
type ChecklistView struct {
	RevisionView
	assessment.Checklist
	Agency AgencyView
	Zone   *time.Location
}

// Starter is a checklist of the catalogue that the agency has not taken up yet.
type Starter struct{ Code, Title string }

// Skills lists the agency's skills with their revisions, and what else the
// catalogue offers.
func (o *Office) Skills(ctx context.Context, by assessment.Actor) ([]SkillView, []Starter, error) {
	var views []SkillView
	err := o.as(ctx, by, assessment.ReadChecklists, func(tx *postgres.Tx, now Moment) error {
		skills, err := tx.Checklists.Skills(ctx)
		if err != nil {
			return err
		}
		revisions, err := tx.Checklists.Revisions(ctx, "")
		if err != nil {
			return err
		}
		views = nil
		for _, s := range skills {
			v := SkillView{Skill: s}
			for i := len(revisions) - 1; i >= 0; i-- {
				if revisions[i].SkillID == s.ID {
					v.Revisions = append(v.Revisions, viewRevision(revisions[i]))
				}
			}
			views = append(views, v)
		}
		return nil
	})
	if err != nil {
		return nil, nil, err
	}
	starters, err := notTakenUp(views)
	return views, starters, err
}

func notTakenUp(have []SkillView) ([]Starter, error) {
	all, err := catalog.All()
	if err != nil {
		return nil, err
	}
	taken := map[string]bool{}
	for _, v := range have {
		taken[v.Code] = true
	}
	var left []Starter
	for _, c := range all {
		if !taken[c.Code] {
			left = append(left, Starter{c.Code, c.Title})
		}
	}
	return left, nil
}

func viewRevision(r postgres.Revision) RevisionView {
	return RevisionView{ID: r.ID, Skill: r.SkillID, Code: r.Code, Number: r.Number, State: r.State, Title: r.Title, Version: hex.EncodeToString(r.SHA256),
		DraftedAt: r.DraftedAt, DraftedBy: r.DraftedBy, InForceAt: r.InForceAt, InForceBy: r.InForceBy,
		Statement: r.Statement, RetiredAt: r.RetiredAt}
}

// Checklist is one revision with its steps.
func (o *Office) Checklist(ctx context.Context, by assessment.Actor, id assessment.RevisionID) (ChecklistView, error) {
	var v ChecklistView
	err := o.as(ctx, by, assessment.ReadChecklists, func(tx *postgres.Tx, now Moment) error {
		r, err := tx.Checklists.Revision(ctx, id)
		if err != nil {
			return err
		}
		list, err := o.listOf(ctx, tx, r)
		if err != nil {
			return err
		}
		v = ChecklistView{viewRevision(r), *list, viewAgency(now.Agency), now.Zone}
		return nil
	})
	return v, err
}

// Compare tells two revisions of one skill apart.
func (o *Office) Compare(ctx context.Context, by assessment.Actor, older, newer assessment.RevisionID) (a, b ChecklistView, changes []assessment.Change, err error) {
	if a, err = o.Checklist(ctx, by, older); err != nil {
		return a, b, nil, err
	}
	if b, err = o.Checklist(ctx, by, newer); err != nil {
		return a, b, nil, err
	}
	if a.Skill != b.Skill {
		return a, b, nil, fault.Of(fault.Invalid, "These are revisions of two different skills.")
	}
	return a, b, assessment.Diff(a.Checklist, b.Checklist), nil
}
