package postgres

import (
	"context"
	"fmt"

	"wellshown/assessment"
)

// Noted says whom something that was written down is about, and who wrote it down.
type Noted struct {
	Person assessment.PersonID
	By     assessment.PersonID
}

// notedIn finds the table of each kind that can be taken back besides a demonstration.
var notedIn = map[assessment.EntryKind]string{
	assessment.CardEntry:          `select person_id as person, recorded_by as by from resuscitation_card where id = $1`,
	LicenceEntry:                  `select person_id as person, recorded_by as by from licence where id = $1`,
	assessment.PracticeEntry:      `select person_id as person, recorded_by as by from exposure where id = $1 and kind = 'practice'`,
	assessment.TeachingEntry:      `select person_id as person, recorded_by as by from exposure where id = $1 and kind = 'teaching'`,
	assessment.WaiverEntry:        `select person_id as person, signed_by as by from waiver where id = $1`,
	assessment.WithdrawalEntry:    `select person_id as person, signed_by as by from withdrawal where id = $1`,
	assessment.ReinstatementEntry: `select w.person_id as person, i.signed_by as by from reinstatement i join withdrawal w on w.agency_id = i.agency_id and w.id = i.withdrawal_id where i.id = $1`,
}

// LicenceEntry is the kind under which a licence is taken back. No standing
// depends on it, so the core does not know it.
const LicenceEntry assessment.EntryKind = "licence"

// Noted finds what was written down under an id; another kind's id is not found.
func (e Exceptions) Noted(ctx context.Context, kind assessment.EntryKind, id assessment.RecordID) (Noted, error) {
	sql, ok := notedIn[kind]
	if !ok {
		return Noted{}, fmt.Errorf("nothing of kind %q can be taken back", kind)
	}
	return get[Noted](ctx, e.scope, sql, id)
}
