package web

import (
	"slices"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/assessment/wording"
)

// standing is one standing for the reader.
func standing(w wording.Words, row office.StandingView) SkillStanding {
	line := SkillStanding{Anchor: anchorOf(row.Skill.Code, row.Client), SkillID: string(row.Skill.ID), Skill: row.Skill.Title, Client: clientName(row.Client), Standing: string(row.Word),
		Through: w.ShortDay(row.Through), Since: w.ShortDay(row.Since), DaysLeft: row.DaysLeft, Next: needs(w, row.Next)}
	if row.Word == assessment.Waived {
		line.Next = w.Say("Nobody asks for it until the waiver ends. It covers no shift.")
	}
	return line
}

// needs is what is needed next, "Needs one competent demonstration."; empty for
// nothing.
func needs(w wording.Words, next assessment.Next) string {
	needed := next.Phrase()
	if needed.IsZero() {
		return ""
	}
	return w.Say("Needs %s.", needed)
}

// evidence are somebody's records that standings can rest on, newest first.
type evidence struct {
	records []postgres.Demonstration
	zone    *time.Location
	words   wording.Words
}

// links lead to the records among what made a standing so, oldest first.
func (e evidence) links(because []string) []Link {
	var links []Link
	for _, r := range slices.Backward(e.records) {
		if slices.Contains(because, string(r.ID)) {
			links = append(links, Link{e.words.ShortDay(civil.DayOf(r.PerformedAt, e.zone)), "/demonstrations/" + string(r.ID)})
		}
	}
	return links
}

// whatIs is what somebody is: "mother", "nurse, educator", "coordinator".
func whatIs(p office.PersonView) string {
	if p.Kind == "" {
		return roleWords(p.Roles, "")
	}
	words := kindOf(office.PersonRef{Kind: p.Kind, Relation: p.Relation})
	if more := roleWords(p.Roles, assessment.Caregiver); more != "" {
		words += ", " + more
	}
	return words
}

// roleWords lists roles but for one.
func roleWords(roles []assessment.Role, but assessment.Role) string {
	var words []string
	for _, r := range roles {
		if r != but {
			words = append(words, string(r))
		}
	}
	return strings.Join(words, ", ")
}

// listed puts words in a row, "Ada, Ben and Cora".
func listed(words []string) string {
	switch n := len(words); n {
	case 0:
		return ""
	case 1:
		return words[0]
	default:
		return strings.Join(words[:n-1], ", ") + " and " + words[n-1]
	}
}
