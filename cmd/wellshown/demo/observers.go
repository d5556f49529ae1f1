package demo

import (
	"fmt"
	"time"

	"wellshown/assessment/catalog"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
)

// educator observes. They have to be current themselves, so they learn too: from
// one another, on founding appointments at first.
type educator struct {
	*person
	licence string
	busy    time.Time // until then they are with somebody
}

// appointFounders appoints the first observers for eleven months: proposed by the
// administrator, agreed by a colleague. Once they have been seen by one another
// they get ordinary appointments, year by year.
func (s *story) appointFounders() error {
	for i := range s.educators {
		err := s.appoint(i, s.day(), s.day().AddMonths(11), true, "Taught and judged these skills for years at a children's hospital; references on file.")
		if err != nil {
			return err
		}
	}
	for year := range 2 {
		s.at(s.hour(workday(s.opening().AddMonths(3+12*year)), 8, 30), func() error {
			from := s.day()
			for i := range s.educators {
				err := s.appoint(i, from, from.AddMonths(13), false, "Seen by a colleague in all of these and current in them; licence checked.")
				if err != nil {
					return err
				}
			}
			return nil
		})
	}
	return nil
}

func (s *story) appoint(i int, from, through civil.Date, founding bool, evidence string) error {
	e, second := s.educators[i], s.educators[(i+1)%len(s.educators)]
	a, err := s.office.ProposeAppointment(s.ctx, s.admin.Actor, office.AppointmentForm{Person: e.Person, Skills: catalog.Codes(),
		From: from.String(), Through: through.String(), Founding: founding, Evidence: evidence})
	if err != nil {
		return fmt.Errorf("propose an appointment for %s: %w", e.Name, err)
	}
	if _, err := s.office.AgreeAppointment(s.ctx, second.Actor, a.ID); err != nil {
		return fmt.Errorf("agree the appointment of %s: %w", e.Name, err)
	}
	return nil
}

// observer is an educator other than the learner who is free first, from t on or
// soon after.
func (s *story) observer(l *learner, t time.Time) (*educator, time.Time) {
	var best *educator
	for i := range s.educators {
		e := s.educators[(i+l.number)%len(s.educators)]
		if e.Person != l.Person && (best == nil || e.busy.Before(best.busy) && best.busy.After(t)) {
			best = e
		}
	}
	if best.busy.After(t) {
		t = best.busy
	}
	return best, t
}
