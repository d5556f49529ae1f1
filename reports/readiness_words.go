package reports

import (
	"fmt"

	"wellshown/assessment"
)

// readinessWords are all that the readiness report says by itself, for a parent
// who has slept little: short sentences, no terms of the trade. What a line of
// the plan lacks comes from the core.
type readinessWords struct {
	empty, ready  string
	readyBut      string // of done, all and waived
	readyButOne   string // of done and all, where one is waived
	notYet        string // of left and all
	notYetOne     string // of all, where one is left
	about         string // of the child's first name: what this page is
	aboutReady    string // of the child's first name
	aboutEmpty    string // of the child's first name
	child, family string
	noFamily      string
	left, done    string // headings
	waived        string
	wordLeft      string // beside the shapes
	wordDone      string
	wordWaived    string
	waivedMeans   string
	soon          string // of what ends soon
	next          string // of an act
	since         string // of a day
	emergency     string
	acts          map[assessment.CriterionKind]string
	title         string
}

var readinessEnglish = readinessWords{
	title:       "Going home: what is done and what is left",
	empty:       "Not yet: the plan for going home is still empty",
	ready:       "Ready: everything on the list is in place",
	readyBut:    "Ready: %d of %d things are in place and %d are waived",
	readyButOne: "Ready: %d of %d things are in place and one is waived",
	notYet:      "Not yet: %d of %d things are left",
	notYetOne:   "Not yet: one of %d things is left",
	about: "This page says what is left before %[1]s can go home, and what to do next. " +
		"You do not have to do it all at once, and not alone. Ask about anything that is not clear. Bring this page to the next talk about going home.",
	aboutReady: "On this day everything that was planned for %[1]s is in place. The team looks at %[1]s again on the day of going home.",
	aboutEmpty: "Nobody has written down yet what is needed before %[1]s can go home. Ask the team to make the plan with you.",
	child:      "child", family: "family",
	noFamily: "Nobody of the family is on the team yet. Ask the agency to add you.",
	left:     "What is left", done: "What is done", waived: "What was waived",
	wordLeft: "left", wordDone: "done", wordWaived: "waived",
	waivedMeans: "Somebody who may decide it has said, by name, that this need not be so.",
	soon:        "Soon: %s.", next: "Next: %s", since: "on %s",
	emergency: "In an emergency, call the local emergency number first.",
	acts: map[assessment.CriterionKind]string{
		assessment.FamilyCurrent:   "ask the nurse or therapist for a time to practise, and to show it.",
		assessment.EmergencyDrills: "ask for time to practise emergencies on the manikin, as often as you need.",
		assessment.CardsOnFile:     "ask where the next resuscitation course is. Bring the card when you have it.",
		assessment.IndependentStay: "plan the days with the ward. You do all the care, and help is close by.",
		assessment.EquipmentTrial:  "ask the team when the home equipment will be tried.",
		assessment.EquipmentHome:   "call the agency about what has not come. Somebody checks each thing with you.",
		assessment.EarlyShifts:     "ask the agency who will come. Finding them is the agency’s work, not yours.",
		assessment.Attested:        "ask the team who looks at this, and when.",
	},
}

// finding is the answer as a sentence. It counts things and never weighs them.
func (w readinessWords) finding(r assessment.Readiness) string {
	all, left, waived := len(r.Lines), r.Left(), 0
	for _, l := range r.Lines {
		if l.State == assessment.StateWaived {
			waived++
		}
	}
	switch {
	case all == 0:
		return w.empty
	case left == 1:
		return fmt.Sprintf(w.notYetOne, all)
	case left > 0 || !r.Ready:
		return fmt.Sprintf(w.notYet, left, all)
	case waived == 1:
		return fmt.Sprintf(w.readyButOne, all-1, all)
	case waived > 1:
		return fmt.Sprintf(w.readyBut, all-waived, all, waived)
	}
	return w.ready
}
