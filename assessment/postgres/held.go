package postgres

import (
	"context"
	"encoding/json"
	"fmt"

	"wellshown/assessment"
)

// Held is what the database holds about one person.
type Held struct{ scope }

// HeldPart is one kind of thing that is held about a person: which columns of
// which rows. Columns are named one by one, so that a secret that is added to a
// table later stays out.
type HeldPart struct {
	Name    string // as the download calls it
	Says    string // what it is, in plain words
	Table   string
	Named   []string // columns that name the person
	Columns string   // those that are handed out
	where   string   // $1 is the person
}

// HeldRows is what is held of one part.
type HeldRows struct {
	HeldPart
	Rows    int
	Entries json.RawMessage // a JSON array of objects
}

// HeldParts lists all parts: first what is about the person, then what they did
// to other things, of which only what it was and when: the rest is about others.
func HeldParts() []HeldPart { return append(append([]HeldPart{}, heldAbout...), heldDone...) }

// About reads all parts of one person.
func (h Held) About(ctx context.Context, person assessment.PersonID) ([]HeldRows, error) {
	var all []HeldRows
	for _, p := range HeldParts() {
		type row struct {
			Rows    int
			Entries string
		}
		r, err := get[row](ctx, h.scope, fmt.Sprintf(`
			select count(*)::int as rows, coalesce(json_agg(x), '[]')::text as entries
			from (select %s from %s t where %s order by 1) x`, p.Columns, p.Table, p.where), person)
		if err != nil {
			return nil, fmt.Errorf("read what %s holds: %w", p.Table, err)
		}
		all = append(all, HeldRows{p, r.Rows, json.RawMessage(r.Entries)})
	}
	return all, nil
}
