package reports

import (
	"encoding/json"
	"fmt"
	"time"
)

// Agrees holds what a packet tells of its records to the rows that its proofs prove: the
// outcome, the score and the day of each, and every signature. The rows themselves are
// held to the ledger by their proofs.
func (p PacketData) Agrees() error {
	for _, person := range p.People {
		for _, r := range person.Records {
			if err := r.agrees(person.ID); err != nil {
				return fmt.Errorf("record %s: %w", r.ID, err)
			}
		}
	}
	return nil
}

func (r DataRecord) agrees(learner string) error {
	rows, err := r.rows()
	if err != nil {
		return err
	}
	if row, proven := rows["demonstration "+r.ID]; proven {
		score := ""
		if r.Score != nil {
			score = *r.Score
		}
		for name, told := range map[string]string{"learner_id": learner, "outcome": r.Outcome, "score": score, "body_sha256": `\x` + r.SignedHash, "observer_id": r.Observer.ID} {
			if row[name] != told {
				return fmt.Errorf("it is told as %q, and the row has %q in %s", told, row[name], name)
			}
		}
		if err := sameInstant(r.PerformedAt, row["performed_at"]); err != nil {
			return err
		}
	}
	for _, s := range r.Signatures {
		row, proven := rows["signature "+r.ID+"/"+s.Part]
		if !proven {
			continue
		}
		for name, told := range map[string]string{"printed_name": s.Name, "licence": s.Licence, "meaning": s.Meaning} {
			if row[name] != told {
				return fmt.Errorf("a signature is told as %q, and the row has %q in %s", told, row[name], name)
			}
		}
		if err := sameInstant(s.At, row["signed_at"]); err != nil {
			return err
		}
	}
	return nil
}

// rows are those beside the proofs, by kind and key.
func (r DataRecord) rows() (map[string]map[string]string, error) {
	rows := map[string]map[string]string{}
	for _, proof := range r.Proofs {
		for _, e := range proof.Entries {
			if len(e.Record) == 0 {
				continue
			}
			row := map[string]string{}
			if err := json.Unmarshal(e.Record, &row); err != nil {
				return nil, fmt.Errorf("read the row of %s: %w", proof.Kind, err)
			}
			rows[proof.Kind+" "+proof.Subject] = row
		}
	}
	return rows, nil
}

// sameInstant compares to the second, as far as the data tells it.
func sameInstant(told, kept string) error {
	a, err := time.Parse(time.RFC3339, told)
	if err != nil {
		return fmt.Errorf("read the instant %q: %w", told, err)
	}
	b, err := time.Parse(time.RFC3339Nano, kept)
	if err != nil || !a.Equal(b.Truncate(time.Second)) {
		return fmt.Errorf("an instant is told as %s, and the row has %s", told, kept)
	}
	return nil
}
