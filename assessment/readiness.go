package assessment

import (
	"slices"
	"time"

	"wellshown/assessment/civil"
	"wellshown/assessment/phrase"
)

// CriterionKind says how a readiness criterion is judged.
type CriterionKind string

// The kinds of criterion. Most are those of the American Thoracic Society's 2016
// guideline on chronic home invasive ventilation in children (tables 3 and 5).
const (
	FamilyCurrent   CriterionKind = "family current"   // so many family caregivers current in each skill
	EmergencyDrills CriterionKind = "emergency drills" // the same, for the drills
	CardsOnFile     CriterionKind = "cards on file"    // their resuscitation cards current
	IndependentStay CriterionKind = "independent stay" // continuous hours of all care by the family
	EquipmentTrial  CriterionKind = "equipment trial"  // home equipment used and tolerated for hours
	EquipmentHome   CriterionKind = "equipment home"   // each item delivered and checked
	EarlyShifts     CriterionKind = "early shifts"     // competent staff on each early shift
	Attested        CriterionKind = "attested"         // a clinician states it
)

// CriterionKinds lists the kinds.
var CriterionKinds = []CriterionKind{FamilyCurrent, EmergencyDrills, CardsOnFile, IndependentStay, EquipmentTrial, EquipmentHome, EarlyShifts, Attested}

// Criterion is one line of a client's plan for going home.
type Criterion struct {
	ID     CriterionID
	Kind   CriterionKind
	Title  string
	Skills []string // codes, for the kinds that look at skills
	Count  int      // family caregivers needed
	Hours  int      // planned hours; 0 is not set, and is never assumed
	Items  []string // equipment

	Spanish      string   // the title in Spanish; empty: nobody has written it
	ItemsSpanish []string // the items in Spanish, in the same order; short where nobody has written them
	Says         Sayer    // who may say that it is so
	Licence      string   // the kind of licence that it takes, such as RRT; empty: none in particular
	Source       string   // where it comes from, as published; empty: the agency's own
	By           civil.Date
	Responsible  string // who sees to it, by name; empty: the family, the agency or the clinician, by kind
}

// Name is the title in the languages that somebody has written it in.
func (c Criterion) Name() phrase.Own { return phrase.Own{English: c.Title, Spanish: c.Spanish} }

// Item is an item of the line in the languages that somebody has written it in.
func (c Criterion) Item(item string) phrase.Own {
	own := phrase.Own{English: item}
	if i := slices.Index(c.Items, item); i >= 0 && i < len(c.ItemsSpanish) {
		own.Spanish = c.ItemsSpanish[i]
	}
	return own
}

// EvidenceWord says what a piece of evidence does.
type EvidenceWord string

// What evidence can say.
const (
	EvidenceMet       EvidenceWord = "met"
	EvidenceNotMet    EvidenceWord = "not met"
	EvidenceDelivered EvidenceWord = "delivered"
	EvidenceStarted   EvidenceWord = "started"
	EvidenceEnded     EvidenceWord = "ended"
	EvidenceWaived    EvidenceWord = "waived"
	EvidenceUnwaived  EvidenceWord = "waiver ended"
)

// Evidence is one dated statement about a criterion, by name.
type Evidence struct {
	ID        RecordID
	Criterion CriterionID
	Word      EvidenceWord
	Item      string    // for equipment: the item
	At        time.Time // the instant that it speaks of
	By        string    // printed name
	Note      string
}

// Relative is one family caregiver with what readiness looks at.
type Relative struct {
	Name      string
	Standings map[string]Standing // by skill code, on the day
	CardEnds  civil.Date          // zero: no card on file
}

// ShiftFact is one planned early shift with what its caregiver lacks.
type ShiftFact struct {
	Label phrase.Phrase
	Lacks []phrase.Phrase // titles of skills in which they are not current on a day it touches
}

// Facts is what is known when readiness is asked.
type Facts struct {
	At       time.Time
	Known    time.Time // what is under way is counted up to here where At is later; zero: up to At
	Zone     *time.Location
	Family   []Relative
	Evidence []Evidence
	Shifts   []ShiftFact
	Titles   map[string]string // of skills, by code
	Going    civil.Date        // the day of the meeting or of going home; zero: not set
}

// CriterionState is the answer for one criterion.
type CriterionState string

// The three answers.
const (
	StateMet    CriterionState = "met"
	StateNotMet CriterionState = "not met"
	StateWaived CriterionState = "waived"
)

