package office

import (
	"context"
	"errors"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
	"wellshown/assessment/written"
)

// BeforeForce is what putting a draft in force would do.
type BeforeForce struct {
	ChecklistView
	Replaces RevisionView // empty: nothing
	Holders  int          // people who hold the skill today
}

// BeforeForce tells it. It refuses what is no draft, and whoever has no licence.
func (o *Office) BeforeForce(ctx context.Context, by assessment.Actor, id assessment.RevisionID) (BeforeForce, error) {
	var v BeforeForce
	err := o.as(ctx, by, assessment.PutInForce, func(tx *postgres.Tx, now Moment) error {
		r, err := tx.Checklists.Revision(ctx, id)
		if err != nil {
			return err
		}
		if r.State != assessment.Draft {
			return fault.Of(fault.Refused, "Revision %d is %s already. Only a draft is put in force.", r.Number, r.State)
		}
		if err := o.mustBeLicensed(ctx, tx, by, now); err != nil {
			return err
		}
		list, err := o.listOf(ctx, tx, r)
		if err != nil {
			return err
		}
		v = BeforeForce{ChecklistView: ChecklistView{viewRevision(r), *list, viewAgency(now.Agency), now.Zone}}
		all, err := tx.Checklists.Revisions(ctx, r.SkillID)
		if err != nil {
			return err
		}
		for _, other := range all {
			if other.State == assessment.InForce {
				v.Replaces = viewRevision(other)
			}
		}
		indexed, err := tx.Segments.On(ctx, now.Today, nil)
		if err != nil {
			return err
		}
		holders := map[assessment.PersonID]bool{}
		for _, i := range indexed {
			if i.Skill == r.SkillID && i.Word.Holds() {
				holders[i.Person] = true
			}
		}
		v.Holders = len(holders)
		return nil
	})
	return v, err
}

// DraftView is a draft as text, for editing by hand.
type DraftView struct {
	RevisionView
	Source string // YAML
}

// Draft is a draft as text. It refuses what is no draft any more.
func (o *Office) Draft(ctx context.Context, by assessment.Actor, id assessment.RevisionID) (DraftView, error) {
	var v DraftView
	err := o.as(ctx, by, assessment.EditChecklists, func(tx *postgres.Tx, now Moment) error {
		r, err := tx.Checklists.Revision(ctx, id)
		if err != nil {
			return err
		}
		if r.State != assessment.Draft {
			return fault.Of(fault.Refused, "Revision %d is %s and never changes. Draft a new one.", r.Number, r.State)
		}
		list, err := o.listOf(ctx, tx, r)
		if err != nil {
			return err
		}
		source, err := written.EncodeYAML(*list)
		v = DraftView{viewRevision(r), string(source)}
		return err
	})
	return v, err
}

// SourceFault is one thing to mend in the text of a checklist.
type SourceFault struct {
	Line int    // from 1; 0 where it concerns no line
	Step int    // from 1; 0 where it concerns none
	Path string // such as "sections[0].steps[2].kind"
	Says string
}

// SourceFaults lists what is wrong with the text of a checklist, in the order of
// its lines, and how much more was found; none where err is something else.
func SourceFaults(err error) ([]SourceFault, int) {
	var found *written.Faults
	if !errors.As(err, &found) {
		return nil, 0
	}
	var list []SourceFault
	for _, f := range found.List {
		list = append(list, SourceFault(f))
	}
	return list, found.More
}
