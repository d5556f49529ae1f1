package assessment

import "wellshown/assessment/fault"

// PracticeMarks of a run are one for each step that was tried. CheckPractice refuses marks
// that are of no step of a checklist, and a run of which nothing was tried.
func CheckPractice(list *Checklist, marks map[int]PracticeMark) error {
	var f fault.Fields
	if len(marks) == 0 {
		f.Add("marks", "say of at least one step how it went")
	}
	steps := len(list.Steps())
	for no, went := range marks {
		switch {
		case no < 1 || no > steps:
			f.Add("marks", "the checklist has no step %d", no)
		case went != WentAlone && went != WentWithHelp && went != WentNotYet:
			f.Add("marks", "step %d went alone, with help, or not yet", no)
		}
	}
	return f.Err()
}
