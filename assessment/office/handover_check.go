package office

import (
	"context"
	"encoding/hex"
	"fmt"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/handover"
	"wellshown/assessment/postgres"
)

// CheckedHandover is what anybody who holds such a file may learn. Where something of it was
// changed, nothing that it says is here.
type CheckedHandover struct {
	Changed     []handover.Finding
	Opened      handover.Opened
	SHA256      string // of the whole file
	Fingerprint string
	Here        bool         // signed by a key of this very house
	KnownBy     []KnownBy    // agencies of this house that know the key, or knew it
	Since       []EntrySince // only where Here: what became of each entry, in their order
	Later       []civil.Date // only where Here: days on which something that speaks against them came after the file was made: withdrawn, or shown and not competent
	Gone        bool         // only where Here: there is no such agency or person here
	Erased      bool         // only where Here: words of it were erased
}

// KnownBy is one agency of this house that knows a key.
type KnownBy struct {
	Agency string
	As     string     // what they call it
	Ended  civil.Date // since when they know it no more; zero: they do
}

// EntrySince is what became of an entry after the file was made.
type EntrySince struct {
	There   bool       // it stands in the ledger as the file proves
	TakenOn civil.Date // taken back after the file was made; zero: not
}

// CheckHandover answers for a file, without a sign-in. Nothing of it is kept, and nothing it
// says makes anybody current.
func (o *Office) CheckHandover(ctx context.Context, sent []byte) (CheckedHandover, error) {
	v := openHandover(sent)
	if len(v.Changed) > 0 {
		return v, nil
	}
	agency, err := assessment.ParseID[assessment.AgencyID](v.Opened.Handover.About.Agency.ID)
	if err != nil {
		v.Changed = []handover.Finding{{Part: handover.AboutChanged}}
		v.Opened = handover.Opened{}
		return v, nil
	}
	if err := o.knownHere(ctx, agency, &v); err != nil {
		return v, err
	}
	if o.opt.Ledger == nil || !slices.Contains(o.opt.Ledger.Public(), v.Opened.Key) {
		return v, nil
	}
	v.Here = true
	err = o.reading(ctx, agency, func(tx *postgres.Tx, now Moment) error { return v.since(ctx, tx, now) })
	if fault.KindOf(err) == fault.NotFound {
		v.Gone, v.Since, v.Later = true, nil, nil
		return v, nil
	}
	return v, err
}

func openHandover(sent []byte) CheckedHandover {
	var v CheckedHandover
	v.Opened, v.Changed = handover.Open(sent)
	if len(v.Changed) == 0 {
		v.SHA256 = hashText(sent)
		v.Fingerprint = handover.Fingerprint(v.Opened.Key, v.Opened.Handover.About.Agency.ID)
	}
	return v
}

// knownHere asks each agency of this house that knows the key what they call it.
func (o *Office) knownHere(ctx context.Context, house assessment.AgencyID, v *CheckedHandover) error {
	agencies, err := o.db.AtDoor().Neighbour(ctx, v.Opened.Key, string(house))
	if err != nil {
		return fmt.Errorf("ask who knows a key: %w", err)
	}
	for _, a := range agencies {
		err := o.reading(ctx, a, func(tx *postgres.Tx, now Moment) error {
			found, err := tx.Neighbours.ByKey(ctx, v.Opened.Key, string(house))
			if err != nil || len(found) == 0 {
				return err
			}
			k := KnownBy{Agency: now.Agency.Name, As: found[0].Name}
			if found[0].EndedAt != nil {
				k.Ended = civil.DayOf(*found[0].EndedAt, now.Zone)
			}
			v.KnownBy = append(v.KnownBy, k)
			return nil
		})
		if err != nil {
			return err
		}
	}
	return nil
}

