package assessment

import (
	"cmp"
	"slices"

	"wellshown/assessment/civil"
)

// Window is the days on which one renewal can be shown: from the day on which it opens
// through the last valid day, both included.
type Window struct {
	Person  PersonID
	Need    Need
	Home    ClientID // where it is shown
	Opens   civil.Date
	Through civil.Date
}

// Holds reports whether a day lies in the window.
func (w Window) Holds(d civil.Date) bool { return !d.Before(w.Opens) && !d.After(w.Through) }

// byDeadline puts windows in order of their last day, then of their first, then by home,
// person and need.
func byDeadline(a, b Window) int {
	return cmp.Or(a.Through.Compare(b.Through), a.Opens.Compare(b.Opens), cmp.Compare(a.Home, b.Home),
		cmp.Compare(a.Person, b.Person), cmp.Compare(a.Need.Skill, b.Need.Skill), cmp.Compare(a.Need.Client, b.Need.Client))
}

// Stab is the fewest days that have one in each window, whoever goes there and however
// much they have to do, in order; with as many windows of which no two share a day: no
// plan needs fewer days than that. Windows without a day are left out of both. It is the
// greedy method: the earliest deadline not yet met gets a day.
func Stab(windows []Window) ([]civil.Date, []Window) {
	ordered := slices.Clone(windows)
	slices.SortFunc(ordered, byDeadline)
	var days []civil.Date
	var apart []Window
	for _, w := range ordered {
		if w.Through.Before(w.Opens) || len(days) > 0 && w.Holds(days[len(days)-1]) {
			continue
		}
		days, apart = append(days, w.Through), append(apart, w)
	}
	return days, apart
}

// HomeStab is Stab for one home.
type HomeStab struct {
	Home  ClientID
	Days  []civil.Date
	Apart []Window
}

// StabHomes answers for each home alone, in order of home: how few days of visits it
// could do with.
func StabHomes(windows []Window) []HomeStab {
	of := map[ClientID][]Window{}
	for _, w := range windows {
		of[w.Home] = append(of[w.Home], w)
	}
	var all []HomeStab
	for home, own := range of {
		days, apart := Stab(own)
		all = append(all, HomeStab{home, days, apart})
	}
	slices.SortFunc(all, func(a, b HomeStab) int { return cmp.Compare(a.Home, b.Home) })
	return all
}

// SkillsDayProposal says that many need the same and could show it on one day.
type SkillsDayProposal struct {
	Need    Need
	From    civil.Date // the days from here through there lie in the windows of all of them
	Through civil.Date
	Windows []Window // one for each person, by deadline
}

// ProposeSkillsDays proposes a day wherever at least so many people have windows in one
// need that share it: first for the largest crowd, then for the largest of those who are
// left, until none is large enough; of two as large the earlier. No day before from is
// proposed. They come by day, then by skill. A need that is held for one client is that
// client's own: passes for two clients are two needs.
func ProposeSkillsDays(windows []Window, from civil.Date, least int) []SkillsDayProposal {
	of := map[Need][]Window{}
	for _, w := range windows {
		w.Opens = civil.Later(w.Opens, from)
		if !w.Through.Before(w.Opens) {
			of[w.Need] = append(of[w.Need], w)
		}
	}
	var all []SkillsDayProposal
	for need, left := range of {
		slices.SortFunc(left, byDeadline)
		for {
			crowd := largestCrowd(left)
			if len(crowd) < max(least, 1) {
				break
			}
			p := SkillsDayProposal{Need: need, From: crowd[0].Opens, Through: crowd[0].Through, Windows: crowd}
			for _, w := range crowd {
				p.From, p.Through = civil.Later(p.From, w.Opens), civil.Earlier(p.Through, w.Through)
			}
			all = append(all, p)
			left = slices.DeleteFunc(left, func(w Window) bool {
				return slices.ContainsFunc(crowd, func(c Window) bool { return c.Person == w.Person })
			})
		}
	}
	slices.SortFunc(all, func(a, b SkillsDayProposal) int {
		return cmp.Or(a.From.Compare(b.From), cmp.Compare(a.Need.Skill, b.Need.Skill), cmp.Compare(a.Need.Client, b.Need.Client))
	})
	return all
}

// largestCrowd are the windows that hold the day which most people's hold, one each, by
// deadline. A crowd can only be largest on a day on which a window opens.
func largestCrowd(ordered []Window) []Window {
	var best []Window
	tried := map[civil.Date]bool{}
	for _, opening := range ordered {
		day := opening.Opens
		if tried[day] {
			continue
		}
		tried[day] = true
		var crowd []Window
		for _, w := range ordered {
			if w.Holds(day) && !slices.ContainsFunc(crowd, func(c Window) bool { return c.Person == w.Person }) {
				crowd = append(crowd, w)
			}
		}
		if len(crowd) > len(best) || len(crowd) == len(best) && len(best) > 0 && day.Before(openAll(best)) {
			best = crowd
		}
	}
	return best
}

// openAll is the first day that lies in all of some windows that share one.
func openAll(crowd []Window) civil.Date {
	day := crowd[0].Opens
	for _, w := range crowd {
		day = civil.Later(day, w.Opens)
	}
	return day
}
