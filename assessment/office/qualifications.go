package office

import (
	"context"
	"fmt"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// LicenceForm is a right to practise as somebody of the agency has checked it.
type LicenceForm struct {
	Kind    string // such as "RN"
	Number  string
	Through string // YYYY-MM-DD; empty: it does not end
}

// CardForm is a resuscitation card as somebody of the agency has seen it. The day
// of issue, that of the course or the printed end must be given.
type CardForm struct {
	Issuer     string
	IssuedOn   string // YYYY-MM-DD
	CourseOn   string // YYYY-MM-DD
	PrintedEnd string // as printed, such as 06/2027, or YYYY-MM-DD
}

// LicenceView is a licence on file.
type LicenceView struct {
	ID         assessment.RecordID
	Kind       string
	Number     string
	Through    civil.Date // zero: it does not end
	Current    bool       // today
	RecordedAt time.Time
	RecordedBy string // name
}

// CardView is a resuscitation card on file.
type CardView struct {
	ID         assessment.RecordID
	Issuer     string
	IssuedOn   civil.Date // zero: not known
	CourseOn   civil.Date // zero: not known
	PrintedEnd civil.Date // zero: none
	Through    civil.Date // last day as it counts
	Current    bool       // today
	RecordedAt time.Time
	RecordedBy string // name
}

// QualificationsView is all on file about one person's right to do and to judge.
type QualificationsView struct {
	Licences     []LicenceView
	Cards        []CardView
	Appointments []AppointmentView
}

// RecordLicence puts a licence on file.
func (o *Office) RecordLicence(ctx context.Context, by assessment.Actor, person assessment.PersonID, l LicenceForm) (LicenceView, error) {
	var v LicenceView
	err := o.as(ctx, by, assessment.EditPeople, func(tx *postgres.Tx, now Moment) error {
		n, err := l.read()
		if err != nil {
			return err
		}
		if err := notOneself(by, person, "licence"); err != nil {
			return err
		}
		held, err := tx.Qualifications.Licences(ctx, person)
		if err != nil {
			return err
		}
		for _, h := range held {
			if h.Kind == n.Kind && h.Number == n.Number && h.ThroughOn == n.ThroughOn {
				return fault.Of(fault.Conflict, "This licence is on file already.")
			}
		}
		n.Person, n.RecordedAt, n.RecordedBy, n.Recorder = person, now.At, by.Person, by.Name
		if n.ID, err = newID[assessment.RecordID](o, now.At); err != nil {
			return err
		}
		if err := tx.Qualifications.AddLicence(ctx, n); err != nil {
			return err
		}
		v = viewLicence(n, now.Today)
		return o.note(ctx, tx, now, by, assessment.EditPeople, "licence", string(n.ID))
	})
	return v, err
}

// notOneself: a paper says what somebody else has seen of it, and a program sees nothing.
func notOneself(by assessment.Actor, person assessment.PersonID, paper string) error {
	switch {
	case by.Program != nil:
		return fault.Of(fault.Forbidden, "A program cannot put a %s on file: somebody has to have seen it. Sign in and enter it.", paper)
	case by.Person == person:
		return fault.Of(fault.Refused, "Your own %s is put on file by somebody else who has seen it. Ask a colleague.", paper)
	}
	return nil
}

func (l LicenceForm) read() (postgres.Licence, error) {
	var f form
	n := postgres.Licence{
		Kind:      f.line("kind", l.Kind, 40, "Give the kind of licence, such as RN or RRT."),
		Number:    f.line("number", l.Number, 60, "Give the licence number."),
		ThroughOn: f.maybeDay("through", l.Through),
	}
	return n, f.Err()
}

func viewLicence(l postgres.Licence, today civil.Date) LicenceView {
	current := assessment.Licence{Kind: l.Kind, Number: l.Number, Through: l.ThroughOn}.CurrentOn(today)
	return LicenceView{ID: l.ID, Kind: l.Kind, Number: l.Number, Through: l.ThroughOn, Current: current, RecordedAt: l.RecordedAt, RecordedBy: l.Recorder}
}

// RecordCard puts a resuscitation card on file. Competencies that need one follow it.
func (o *Office) RecordCard(ctx context.Context, by assessment.Actor, person assessment.PersonID, c CardForm) (CardView, error) {
	var v CardView
	err := o.as(ctx, by, assessment.EditPeople, func(tx *postgres.Tx, now Moment) error {
		n, err := c.read(now.Today)
		if err != nil {
			return err
		}
		if err := notOneself(by, person, "card"); err != nil {
			return err
		}
		if err := tx.History.Lock(ctx, person); err != nil {
			return err
		}
		held, err := tx.Qualifications.Cards(ctx, person)
		if err != nil {
			return err
		}
		for _, h := range held {
			if h.Issuer == n.Issuer && h.IssuedOn == n.IssuedOn && h.CourseOn == n.CourseOn && h.PrintedOn == n.PrintedOn {
				return fault.Of(fault.Conflict, "This card is on file already.")
			}
		}
		n.Person, n.RecordedAt, n.RecordedBy, n.Recorder = person, now.At, by.Person, by.Name
		if n.ID, err = newID[assessment.RecordID](o, now.At); err != nil {
			return err
		}
		if err := tx.Qualifications.AddCard(ctx, n); err != nil {
			return err
		}
		v = viewCard(n, now.Today)
		if err := o.note(ctx, tx, now, by, assessment.EditPeople, "card", string(n.ID)); err != nil {
			return err
		}
		return o.reindexPerson(ctx, tx, now, person)
	})
	return v, err
}

func (c CardForm) read(today civil.Date) (postgres.Card, error) {
	var f form
	n := postgres.Card{
		Issuer:   f.line("issuer", c.Issuer, 120, "Give who issued the card."),
		IssuedOn: f.maybeDay("issued_on", c.IssuedOn),
		CourseOn: f.maybeDay("course_on", c.CourseOn),
	}
	n.PrintedOn = f.cardEnd("printed_end", c.PrintedEnd)
	if n.IssuedOn.After(today) {
		f.Add("issued_on", "This day has not come yet.")
	}
	if n.CourseOn.After(today) {
		f.Add("course_on", "This day has not come yet.")
	}
	if !n.IssuedOn.IsZero() && n.IssuedOn.Before(n.CourseOn) {
		f.Add("issued_on", "The card was issued before the course. Check both days.")
	}
	if !n.PrintedOn.IsZero() && n.PrintedOn.Before(civil.Later(n.IssuedOn, n.CourseOn)) {
		f.Add("printed_end", "The card ends before it begins. Check the days.")
	}
	if latest, err := (assessment.Card{IssuedOn: today}).LastDay(); err == nil && n.PrintedOn.After(latest) {
		f.Add("printed_end", "A card issued today would end on %s. Check the year.", latest)
	}
	if err := f.Err(); err != nil {
		return n, err
	}
	var err error
	n.ThroughOn, err = assessment.Card{Issuer: n.Issuer, IssuedOn: n.IssuedOn, CourseOn: n.CourseOn, Through: n.PrintedOn}.LastDay()
	f.Take("issued_on", err)
	return n, f.Err()
}

// cardEnd is the printed end of a card: a month, as cards print it, or a day.
func (f *form) cardEnd(field, typed string) civil.Date {
	s := strings.TrimSpace(typed)
	if !strings.Contains(s, "/") {
		return f.maybeDay(field, s)
	}
	d, err := assessment.ParseCardEnd(s)
	f.Take(field, err)
	return d
}

func viewCard(c postgres.Card, today civil.Date) CardView {
	return CardView{ID: c.ID, Issuer: c.Issuer, IssuedOn: c.IssuedOn, CourseOn: c.CourseOn, PrintedEnd: c.PrintedOn, Through: c.ThroughOn,
		Current: !today.After(c.ThroughOn), RecordedAt: c.RecordedAt, RecordedBy: c.Recorder}
}

// Qualifications is what is on file about one person.
func (o *Office) Qualifications(ctx context.Context, by assessment.Actor, person assessment.PersonID) (QualificationsView, error) {
	var v QualificationsView
	err := o.as(ctx, by, assessment.ReadPeople, func(tx *postgres.Tx, now Moment) error {
		if err := by.MayFor(assessment.ReadPeople, person, false); err != nil {
			return err
		}
		if _, err := tx.People.Get(ctx, person); err != nil {
			return err
		}
		var err error
		v, err = qualifications(ctx, tx, now, person)
		return err
	})
	return v, err
}

func qualifications(ctx context.Context, tx *postgres.Tx, now Moment, person assessment.PersonID) (QualificationsView, error) {
	var v QualificationsView
	licences, err := tx.Qualifications.Licences(ctx, person)
	if err != nil {
		return v, fmt.Errorf("read licences: %w", err)
	}
	for _, l := range licences {
		v.Licences = append(v.Licences, viewLicence(l, now.Today))
	}
	cards, err := tx.Qualifications.Cards(ctx, person)
	if err != nil {
		return v, fmt.Errorf("read cards: %w", err)
	}
	for _, c := range cards {
		v.Cards = append(v.Cards, viewCard(c, now.Today))
	}
	appointments, err := tx.Qualifications.Appointments(ctx, person)
	if err != nil {
		return v, fmt.Errorf("read appointments: %w", err)
	}
	for _, a := range appointments {
		v.Appointments = append(v.Appointments, viewAppointment(a, now))
	}
	return v, nil
}
