package assessment

import (
	"slices"

	"wellshown/assessment/fault"
	"wellshown/assessment/phrase"
)

// ToLearn is one skill that somebody still has to learn.
type ToLearn struct {
	Skill string   // code
	Title string   // by which a cycle is named
	First []string // codes of what must be held before
	Days  int      // that are planned for learning it, at least 1
}

// LearningDays is how many days are planned for learning a skill for which an agency
// set none. Common practice, no source.
const LearningDays = 3

// starterDays are the days that are planned for each starter skill until an agency sets
// its own. Common practice, no source.
var starterDays = map[string]int{
	"bagging": 2, "suction": 3, "stoma-ties": 3, "tube-change": 5, "decannulation": 3, "blocked-tube": 3,
	"cpr-trach": 3, "humidifier": 2, "circuit-test": 2, "alarms-power": 3, "circuit-change": 2, "go-bag": 1,
}

// PlannedDays is how many days are planned for learning the skill with a code.
func PlannedDays(code string) int {
	if days, ok := starterDays[code]; ok {
		return days
	}
	return LearningDays
}

// MostLearningDays is as many as may be planned for one skill.
const MostLearningDays = 365

// LearningOrder puts skills in the order in which they are learnt: each after all that
// comes before it, and otherwise as they are given, which is the teaching order. What
// comes before and is not among them is held already. A circle, in which nothing can be
// learnt first, is refused with the titles of those in it.
func LearningOrder(skills []ToLearn) ([]ToLearn, error) {
	before := precedence(skills)
	done, order := make([]bool, len(skills)), make([]ToLearn, 0, len(skills))
	for len(order) < len(skills) {
		next := nextToLearn(before, done)
		if next < 0 {
			return nil, circleRefused(skills, circle(before, done))
		}
		done[next], order = true, append(order, skills[next])
	}
	return order, nil
}

// nextToLearn is the first that waits for nothing; negative: each waits.
func nextToLearn(before [][]int, done []bool) int {
	for i, first := range before {
		if !done[i] && !slices.ContainsFunc(first, func(f int) bool { return !done[f] }) {
			return i
		}
	}
	return -1
}

// precedence lists for each skill the places of those that come before it.
func precedence(skills []ToLearn) [][]int {
	at := make(map[string]int, len(skills))
	for i, s := range skills {
		at[s.Skill] = i
	}
	before := make([][]int, len(skills))
	for i, s := range skills {
		for _, code := range s.First {
			if f, ok := at[code]; ok && !slices.Contains(before[i], f) {
				before[i] = append(before[i], f)
			}
		}
	}
	return before
}

// circle finds one among those that are not done, each of which waits for another such:
// whoever goes from what waits to what it waits for comes round. It begins with what is
// first in teaching order and goes from what comes before to what comes after.
func circle(before [][]int, done []bool) []int {
	at := slices.Index(done, false)
	var walked []int
	for !slices.Contains(walked, at) {
		walked = append(walked, at)
		at = before[at][slices.IndexFunc(before[at], func(f int) bool { return !done[f] })]
	}
	round := walked[slices.Index(walked, at):]
	slices.Reverse(round)
	first := slices.Index(round, slices.Min(round))
	return append(slices.Clone(round[first:]), round[:first]...)
}

func circleRefused(skills []ToLearn, round []int) error {
	if len(round) == 1 {
		return fault.Of(fault.Refused, "%s comes before itself, so it can never be learnt. Take it out of its own prerequisites.", skills[round[0]].Title)
	}
	chain := phrase.Text(skills[round[0]].Title)
	for n, i := range append(round[1:], round[0]) {
		if n == 0 {
			chain = phrase.Of("%s comes before %s", chain, skills[i].Title)
			continue
		}
		chain = phrase.Of("%s, which comes before %s", chain, skills[i].Title)
	}
	return fault.Of(fault.Refused, "%s. None of them can be learnt first: take one out of the prerequisites of another.", chain)
}

// Unlearnt is what somebody has to learn: what is required of them and they do not hold,
// and whatever must be held before that. It comes in the order of all skills that are
// given, which is the teaching order.
func Unlearnt(all []ToLearn, required []string, holds func(skill string) bool) []ToLearn {
	byCode := make(map[string]ToLearn, len(all))
	for _, s := range all {
		byCode[s.Skill] = s
	}
	wanted, look := map[string]bool{}, slices.Clone(required)
	for len(look) > 0 {
		code := look[len(look)-1]
		look = look[:len(look)-1]
		s, known := byCode[code]
		if !known || wanted[code] || holds(code) {
			continue
		}
		wanted[code] = true
		look = append(look, s.First...)
	}
	var left []ToLearn
	for _, s := range all {
		if wanted[s.Skill] {
			left = append(left, s)
		}
	}
	return left
}
