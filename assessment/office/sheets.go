package office

import (
	"context"
	"fmt"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// OpenForm is what an observer says before marking.
type OpenForm struct {
	ID          string // made by whoever sends it, so that sending twice is harmless; empty: made here
	Learner     assessment.PersonID
	Skill       string // code
	Client      assessment.ClientID
	Place       string
	Real        bool      // with the child, else in simulation
	Formal      bool      // counts toward competence, else practice
	PerformedAt time.Time // zero: as in When
	When        string    // day and time as typed, on the agency's clocks; empty: now
	// FromPaper: it was marked on paper before and is typed in now. Then the day and
	// time must be said, and which revision is printed on the paper.
	FromPaper     bool
	PaperRevision int
}

// SheetView is a sheet as its observer sees it.
type SheetView struct {
	postgres.Sheet
	Checklist  assessment.Checklist
	Parameters assessment.Parameters
	Words      map[string]string // parameters in words
	Marks      map[int]postgres.SheetMark
	Open       []assessment.Open
	Pages      []postgres.PaperPage // of the paper it is typed in from, without their content
	Zone       *time.Location

	drill *bodyDrill // what its record will say of the drill
}

// Open begins a demonstration. It refuses what could not count in the end, so
// that nobody shows a whole skill in vain.
func (o *Office) Open(ctx context.Context, by assessment.Actor, form OpenForm) (SheetView, error) {
	var v SheetView
	err := o.as(ctx, by, assessment.Observe, func(tx *postgres.Tx, now Moment) error {
		var err error
		v, err = o.openSheet(ctx, tx, now, by, form)
		return err
	})
	return v, err
}

// openSheet opens a sheet, or finds the one that the same form has opened.
func (o *Office) openSheet(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, form OpenForm) (SheetView, error) {
	sheet, list, err := o.opening(ctx, tx, now, by, form)
	if err != nil {
		return SheetView{}, err
	}
	// Whoever opens for the same learner waits, so that of two forms sent at once
	// the second finds what the first has opened.
	if err := tx.History.Lock(ctx, sheet.LearnerID); err != nil {
		return SheetView{}, err
	}
	if known, err := tx.Sheets.Get(ctx, sheet.ID); err == nil {
		switch {
		case !sameOpening(known, sheet):
			return SheetView{}, fault.Of(fault.Conflict, "There is another demonstration under this id.")
		case known.FromPaper && !known.PerformedAt.Equal(sheet.PerformedAt): // the day decides what counts
			return SheetView{}, fault.Of(fault.Conflict, "This paper has been begun already, as shown on %s. If that is wrong, discard it under Observe and begin it anew.",
				known.PerformedAt.In(now.Zone).Format("2 January 2006, 15:04"))
		}
		return o.viewSheet(ctx, tx, now, known)
	} else if err := orRecorded(ctx, tx, by, sheet.ID, err); fault.KindOf(err) != fault.NotFound {
		return SheetView{}, err
	}
	if err := o.idIsFree(ctx, tx, string(sheet.ID)); err != nil {
		return SheetView{}, err
	}
	if err := o.mayOpen(ctx, tx, now, sheet, list); err != nil {
		return SheetView{}, err
	}
	if err := tx.Sheets.Add(ctx, sheet); err != nil {
		return SheetView{}, err
	}
	if err := o.note(ctx, tx, now, by, assessment.Observe, "sheet", string(sheet.ID)); err != nil {
		return SheetView{}, err
	}
	opened, err := tx.Sheets.Get(ctx, sheet.ID)
	if err != nil {
		return SheetView{}, err
	}
	return o.viewSheet(ctx, tx, now, opened)
}

// inForceAt is the revision of a skill that was in force at an instant.
func (o *Office) inForceAt(ctx context.Context, tx *postgres.Tx, skill postgres.Skill, at time.Time) (postgres.Revision, *assessment.Checklist, error) {
	revisions, err := tx.Checklists.Revisions(ctx, skill.ID)
	if err != nil {
		return postgres.Revision{}, nil, err
	}
	for _, r := range slices.Backward(revisions) {
		if r.InForceAt != nil && !r.InForceAt.After(at) && (r.RetiredAt == nil || r.RetiredAt.After(at)) {
			list, err := o.listOf(ctx, tx, r)
			return r, list, err
		}
	}
	return postgres.Revision{}, nil, fault.Of(fault.Refused, "No checklist for %s was in force then. A licensed clinician must put one in force first.", skill.Title)
}

// parametersOf are a child's ordered values as they stood at an instant: numbers
// for ranges, and everything in words.
func (o *Office) parametersOf(ctx context.Context, tx *postgres.Tx, client assessment.ClientID, at time.Time, list *assessment.Checklist) (assessment.Parameters, map[string]string, error) {
	known, words := assessment.Parameters{}, map[string]string{}
	for _, p := range list.Parameters {
		if p.Default != nil {
			known[p.Name], words[p.Name] = *p.Default, p.Default.String()
		}
	}
	if client == "" {
		return known, words, nil
	}
	rows, err := tx.Clients.Parameters(ctx, client, at)
	if err != nil {
		return nil, nil, fmt.Errorf("read a child's ordered values: %w", err)
	}
	if err := readParameters(rows, known, words); err != nil {
		return nil, nil, err
	}
	return known, words, nil
}

// readParameters puts ordered values as they are kept among those known.
func readParameters(rows []postgres.Parameter, known assessment.Parameters, words map[string]string) error {
	for _, r := range rows {
		if r.Value == "" {
			words[r.Name] = r.Words
			continue
		}
		n, err := assessment.ParseNumber(r.Value)
		if err != nil {
			return fmt.Errorf("read the ordered value %s: %w", r.Name, err)
		}
		known[r.Name] = assessment.Quantity{Value: n, Unit: r.Unit}
		words[r.Name] = known[r.Name].String()
	}
	return nil
}

// Sheets lists the open sheets of the actor.
func (o *Office) Sheets(ctx context.Context, by assessment.Actor) ([]postgres.Sheet, error) {
	var sheets []postgres.Sheet
	err := o.as(ctx, by, assessment.Observe, func(tx *postgres.Tx, now Moment) error {
		var err error
		sheets, err = tx.Sheets.List(ctx, by.Person)
		return err
	})
	return sheets, err
}

// Sheet is one open sheet. Only its own observer marks it.
func (o *Office) Sheet(ctx context.Context, by assessment.Actor, id assessment.DemonstrationID) (SheetView, error) {
	var v SheetView
	err := o.as(ctx, by, assessment.Observe, func(tx *postgres.Tx, now Moment) error {
		s, err := tx.Sheets.Get(ctx, id)
		if err != nil {
			return orRecorded(ctx, tx, by, id, err)
		}
		if s.ObserverID != by.Person {
			return notFound()
		}
		v, err = o.viewSheet(ctx, tx, now, s)
		return err
	})
	return v, err
}

func (o *Office) viewSheet(ctx context.Context, tx *postgres.Tx, now Moment, s postgres.Sheet) (SheetView, error) {
	list, err := o.listFor(ctx, tx, s.RevisionID)
	if err != nil {
		return SheetView{}, err
	}
	known, words, err := o.parametersOf(ctx, tx, s.ClientID, s.PerformedAt, list)
	if err != nil {
		return SheetView{}, err
	}
	marks, err := tx.Sheets.Marks(ctx, s.ID)
	if err != nil {
		return SheetView{}, err
	}
	v := SheetView{Sheet: s, Checklist: *list, Parameters: known, Words: words, Marks: map[int]postgres.SheetMark{}, Zone: now.Zone}
	for _, m := range marks {
		v.Marks[m.Step] = m
	}
	sheet, err := coreSheet(s, marks)
	if err != nil {
		return SheetView{}, err
	}
	if s.FromPaper {
		if v.Pages, err = tx.Sheets.Pages(ctx, s.ID); err != nil {
			return SheetView{}, fmt.Errorf("read the pages of a paper: %w", err)
		}
	}
	sheet.Stopped = false // what is open is shown even where it no longer has to be filled in
	_, v.Open, err = assessment.Score(*list, known, sheet)
	return v, err
}

// coreSheet turns what is kept into what the core scores.
func coreSheet(s postgres.Sheet, marks []postgres.SheetMark) (assessment.Sheet, error) {
	sheet := assessment.Sheet{Stopped: s.Stopped}
	for _, m := range marks {
		e := assessment.SheetEntry{No: m.Step, Mark: m.Mark, NotApplicable: m.NotApplicable, Reason: m.Reason, Note: m.Note,
			Values: map[string]assessment.Quantity{}}
		for name, r := range m.Readings {
			n, err := assessment.ParseNumber(r.Value)
			if err != nil {
				return sheet, fmt.Errorf("read the value of step %d: %w", m.Step, err)
			}
			e.Values[name] = assessment.Quantity{Value: n, Unit: r.Unit}
		}
		sheet.Entries = append(sheet.Entries, e)
	}
	return sheet, nil
}
