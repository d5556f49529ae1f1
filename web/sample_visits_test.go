package web

import "fmt"

func visitSamples() map[string]Page {
	frame := coordinatorFrame("today")
	due := VisitDue{Person: "Maximiliana-Konstantina Papadopoulou-Wolfeschlegelsteinhausen", Href: "/people/p8", Skill: "Tracheostomy suctioning", Client: "Mira, 7K", Word: "due", Why: "can be shown from 2 Dec 2026 and is over after 30 Dec 2026"}
	gap := VisitDue{Person: "Nguyễn Thị Lan", Href: "/people/p2", Skill: "Manual ventilation with a bag", Word: "lapsed", Why: "one competent demonstration"}
	line := VisitLine{Day: "Tue 8 Dec 2026", Educator: "Noor Haddadin", Client: "Mira, 7K", Href: "/visits/v1", Sees: []VisitDue{due, gap}}
	mine := due
	mine.Start = "/demonstrations/new?learner=p8&skill=suctioning"
	today := VisitMovePage{Frame: educatorFrame("today"), Line: VisitLine{Day: line.Day, Educator: line.Educator, Client: line.Client, Href: line.Href, Sees: []VisitDue{mine, gap}}, Back: "/visits", Here: "/visits/v1", On: "2026-12-08", Educator: "noor-haddadin", Who: optionsOf("Noor Haddadin")}
	off, idle := line, line
	off.Href, off.Sees, off.Faults = "/visits/v2", nil, []string{"they are off on that day"}
	idle.Href, idle.Sees = "/visits/v3", nil
	who, clients := append([]Option{{Text: "Choose who goes there"}}, optionsOf("Noor Haddadin", "Ruth Adeyemi")...), append([]Option{{Text: "Choose the child"}}, optionsOf("Mira, 7K", "Theo, 4B")...)
	everybody := append([]Option{{Text: "everybody"}}, optionsOf("Noor Haddadin", "Ruth Adeyemi")...)
	page := VisitsPage{Frame: frame, Answer: "3 visits meet 1 renewal before it lapses and 1 skill that is not held; 3 cannot be met", Until: "Sunday 24 January 2027", Weeks: "8", Educators: everybody,
		Kept:     []VisitWeek{{"Week from 7 Dec 2026", []VisitLine{line, off}, boardSample()}, {"Week from 14 Dec 2026", []VisitLine{idle}, VisitBoard{}}},
		Proposed: []Option{{Value: "k1", Text: "9 Dec 2026: Ruth Adeyemi at Theo, 4B", Hint: "Łucja Żak, Go-bag and emergency bag check (through 30 Dec 2026)", Chosen: true}}, Travel: "45 minutes", Best: true, Version: "v", Keep: "/visits/proposal", Settings: "/visits/weeks", PDF: "/visits.pdf?weeks=8", ICS: "/visits.ics?weeks=8", Together: []TogetherLine{{"Manual ventilation with a self-inflating bag", "7 people: Ada Prewitt, Ben Okoro and 5 others", "any day from 2 Dec 2026 through 30 Dec 2026", "/skills-days/new?skill=bagging"}, {"Go-bag and emergency bag check", "5 people: Ada Prewitt, Ben Okoro and 3 others", "on 2 Dec 2026 only", ""}},
		Unmet: []UnmetLine{{due, "Mira, 7K", "all who may observe this are off or full on each of its days: Noor Haddadin is off on 5 days", Link{"Make room in somebody’s week", "/visits/weeks"}},
			{gap, "", "no educator may observe this", Link{"Appoint an observer", "/appointments"}}},
		Plan: VisitForm{Action: "/visits", ID: "v9", On: "2026-11-30", Clients: clients, Who: who}}
	reading := VisitsPage{Frame: educatorFrame("today"), Answer: "Nothing is due that a visit could meet", Until: "Sunday 24 January 2027", Weeks: "8", Educators: everybody, Settings: "/visits/weeks", Proposed: page.Proposed}
	wrong := page
	wrong.Plan.Faults = Faults{What: "No visit was planned.", Why: "One thing needs mending.", Next: "Look below.", Fields: []FieldFault{{"on", "Day", "This day is over. Choose today or later."}}}
	late := page
	late.Faults = Faults{What: "No visit was kept.", Why: "Something that this rests on has changed since you read it. Look at the plan as it is now, then decide."}
	move := VisitMovePage{Frame: frame, Line: line, Back: "/visits", Here: "/visits/v1", On: "2026-12-31", Educator: "ruth-adeyemi", Who: optionsOf("Noor Haddadin", "Ruth Adeyemi"), Asked: true, Then: "Thu 31 Dec 2026 by Ruth Adeyemi",
		Breaks: []VisitDue{due}, Gains: []VisitDue{gap}, Longer: "20 minutes more on the way.", Version: "v", Move: "/visits/v1", Cancel: "/visits/v1/cancelling"}
	cannot := move
	cannot.Breaks, cannot.Gains, cannot.Move, cannot.Cannot = nil, nil, "", []string{"they have as many visits on that day as they can make"}
	cannot.Faults = Faults{What: "The visit was not moved.", Why: "The visit cannot be there."}
	weeks := VisitWeeksPage{Frame: frame, MaySet: true, Who: who, Clients: clients, Week: WeekForm{PerDay: "4", Days: weekdayOptions([]int{6, 7})}, Off: OffForm{From: "2026-11-30"},
		Educators: []VisitWeekLine{{"Noor Haddadin", "2 visits a day at most, off on Saturday and Sunday, starting from Office", []OffLine{{"3 Dec 2026 through 8 Dec 2026", "/visits/days-off/o1/removal", "token"}}}, {"Ruth Adeyemi", "4 visits a day at most, off on Saturday and Sunday (taken for granted: nobody has said so yet)", nil}},
		Ways:      []WayLine{{"Mira, 7K and Office", 15, "/visits/ways/w1/removal"}}}
	bad := weeks
	bad.Week.Faults = Faults{What: "Their weeks were not set.", Why: "One thing needs mending.", Fields: []FieldFault{{"per_day", "Visits a day", "Give the visits on one day, from 0 through 12."}}}
	return map[string]Page{"visits": page, "visits-none": reading, "visits-fault": wrong, "visits-changed": late, "visit-move": move, "visit-move-cannot": cannot, "visit-today": today,
		"visit-move-reading": VisitMovePage{Frame: educatorFrame("today"), Line: idle, Back: "/visits", Here: "/visits/v3", On: "2026-12-08", Educator: "noor-haddadin", Who: optionsOf("Noor Haddadin")},
		"visit-weeks":        weeks, "visit-weeks-fault": bad, "visit-weeks-none": VisitWeeksPage{Frame: educatorFrame("today")}}
}

func boardSample() VisitBoard {
	b := VisitBoard{MaySet: true}
	days := []string{"Mon 7 Dec", "Tue 8 Dec", "Wed 9 Dec", "Thu 10 Dec", "Fri 11 Dec", "Sat 12 Dec", "Sun 13 Dec"}
	b.Days = days
	for _, who := range []string{"Noor Haddadin", "Maximiliana-Konstantina Papadopoulou-Wolfeschlegelsteinhausen"} {
		row := BoardRow{Educator: who, ID: who}
		for i, d := range days {
			row.Cells = append(row.Cells, BoardCell{On: fmt.Sprintf("2026-12-%02d", 7+i), Day: d, Off: i > 4, Over: i == 0})
		}
		b.Rows = append(b.Rows, row)
	}
	b.Rows[0].Cells[1].Visits = []BoardVisit{{Client: "Mira, 7K", Href: "/visits/v1", Sees: "2"}, {Client: "Theo, 4B", Href: "/visits/v4", Sees: "0"}}
	b.Rows[1].Cells[5].Visits = []BoardVisit{{Client: "Mira, 7K", Href: "/visits/v2", Sees: "0", Fault: true}}
	return b
}
