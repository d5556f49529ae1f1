package assessment

import (
	"maps"
	"slices"

	"wellshown/assessment/fault"
)

// PracticeMarks of a run are one for each step that was tried. CheckPractice refuses marks
// that are of no step of a checklist, and a run of which nothing was tried.
func CheckPractice(list *Checklist, marks map[int]PracticeMark) error {
	if len(marks) == 0 {
		return fault.Of(fault.Invalid, "Say of at least one step how it went.")
	}
	steps := len(list.Steps())
	for _, no := range slices.Sorted(maps.Keys(marks)) {
		switch {
		case no < 1 || no > steps:
			return fault.Of(fault.Invalid, "The checklist has no step %d.", no)
		case !slices.Contains(PracticeMarks, marks[no]):
			return fault.Of(fault.Invalid, "Say of step %d whether it went alone, with help, or not yet.", no)
		}
	}
	return nil
}
