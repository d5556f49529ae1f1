package assessment

import (
	"cmp"
	"slices"

	"wellshown/assessment/civil"
)

// The competency evaluation of home health aides in agencies certified for
// Medicare or Medicaid, 42 CFR 484.80: a set of rules that an agency may use for
// its aides. It says nothing of nurses or family. Which areas must be seen on a
// person is from the State Operations Manual, appendix B, on 484.80(c)(1); the
// areas, the bar on a task and the rule of more than one area, 484.80(b)(3) and
// (c)(4), are from memory: read the current text before relying on them.

// AideArea is a subject area of 484.80(b)(3), 1 for (i) to 15 for (xv).
type AideArea int

// AideAreas are the areas that every evaluation covers, (i) to (xiii). The last
// two, other tasks and extra skills, are covered where the agency gives any.
var AideAreas = []AideArea{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13}

var aideAreaNames = []string{"i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix", "x", "xi", "xii", "xiii", "xiv", "xv"}

// String is the area as the rule numbers it: "(ix)".
func (a AideArea) String() string {
	if a < 1 || int(a) > len(aideAreaNames) {
		return "(?)"
	}
	return "(" + aideAreaNames[a-1] + ")"
}

// OnPerson reports whether the area must be judged by watching the aide with a
// patient or a pseudo-patient: communication, vital signs, hygiene, transfer,
// range of motion. A written or oral test is not enough for these.
func (a AideArea) OnPerson() bool { return slices.Contains([]AideArea{1, 3, 9, 10, 11}, a) }

// AideMethod is how a task was judged.
type AideMethod string

// The methods.
const (
	Watched     AideMethod = "watched" // with a patient or a pseudo-patient
	WrittenTest AideMethod = "written test"
	OralTest    AideMethod = "oral test"
)

// AideJudgement is one task of an area as judged on a day.
type AideJudgement struct {
	Area         AideArea
	Task         string
	Method       AideMethod
	Satisfactory bool
	On           civil.Date
	RetrainedOn  civil.Date // training in the task since it was unsatisfactory; zero for none
}

// AideEvaluation is what the judgements make.
type AideEvaluation struct {
	Passed         bool       // complete, and unsatisfactory in one area at most
	Incomplete     []AideArea // not judged, or by a test where it must be watched
	Unsatisfactory []AideArea
	Barred         []string // tasks done only under a registered nurse's direct supervision
}

// EvaluateAide draws the evaluation from all judgements of one aide, in whatever
// order they are given. It must cover the areas asked for and each one judged. A
// task once unsatisfactory stays barred until it has been taught again and then
// judged satisfactory.
func EvaluateAide(areas []AideArea, judged []AideJudgement) AideEvaluation {
	inOrder := slices.Clone(judged)
	slices.SortStableFunc(inOrder, func(a, b AideJudgement) int {
		return cmp.Or(a.On.Compare(b.On), cmp.Compare(satisfactoryFirst(a), satisfactoryFirst(b)))
	})
	stands := map[AideArea]map[string]AideJudgement{}
	for _, a := range areas {
		stands[a] = map[string]AideJudgement{}
	}
	for _, j := range inOrder {
		if stands[j.Area] == nil {
			stands[j.Area] = map[string]AideJudgement{}
		}
		if old, seen := stands[j.Area][j.Task]; !seen || j.replaces(old) {
			stands[j.Area][j.Task] = j
		}
	}
	return evaluated(stands)
}

// satisfactoryFirst: of two judgements on one day the unsatisfactory one stands.
func satisfactoryFirst(j AideJudgement) int {
	if j.Satisfactory {
		return 0
	}
	return 1
}

// replaces reports whether a later judgement of a task stands in an earlier one's
// place. A test never replaces what was watched in an area that must be watched.
func (j AideJudgement) replaces(old AideJudgement) bool {
	if !j.Satisfactory {
		return true
	}
	if !j.accepted() && old.accepted() {
		return false
	}
	return old.Satisfactory || !j.RetrainedOn.IsZero() && !j.RetrainedOn.Before(old.On) && !j.RetrainedOn.After(j.On)
}

func (j AideJudgement) accepted() bool { return j.Method == Watched || !j.Area.OnPerson() }

func evaluated(stands map[AideArea]map[string]AideJudgement) AideEvaluation {
	var e AideEvaluation
	for area, tasks := range stands {
		complete, satisfactory := len(tasks) > 0, true
		for task, j := range tasks {
			complete = complete && j.accepted()
			if !j.Satisfactory {
				satisfactory = false
				e.Barred = append(e.Barred, task)
			}
		}
		if !complete {
			e.Incomplete = append(e.Incomplete, area)
		}
		if !satisfactory {
			e.Unsatisfactory = append(e.Unsatisfactory, area)
		}
	}
	slices.Sort(e.Incomplete)
	slices.Sort(e.Unsatisfactory)
	slices.Sort(e.Barred)
	e.Passed = len(e.Incomplete) == 0 && len(e.Unsatisfactory) <= 1
	return e
}

// AideMonths is how the 24 consecutive months without paid work are counted. The
// rule does not say; the first reading lapses earlier.
type AideMonths string

// The two readings.
const (
	DayToDay       AideMonths = "day to day"
	CalendarMonths AideMonths = "calendar months"
)

// aideLapseMonths: a continuous period of 24 consecutive months without aide
// services for pay ends what a completed programme counts for (42 CFR 418.76(a)(2)
// and, before 2018, 484.4).
const aideLapseMonths = 24

// AideLapsesOn is the first day on which a completed programme no longer counts,
// given the days of paid service known so far. Paid work from that day on revives
// nothing; the programme must be completed again.
func AideLapsesOn(completed civil.Date, paid []civil.Date, months AideMonths) civil.Date {
	lapses := months.after(completed)
	inOrder := slices.Clone(paid)
	slices.SortFunc(inOrder, civil.Date.Compare)
	for _, d := range inOrder {
		if !d.Before(completed) && d.Before(lapses) {
			lapses = months.after(d)
		}
	}
	return lapses
}

// after is the first day after the months without work that began on d.
func (m AideMonths) after(d civil.Date) civil.Date {
	if m == CalendarMonths {
		return d.MonthEnd().AddDays(1).AddMonths(aideLapseMonths)
	}
	return d.AddMonths(aideLapseMonths)
}
