package assessment

import "wellshown/assessment/civil"

// Turn is a run of days on which a standing becomes another one by some change.
type Turn struct {
	From    civil.Date
	Through civil.Date // zero: on every day after
	Before  StandingWord
	After   StandingWord
}

// Turns holds two timelines of one case against each other, from a day on for ever: what
// it is by the first and what by the second on each run of days on which they differ, in
// order. Days of one and the same change that follow each other are one run.
func Turns(before, after []Segment, from civil.Date) []Turn {
	var turns []Turn
	for day := from; ; {
		was, ends := wordOn(before, day)
		is, others := wordOn(after, day)
		next := nearer(ends, others)
		last := next
		if !next.IsZero() {
			last = next.AddDays(-1)
		}
		n := len(turns)
		switch follows := n > 0 && turns[n-1].Through == day.AddDays(-1); {
		case was == is:
		case follows && turns[n-1].Before == was && turns[n-1].After == is:
			turns[n-1].Through = last
		default:
			turns = append(turns, Turn{day, last, was, is})
		}
		if next.IsZero() {
			return turns
		}
		day = next
	}
}

// wordOn is the word of a timeline on a day, and the first day of the segment after it;
// zero where none follows.
func wordOn(line []Segment, day civil.Date) (StandingWord, civil.Date) {
	word := NotStarted
	for _, s := range line {
		if s.From.After(day) {
			return word, s.From
		}
		word = s.Word
	}
	return word, civil.Date{}
}

// nearer is the earlier of two days; zero is none.
func nearer(a, b civil.Date) civil.Date {
	if a.IsZero() || !b.IsZero() && b.Before(a) {
		return b
	}
	return a
}
