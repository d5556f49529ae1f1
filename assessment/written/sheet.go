package written

import (
	"bytes"
	"encoding/json"
	"io"
	"time"
	"unicode/utf8"

	"wellshown/assessment/fault"
)

// Sheet is a sheet that was filled in on a device, as its text has it. Instants are
// those of the device's clock. Devices keep old sheets for long: a field that is added must
// be optional (not among sheetNeeds), and what is left out must mean what it meant before.
type Sheet struct {
	Version     int                      `json:"version"`
	ID          string                   `json:"id"`
	Agency      string                   `json:"agency"` // code
	Learner     string                   `json:"learner"`
	Skill       string                   `json:"skill"` // code
	Revision    string                   `json:"revision"`
	Client      string                   `json:"client"`
	Place       string                   `json:"place"`
	Real        bool                     `json:"real"`
	Formal      bool                     `json:"formal"`
	PerformedAt time.Time                `json:"performed_at"`
	FinishedAt  time.Time                `json:"finished_at"`
	Pack        string                   `json:"pack"`
	Parameters  map[string]SheetQuantity `json:"parameters"` // by which the device judged
	Stopped     bool                     `json:"stopped"`
	StopReason  string                   `json:"stop_reason"`
	Marks       []SheetMark              `json:"marks"`
	TakenBack   []SheetTakenBack         `json:"taken_back"`
	TalkedOver  SheetTalk                `json:"talked_over"`
	NameChecked *time.Time               `json:"name_checked_at"`
	LookedOver  *time.Time               `json:"looked_over_at"` // its observer looked at each mark, for it came back from a second copy
	Drawn       SheetDrawn               `json:"drawn"`
	Outcome     SheetOutcome             `json:"outcome"` // as the device judged it
}

// SheetQuantity is an exact number, as text, with its unit.
type SheetQuantity struct {
	Value string `json:"value"`
	Unit  string `json:"unit"`
}

// SheetMark is what stands at one step.
type SheetMark struct {
	Step          int                      `json:"step"`
	Mark          string                   `json:"mark"`
	NotApplicable bool                     `json:"not_applicable"`
	Reason        string                   `json:"reason"`
	Readings      map[string]SheetQuantity `json:"readings"`
	Note          string                   `json:"note"`
	MarkedAt      time.Time                `json:"marked_at"`
}

// SheetTakenBack is an unsafe mark, or the stop (no step), that stood and was taken back.
type SheetTakenBack struct {
	At     time.Time `json:"at"`
	Step   int       `json:"step"`
	Reason string    `json:"reason"`
}

// SheetTalk is what was talked over, and what to practise next.
type SheetTalk struct {
	Note     string `json:"note"`
	Practise string `json:"practise"`
}

// SheetDrawn is a signature drawn by hand: strokes of x, y, x, y, from 0 to 1000.
type SheetDrawn struct {
	Learner [][]int `json:"learner"`
}

// SheetOutcome is what the device made of the marks.
type SheetOutcome struct {
	Outcome string        `json:"outcome"`
	Score   *string       `json:"score"`
	Reasons []SheetReason `json:"reasons"`
}

// SheetReason is one rule that failed.
type SheetReason struct {
	Rule string `json:"rule"`
	Step int    `json:"step"`
	Of   string `json:"of"`
}

// Bounds of a sheet: a long checklist with a note at each step is far below them.
const (
	mostSheet  = 256 << 10 // bytes
	mostDrawn  = 4000      // numbers
	drawnRange = 1000
)

// ReadSheet reads the text of a sheet. It is read more strictly than JSON asks for:
// what is missing, unknown, twice or null where something must stand is refused, so that
// nobody can sign one thing and have another read.
func ReadSheet(text string) (Sheet, error) {
	var s Sheet
	switch {
	case len(text) > mostSheet:
		return s, fault.Of(fault.Invalid, "This sheet is too large: it has at most %d kB. Shorten its notes.", mostSheet>>10)
	case !utf8.ValidString(text):
		return s, unreadable("it is not UTF-8")
	}
	if err := checkSheetNames([]byte(text)); err != nil {
		return s, err
	}
	d := json.NewDecoder(bytes.NewReader([]byte(text)))
	d.DisallowUnknownFields()
	if err := d.Decode(&s); err != nil {
		return s, unreadable("a field is unknown, or its value is of another kind")
	}
	if _, err := d.Token(); err != io.EOF {
		return s, unreadable("there is something after it")
	}
	return s, s.check()
}

func unreadable(why string) error {
	return fault.Of(fault.Invalid, "This sheet cannot be read: %s. Nothing of it is kept here; it stays on the device. Load the page of the bedside again, then send it again.", why)
}

func (s Sheet) check() error {
	if s.Version != 1 {
		return unreadable("it is of another version")
	}
	for _, at := range s.instants() {
		if y := at.UTC().Year(); y < 1970 || y > 9999 {
			return unreadable("an instant is out of bounds")
		}
	}
	for _, t := range s.TakenBack {
		if t.Step < 0 {
			return unreadable("a step has no number")
		}
	}
	numbers := 0
	for _, stroke := range s.Drawn.Learner {
		numbers += len(stroke)
		if len(stroke) < 2 || len(stroke)%2 != 0 {
			return unreadable("a stroke of the drawn signature has no end")
		}
		for _, n := range stroke {
			if n < 0 || n > drawnRange {
				return unreadable("a stroke of the drawn signature leaves its field")
			}
		}
	}
	if numbers > mostDrawn {
		return unreadable("the drawn signature is too long")
	}
	return nil
}

func (s Sheet) instants() []time.Time {
	all := []time.Time{s.PerformedAt, s.FinishedAt}
	for _, m := range s.Marks {
		all = append(all, m.MarkedAt)
	}
	for _, t := range s.TakenBack {
		all = append(all, t.At)
	}
	for _, at := range []*time.Time{s.NameChecked, s.LookedOver} {
		if at != nil {
			all = append(all, *at)
		}
	}
	return all
}
