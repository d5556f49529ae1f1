package demo

import (
	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
)

// agenda is what a visit shows and when the next one is.
type agenda struct {
	shows []*showing
	next  civil.Date
}

func (s *story) agenda(l *learner, rows []office.StandingView) agenda {
	known := map[caseOf]office.StandingView{}
	for _, r := range rows {
		known[caseOf{r.Skill.Code, r.Client.ID}] = r
	}
	a := agenda{next: s.day().AddDays(150)}
	for _, c := range l.courses {
		row, ok := known[c.key()]
		if !ok {
			row.Word = assessment.NotStarted
		}
		if s.closed(l, c, row) {
			continue
		}
		show := s.wants(l, c, row, known)
		if show != nil && len(a.shows) < mostShown {
			a.shows = append(a.shows, show)
		} else if show != nil {
			show = nil // next time
		}
		a.next = civil.Earlier(a.next, s.again(l, c, row, show))
	}
	a.next = civil.Later(a.next, s.day().AddDays(2))
	return a
}

// caseOf names a case by skill and child, the child only where it matters.
type caseOf struct {
	skill string
	child assessment.ClientID
}

func (c course) key() caseOf {
	if c.list.Scope == assessment.General {
		return caseOf{c.code, ""}
	}
	return caseOf{c.code, c.child.id}
}

// closed reports whether a course has nothing to do with this visit: not begun,
// not to be shown again, excused, or waiting for something else than a showing.
func (s *story) closed(l *learner, c course, row office.StandingView) bool {
	limit, limited := l.limits[c.code]
	stop, stops := l.stops[c.code]
	return c.from.After(s.day()) || limited && l.shown[c.code] >= limit || stops && !s.day().Before(stop) ||
		row.Word == assessment.Waived || row.Next.Reinstatement
}

// wants is how a course is shown today, nil for not at all.
func (s *story) wants(l *learner, c course, row office.StandingView, known map[caseOf]office.StandingView) *showing {
	switch {
	case row.Word.Holds() && row.DaysLeft > renewAhead, s.onlyTheCard(l, c, row), row.Next.LaterDay:
		return nil
	case !ready(c, known):
		return nil
	}
	return s.usual(l, c, row)
}

// onlyTheCard: no demonstration helps against a resuscitation card that ends.
func (s *story) onlyTheCard(l *learner, c course, row office.StandingView) bool {
	return c.list.CardNeeded && row.Through == l.cardEnd && row.Next.Demonstrations == 0
}

// ready reports whether what comes first is held, so that it can be shown.
func ready(c course, known map[caseOf]office.StandingView) bool {
	for _, code := range c.list.Prerequisites {
		if !known[caseOf{code, ""}].Word.Holds() && !known[caseOf{code, c.child.id}].Word.Holds() {
			return false
		}
	}
	return true
}

// again is the day on which a course wants a visit next, as far as can be seen.
func (s *story) again(l *learner, c course, row office.StandingView, show *showing) civil.Date {
	soon := s.day().AddDays(2 + l.chance.IntN(4))
	through := row.Through
	switch {
	case s.onlyTheCard(l, c, row):
		return s.day().AddDays(30)
	case show == nil && !row.Word.Holds() && row.Word != assessment.NotStarted && row.Word != assessment.Learning:
		return s.day().AddDays(12)
	case show == nil && !row.Word.Holds():
		return soon
	case show != nil && !show.good():
		return soon
	case show != nil && (row.Word == assessment.Learning || row.Word == assessment.NotStarted):
		if row.Next.Demonstrations != 1 || !show.formal {
			return soon
		}
		through = s.day().AddMonths(c.list.Policy.Validity.Months)
	case show != nil:
		through = row.Through.AddMonths(c.list.Policy.Validity.Months)
	}
	return civil.Later(soon, through.AddDays(-2-l.chance.IntN(11)))
}
