package office

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/intake"
	"wellshown/assessment/postgres"
)

// shiftKey says which shift one is: the same file twice adds none.
type shiftKey struct {
	client       assessment.ClientID
	person       assessment.PersonID
	starts, ends int64
}

func keyOfShift(s assessment.Shift) shiftKey {
	return shiftKey{s.Client, s.Person, s.Starts.UnixMicro(), s.Ends.UnixMicro()}
}

// planShifts finds out which shifts of a list are new. Whether whoever is on one is current is not asked
// here, as little as of a weekly pattern: coverage tells which of them break.
func (o *Office) planShifts(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, p *importPlan) error {
	byCode, err := clientsByCode(ctx, tx)
	if err != nil {
		return err
	}
	book, err := readNames(ctx, tx, now)
	if err != nil {
		return err
	}
	rows := map[assessment.ShiftID]*ImportRow{}
	var shifts []assessment.Shift
	said := map[shiftKey]int{}
	for i := range p.Rows {
		r := &p.Rows[i]
		s, fine := p.shift(r, now, byCode, book)
		if !fine {
			continue
		}
		if row := said[keyOfShift(s)]; row != 0 {
			p.wrong(r, "", "Row %d is the same shift. Keep one of the two.", row)
			continue
		}
		said[keyOfShift(s)] = r.Number
		s.ID = assessment.ShiftID("row " + itoa(r.Number))
		rows[s.ID] = r
		shifts = append(shifts, s)
	}
	return o.beside(ctx, tx, now, by, p, shifts, rows, byCode)
}

// shift reads a row. False: it has a fault, or asks who is on it.
func (p *importPlan) shift(r *ImportRow, now Moment, byCode map[string]postgres.Client, book *nameBook) (assessment.Shift, bool) {
	c, here := p.client(r, byCode)
	s := assessment.Shift{Client: c.ID, Starts: p.instant(r, "starts", now.Zone), Ends: p.instant(r, "ends", now.Zone)}
	var err error
	if s.Kind, err = assessment.ParseCaregiverKind(strings.ToLower(r.Cells["kind"])); err != nil {
		p.wrong(r, "kind", "%s.", sentence(err))
	}
	var on postgres.Person
	if r.Cells["caregiver"] != "" {
		var known bool
		if on, known = book.who(p, r, "caregiver"); !known {
			here = false
		}
		s.Person = on.ID
	}
	if r.Does == ImportFault || s.Starts.IsZero() || s.Ends.IsZero() || !here {
		return s, false
	}
	if err := s.Check(); err != nil {
		_ = p.take(r, err, nil) // what Check refuses is always a fault of fields
		return s, false
	}
	first, last := civil.DayOf(s.Starts, now.Zone), civil.DayOf(s.Ends.Add(-time.Nanosecond), now.Zone)
	switch {
	case !c.SinceOn.IsZero() && first.Before(c.SinceOn):
		p.wrong(r, "starts", "The agency looks after %s from %s on. Check the day, or the start on the child's page.", c.FirstName, c.SinceOn)
	case gone(c.LeftOn, last):
		p.wrong(r, "starts", "%s is no longer with the agency on %s. Take the row out, or check the day.", c.FirstName, last)
	case s.Person != "" && on.Kind == "":
		p.wrong(r, "caregiver", "%s is no caregiver here and cannot be on a shift. Say on their page what kind of caregiver they are.", on.Name)
	case s.Person != "" && gone(on.LeftOn, last):
		p.wrong(r, "caregiver", "%s is no longer with the agency on %s. Leave the cell empty, or write who takes it.", on.Name, last)
	case s.Person != "" && s.Kind != "" && on.Kind != s.Kind:
		p.wrong(r, "kind", "The shift asks for a caregiver of the kind %s, and %s is another (%s). Mend one of the two.", s.Kind, on.Name, on.Kind)
	case s.Starts.Sub(now.At) > farthest:
		p.wrong(r, "starts", "This is more than two years ahead. Check the year.")
	}
	return s, r.Does != ImportFault
}

func (p *importPlan) instant(r *ImportRow, column string, zone *time.Location) time.Time {
	if r.Cells[column] == "" {
		return time.Time{}
	}
	at, note, err := intake.Instant(r.Cells[column], zone)
	if err != nil {
		p.wrong(r, column, "%s.", sentence(err))
	}
	if note != "" {
		r.Notes = append(r.Notes, note)
	}
	return at
}

