package web

import (
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

// worstFirst puts what must not be done above what soon must not, and what is
// required above what is not; the rest stays in teaching order.
func worstFirst(rows []office.StandingView) []office.StandingView {
	order := []assessment.StandingWord{assessment.Withdrawn, assessment.Lapsed, assessment.Due, assessment.Learning, assessment.NotStarted, assessment.Waived, assessment.Current}
	rank := func(r office.StandingView) int {
		n := slices.Index(order, r.Word)
		if !r.Required && !r.Word.Holds() {
			n += len(order)
		}
		return n
	}
	sorted := slices.Clone(rows)
	slices.SortStableFunc(sorted, func(a, b office.StandingView) int { return rank(a) - rank(b) })
	return sorted
}

// certificateOf is the page of the newest certificate of a skill that is held.
func certificateOf(row office.StandingView, d office.PersonDesk) string {
	if !row.Word.Holds() {
		return ""
	}
	for _, c := range d.Certificates {
		if c.SkillID == row.Skill.ID && c.ClientID == row.Client.ID {
			return "/certificates/" + string(c.ID)
		}
	}
	return ""
}

// papers fills in licences, cards and appointments as they stand on the day.
func (p *PersonPage) papers(w wording.Words, q office.QualificationsView, titles map[string]string) {
	for _, l := range q.Licences {
		p.Licences = append(p.Licences, Paper{Kind: w.Say("%s licence", l.Kind), Detail: l.Number, Through: w.ShortDay(l.Through), Holds: l.Current})
	}
	for _, c := range q.Cards {
		from := c.IssuedOn
		if from.IsZero() {
			from = c.CourseOn
		}
		p.Cards = append(p.Cards, Paper{Kind: w.Say("Resuscitation card"), Detail: w.Say("by %s", c.Issuer), From: w.ShortDay(from), Through: w.ShortDay(c.Through), Holds: c.Current})
	}
	for _, a := range q.Appointments {
		kind := w.Say("Observer")
		if a.Pending {
			kind = w.Say("Observer, proposed: waits for a second person")
		}
		p.Appointments = append(p.Appointments, Paper{Kind: kind, Detail: named(a.Skills, titles), From: w.ShortDay(a.From), Through: w.ShortDay(a.Through), Holds: a.Open})
	}
}

// skillTitles are titles by code, as far as the person's page knows them.
func skillTitles(d office.PersonDesk) map[string]string {
	titles := map[string]string{}
	for _, row := range d.Rows {
		titles[row.Skill.Code] = row.Skill.Title
	}
	for _, k := range d.Skills {
		titles[k.Skill.Code] = k.Skill.Title
	}
	return titles
}

// named puts titles in place of codes where they are known.
func named(codes []string, titles map[string]string) string {
	var words []string
	for _, c := range codes {
		if t := titles[c]; t != "" {
			c = t
		}
		words = append(words, c)
	}
	return strings.Join(words, ", ")
}

// cannotSign says of somebody who waits for a vouch whose turn it is.
func cannotSign(w wording.Words, i office.IdentityView, self bool) string {
	switch {
	case i.Waits == "":
		return ""
	case self:
		return w.Say("You cannot sign yet; somebody else must vouch for you.")
	case i.MayVouch:
		return "Cannot sign yet; vouch for them below, once you have asked them."
	}
	return "Cannot sign yet; somebody other than you must vouch."
}

// caseOption names a skill and, where it is held per child, the child.
func caseOption(skill office.SkillRef, client office.ClientRef) Option {
	o := Option{Value: skill.Code, Text: skill.Title}
	if client.ID != "" {
		o.Value, o.Text = o.Value+" "+string(client.ID), o.Text+" for "+clientName(client)
	}
	return o
}
