package web

func surveySamples() map[string]Page {
	frame, own := educatorFrame("people"), frameOf("Halina Wren", "survey", "surveyor")
	named := []Link{{"Mira, 7K", "/clients/c1"}, {"Lan Nguyễn", "/people/p2"}}
	open := AccessLine{Who: "Halina Wren", Named: named, Times: "From 18 Nov 2026, 09:14 MST until 25 Nov 2026, 00:00 MST", Reason: "The survey after the night of the 3rd, asked for by the state.", Given: "Noor Haddad, 18 Nov 2026, 09:14 MST", Now: true, End: "/survey-access/a1/end"}
	coming := AccessLine{Who: "Tove Ask", What: "the whole agency", Times: "From 1 Dec 2026, 00:00 MST until 6 Dec 2026, 00:00 MST", Reason: "The yearly survey.", Given: "Noor Haddad, 18 Nov 2026, 09:16 MST", End: "/survey-access/a2/end"}
	past := AccessLine{Who: "Halina Wren", What: "the whole agency", Times: "From 2 Nov 2025, 08:00 MST until 7 Nov 2025, 00:00 MST", Reason: "The yearly survey.", Given: "Noor Haddad, 1 Nov 2025, 16:02 MDT", Ended: "Noor Haddad, 4 Nov 2025, 17:00 MST"}
	seen := open
	seen.End = ""
	form := AccessPage{Frame: frame, Surveyors: []Option{{Text: "Choose who is let in"}, {Value: "s1", Text: "Halina Wren"}}, From: "2026-11-18", Longest: 30,
		People:  []Option{{Value: "p2", Text: "Lan Nguyễn", Hint: "mother"}, {Value: "p3", Text: "Nan Orme", Hint: "nurse"}},
		Clients: []Option{{Value: "c1", Text: "7K, Mira"}, {Value: "c2", Text: "8Q, Tam"}}}
	full, wrong := form, form
	full.LetIn, full.Open, full.Past = 2, []AccessLine{open, coming}, []AccessLine{past}
	wrong.Whole, wrong.Faults = true, Faults{What: "Nobody is let in.", Next: "Look below.", Fields: []FieldFault{
		{"person", "Surveyor", "Say who is let in."}, {"whole", "The whole agency", "It is the whole agency, or those who are named: choose one."}, {"reason", "Why", "Say why they are let in: which survey, asked for by whom."}, {"through", "Last day", "Give the day, as YYYY-MM-DD."}}}
	return map[string]Page{
		"access": full, "access-none": form, "access-fault": wrong,
		"survey-access":       SurveyAccessPage{Frame: own, Surveyor: true, Open: []AccessLine{seen}, Past: []AccessLine{past}},
		"survey-access-over":  SurveyAccessPage{Frame: own, Surveyor: true, Wait: "Your access as a surveyor is over. It ended on 7 November 2025, 00:00 MST. Ask an administrator of the agency to let you in again.", Past: []AccessLine{past}},
		"survey-access-other": SurveyAccessPage{Frame: frame},
		"survey-one-child":    SurveyorHomePage{Frame: own, On: "2026-03-14", Access: true},
	}
}
