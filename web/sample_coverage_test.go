package web

func coverageSamples() map[string]Page {
	frame := coordinatorFrame("today")
	breaks := CoverLine{ID: "s1", Href: "/coverage/shifts/s1", Client: "Mira, 7K", Carer: "Maximiliana-Konstantina Papadopoulou-Wolfeschlegelsteinhausen", When: "Thu 3 Dec 2026, 19:00–07:00", Word: "breaks", Shape: "stopped", Asks: "a nurse", Source: "of a weekly pattern", Act: "Find somebody else", Share: true,
		Why: []string{"Maximiliana-Konstantina Papadopoulou-Wolfeschlegelsteinhausen is not current in Tracheostomy suctioning for Mira on 4 Dec 2026: lapsed.", "Maximiliana-Konstantina Papadopoulou-Wolfeschlegelsteinhausen has 6 hours of rest beside Fri 4 Dec 2026, 13:00–19:00 with Theo."}}
	open := CoverLine{ID: "s2", Href: "/coverage/shifts/s2", Client: "Theo, 4B", When: "Fri 4 Dec 2026, 07:00–19:00", Word: "open", Shape: "open", Why: []string{"Nobody is on it yet."}, Act: "Find somebody", Share: true}
	covered := CoverLine{ID: "s3", Href: "/coverage/shifts/s3", Client: "Mira, 7K", Carer: "Łucja Żak", When: "Fri 4 Dec 2026, 07:00–19:00", Word: "covered", Shape: "met", Source: "an early shift of the way home", Act: "Look"}
	first := breaks
	first.Share, first.ID = false, "s1-first"
	page := CoveragePage{Frame: frame, From: "2026-12-01", Through: "2026-12-14", Days: "1 Dec 2026 to 14 Dec 2026", State: "trouble", Clients: append([]Option{{Text: "every child"}}, optionsOf("Mira, 7K", "Theo, 4B")...),
		States: []Option{{Value: "trouble", Text: "to mend"}, {Value: "all", Text: "every shift"}}, Shifts: 40, Breaks: 1, Open: 1, Clashes: 1, Covered: 38, Before: "Tuesday 15 December", First: []CoverLine{first}, Share: true, ShareOut: Link{"Propose who takes these 2", "/coverage/sharing?shift=s1&shift=s2"},
		Groups: []CoverGroup{{"Thursday 3 December 2026", []CoverLine{breaks}}, {"Friday 4 December 2026", []CoverLine{open, covered}}}, Rest: RestForm{Action: "/coverage/rest", Hours: "8"}, FirstMore: 3, Later: Link{"See the 41 shifts from Saturday 5 December on", "/coverage?from=2026-12-05"}, PDF: "/coverage.pdf", CSV: "/coverage.csv", XLSX: "/coverage.xlsx"}
	wrong := page
	wrong.Faults = Faults{What: "This cannot be shown.", Fields: []FieldFault{{"through", "Through", "The last day is before the first."}}}
	wrong.Rest.Faults = Faults{What: "The rest was not set.", Fields: []FieldFault{{"hours", "Hours of rest", "Give the rest in whole hours, from 1 through 24, or leave it empty."}}}
	shift := ShiftPage{Frame: frame, CoverLine: breaks, ClientHref: "/clients/c1", PersonHref: "/people/p8", Action: "/coverage/shifts/s1/giving", Version: "v", Roster: "/clients/c1/roster", MayOpen: true, Remove: "/coverage/shifts/s1/removal",
		Able: []StandIn{{"p3", "Łucja Żak", "/people/p3", "nurse", "24 hours"}, {"p5", "Sam Whitlock", "/people/p5", "nurse", "36 hours"}}, Not: []NotAble{{"Amal Haddad", "/people/p6", "nurse", "Amal Haddad is not current in Humidifier on 3 Dec 2026: withdrawn."}},
		Short: optionsOf("Ines Okafor"), Reasons: reasonOptions(), Rest: "8 hours"}
	nobody := shift
	nobody.Able, nobody.Short, nobody.Action, nobody.MayOpen, nobody.Remove = nil, nil, "", false, ""
	refused := shift
	refused.Faults = Faults{What: "The shift was not given.", Fields: []FieldFault{{"short_rest", "Why so little rest", "Ines Okafor would have 7 hours of rest, and 8 hours is asked. Choose somebody else, or say why."}}}
	over := ShiftPage{Frame: frame, CoverLine: covered, ClientHref: "/clients/c1", PersonHref: "/people/p3", Over: true, Roster: "/clients/c1/roster"}
	sharing := SharingPage{Frame: frame, Action: "/coverage/sharing", Takes: []SharedLine{{breaks, "s1 v p3", "Łucja Żak", "/people/p3"}}, None: []CoverLine{{ID: "s4", Href: "/coverage/shifts/s4", Client: "Theo, 4B", When: "Fri 4 Dec 2026, 07:00–19:00", Word: "open", Shape: "open", Act: "Find somebody"}}}
	return map[string]Page{"coverage": page, "coverage-fault": wrong, "coverage-none": CoveragePage{Frame: frame, Before: "Tuesday 15 December", Days: "1 Dec 2026 to 14 Dec 2026", States: page.States, State: "trouble"}, "shift": shift, "shift-nobody": nobody, "shift-fault": refused, "shift-over": over,
		"sharing": sharing, "sharing-none": SharingPage{Frame: frame, Faults: Faults{What: "Nothing can be proposed.", Why: "Choose at least one shift."}}, "client-roster": rosterSample(frame, covered), "client-roster-none": ClientRosterPage{Frame: coordinatorFrame("children"), ID: "c1", Name: "Mira", Back: "/clients/c1", Coverage: "/coverage"}}
}

