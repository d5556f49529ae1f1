package assessment

import (
	"time"

	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
)

// EntryKind is what kind of thing a history entry tells.
type EntryKind string

// The kinds of entry.
const (
	DemonstrationEntry EntryKind = "demonstration"
	WithdrawalEntry    EntryKind = "withdrawal"
	ReinstatementEntry EntryKind = "reinstatement"
	WaiverEntry        EntryKind = "waiver"
	RecheckEntry       EntryKind = "recheck"
	PracticeEntry      EntryKind = "practice"
	TeachingEntry      EntryKind = "teaching"
	CorrectionEntry    EntryKind = "correction"
	CardEntry          EntryKind = "card"
)

// Until says what lifts a withdrawal.
type Until string

// What lifts a withdrawal: a competent demonstration on a later day, or a
// reinstatement that names it.
const (
	Redemonstrated Until = "redemonstrated"
	Reinstated     Until = "reinstated"
)

// Entry is one dated thing known of one caregiver in one skill (and, for
// client-specific skills, with one client). Which fields count depends on Kind.
type Entry struct {
	Kind EntryKind
	ID   string

	At      time.Time  // demonstration: performed; withdrawal, reinstatement, recheck, correction, card: made
	On      civil.Date // practice, teaching: the day; waiver: its first day
	Through civil.Date // waiver, card: last day

	Outcome        Outcome // demonstration
	Observer       string
	Real           bool // with the client, else in simulation
	Formal         bool // else practice
	Revision       int  // demonstration: shown on; recheck: demands this or newer
	ObserverSigned time.Time
	LearnerSigned  time.Time
	Fitted         Fitted // what the client had when it was shown

	Until Until      // withdrawal
	Of    string     // reinstatement: the withdrawal; correction: any entry but a correction
	By    civil.Date // recheck: last day without it

	Recorded time.Time // when it became known here; zero means from the start
}

// EffectDay is the day from which the entry acts, and whether it acts at all. A
// negative needs one signature and acts from the day it was performed; a
// positive needs both and acts from the day of the later one.
func (e Entry) EffectDay(zone *time.Location) (civil.Date, bool) {
	switch e.Kind {
	case WaiverEntry, PracticeEntry, TeachingEntry:
		return e.On, true
	case DemonstrationEntry:
		return e.demonstrated(zone)
	}
	return civil.DayOf(e.At, zone), true
}

func (e Entry) demonstrated(zone *time.Location) (civil.Date, bool) {
	performed := civil.DayOf(e.At, zone)
	if e.ObserverSigned.IsZero() {
		return civil.Date{}, false
	}
	if e.Outcome != Competent {
		return performed, true
	}
	if e.LearnerSigned.IsZero() {
		return civil.Date{}, false
	}
	signed := civil.Later(civil.DayOf(e.ObserverSigned, zone), civil.DayOf(e.LearnerSigned, zone))
	return civil.Later(performed, signed), true
}

// CheckHistory refuses a history that contradicts itself: two entries of one id,
// a reinstatement of what was not withdrawn, a correction of nothing or of a
// correction, days in the wrong order, words that mean nothing.
func CheckHistory(history []Entry, zone *time.Location) error {
	by := map[string]Entry{}
	for _, e := range history {
		if e.ID == "" {
			return fault.Of(fault.Invalid, "a %s has no id", e.Kind)
		}
		if _, twice := by[e.ID]; twice {
			return fault.Of(fault.Invalid, "two entries have the id %q", e.ID)
		}
		by[e.ID] = e
	}
	for _, e := range history {
		if err := e.check(by, zone); err != nil {
			return err
		}
	}
	return nil
}

func (e Entry) check(by map[string]Entry, zone *time.Location) error {
	switch e.Kind {
	case DemonstrationEntry:
		return e.checkDemonstration()
	case WithdrawalEntry:
		if e.Until != Redemonstrated && e.Until != Reinstated {
			return fault.Of(fault.Invalid, "withdrawal %q: until is redemonstrated or reinstated, not %q", e.ID, e.Until)
		}
	case ReinstatementEntry:
		if w, ok := by[e.Of]; !ok || w.Kind != WithdrawalEntry {
			return fault.Of(fault.Invalid, "reinstatement %q is of %q, which is no withdrawal", e.ID, e.Of)
		}
	case WaiverEntry:
		if e.On.IsZero() || e.Through.Before(e.On) {
			return fault.Of(fault.Invalid, "waiver %q ends before it begins", e.ID)
		}
	case RecheckEntry:
		if e.Revision < 1 || e.By.Before(civil.DayOf(e.At, zone)) {
			return fault.Of(fault.Invalid, "recheck %q: by is before the day it was announced, or it names no revision", e.ID)
		}
	case PracticeEntry, TeachingEntry:
		if e.On.IsZero() {
			return fault.Of(fault.Invalid, "%s %q has no day", e.Kind, e.ID)
		}
	case CorrectionEntry:
		if of, ok := by[e.Of]; !ok || of.Kind == CorrectionEntry {
			return fault.Of(fault.Invalid, "correction %q is of %q, which is no entry that can be corrected", e.ID, e.Of)
		}
	case CardEntry:
		if e.Through.IsZero() {
			return fault.Of(fault.Invalid, "card %q has no last day", e.ID)
		}
	default:
		return fault.Of(fault.Invalid, "%q is no kind of entry", e.Kind)
	}
	return e.checkInstant()
}

func (e Entry) checkDemonstration() error {
	switch e.Outcome {
	case Competent, NotYetCompetent, StoppedForSafety:
	default:
		return fault.Of(fault.Invalid, "demonstration %q: %q is no outcome", e.ID, e.Outcome)
	}
	if e.Revision < 1 {
		return fault.Of(fault.Invalid, "demonstration %q names no revision", e.ID)
	}
	if e.Observer == "" {
		return fault.Of(fault.Invalid, "demonstration %q names no observer", e.ID)
	}
	return e.checkInstant()
}

func (e Entry) checkInstant() error {
	switch e.Kind {
	case WaiverEntry, PracticeEntry, TeachingEntry:
		return nil
	}
	if e.At.IsZero() {
		return fault.Of(fault.Invalid, "%s %q has no instant", e.Kind, e.ID)
	}
	return nil
}

// AsKnownAt is what of a history was known at an instant: entries recorded by
// then, with the signatures made by then. It is a rule of standing like the others
// and tested as one. A surveyor's packet asks it (AsOf); other pages and papers about a
// past day say what is known of that day now.
func AsKnownAt(history []Entry, instant time.Time) []Entry {
	var known []Entry
	for _, e := range history {
		if e.Recorded.After(instant) {
			continue
		}
		if e.ObserverSigned.After(instant) {
			e.ObserverSigned = time.Time{}
		}
		if e.LearnerSigned.After(instant) {
			e.LearnerSigned = time.Time{}
		}
		known = append(known, e)
	}
	return known
}
