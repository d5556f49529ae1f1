package assessment

import (
	"cmp"
	"slices"
	"strconv"

	"wellshown/assessment/civil"
)

// ReminderRules say what an agency reminds of, and when.
type ReminderRules struct {
	Off       bool
	At        civil.Clock // when the day's mail goes out, on the agency's clocks
	Opens     bool        // once when something is due, which is when it can be renewed
	Days      []int       // so many days before the last day that something is held
	Lapsed    bool        // once when it is over
	Unplanned int         // coordinators: so many days before, where nothing is planned by which it could be renewed; 0: not
	Rostered  bool        // coordinators and administrators: it is over, and whoever held it is on the coming roster with it
}

// UsualReminders are the rules where nobody has set any. Common practice, no source.
var UsualReminders = ReminderRules{At: 7 * 60, Opens: true, Days: []int{30, 14, 7}, Lapsed: true, Unplanned: 7, Rostered: true}

// ReminderStage is how far something has come when somebody is told of it.
type ReminderStage string

// The stages; besides them there is one for each number of days.
const (
	OpensStage     ReminderStage = "due"
	LapsedStage    ReminderStage = "lapsed"
	UnplannedStage ReminderStage = "nothing planned"
	RosteredStage  ReminderStage = "on the roster"
)

// DaysStage is the stage of at most so many days before the last.
func DaysStage(n int) ReminderStage { return ReminderStage("within " + strconv.Itoa(n)) }

// ForOthers reports whether the stage is told to those who plan, and not to whoever it
// is about.
func (s ReminderStage) ForOthers() bool { return s == UnplannedStage || s == RosteredStage }

// IsOver reports whether what it is about is not held any more.
func (s ReminderStage) IsOver() bool { return s == LapsedStage || s == RosteredStage }

// Holding is something required that somebody holds, or held, on the day that is asked
// about.
type Holding struct {
	CaseKey
	Word     StandingWord
	Through  civil.Date // the last day of it
	Planned  bool       // by a visit or a skills day on which it can be renewed in time
	Rostered bool       // it is over, and they are on a shift of the coming days that asks for it
}

// Notice tells one person of one thing at one stage, once. All of it together is its key:
// what is renewed has another last day, and its own notices.
type Notice struct {
	To      PersonID
	About   CaseKey
	Stage   ReminderStage
	Through civil.Date
}

// Planners are those who are told of others.
type Planners struct{ Coordinators, Administrators []PersonID }

// Notices are whom to tell what on a day, in order of person and thing, each once. What is waived,
// withdrawn or was never held comes due by no day, and is not told.
func (r ReminderRules) Notices(on civil.Date, holdings []Holding, planners Planners) []Notice {
	if r.Off {
		return nil
	}
	var all []Notice
	for _, h := range holdings {
		for _, stage := range r.stages(on, h) {
			for _, to := range planners.told(stage, h.Person) {
				all = append(all, Notice{to, h.CaseKey, stage, h.Through})
			}
		}
	}
	slices.SortFunc(all, compareNotices)
	return slices.Compact(all)
}

// stages are the stage that a holding has come to, the latest only, and those at which
// others are told.
func (r ReminderRules) stages(on civil.Date, h Holding) []ReminderStage {
	var at []ReminderStage
	left := h.Through.Sub(on)
	switch {
	case h.Word == Lapsed:
		if r.Lapsed {
			at = append(at, LapsedStage)
		}
		if r.Rostered && h.Rostered {
			at = append(at, RosteredStage)
		}
	case h.Word.Holds():
		if n := r.nearest(left); n > 0 {
			at = append(at, DaysStage(n))
		} else if h.Word == Due && r.Opens {
			at = append(at, OpensStage)
		}
		if r.Unplanned > 0 && left <= r.Unplanned && !h.Planned {
			at = append(at, UnplannedStage)
		}
	}
	return at
}

// nearest is the least number of days that what is left has come down to; 0: none.
func (r ReminderRules) nearest(left int) int {
	least := 0
	for _, n := range r.Days {
		if left <= n && (least == 0 || n < least) {
			least = n
		}
	}
	return least
}

// told are those who are told at a stage. Without a coordinator the administrators plan.
func (p Planners) told(stage ReminderStage, about PersonID) []PersonID {
	switch {
	case stage == RosteredStage:
		return slices.Concat(p.Coordinators, p.Administrators)
	case stage == UnplannedStage && len(p.Coordinators) > 0:
		return p.Coordinators
	case stage == UnplannedStage:
		return p.Administrators
	}
	return []PersonID{about}
}

func compareNotices(a, b Notice) int {
	return cmp.Or(cmp.Compare(a.To, b.To), cmp.Compare(a.About.Person, b.About.Person), cmp.Compare(a.About.Skill, b.About.Skill),
		cmp.Compare(a.About.Client, b.About.Client), cmp.Compare(a.Stage, b.Stage), a.Through.Compare(b.Through))
}

// NoticeCounts sum up what one person is told on one day: of their own, and of others.
type NoticeCounts struct{ Due, Lapsed, Unplanned, Rostered int }

// CountNotices sums notices up.
func CountNotices(notices []Notice) NoticeCounts {
	var n NoticeCounts
	for _, one := range notices {
		switch {
		case one.Stage == RosteredStage:
			n.Rostered++
		case one.Stage == UnplannedStage:
			n.Unplanned++
		case one.Stage.IsOver():
			n.Lapsed++
		default:
			n.Due++
		}
	}
	return n
}
