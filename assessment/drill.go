package assessment

import (
	"wellshown/assessment/fault"
	"wellshown/assessment/phrase"
)

// DrillMoment is one of the three moments that a drill is timed by.
type DrillMoment string

// The moments, in the order in which they are asked for. They may come in another one:
// whoever calls for help before they act did well where the plan says so.
const (
	DrillRecognised DrillMoment = "recognised"
	DrillActed      DrillMoment = "acted"
	DrillCalled     DrillMoment = "called"
)

// DrillMoments lists them.
var DrillMoments = []DrillMoment{DrillRecognised, DrillActed, DrillCalled}

// DrillTimes are the three moments of a drill in whole seconds after the scenario was read
// out; negative: it did not happen. They change no score.
type DrillTimes struct{ Recognised, Acted, Called int }

// NotInDrill says that a moment did not come.
const NotInDrill = -1

// MostDrillSeconds is as long as a drill can go on: an hour.
const MostDrillSeconds = 3600

// At is when a moment came.
func (d DrillTimes) At(m DrillMoment) int {
	switch m {
	case DrillRecognised:
		return d.Recognised
	case DrillActed:
		return d.Acted
	}
	return d.Called
}

// Check refuses times that cannot be. In which order they come is not asked.
func (d DrillTimes) Check() error {
	var f fault.Fields
	for _, m := range DrillMoments {
		if at := d.At(m); at < NotInDrill || at > MostDrillSeconds {
			f.Add(string(m), "Give whole seconds, from 0 to %d, or nothing where it did not happen.", MostDrillSeconds)
		}
	}
	return f.Err()
}

// Phrases say the moments, each as a sentence.
func (d DrillTimes) Phrases() []phrase.Phrase {
	return []phrase.Phrase{
		moment(d.Recognised, phrase.Of("Recognised after %d s.", d.Recognised), phrase.Of("Not recognised.")),
		moment(d.Acted, phrase.Of("Acted after %d s.", d.Acted), phrase.Of("Did not act.")),
		moment(d.Called, phrase.Of("Called for help after %d s.", d.Called), phrase.Of("Did not call for help.")),
	}
}

func moment(at int, came, missed phrase.Phrase) phrase.Phrase {
	if at == NotInDrill {
		return missed
	}
	return came
}

// DrillTap is a moment that was tapped and taken back. Seconds that are NotInDrill say that it
// had been put down as not done.
type DrillTap struct {
	Moment  DrillMoment `json:"moment"`
	Seconds int         `json:"seconds"`
}

// Check refuses what nobody can have tapped.
func (t DrillTap) Check() error {
	switch t.Moment {
	case DrillRecognised, DrillActed, DrillCalled:
	default:
		return fault.Of(fault.Invalid, "%q is no moment of a drill.", t.Moment)
	}
	if t.Seconds < 0 || t.Seconds > MostDrillSeconds {
		return fault.Of(fault.Invalid, "A moment that was taken back came at 0 to %d seconds.", MostDrillSeconds)
	}
	return nil
}

// Phrase says what was taken back.
func (t DrillTap) Phrase() phrase.Phrase {
	if t.Seconds == NotInDrill {
		return t.missed()
	}
	switch t.Moment {
	case DrillRecognised:
		return phrase.Of("“Recognised” at %d s was taken back.", t.Seconds)
	case DrillActed:
		return phrase.Of("“Acted” at %d s was taken back.", t.Seconds)
	}
	return phrase.Of("“Called” at %d s was taken back.", t.Seconds)
}

// missed says that a moment had been put down as not done.
func (t DrillTap) missed() phrase.Phrase {
	switch t.Moment {
	case DrillRecognised:
		return phrase.Of("“Not recognised” was taken back.")
	case DrillActed:
		return phrase.Of("“Did not act” was taken back.")
	}
	return phrase.Of("“Did not call for help” was taken back.")
}
