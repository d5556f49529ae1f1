package assessment

import "wellshown/assessment/civil"

// LearningDate is by when one skill is to be learnt.
type LearningDate struct {
	ToLearn
	By     civil.Date // the day on which it is to be held
	Chosen bool       // somebody chose the day
	Short  int        // days that lack until a chosen day, for it and all that comes before it; 0: none
	Late   bool       // its day is past
	After  string     // title of what builds on it and has an earlier day, which somebody chose; empty: none
}

// LearningDates is by when each skill of a plan is to be learnt.
type LearningDates struct {
	Dates  []LearningDate // in the order of learning
	Target civil.Date
	Past   bool       // the target is a day before today
	Needed int        // days that are planned for all of it, one skill after the other
	Short  int        // days that lack until the target; 0: there is enough time
	Enough civil.Date // first target for which there is enough time
}

// LearningDatesFor works back from a target day: the last skill is held on it, the others
// before, each with the share of the time left that its planned days are of all. Skills
// come in their order, and are learnt one after the other; weekends and days off need not
// be known. Where time is short, each share is as much smaller, and Short says by how
// much. Whatever comes before a skill whose day somebody chose is moved before that too.
// Once the target is past, it is the day of all that is left.
func LearningDatesFor(order []ToLearn, today, target civil.Date, chosen map[string]civil.Date) LearningDates {
	plan := LearningDates{Target: target, Past: target.Before(today)}
	for _, s := range order {
		plan.Needed += s.Days
	}
	left := target.Sub(today)
	plan.Short, plan.Enough = max(0, plan.Needed-left), today.AddDays(plan.Needed)
	sum := 0
	for _, s := range order {
		sum += s.Days
		d := LearningDate{ToLearn: s, By: target}
		if left > 0 {
			d.By = today.AddDays(left * sum / plan.Needed)
		}
		if by, ok := chosen[s.Skill]; ok {
			d.By, d.Chosen = by, true
		}
		plan.Dates = append(plan.Dates, d)
	}
	plan.moveBefore(today)
	plan.tell(today)
	return plan
}

// moveBefore gives what comes before a skill no later day than that leaves time for:
// where somebody chose the day of the skill, its planned days are kept free where there
// are as many. A day that was chosen stays.
func (p *LearningDates) moveBefore(today civil.Date) {
	before, latest := p.before(), make([]civil.Date, len(p.Dates))
	for i := len(p.Dates) - 1; i >= 0; i-- {
		d := &p.Dates[i]
		moved := d.Chosen
		if !d.Chosen && !latest[i].IsZero() && latest[i].Before(d.By) {
			d.By, moved = latest[i], true
		}
		if !moved {
			continue
		}
		free := civil.Earlier(d.By, civil.Later(today, d.By.AddDays(-d.Days)))
		for _, f := range before[i] {
			if latest[f].IsZero() || free.Before(latest[f]) {
				latest[f] = free
			}
		}
	}
}

// tell says of each day what is wrong with it.
func (p *LearningDates) tell(today civil.Date) {
	before := p.before()
	for i := range p.Dates {
		d := &p.Dates[i]
		d.Late = d.By.Before(today)
		if d.Chosen {
			d.Short = max(0, p.daysUpTo(before, i)-d.By.Sub(today))
		}
		for _, f := range before[i] {
			if first := &p.Dates[f]; first.By.After(d.By) && first.After == "" {
				first.After = d.Title
			}
		}
	}
}

func (p *LearningDates) before() [][]int {
	skills := make([]ToLearn, len(p.Dates))
	for i, d := range p.Dates {
		skills[i] = d.ToLearn
	}
	return precedence(skills)
}

// daysUpTo is how many days are planned for a skill and all that comes before it, near
// and far.
func (p *LearningDates) daysUpTo(before [][]int, i int) int {
	counted, look, days := map[int]bool{}, []int{i}, 0
	for len(look) > 0 {
		at := look[len(look)-1]
		look = look[:len(look)-1]
		if counted[at] {
			continue
		}
		counted[at] = true
		days += p.Dates[at].Days
		look = append(look, before[at]...)
	}
	return days
}
