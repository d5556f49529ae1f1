package office

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
	"wellshown/assessment/written"
)

// BeforeForce is what putting a draft in force would do.
type BeforeForce struct {
	ChecklistView
	Replaces RevisionView // empty: nothing
	Holders  int          // people who hold the skill today
	Source   string       // YAML
	// Changes are what makes the draft differ from what was read before; none too
	// where that text cannot be read.
	Changes   []assessment.Change
	Licence   string       // of whoever would sign now
	Now       time.Time    // when they would sign
	Waits     ProposalView // the proposal that waits for a second person; empty: none does
	Declined  ProposalView // the last one, where it was declined
	Preview   Preview      // what putting it in force today would change
	NoPreview string       // why there is none; empty where there is
}

// BeforeForce tells it. It refuses what is no draft, and whoever has no licence.
// Whoever has read the draft before gives its Source as it was then, and the day by which
// it is to be shown anew, or nothing.
func (o *Office) BeforeForce(ctx context.Context, by assessment.Actor, id assessment.RevisionID, read, recheckBy string) (BeforeForce, error) {
	var v BeforeForce
	err := o.before(ctx, by, assessment.PutInForce, func(tx *postgres.Tx, now Moment) error {
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
		source, err := written.EncodeYAML(*list)
		if err != nil {
			return err
		}
		v = BeforeForce{ChecklistView: ChecklistView{viewRevision(r), *list, viewAgency(now.Agency), now.Zone}, Source: string(source), Changes: changesSince(read, *list), Now: now.At}
		if v.Licence, err = printedLicence(ctx, tx, now, by.Person); err != nil {
			return err
		}
		if v.Replaces, err = inForceOf(ctx, tx, r.SkillID); err != nil {
			return err
		}
		if err := v.readProposals(ctx, tx, now); err != nil {
			return err
		}
		v.Holders, err = tx.Segments.Holders(ctx, r.SkillID, now.Today)
		return err
	})
	if err != nil || v.Waits.ID != "" {
		return v, err
	}
	v.Preview, err = o.PreviewInForce(ctx, by, PreviewForm{id, v.Version, recheckBy})
	switch fault.KindOf(err) {
	case fault.Refused, fault.Conflict, fault.Invalid:
		v.NoPreview, err = asSaid(err), nil
	}
	return v, err
}

func (v *BeforeForce) readProposals(ctx context.Context, tx *postgres.Tx, now Moment) error {
	all, err := tx.Force.Of(ctx, v.ID)
	if err != nil || len(all) == 0 {
		return err
	}
	switch all[0].Verdict {
	case "":
		v.Waits = viewProposal(all[0], now)
	case assessment.ForceDeclined:
		v.Declined = viewProposal(all[0], now)
	}
	return nil
}

// DraftView is a draft as text, for editing by hand.
type DraftView struct {
	RevisionView
	Source string // YAML
	// Changes are what makes the draft differ from what was read before; none too
	// where that text cannot be read.
	Changes []assessment.Change
}

// Draft is a draft as text. It refuses what is no draft any more. Whoever has read
// the draft before gives its Source as it was then.
func (o *Office) Draft(ctx context.Context, by assessment.Actor, id assessment.RevisionID, read string) (DraftView, error) {
	var v DraftView
	err := o.before(ctx, by, assessment.EditChecklists, func(tx *postgres.Tx, now Moment) error {
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
		v = DraftView{viewRevision(r), string(source), changesSince(read, *list)}
		return err
	})
	return v, err
}

// before is as for a look at what an act would act on: nothing is written, so the
// text and its version are of one moment.
func (o *Office) before(ctx context.Context, by assessment.Actor, act assessment.Act, look func(*postgres.Tx, Moment) error) error {
	if err := by.May(act); err != nil {
		return err
	}
	if err := o.reading(ctx, by.Agency, look); err != nil {
		return fmt.Errorf("look before one may %s: %w", act, err)
	}
	return nil
}

// changesSince tells a draft from its text as somebody read it.
func changesSince(read string, now assessment.Checklist) []assessment.Change {
	if strings.TrimSpace(read) == "" {
		return nil
	}
	then, err := written.Known(catalog.Parameters()).DecodeYAML("read", []byte(read))
	if err != nil {
		return nil
	}
	return assessment.Diff(then, now)
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