// Line is the answer for one criterion: what is left, and on what it rests.
type Line struct {
	Criterion Criterion
	State     CriterionState
	Left      []Todo
	Evidence  []phrase.Phrase
	On        civil.Date      // of the newest evidence; zero where it is computed
	Flags     []phrase.Phrase // met today, but not for long
}

// Readiness is whether a child can go home, and why. It is never a percentage:
// the weight of each criterion differs by child.
type Readiness struct {
	On    civil.Date
	Ready bool
	Lines []Line
}

// Assess answers for a plan. A plan without criteria is not ready.
func Assess(plan []Criterion, f Facts) Readiness {
	r := Readiness{On: civil.DayOf(f.At, f.Zone), Ready: len(plan) > 0}
	for _, c := range plan {
		line := f.line(c, r.On)
		r.Ready = r.Ready && line.State != StateNotMet
		r.Lines = append(r.Lines, line)
	}
	return r
}

// Left counts the criteria that are not met.
func (r Readiness) Left() int {
	n := 0
	for _, l := range r.Lines {
		if l.State == StateNotMet {
			n++
		}
	}
	return n
}

func (f Facts) line(c Criterion, on civil.Date) Line {
	known := f.about(c)
	l := Line{Criterion: c, State: StateMet}
	switch c.Kind {
	case FamilyCurrent, EmergencyDrills:
		f.family(&l, on)
	case CardsOnFile:
		f.cards(&l, on)
	case IndependentStay, EquipmentTrial:
		f.hours(&l, known)
	case EquipmentHome:
		f.items(&l, known)
	case EarlyShifts:
		f.shifts(&l)
	default:
		f.attested(&l, known)
	}
	if len(l.Left) > 0 {
		l.State = StateNotMet
	}
	l.plan(f.Going)
	f.waiver(&l, known)
	return l
}

// about is the evidence on one criterion up to the instant asked, oldest first.
func (f Facts) about(c Criterion) []Evidence {
	var known []Evidence
	for _, e := range f.Evidence {
		if e.Criterion == c.ID && !e.At.After(f.At) {
			known = append(known, e)
		}
	}
	slices.SortStableFunc(known, func(a, b Evidence) int { return a.At.Compare(b.At) })
	return known
}

// waiver turns a criterion that is not met into one that is waived by name, for
// as long as nobody ends the waiver.
func (f Facts) waiver(l *Line, known []Evidence) {
	var last *Evidence
	for i, e := range known {
		if e.Item == "" && (e.Word == EvidenceWaived || e.Word == EvidenceUnwaived) {
			last = &known[i]
		}
	}
	if last != nil && last.Word == EvidenceWaived && l.State == StateNotMet {
		l.State = StateWaived
		f.rest(l, *last)
	}
}

// rest notes what an answer rests on.
func (f Facts) rest(l *Line, e Evidence) {
	day := civil.DayOf(e.At, f.Zone)
	l.On = civil.Later(l.On, day)
	words := e.Word.on(day, e.By)
	if e.Item != "" {
		words = phrase.Of("%s: %s", l.Criterion.Item(e.Item), words)
	}
	if e.Note != "" {
		words = phrase.Of("%s: %s", words, phrase.Typed(e.Note))
	}
	l.Evidence = append(l.Evidence, words)
}

// on says that it was said on a day by somebody.
func (w EvidenceWord) on(day civil.Date, by string) phrase.Phrase {
	switch w {
	case EvidenceMet:
		return phrase.Of("met on %s by %s", day, by)
	case EvidenceNotMet:
		return phrase.Of("not met on %s by %s", day, by)
	case EvidenceDelivered:
		return phrase.Of("delivered on %s by %s", day, by)
	case EvidenceStarted:
		return phrase.Of("started on %s by %s", day, by)
	case EvidenceEnded:
		return phrase.Of("ended on %s by %s", day, by)
	case EvidenceWaived:
		return phrase.Of("waived on %s by %s", day, by)
	}
	return phrase.Of("waiver ended on %s by %s", day, by)
}

// Phrase says the word to a family.
func (w EvidenceWord) Phrase() phrase.Phrase {
	switch w {
	case EvidenceMet:
		return phrase.Of("met")
	case EvidenceNotMet:
		return phrase.Of("not met")
	case EvidenceDelivered:
		return phrase.Of("delivered")
	case EvidenceStarted:
		return phrase.Of("started")
	case EvidenceEnded:
		return phrase.Of("ended")
	case EvidenceWaived:
		return phrase.Of("waived")
	}
	return phrase.Of("waiver ended")
}
