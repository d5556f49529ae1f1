package reports

import (
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

// overdueTable lists the lines in groups, in the order of the answer: worst first
// within each.
func overdueTable(say phrases, v office.Overdue) table {
	first := "skill"
	if v.BySkill {
		first = "caregiver"
	}
	t := table{columns: []column{{first, 3.2, toLeft}, {"child", 1, toLeft}, {"last day", 1.2, toLeft}, {"days", 1.3, toLeft}},
		empty: "Everything that is required is held, and stays so through " + say.date(v.Through) + "."}
	if v.Counts.Caregivers == 0 {
		t.empty = "No requirement asks anything of anybody on this day. If that is a surprise, look at the requirements and the teams."
	}
	last := ""
	for _, l := range v.Lines {
		if key := groupOf(l, v.BySkill); key != last {
			last = key
			t.rows = append(t.rows, tableRow{section: sectionOf(l, v.BySkill)})
		}
		t.rows = append(t.rows, tableRow{left: standing(l.Word), cells: overdueCells(say, l, v.BySkill)})
	}
	return t
}

func groupOf(l office.OverdueLine, bySkill bool) string {
	if bySkill {
		return string(l.Skill.ID) + l.Skill.Code
	}
	return string(l.Person.ID)
}

func sectionOf(l office.OverdueLine, bySkill bool) []words {
	if bySkill {
		return []words{group(l.Skill.Title)}
	}
	return []words{group(l.Person.Name), soft(kindInWords(l.Person))}
}

// kindInWords says what sort of caregiver somebody is, by their relation to the
// child where they have one.
func kindInWords(p office.PersonRef) string {
	if p.Relation != "" {
		return p.Relation
	}
	if p.Kind == assessment.Family {
		return "family"
	}
	return string(p.Kind)
}

// kindSaid is kindInWords in a language; what somebody typed as their relation stays.
func kindSaid(w wording.Words, p office.PersonRef) string {
	switch {
	case p.Relation != "":
		return w.Say(p.Relation)
	case p.Kind == assessment.Family:
		return w.Say("family")
	case p.Kind == assessment.Nurse:
		return w.Say("nurse")
	case p.Kind == assessment.Aide:
		return w.Say("aide")
	}
	return kindInWords(p)
}

func overdueCells(say phrases, l office.OverdueLine, bySkill bool) [][]words {
	said := l.Skill.Title
	if bySkill {
		said = l.Person.Name + ", " + kindInWords(l.Person)
	}
	whose := "any"
	if l.Client.ID != "" {
		whose = child(l.Client)
	}
	return cells(text(said), text(whose), text(lastDay(say, l)), text(daysInWords(l)))
}

// lastDay is the day through which it held or holds. A withdrawn holding holds on
// no day, whatever was printed once.
func lastDay(say phrases, l office.OverdueLine) string {
	if l.Word == assessment.Withdrawn || l.Through.IsZero() {
		return "—"
	}
	return say.shortDate(l.Through)
}

func daysInWords(l office.OverdueLine) string {
	switch {
	case l.Word == assessment.Withdrawn || l.Through.IsZero():
		return "—"
	case !l.Word.Holds() && l.DaysLeft < 0:
		return counted(-l.DaysLeft, "day ago", "days ago")
	case !l.Word.Holds():
		return "—"
	case l.DaysLeft == 0:
		return "ends that day"
	}
	return fmt.Sprintf("%s left", counted(l.DaysLeft, "day", "days"))
}
