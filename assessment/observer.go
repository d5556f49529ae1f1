package assessment

import (
	"slices"

	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
)

// Licence is a professional's right to practise, as checked by the agency.
type Licence struct {
	Kind    string // such as "RN" or "RRT"
	Number  string
	Through civil.Date // last day; zero where it does not end
}

// CurrentOn reports whether the licence covers a day.
func (l Licence) CurrentOn(d civil.Date) bool {
	return l.Kind != "" && (l.Through.IsZero() || !d.After(l.Through))
}

// Appointment says that somebody may observe certain skills from a day through
// a day, on what licence and evidence. It counts only once a second person, who
// is neither the appointee nor the proposer, has agreed. A founding appointment
// also stands in for the appointee's own competency in those skills: that is how
// an agency's first observers come to be. It ends within a year.
type Appointment struct {
	ID       AppointmentID
	Person   PersonID
	Skills   []string // codes
	From     civil.Date
	Through  civil.Date
	Founding bool
	Evidence string
	Proposed PersonID
	Agreed   PersonID   // empty until agreed
	AgreedOn civil.Date // zero until agreed
	EndedOn  civil.Date // first day on which it no longer counts; zero while it stands
}

// Check refuses an appointment that must not be made.
func (a Appointment) Check() error {
	var f fault.Fields
	if len(a.Skills) == 0 {
		f.Add("skills", "choose at least one skill")
	}
	if a.Evidence == "" {
		f.Add("evidence", "say on what evidence: where and by whom they were found able to judge this")
	}
	switch {
	case a.From.IsZero():
		f.Add("from", "give the first day")
	case a.Through.Before(a.From):
		f.Add("through", "the last day is before the first")
	case a.Founding && a.Through.After(a.From.AddMonths(12)):
		f.Add("through", "a founding appointment ends within 12 months: by then they must have been seen themselves")
	}
	return f.Err()
}

// Agree refuses a second signature that is no second person's.
func (a Appointment) Agree(by PersonID) error {
	switch {
	case a.Agreed != "":
		return fault.Of(fault.Conflict, "This appointment has been agreed already.")
	case by == a.Person:
		return fault.Of(fault.Refused, "You cannot agree to your own appointment. Ask a colleague.")
	case by == a.Proposed:
		return fault.Of(fault.Refused, "You proposed this appointment; somebody else has to agree to it.")
	}
	return nil
}

// Counted reports whether there was or will be a day on which it counts.
func (a Appointment) Counted() bool {
	first := a.From
	if a.AgreedOn.After(first) {
		first = a.AgreedOn
	}
	return a.Agreed != "" && !first.After(a.Through) && (a.EndedOn.IsZero() || first.Before(a.EndedOn))
}

// FoundsOnce refuses a founding appointment for a skill for which the same person had
// one: it stands in for their own competency until they have been seen, not for ever.
func (a Appointment) FoundsOnce(known []Appointment) error {
	if !a.Founding {
		return nil
	}
	for _, k := range known {
		if k.ID == a.ID || k.Person != a.Person || !k.Founding || !k.Counted() {
			continue
		}
		for _, skill := range a.Skills {
			if slices.Contains(k.Skills, skill) {
				return fault.Of(fault.Refused, "They were one of the first observers for %s already, from %s through %s. That is granted once, until somebody has seen them. "+
					"Have them show it to another observer, then propose an appointment that rests on their own competency.", skill, k.From, k.Through)
			}
		}
	}
	return nil
}

// CoversOn reports whether the appointment counts for a skill on a day.
func (a Appointment) CoversOn(skill string, d civil.Date) bool {
	return a.Agreed != "" && !d.Before(a.AgreedOn) && !d.Before(a.From) && !d.After(a.Through) &&
		(a.EndedOn.IsZero() || d.Before(a.EndedOn)) && slices.Contains(a.Skills, skill)
}

// Observation is what must be known to say whether somebody may observe.
type Observation struct {
	Observer, Learner PersonID
	Skill             string // code
	Title             string
	Licences          []Licence
	Appointments      []Appointment
	Standing          StandingWord // the observer's own in the skill, on the day
}

// MayObserve refuses an observer whose word must not count on a day: the learner,
// somebody unlicensed, somebody not appointed for the skill, somebody not current
// in it. (Current in the same skill and licensed: one accreditor's rule for
// private-duty competence asks for a like discipline, ACHC HC4-6A; the rest is
// common practice, no source.)
func (o Observation) MayObserve(on civil.Date) error {
	switch {
	case o.Observer == o.Learner:
		return fault.Of(fault.Refused, "You cannot observe yourself. Ask another observer.")
	case !o.licensedOn(on):
		return fault.Of(fault.Refused, "The observer has no licence on file that covers %s. Record the licence first, or choose another observer.", on)
	}
	covering := o.covering(on)
	if len(covering) == 0 {
		return fault.Of(fault.Refused, "The observer is not appointed to observe %s on %s. Two people agree an appointment under People.", o.Title, on)
	}
	if o.Standing.Holds() {
		return nil
	}
	founding := slices.ContainsFunc(covering, func(a Appointment) bool { return a.Founding })
	if founding && o.Standing != Withdrawn {
		return nil
	}
	return fault.Of(fault.Refused, "The observer is %s in %s on %s, not current. An observer must be current in the skill.", o.Standing, o.Title, on)
}

func (o Observation) licensedOn(on civil.Date) bool {
	return slices.ContainsFunc(o.Licences, func(l Licence) bool { return l.CurrentOn(on) })
}

func (o Observation) covering(on civil.Date) []Appointment {
	var all []Appointment
	for _, a := range o.Appointments {
		if a.Person == o.Observer && a.CoversOn(o.Skill, on) {
			all = append(all, a)
		}
	}
	return all
}
