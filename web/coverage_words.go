package web

import (
	"fmt"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// shiftWhen is a shift for the reader, "Thu 3 Dec 2026, 19:00–07:00".
func shiftWhen(starts, ends time.Time) string {
	return starts.Format("Mon 2 Jan 2006, 15:04") + "–" + ends.Format("15:04")
}

func coverLine(l office.CoverLine) CoverLine {
	line := CoverLine{ID: string(l.ID), Href: "/coverage/shifts/" + string(l.ID), Client: clientName(l.Client), Carer: l.Person.Name, When: shiftWhen(l.Starts, l.Ends), Word: string(l.Word), Asks: kindAsked(l.Kind)}
	switch l.Word {
	case assessment.Covered:
		line.Shape, line.Act = "met", "Look"
	case assessment.OpenYet:
		line.Shape, line.Act, line.Why = "open", "Find somebody", []string{"Nobody is on it yet."}
	default:
		line.Shape, line.Act = "stopped", "Find somebody else"
	}
	if len(l.Clashes) > 0 {
		line.Act = "Find somebody else"
		if l.Word == assessment.Covered {
			line.Shape, line.Word = "fault", "clashes with another shift"
		}
	}
	line.Why = append(append(line.Why, lacksInBrief(l)...), clashWords(l)...)
	switch l.Source {
	case office.OfPattern:
		line.Source = "of a weekly pattern"
	case office.OfWayHome:
		line.Source = "an early shift of the way home"
	}
	return line
}

// lacksInFull says all that stands in the way, a sentence each.
func lacksInFull(l office.CoverLine) []string {
	var says []string
	for _, k := range l.Lacks {
		says = append(says, lackWords(l.Person.Name, k))
	}
	return says
}

// clashWords says which other shifts leave no time or no rest, and why rest may be short.
func clashWords(l office.CoverLine) []string {
	var says []string
	for _, c := range l.Clashes {
		if c.Overlap {
			says = append(says, fmt.Sprintf("%s is with %s at the same time: %s.", l.Person.Name, c.Other.Client.FirstName, shiftWhen(c.Other.Starts, c.Other.Ends)))
			continue
		}
		says = append(says, fmt.Sprintf("%s has %s of rest beside %s with %s.", l.Person.Name, hoursOf(c.Rest), shiftWhen(c.Other.Starts, c.Other.Ends), c.Other.Client.FirstName))
	}
	if l.ShortRest != "" {
		says = append(says, "Less rest than is asked: "+l.ShortRest+".")
	}
	return says
}

// mostLacks is how many skills a line of a list names; the page of the shift names all.
const mostLacks = 2

// lacksInBrief says what stands in the way, the skills that are not held in one sentence.
func lacksInBrief(l office.CoverLine) []string {
	var says, skills []string
	var first office.Lack
	for _, k := range l.Lacks {
		if k.Why != assessment.NotHeld {
			says = append(says, lackWords(l.Person.Name, k))
			continue
		}
		if len(skills) == 0 {
			first = k
		}
		skills = append(skills, k.Skill.Title+" ("+string(k.Word)+")")
	}
	switch n := len(skills); {
	case n == 1:
		return append(says, lackWords(l.Person.Name, first))
	case n > 1:
		more := ""
		if n > mostLacks {
			more = fmt.Sprintf(" and %s", count(n-mostLacks, "other", "others"))
		}
		return append(says, fmt.Sprintf("%s is not current in %d skills on %s: %s%s.", l.Person.Name, n, day(first.On), strings.Join(skills[:min(n, mostLacks)], ", "), more))
	}
	return says
}

// lackWords says what stands in somebody's way.
func lackWords(name string, k office.Lack) string {
	switch k.Why {
	case assessment.NotHeld:
		what := k.Skill.Title
		if k.With.ID != "" {
			what += " for " + k.With.FirstName
		}
		return fmt.Sprintf("%s is not current in %s on %s: %s.", name, what, day(k.On), k.Word)
	case assessment.OtherKind:
		return fmt.Sprintf("The shift asks for %s, and %s is not one.", kindAsked(k.Asks), name)
	case assessment.HasLeft:
		return fmt.Sprintf("%s is no longer with the agency on %s.", name, day(k.On))
	case assessment.NothingAsked:
		return fmt.Sprintf("Nothing is required of %s for this child on %s, so nothing shows that they can.", name, day(k.On))
	case assessment.NoCaregiver:
		return name + " is no caregiver here."
	case assessment.OnAnother:
		return fmt.Sprintf("%s is with %s then: %s.", name, k.Other.Client.FirstName, shiftWhen(k.Other.Starts, k.Other.Ends))
	case assessment.TooSoon:
		return fmt.Sprintf("%s would have %s of rest beside %s.", name, hoursOf(k.Rest), shiftWhen(k.Other.Starts, k.Other.Ends))
	}
	return name + " " + string(k.Why) + "."
}

// hoursOf is a length of time for the reader.
func hoursOf(d time.Duration) string {
	h, m := int(d/time.Hour), int(d%time.Hour/time.Minute)
	if m == 0 {
		return count(h, "hour", "hours")
	}
	if h == 0 {
		return count(m, "minute", "minutes")
	}
	return fmt.Sprintf("%d h %d min", h, m)
}

// coverGroups has the shifts by day; those that are not over and need somebody can be ticked.
func coverGroups(lines []office.CoverLine, share bool, at time.Time) []CoverGroup {
	var groups []CoverGroup
	for _, l := range lines {
		if on := l.Starts.Format("Monday 2 January 2006"); len(groups) == 0 || groups[len(groups)-1].Day != on {
			groups = append(groups, CoverGroup{Day: on})
		}
		line := coverLine(l)
		line.Share = share && needsSomebody(l) && l.Ends.After(at)
		g := &groups[len(groups)-1]
		g.Lines = append(g.Lines, line)
	}
	return groups
}

// needsSomebody reports whether somebody else, or anybody, has to take the shift.
func needsSomebody(l office.CoverLine) bool {
	return l.Word != assessment.Covered || len(l.Clashes) > 0
}

func reasonOptions() []Option {
	options := []Option{{Text: "enough rest, or none asked"}}
	for _, r := range office.ShortRests {
		options = append(options, Option{Value: r, Text: r})
	}
	return options
}

func caregiverKindOptions() []Option {
	options := []Option{{Text: "any kind"}}
	for _, k := range []assessment.CaregiverKind{assessment.Nurse, assessment.Aide, assessment.Family} {
		options = append(options, Option{Value: string(k), Text: kindAsked(k)})
	}
	return options
}

// kindAsked is the kind of caregiver that a shift asks for, "a nurse"; empty for any.
func kindAsked(k assessment.CaregiverKind) string {
	switch k {
	case assessment.Nurse:
		return "a nurse"
	case assessment.Aide:
		return "an aide"
	case assessment.Family:
		return "one of the family"
	}
	return string(k)
}

var weekdayNames = []string{"", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"}

// weekdayWords is "every day", "Monday to Friday", or the days one by one.
func weekdayWords(days []int) string {
	if len(days) == 7 {
		return "every day"
	}
	if len(days) > 2 && days[len(days)-1]-days[0] == len(days)-1 {
		return weekdayNames[days[0]] + " to " + weekdayNames[days[len(days)-1]]
	}
	var names []string
	for _, d := range days {
		names = append(names, weekdayNames[d])
	}
	return strings.Join(names, ", ")
}
