package web

import (
	"net/url"
	"slices"
	"strconv"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// togetherLine tells of a skill that many could show on one day, with the form of such a day
// filled in.
func togetherLine(t office.TogetherView, plans bool) TogetherLine {
	var names []string
	form := url.Values{"skill": {t.Skill.Code}, "on": {isoDay(t.From)}}
	for _, p := range t.People {
		names = append(names, p.Name)
		form.Add("learner", string(p.ID))
	}
	l := TogetherLine{Skill: t.Skill.Title, People: count(len(names), "person", "people") + ": " + someOf(names), Days: "any day from " + day(t.From) + " through " + day(t.Through)}
	if t.From == t.Through {
		l.Days = "on " + day(t.From) + " only"
	}
	if plans {
		l.Plan = "/skills-days/new?" + form.Encode()
	}
	return l
}

// visitsAnswer says in a sentence what the plan comes to, or the visits of one educator.
func visitsAnswer(d office.VisitsView, one bool) string {
	visits := 0
	for _, x := range slices.Concat(d.Kept, d.Proposed) {
		visits += min(len(x.Sees), 1)
	}
	words := "Nothing is due that a visit could meet"
	if one {
		words = "No visit of theirs meets anything that is due"
	}
	if d.Renewals+d.Gaps > 0 {
		meet := count(d.Renewals, "renewal", "renewals") + " before " + map[bool]string{true: "it lapses", false: "they lapse"}[d.Renewals == 1]
		switch {
		case d.Renewals == 0:
			meet = count(d.Gaps, "skill that is not held", "skills that are not held")
		case d.Gaps > 0:
			meet += " and " + count(d.Gaps, "skill that is not held", "skills that are not held")
		}
		words = count(visits, "visit meets ", "visits meet ") + meet
	}
	if n := len(d.Unmet); n > 0 {
		words += "; " + strconv.Itoa(n) + " cannot be met"
	}
	return words
}

func visitLine(k office.HomeVisitView) VisitLine {
	l := VisitLine{Day: k.On.Format("Mon 2 Jan 2006"), Educator: k.Educator.Name, Client: clientName(k.Client), Href: "/visits/" + string(k.ID), Faults: k.Faults}
	for _, s := range k.Sees {
		l.Sees = append(l.Sees, visitDue(s))
	}
	return l
}

func visitDue(s office.DueVisit) VisitDue {
	d := VisitDue{Person: s.Person.Name, Href: "/people/" + string(s.Person.ID), Skill: s.Skill.Title, Client: clientName(s.With), Word: string(s.Word), Why: s.Needs}
	if s.Lapses {
		d.Why = "can be shown from " + day(s.Opens) + " and is over after " + day(s.Through)
	}
	if s.Before != "" {
		d.Why += "; before it: " + s.Before
	}
	return d
}

// seesInWords says of each person how much is due at a visit, and what of it is over first.
func seesInWords(sees []office.DueVisit) string {
	var order []assessment.PersonID
	of := map[assessment.PersonID][]office.DueVisit{}
	for _, s := range sees {
		if of[s.Person.ID] == nil {
			order = append(order, s.Person.ID)
		}
		of[s.Person.ID] = append(of[s.Person.ID], s)
	}
	var all []string
	for _, id := range order {
		due := of[id]
		words := due[0].Person.Name + ": " + due[0].Skill.Title
		if len(due) > 1 {
			words = due[0].Person.Name + ": " + count(len(due), "skill", "skills")
		}
		if i := slices.IndexFunc(due, func(s office.DueVisit) bool { return s.Lapses }); i >= 0 {
			words += ", through " + day(due[i].Through)
		} else {
			words += ", not held"
		}
		all = append(all, words)
	}
	return strings.Join(all, "; ")
}

// unmetLine tells of something that no visit meets, with the act that mends it.
func unmetLine(u office.UnmetVisit) UnmetLine {
	l := UnmetLine{VisitDue: visitDue(u.DueVisit), Home: clientName(u.Home), Reason: strings.ToUpper(u.Why[:1]) + u.Why[1:], Act: Link{"See what is missing", "/people/" + string(u.Person.ID)}}
	switch {
	case u.Card:
		l.Act.Text = "Put a card on file"
	case u.Observer:
		l.Act = Link{"Appoint an observer", "/appointments"}
	case u.Room:
		l.Act = Link{"Make room in somebody’s week", "/visits/weeks"}
	}
	return l
}