func rosterSample(_ Frame, covered CoverLine) ClientRosterPage {
	people := append([]Option{{Text: "nobody yet"}}, optionsOf("Łucja Żak, nurse")...)
	fields := PatternFields{Action: "/clients/c1/roster/patterns", FormName: "new", ID: "n", From: "07:00", Until: "19:00", FromOn: "2026-12-01", Weekdays: weekdayOptions([]int{1, 3}), People: people, Kinds: caregiverKindOptions(), Reasons: reasonOptions(), CSRF: "token"}
	change := fields
	change.Action, change.FormName, change.ID, change.Version, change.Begun = "/clients/c1/roster/patterns/w1", "change-w1", "", "v", true
	change.Faults = Faults{What: "The pattern was not changed.", Fields: []FieldFault{{"until", "Until", "Write it as HH:MM."}}}
	return ClientRosterPage{Frame: coordinatorFrame("children"), ID: "c1", Name: "Mira", Back: "/clients/c1", May: true, Breaks: 1, Shifts: 12, Coverage: "/coverage?client=c1", New: fields,
		Single: ShiftFields{Action: "/clients/c1/roster/shifts", ID: "n", People: people, Kinds: caregiverKindOptions(), Reasons: reasonOptions()},
		Coming: []CoverGroup{{"Friday 4 December 2026", []CoverLine{covered}}},
		Patterns: []WeeklyPattern{{ID: "w1", Person: "Łucja Żak", When: "19:00–07:00", Days: "Monday, Wednesday", Since: "from 1 Dec 2026", Asks: "a nurse", Version: "v", End: "/clients/c1/roster/patterns/w1/end", Exceptions: []PatternException{{"2026-12-09", "Wed 9 Dec 2026", "left out", "/clients/c1/roster/patterns/w1/days/lifting"}}, Change: change,
			Day: PatternDayFields{Action: "/clients/c1/roster/patterns/w1/days", FormName: "day-w1", Version: "v", From: "19:00", Until: "07:00", People: people, Reasons: reasonOptions(), CSRF: "token"}}}}
}