// since looks each entry up in the house that signed it.
func (v *CheckedHandover) since(ctx context.Context, tx *postgres.Tx, now Moment) error {
	b := v.Opened.Handover
	person, err := assessment.ParseID[assessment.PersonID](b.About.Person.ID)
	if err != nil {
		return notFound()
	}
	if _, err := tx.People.Get(ctx, person); err != nil {
		return err
	}
	var keys []postgres.RowKey
	for _, e := range b.Entries {
		for _, r := range e.Rows() {
			keys = append(keys, postgres.RowKey(r))
		}
	}
	erased, err := tx.Erasures.OfRows(ctx, append(keys, postgres.RowKey{Kind: "person", Subject: string(person)}))
	if err != nil {
		return err
	}
	v.Erased = len(erased) > 0
	sealed, err := tx.Ledger.Of(ctx, keys)
	if err != nil {
		return err
	}
	leaves := map[int64]postgres.Sealed{}
	for _, l := range sealed {
		leaves[l.Position] = l
	}
	taken, err := v.takenSince(ctx, tx, now, person)
	if err != nil {
		return err
	}
	for _, e := range b.Entries {
		one := EntrySince{There: stillThere(e, leaves)}
		if e.Taken == nil {
			one.TakenOn = taken[e.ID]
		}
		v.Since = append(v.Since, one)
	}
	return nil
}

// stillThere reports whether the ledger has each leaf of an entry at its place.
func stillThere(e handover.Entry, leaves map[int64]postgres.Sealed) bool {
	for _, p := range e.Proofs {
		l, there := leaves[p.Position]
		if !there || l.Kind != p.Leaf.Kind || l.Subject != p.Leaf.Subject || hex.EncodeToString(l.RecordSha256) != p.Leaf.Record {
			return false
		}
	}
	return true
}

// takenSince are the days on which something about a person was taken back, by its id; it
// also finds what is newer than the file and speaks against them.
func (v *CheckedHandover) takenSince(ctx context.Context, tx *postgres.Tx, now Moment, person assessment.PersonID) (map[string]civil.Date, error) {
	taken := map[string]civil.Date{}
	add := func(id string, at *time.Time) {
		if at != nil {
			taken[id] = civil.DayOf(*at, now.Zone)
		}
	}
	records, err := tx.Demonstrations.All(ctx, postgres.DemonstrationFilter{Learner: person})
	if err != nil {
		return nil, err
	}
	for _, d := range records {
		add(string(d.ID), d.CorrectedAt)
	}
	if err := v.failedSince(ctx, tx, now, records); err != nil {
		return nil, err
	}
	found, err := tx.Exceptions.Happenings(ctx, person)
	if err != nil {
		return nil, err
	}
	told := map[string]bool{}
	for _, e := range v.Opened.Handover.Entries {
		told[e.ID] = true
	}
	for _, h := range found {
		add(string(h.ID), h.TakenBack)
		if h.Kind == assessment.WithdrawalEntry && h.TakenBack == nil && !told[string(h.ID)] {
			v.Later = append(v.Later, civil.DayOf(h.Signed, now.Zone))
		}
	}
	slices.SortFunc(v.Later, civil.Date.Compare)
	return taken, nil
}

// failedSince finds what was shown, counts and is not competent, and was not signed yet when
// the file was made: one signature is enough for it (see AwaitedSignature).
func (v *CheckedHandover) failedSince(ctx context.Context, tx *postgres.Tx, now Moment, records []postgres.Demonstration) error {
	failed := slices.DeleteFunc(slices.Clone(records), func(d postgres.Demonstration) bool {
		return !d.Formal || d.Outcome == assessment.Competent || d.CorrectedAt != nil
	})
	signed, err := signaturesOn(ctx, tx, failed)
	if err != nil {
		return fmt.Errorf("read who signed what was shown since: %w", err)
	}
	for _, d := range failed {
		told := slices.ContainsFunc(v.Opened.Handover.Entries, func(e handover.Entry) bool {
			return e.ID == string(d.ID) && slices.ContainsFunc(e.Signed, func(s handover.Signed) bool { return s.Part == PartObserver })
		})
		for _, s := range signed[d.ID] {
			if s.Part == PartObserver && !told {
				v.Later = append(v.Later, civil.DayOf(s.SignedAt, now.Zone))
			}
		}
	}
	return nil
}