// beside looks at what is on the roster: which shifts are there already, and who would be at two places at once.
func (o *Office) beside(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, p *importPlan, shifts []assessment.Shift, rows map[assessment.ShiftID]*ImportRow, byCode map[string]postgres.Client) error {
	if len(shifts) == 0 {
		return nil
	}
	clients := map[assessment.ClientID]postgres.Client{}
	for _, c := range byCode {
		clients[c.ID] = c
	}
	from := slices.MinFunc(shifts, func(a, b assessment.Shift) int { return a.Starts.Compare(b.Starts) }).Starts
	to := slices.MaxFunc(shifts, func(a, b assessment.Shift) int { return a.Ends.Compare(b.Ends) }).Ends
	kept, err := o.rosterBook(ctx, tx, now, civil.DayOf(from, now.Zone).AddDays(-1), civil.DayOf(to, now.Zone).AddDays(1), postgres.RosterFilter{}, clients)
	if err != nil {
		return err
	}
	there := onRoster(kept.shifts, shifts)
	all := kept.shifts
	for _, s := range shifts {
		r := rows[s.ID]
		switch {
		case there.same[keyOfShift(s)]:
			p.saw(r, "there")
			r.there("")
		case there.taken(s):
			p.saw(r, "there", "with another")
			r.there("the roster has this shift with somebody else on it, or with nobody, and it stays so: give it to another on the page of coverage")
		case !s.Ends.After(now.At):
			p.wrong(r, "ends", "This is over already. The roster is for what comes: take the row out.")
		default:
			p.saw(r, "new", s.Person)
			all = append(all, s)
			p.keep = append(p.keep, o.keepShift(ctx, tx, now, by, s))
		}
	}
	p.clashes(all, rows, clients, now.Zone)
	return nil
}

// slots are the shifts of the roster that rows may be.
type slots struct {
	same map[shiftKey]bool // child, times and person
	free map[slotKey]int   // how many on the roster are no row's with the same person
}

// slotKey is a shift whoever is on it. One for a nurse is never one for an aide, though they begin and end together.
type slotKey struct {
	client       assessment.ClientID
	kind         assessment.CaregiverKind
	starts, ends int64
}

func keyOfSlot(s assessment.Shift) slotKey {
	return slotKey{s.Client, s.Kind, s.Starts.UnixMicro(), s.Ends.UnixMicro()}
}

// onRoster finds the shifts of the roster that are rows to the letter, and counts the others of the same child and times.
func onRoster(kept, rows []assessment.Shift) slots {
	told, v := map[shiftKey]bool{}, slots{map[shiftKey]bool{}, map[slotKey]int{}}
	for _, s := range rows {
		told[keyOfShift(s)] = true
	}
	for _, s := range kept {
		if v.same[keyOfShift(s)] = true; told[keyOfShift(s)] {
			continue
		}
		v.free[keyOfSlot(s)]++
	}
	return v
}

// taken tells whether a row is a shift that was given to somebody else since it was brought in, and takes it: the same
// list twice makes no second shift of it. Of two rows at the same times the roster must have two.
func (v slots) taken(s assessment.Shift) bool {
	if v.free[keyOfSlot(s)] == 0 {
		return false
	}
	v.free[keyOfSlot(s)]--
	return true
}

// clashes are faults of the rows that have somebody at two places at once.
func (p *importPlan) clashes(all []assessment.Shift, rows map[assessment.ShiftID]*ImportRow, clients map[assessment.ClientID]postgres.Client, zone *time.Location) {
	for _, c := range assessment.Clashes(all, 0) {
		first, second := rows[c.First.ID], rows[c.Second.ID]
		if first != nil && second != nil && first.Number > second.Number {
			c.First, c.Second, first, second = c.Second, c.First, second, first
		}
		r, other, where := cmp.Or(second, first), c.First, ""
		switch {
		case r == nil:
			continue // two of the roster, which coverage tells of
		case first != nil && second != nil:
			where = "row " + itoa(first.Number)
		case second == nil:
			other, where = c.Second, "the roster"
		default:
			where = "the roster"
		}
		p.wrong(r, "caregiver", "%s has them on another shift then: %s, from %s until %s. Nobody is at two places: mend the times, or leave one of the two open.", strings.ToUpper(where[:1])+where[1:],
			clients[other.Client].FirstName, other.Starts.In(zone).Format("2 January 2006, 15:04"), other.Ends.In(zone).Format("15:04"))
	}
}

func (o *Office) keepShift(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, s assessment.Shift) func() error {
	return func() error {
		id, err := newID[assessment.ShiftID](o, now.At)
		if err != nil {
			return err
		}
		n := postgres.RosterShift{ID: id, Client: s.Client, Person: s.Person, Kind: s.Kind, StartsAt: s.Starts, EndsAt: s.Ends, AddedBy: by.Person, AddedAt: now.At}
		if err := tx.Roster.AddShift(ctx, n); err != nil {
			return fmt.Errorf("put a shift on the roster: %w", err)
		}
		return o.note(ctx, tx, now, by, assessment.EditRoster, "shift added", string(id))
	}
}
