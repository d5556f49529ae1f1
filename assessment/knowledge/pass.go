package knowledge

import "time"

// Pass is a sitting that was passed, with all that decides whether it counts.
//
// Whoever keeps or reads a bank is a nurse too, and must be competent like everybody: were
// they refused the check, a house of three educators could observe none of them. But to have
// read what is asked is no knowledge of it, and nobody can tell from answers which it was. So
// they take the check, it says wherever it is read that they could read what it asks, and it
// counts for nothing before somebody else who keeps checks says that a trainer was there
// while they took it: the reading that withholds, with a way out that every house has, since
// a second educator has to observe them anyway.
type Pass struct {
	HandedIn  time.Time
	Right, Of int
	Took      time.Duration // from beginning to handing in
	Reader    bool          // could read what was asked, before or while they took it
	Watched   time.Time     // since when somebody else says that a trainer was there; zero: nobody says so
}

// Since is from when on it counts; zero: it does not count.
func (p Pass) Since() time.Time {
	switch {
	case !p.Reader:
		return p.HandedIn
	case p.Watched.After(p.HandedIn):
		return p.Watched
	case p.Watched.IsZero():
		return time.Time{}
	}
	return p.HandedIn
}

// Unwatched reports whether it does not count at an instant, because nobody had said by then
// that a trainer was there.
func (p Pass) Unwatched(at time.Time) bool { return p.Since().IsZero() || p.Since().After(at) }

// Suffices reports whether a pass would be one by this rule: as many questions, as many of
// them right, in no more time. Whoever passed by a rule that asked less is asked again, and so
// is who took less than no time, by a clock that was set right meanwhile.
func (r Rule) Suffices(p Pass) bool {
	return p.Of > 0 && p.Of >= r.Length && Result{Right: p.Right, All: p.Of}.share().Cmp(r.PassMark) >= 0 && (r.Open == 0 || p.Took >= 0 && p.Took <= r.Open)
}
