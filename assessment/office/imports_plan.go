package office

import (
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/intake"
	"wellshown/assessment/postgres"
)

// What a row of a list does.
const (
	ImportNew   = "new"
	ImportThere = "there already"
	ImportAsks  = "asks"
	ImportFault = "fault"
)

// AnotherPerson answers that a name is nobody's who is here.
const AnotherPerson = "another"

// ImportView is the preview of a list.
type ImportView struct {
	ID        assessment.RecordID
	Kind      intake.Kind
	FileName  string
	SentAt    time.Time
	Zone      *time.Location
	Form      intake.Form
	Encoding  string
	Separator string
	Left      []string // columns that are not taken
	Guessed   bool     // nothing in the file says in which letters it is
	Names     []string // some of what has letters beyond the plain ones, to look at
	Rows      []ImportRow
	Faults    []intake.Fault
	More      int // faults that are not told
	New       int
	There     int
	Asking    int // rows that ask and have no answer yet
	Version   string
}

// ImportRow is one row with what it will do.
type ImportRow struct {
	Number int
	Cells  map[string]string
	Does   string
	Notes  []string
	Ask    *ImportQuestion
}

// ImportQuestion asks who is meant by a name.
type ImportQuestion struct {
	Written string
	Rows    []int // all rows that it is asked for, the first of which has the answer
	Choices []ImportChoice
	Another string // what the answer AnotherPerson says
	Answer  string // empty: none yet
}

// ImportChoice is somebody who may be meant.
type ImportChoice struct {
	ID   assessment.PersonID
	Says string
}

// importPlan is what an import would do.
type importPlan struct {
	ImportView
	keep    []func() error // writes the rows that are new, in order
	seen    []string       // what was found, from which the version comes
	answers map[int]string
}

// planImport works out what a list would do now. The preview and the import both call it, and
// its version is a hash of the file and of all that was found for it, so that what is brought
// in is what was read.
func (o *Office) planImport(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, d postgres.ImportDraft, t intake.Table, answers map[int]string) (*importPlan, error) {
	p := &importPlan{answers: answers, ImportView: ImportView{ID: d.ID, Kind: t.Kind, FileName: d.FileName, SentAt: d.BroughtAt, Zone: now.Zone, Form: t.Form, Encoding: t.Encoding, Separator: t.Separator,
		Left: t.Left, Guessed: t.Encoding == intake.Windows1252, Faults: slices.Clone(t.Faults), More: t.More}}
	for _, r := range t.Rows {
		p.Rows = append(p.Rows, ImportRow{Number: r.Number, Cells: r.Cells, Does: ImportNew})
	}
	for i := range t.Faults {
		p.mark(t.Faults[i].Row)
	}
	p.missing()
	var err error
	switch t.Kind {
	case intake.People:
		err = o.planPeople(ctx, tx, now, by, p)
	case intake.Clients:
		err = o.planClients(ctx, tx, now, by, p)
	case intake.Shifts:
		err = o.planShifts(ctx, tx, now, by, p)
	case intake.CarriedIn:
		err = o.planCarriedIn(ctx, tx, now, by, p)
	}
	if err != nil {
		return p, fmt.Errorf("plan an import: %w", err)
	}
	p.finish(d)
	return p, nil
}

// mark has a row be one with a fault.
func (p *importPlan) mark(number int) {
	if i, found := slices.BinarySearchFunc(p.Rows, number, func(r ImportRow, n int) int { return cmp.Compare(r.Number, n) }); found {
		p.Rows[i].Does = ImportFault
	}
}

// missing are the cells that must not be empty.
func (p *importPlan) missing() {
	for i := range p.Rows {
		r := &p.Rows[i]
		for _, c := range intake.Columns(p.Kind) {
			if c.Needed && r.Cells[c.Name] == "" && !slices.ContainsFunc(p.Faults, func(f intake.Fault) bool { return f.Row == r.Number && (f.Column == c.Name || f.Column == "") }) {
				p.wrong(r, c.Name, "This is empty. Write %s.", c.Says)
			}
		}
	}
}

// wrong notes a fault of a row.
func (p *importPlan) wrong(r *ImportRow, column, format string, args ...any) {
	r.Does = ImportFault
	if says := fmt.Sprintf(format, args...); len(p.Faults) < 1000 {
		p.Faults = append(p.Faults, intake.Fault{Row: r.Number, Column: column, Says: says})
	} else {
		p.More++
	}
}

// take notes the faults of a form at the columns that its fields come of.
func (p *importPlan) take(r *ImportRow, err error, columns map[string]string) error {
	f, is := fault.As(err)
	if err == nil || !is {
		return err
	}
	if len(f.Fields) == 0 {
		p.wrong(r, "", "%s", f.Message)
	}
	for _, field := range slices.Sorted(maps.Keys(f.Fields)) {
		column := cmp.Or(columns[field], field)
		if !slices.ContainsFunc(p.Faults, func(f intake.Fault) bool { return f.Row == r.Number && f.Column == column }) {
			p.wrong(r, column, "%s", f.Fields[field])
		}
	}
	return nil
}

// there says that what a row speaks of is here already.
func (r *ImportRow) there(format string, args ...any) {
	r.Does = ImportThere
	if format != "" {
		r.Notes = append(r.Notes, fmt.Sprintf(format, args...))
	}
}

// saw remembers what was found for a row.
func (p *importPlan) saw(r *ImportRow, facts ...any) {
	p.seen = append(p.seen, hashed(append([]any{r.Number}, facts...)...))
}

// finish counts, and tells the version.
func (p *importPlan) finish(d postgres.ImportDraft) {
	slices.SortStableFunc(p.Faults, func(a, b intake.Fault) int { return cmp.Compare(a.Row, b.Row) })
	for i := range p.Rows {
		r := &p.Rows[i]
		if r.Does != ImportFault && r.Ask != nil && r.Ask.Answer == "" {
			r.Does = ImportAsks
		}
		switch r.Does {
		case ImportNew:
			p.New++
		case ImportThere:
			p.There++
		case ImportAsks:
			p.Asking++
		}
		for _, c := range intake.Columns(p.Kind) {
			if text := r.Cells[c.Name]; p.Guessed && len(p.Names) < 12 && strings.ContainsFunc(text, func(r rune) bool { return r > 127 }) && !slices.Contains(p.Names, text) {
				p.Names = append(p.Names, text)
			}
		}
	}
	sum := sha256.Sum256(d.Content)
	p.Version = hashed(hex.EncodeToString(sum[:]), p.seen)
}
