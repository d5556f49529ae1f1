package assessment

import "wellshown/assessment/fault"

// Policy is everything a revision decides about scoring, award and validity.
type Policy struct {
	Scoring  Scoring
	Award    Award
	Validity Validity
}

// Scoring says how marks become an outcome.
type Scoring struct {
	Credits  map[Mark]Number // credit of each mark, 0 to 1; a mark left out earns 0
	PassMark Number          // least score, 0 to 1
	CueLimit *int            // most steps that may be cued; nil is no limit
}

// Award says how many competent demonstrations make a competency.
type Award struct {
	Count       int  // competent demonstrations, at least 1
	Days        int  // distinct days among them
	Observers   int  // distinct observers among them
	Real        int  // how many with the real client
	SpanDays    int  // all within this many days up to the last
	Consecutive bool // a failure between starts the count again
}

// Anchor says from which day renewals are counted.
type Anchor string

const (
	// Anniversary: valid through the same day of the month.
	Anniversary Anchor = "anniversary"
	// MonthEnd: valid through the last day of that month.
	MonthEnd Anchor = "month end"
)

// Validity says how long a competency holds.
type Validity struct {
	Months      int // at least 1
	Anchor      Anchor
	RenewalDays int  // a renewal this many days before the end keeps the anchor
	NoticeDays  int  // shown as due this many days before the end
	LapseMonths *int // over longer than this: the full award again; nil is no limit
	AbsenceDays int  // not practised for this many days: lapses; 0 is no such rule
	CardNeeded  bool // ends with the resuscitation card if that ends first
}

// DefaultCredits are independent 1, cued ½, all others 0.
func DefaultCredits() map[Mark]Number {
	return map[Mark]Number{
		Independent: Whole(1), Cued: MustNumber("1/2"), Assisted: {}, NotMet: {}, Unsafe: {},
	}
}

// maxMonths bounds validity and lapse limits: a century is past any use and
// keeps every sum inside the calendar.
const maxMonths = 1200

// Check refuses scoring rules under which a worse mark could earn more.
func (s Scoring) Check() error {
	if s.PassMark.Sign() < 0 || s.PassMark.Cmp(Whole(1)) > 0 {
		return fault.Of(fault.Invalid, "the pass mark is %s: it lies between 0 and 1", s.PassMark)
	}
	if s.CueLimit != nil && *s.CueLimit < 0 {
		return fault.Of(fault.Invalid, "the cue limit is %d: it is 0 or more", *s.CueLimit)
	}
	best := Whole(1)
	for _, m := range Marks {
		c := s.Credits[m]
		if c.Sign() < 0 || c.Cmp(best) > 0 {
			return fault.Of(fault.Invalid, "the credit for %s is %s: credits lie between 0 and 1 and never rise as marks worsen", m, c)
		}
		best = c
	}
	for m := range s.Credits {
		if !m.Valid() {
			return fault.Of(fault.Invalid, "there is no mark %q to give credit for", m)
		}
	}
	return nil
}

// Check refuses award rules that cannot be met.
func (a Award) Check() error {
	switch {
	case a.Count < 1 || a.Days < 1 || a.Observers < 1:
		return fault.Of(fault.Invalid, "count, days and observers are at least 1")
	case a.Real < 0:
		return fault.Of(fault.Invalid, "real is 0 or more")
	case a.Days > a.Count || a.Observers > a.Count || a.Real > a.Count:
		return fault.Of(fault.Invalid, "days, observers and real cannot be more than count (%d)", a.Count)
	case a.SpanDays < 1 || a.SpanDays > 366:
		return fault.Of(fault.Invalid, "span_days is %d: it lies between 1 and 366", a.SpanDays)
	}
	return nil
}

// Check refuses validity rules that would stack or never end.
func (v Validity) Check() error {
	switch {
	case v.Months < 1 || v.Months > maxMonths:
		return fault.Of(fault.Invalid, "months is %d: it lies between 1 and %d", v.Months, maxMonths)
	case v.Anchor != Anniversary && v.Anchor != MonthEnd:
		return fault.Of(fault.Invalid, "the anchor is %q: it is anniversary or month end", v.Anchor)
	case v.RenewalDays < 0 || v.NoticeDays < 0 || v.AbsenceDays < 0:
		return fault.Of(fault.Invalid, "renewal_days, notice_days and absence_days are 0 or more")
	case v.RenewalDays >= 28*v.Months:
		return fault.Of(fault.Invalid, "renewal_days is %d: it must be less than 28 × months (%d), or renewals would stack", v.RenewalDays, 28*v.Months)
	case v.NoticeDays > 36600 || v.AbsenceDays > 36600:
		return fault.Of(fault.Invalid, "notice_days and absence_days are at most 36600")
	case v.LapseMonths != nil && (*v.LapseMonths < 0 || *v.LapseMonths > maxMonths):
		return fault.Of(fault.Invalid, "lapse_months is %d: it lies between 0 and %d, or is left out", *v.LapseMonths, maxMonths)
	}
	return nil
}

// Check refuses a policy whose parts do not fit together. A span longer than
// validity and lapse limit would let one old pass count after some histories
// and not after others, so that a failure could help.
func (p Policy) Check() error {
	if err := p.Scoring.Check(); err != nil {
		return err
	}
	return Terms{Award: p.Award, Validity: p.Validity}.Check()
}

// Terms are what a standing depends on in a revision.
type Terms struct {
	Award    Award
	Validity Validity
	Fitted   []string // kinds of equipment whose type a holding depends on
}

// Check refuses terms whose parts do not fit together.
func (t Terms) Check() error {
	if err := t.Award.Check(); err != nil {
		return err
	}
	if err := t.Validity.Check(); err != nil {
		return err
	}
	if l := t.Validity.LapseMonths; l != nil && t.Award.SpanDays > 28*(t.Validity.Months+*l) {
		return fault.Of(fault.Invalid, "span_days is %d: it is at most 28 × (months + lapse_months) = %d", t.Award.SpanDays, 28*(t.Validity.Months+*l))
	}
	return nil
}
