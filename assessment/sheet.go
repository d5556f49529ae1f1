package assessment

import "wellshown/assessment/fault"

// Parameters are a child's values by name, as they stood when a skill was shown.
type Parameters map[string]Quantity

// Sheet is a checklist being filled in by an observer.
type Sheet struct {
	Stopped bool // ended for safety
	Entries []SheetEntry
}

// SheetEntry is what stands at one step: a mark with its values, or why the
// step does not apply.
type SheetEntry struct {
	No            int
	Mark          Mark                // empty where not applicable or not yet marked
	NotApplicable bool                // chosen instead of a mark
	Reason        string              // why it does not apply
	Values        map[string]Quantity // by measure name
	Note          string
}

// Why names what keeps a step open.
type Why string

// What can keep a sheet from being recorded.
const (
	WhyMark       Why = "mark"        // no mark yet
	WhyValue      Why = "value"       // marked as done without its value
	WhyReason     Why = "reason"      // not applicable without a reason
	WhyNotAllowed Why = "not allowed" // not applicable where the step always applies
	WhyParameter  Why = "parameter"   // the range needs a value the child lacks
)

// Open is one step that keeps the sheet from being recorded.
type Open struct {
	Step int
	Why  Why
	Of   string // the measure or parameter concerned, if any
}

// entries indexes a sheet by step and refuses what the checklist does not hold.
func (c Checklist) entries(s Sheet) (map[int]SheetEntry, error) {
	by := map[int]SheetEntry{}
	for _, e := range s.Entries {
		step, ok := c.Step(e.No)
		if !ok {
			return nil, fault.Of(fault.Invalid, "the checklist has no step %d", e.No)
		}
		if _, twice := by[e.No]; twice {
			return nil, fault.Of(fault.Invalid, "step %d is on the sheet twice", e.No)
		}
		if err := step.checkEntry(e); err != nil {
			return nil, err
		}
		by[e.No] = e
	}
	return by, nil
}

func (s Step) checkEntry(e SheetEntry) error {
	if e.Mark != "" && !e.Mark.Valid() {
		return fault.Of(fault.Invalid, "step %d: %q is not a mark", s.No, e.Mark)
	}
	if e.NotApplicable && (e.Mark != "" || len(e.Values) > 0) {
		return fault.Of(fault.Invalid, "step %d is marked and also not applicable: choose one", s.No)
	}
	for name := range e.Values {
		if _, ok := s.measure(name); !ok {
			return fault.Of(fault.Invalid, "step %d has no value named %q", s.No, name)
		}
	}
	return nil
}

func (s Step) measure(name string) (Measure, bool) {
	for _, m := range s.Measures {
		if m.Name == name {
			return m, true
		}
	}
	return Measure{}, false
}

// missing names the first value that a step marked as done still lacks.
func (s Step) missing(e SheetEntry) (string, bool) {
	given := map[string]bool{}
	for _, m := range s.Measures {
		if _, ok := e.Values[m.Name]; ok && m.Either != "" {
			given[m.Either] = true
		}
	}
	for _, m := range s.Measures {
		_, ok := e.Values[m.Name]
		if !ok && (m.Either == "" || !given[m.Either]) {
			return m.Name, true
		}
	}
	return "", false
}
