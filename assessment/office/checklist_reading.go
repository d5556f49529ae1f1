package office

import (
	"context"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// NamedSkill is a skill that a checklist names by its code, with the revision in
// force to read; it has neither title nor revision where the agency has no such
// skill.
type NamedSkill struct {
	Code     string
	Title    string
	Revision assessment.RevisionID // empty: none is in force
}

// ChecklistReading is a checklist to read with what stands around it.
type ChecklistReading struct {
	ChecklistView // of a starter: without a revision
	Before        []NamedSkill
	Around        []NamedSkill
	Older         assessment.RevisionID // the one before it; empty for the first
	HasDraft      bool                  // of this skill
	Newest        bool                  // of its skill
	Taken         bool                  // of a starter: the agency has this skill
	Proposals     []ProposalView        // to put it in force, the newest first
}

// ReadChecklist is one revision of the agency's.
func (o *Office) ReadChecklist(ctx context.Context, by assessment.Actor, id assessment.RevisionID) (ChecklistReading, error) {
	var v ChecklistReading
	err := o.as(ctx, by, assessment.ReadChecklists, func(tx *postgres.Tx, now Moment) error {
		r, err := tx.Checklists.Revision(ctx, id)
		if err != nil {
			return err
		}
		list, err := o.listOf(ctx, tx, r)
		if err != nil {
			return err
		}
		v = ChecklistReading{ChecklistView: ChecklistView{viewRevision(r), *list, viewAgency(now.Agency), now.Zone}, Newest: true}
		all, err := tx.Checklists.Revisions(ctx, "")
		if err != nil {
			return err
		}
		for _, other := range all {
			if other.SkillID != r.SkillID {
				continue
			}
			v.HasDraft = v.HasDraft || other.State == assessment.Draft
			v.Newest = v.Newest && other.Number <= r.Number
			if other.Number < r.Number {
				v.Older = other.ID
			}
		}
		v.name(all)
		proposed, err := tx.Force.Of(ctx, id)
		for _, p := range proposed {
			v.Proposals = append(v.Proposals, viewProposal(p, now))
		}
		return err
	})
	return v, err
}

// ReadStarter is one checklist of the catalogue.
func (o *Office) ReadStarter(ctx context.Context, by assessment.Actor, code string) (ChecklistReading, error) {
	list, err := catalog.Get(code)
	if err != nil {
		return ChecklistReading{}, err
	}
	var v ChecklistReading
	err = o.as(ctx, by, assessment.ReadChecklists, func(tx *postgres.Tx, now Moment) error {
		v = ChecklistReading{ChecklistView: ChecklistView{RevisionView{Title: list.Title}, list, viewAgency(now.Agency), now.Zone}}
		all, err := tx.Checklists.Revisions(ctx, "")
		if err != nil {
			return err
		}
		v.Taken = slices.ContainsFunc(all, func(r postgres.Revision) bool { return r.Code == code })
		v.name(all)
		return nil
	})
	return v, err
}

// name finds the skills that the checklist names by code.
func (v *ChecklistReading) name(all []postgres.Revision) {
	known := map[string]NamedSkill{}
	for _, r := range all {
		n := known[r.Code]
		n.Code, n.Title = r.Code, r.Title
		if r.State == assessment.InForce {
			n.Revision = r.ID
		}
		known[r.Code] = n
	}
	find := func(codes []string) []NamedSkill {
		var named []NamedSkill
		for _, code := range codes {
			n := known[code]
			n.Code = code
			if c, err := catalog.Get(code); n.Title == "" && err == nil {
				n.Title = c.Title
			}
			named = append(named, n)
		}
		return named
	}
	v.Before, v.Around = find(v.Prerequisites), find(v.Related)
}

// Comparison is two revisions of one skill side by side.
type Comparison struct {
	Older, Newer RevisionView
	Others       []RevisionView // what else the newer one can be compared with, newest first
	Changes      []assessment.Change
}

// CompareWith tells a revision from another of its skill; the empty id is the one
// before it. The higher number is always the newer one.
func (o *Office) CompareWith(ctx context.Context, by assessment.Actor, id, with assessment.RevisionID) (Comparison, error) {
	var v Comparison
	err := o.as(ctx, by, assessment.ReadChecklists, func(tx *postgres.Tx, now Moment) error {
		one, err := tx.Checklists.Revision(ctx, id)
		if err != nil {
			return err
		}
		all, err := tx.Checklists.Revisions(ctx, one.SkillID)
		if err != nil {
			return err
		}
		v = Comparison{Newer: viewRevision(one)}
		var other *postgres.Revision
		for i, r := range slices.Backward(all) {
			if r.ID == id {
				continue
			}
			v.Others = append(v.Others, viewRevision(r))
			if r.ID == with || with == "" && other == nil && r.Number < one.Number {
				other = &all[i]
			}
		}
		switch {
		case other == nil && with != "" && with != id:
			return notFound()
		case other == nil:
			return fault.Of(fault.Refused, "This is the first revision: there is none before it to compare with.")
		case other.Number > one.Number:
			one, other = *other, &one
		}
		v.Older, v.Newer = viewRevision(*other), viewRevision(one)
		was, err := o.listOf(ctx, tx, *other)
		if err != nil {
			return err
		}
		is, err := o.listOf(ctx, tx, one)
		if err != nil {
			return err
		}
		v.Changes = assessment.Diff(*was, *is)
		return nil
	})
	return v, err
}
