package office

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// BankReading is the items in use of one skill, as a clinician or a translator reads them
// before they are asked of anybody.
type BankReading struct {
	Agency AgencyView
	Skill  SkillRef
	Items  []BankItem // in use, by their ids
	Newest time.Time  // when the newest of them was written
	Zone   *time.Location
}

// ReadItems gives the items in use of a skill to be read. A bank without any is a refusal:
// there is nothing to read.
func (o *Office) ReadItems(ctx context.Context, by assessment.Actor, code string) (BankReading, error) {
	var v BankReading
	err := o.as(ctx, by, assessment.ReadBank, func(tx *postgres.Tx, now Moment) error {
		skill, err := tx.Checklists.SkillByCode(ctx, code)
		if err != nil {
			return err
		}
		bank, err := readBank(ctx, tx, skill.ID)
		if err != nil {
			return err
		}
		v = BankReading{Agency: viewAgency(now.Agency), Skill: SkillRef{skill.ID, skill.Code, skill.Title}, Zone: now.Zone}
		for _, i := range bank {
			if i.Retired {
				continue
			}
			v.Items = append(v.Items, i)
			if i.At.After(v.Newest) {
				v.Newest = i.At
			}
		}
		if len(v.Items) == 0 {
			return fault.Of(fault.Refused, "The bank of this skill has no items in use, so there is nothing to read. Take the starter items in, or write some.")
		}
		return nil
	})
	return v, err
}
