package web

func skillsSamples() map[string]Page {
	frame := educatorFrame("today")
	line := SkillsDayLine{Name: "Autumn skills day", Href: "/skills-days/s1", Day: "Monday 30 November 2026", Place: "skills room, second floor", Stations: 4, Learners: 11}
	coming, past := line, line
	coming.Name, coming.Day = "Winter skills day for everybody who looks after a child with a humidified circuit", "Tuesday 15 December 2026"
	past.Day, past.Ended = "Tuesday 12 May 2026", "Ines Okafor"
	skills := append([]Option{{Text: "no station"}}, optionsOf("Manual ventilation with a bag", "Tracheostomy suctioning, for one child")...)
	fields := StationFields{No: 1, Skill: "manual-ventilation-with-a-bag", Observer: "noor-haddadin", Client: "mira,-7k", Skills: skills,
		Observers: append([]Option{{Text: "Choose who observes"}}, optionsOf("Noor Haddadin", "Ruth Adeyemi")...), Clients: append([]Option{{Text: "no child"}}, optionsOf("Mira, 7K", "Theo, 4B")...)}
	empty := fields
	empty.No, empty.Skill, empty.Observer, empty.Client = 2, "", "", ""
	form := SkillsDayFormPage{Frame: frame, New: true, Action: "/skills-days", Back: "/skills-days", ID: "s2", On: "2026-12-15", Stations: []StationFields{fields, empty},
		Learners: []Option{{Value: "p2", Text: "Nguyễn Thị Lan", Hint: "mother", Chosen: true}, {Value: "p3", Text: "Łucja Żak", Hint: "nurse"}}}
	wrong := form
	wrong.New, wrong.Name, wrong.Action, wrong.Back, wrong.Version, wrong.Changed = false, "Winter skills day", "/skills-days/s1", "/skills-days/s1", "v", "/skills-days/s1"
	wrong.Faults = Faults{What: "The skills day was not saved.", Why: "Three things need mending.", Next: "Look at each one below; what you typed is still there.", Fields: []FieldFault{
		{"on", "Day", "This day is over. Plan it for today or later."}, {"stations", "Stations", "Station 2: choose the skill and who observes it, or leave the whole line empty."}, {"learners", "Learners", "Gil Roe is no longer with the agency on 2026-12-15."}}}
	return map[string]Page{
		"skills-days": SkillsDaysPage{Frame: frame, New: "/skills-days/new", Today: []SkillsDayLine{line}, Coming: []SkillsDayLine{coming}, Past: []SkillsDayLine{past}}, "skills-days-none": SkillsDaysPage{Frame: coordinatorFrame("today"), New: "/skills-days/new"},
		"skills-days-reading": SkillsDaysPage{Frame: frameOf("Ada Holt", "today", "administrator"), Past: []SkillsDayLine{past}},
		"skills-day-form":     form, "skills-day-form-fault": wrong, "skills-day": daySample(frame), "skills-day-none": SkillsDayPage{Frame: frame, Name: "Winter skills day", Day: "Tuesday 15 December 2026", Place: "hall", When: "coming", Cards: "/skills-days/s2/cards.pdf", Edit: "/skills-days/s2/edit", End: "/skills-days/s2/end"},
		"skills-card": cardSample(frame), "skills-card-nothing": SkillsCardPage{Frame: frame, Name: "Sam Whitlock", Kind: "nurse", Own: "/people/p5", Title: "Autumn skills day", Day: "Monday 30 November 2026", Place: "skills room", Back: "/skills-days/s1", Onward: "There is no station yet."},
		"station": stationSample(frame), "station-none": StationPage{Frame: frame, No: 3, Skill: "Humidifier: fill, heat and check", Client: "Mira, 7K", Observer: "Ruth Adeyemi", Title: "Autumn skills day", Day: "Monday 30 November 2026", Back: "/skills-days/s1",
			Closed: "The observer is not appointed to observe Humidifier on 2026-11-30. Two people agree an appointment under People.", Wait: "Ruth Adeyemi observes here, takes learners and passes them on."},
		"station-fault": stationFault(frame), "name-check": nameCheckSample(frame), "name-check-fault": nameCheckFault(frame), "name-check-open": nameCheckOpen(frame), "name-check-not": nameCheckNot(frame),
	}
}

func daySample(frame Frame) SkillsDayPage {
	return SkillsDayPage{Frame: frame, Name: "Autumn skills day", Day: "Monday 30 November 2026", Place: "skills room, second floor", When: "today", Due: 7, Shown: 1, Cards: "/skills-days/s1/cards.pdf", Edit: "/skills-days/s1/edit", End: "/skills-days/s1/end",
		Stations: []StationLine{{1, "/skills-days/s1/stations/1", "Manual ventilation with a bag", "Mira, 7K", "Noor Haddadin", "", 4, 1, 2}, {2, "/skills-days/s1/stations/2", "Tracheostomy suctioning", "Mira, 7K", "Ruth Adeyemi", "The observer has no licence on file that covers 2026-11-30.", 3, 0, 0}},
		Learners: []DayLearner{{"Maximiliana-Konstantina Papadopoulou-Wolfeschlegelsteinhausen", "/skills-days/s1/learners/p8", "grandmother", "", "Next: station 1, Manual ventilation with a bag.", "open", nil, 0},
			{"Nguyễn Thị Lan", "/skills-days/s1/learners/p2", "mother", "at station 1", "Waits: what was shown at station 1 must be signed first.", "learning", []string{"Manual ventilation with a bag: competent, waits for a signature"}, 1},
			{"Łucja Żak", "/skills-days/s1/learners/p3", "nurse", "", "Has nothing to show here.", "met", nil, 0}}}
}

func cardSample(frame Frame) SkillsCardPage {
	return SkillsCardPage{Frame: frame, Name: "Nguyễn Thị Lan", Kind: "mother", Cares: "Mira, 7K", Own: "/people/p2", Title: "Autumn skills day", Day: "Monday 30 November 2026", Place: "skills room", Back: "/skills-days/s1",
		Where: "at station 1", Onward: "Waits: what was shown at station 1 must be signed first.", Due: 2, Visits: []DayVisit{
			{1, "/skills-days/s1/stations/1", "Manual ventilation with a bag", "Mira, 7K", "Noor Haddadin", "learning", "Begun, not yet held; it comes before another that is due.", "", nil, []DayShown{{"/demonstrations/d1", "Competent, waits for a signature"}}, "Noor Haddadin"},
			{2, "/skills-days/s1/stations/2", "Tracheostomy suctioning", "Mira, 7K", "Ruth Adeyemi", "lapsed", "Lapsed after 18 Nov 2026.", "After station 1, once that is signed.", nil, nil, ""},
			{3, "/skills-days/s1/stations/3", "Humidifier: fill, heat and check", "Mira, 7K", "Ruth Adeyemi", "withdrawn", "Withdrawn.", "", []string{"It was withdrawn: somebody entitled must reinstate it first."}, nil, ""},
			{4, "/skills-days/s1/stations/4", "Go-bag and emergency bag check", "Mira, 7K", "Noor Haddadin", "current", "Current through 18 Nov 2027.", "", nil, nil, ""}}}
}

func stationSample(frame Frame) StationPage {
	others := append([]Option{{Value: "0", Text: "no station: they wait"}}, optionsOf("station 2, Tracheostomy suctioning")...)
	return StationPage{Frame: frame, No: 1, Skill: "Manual ventilation with a bag", Client: "Mira, 7K", Observer: "Noor Haddadin", Title: "Autumn skills day", Day: "Monday 30 November 2026", Back: "/skills-days/s1", Own: true,
		Here:   []AtStation{{ID: "p2", Name: "Nguyễn Thị Lan", Href: "/skills-days/s1/learners/p2", Kind: "mother", Why: "Required, never shown.", Begin: "/skills-days/s1/stations/1/learners/p2", Pass: "/skills-days/s1/stations/1/passing", To: "0", Others: others, CSRF: "token"}},
		ToCome: []AtStation{{ID: "p8", Name: "Maximiliana-Konstantina Papadopoulou-Wolfeschlegelsteinhausen", Href: "/skills-days/s1/learners/p8", Kind: "grandmother", Why: "Lapsed after 18 Nov 2026.", Take: "/skills-days/s1/stations/1/taking", CSRF: "token"}, {ID: "p9", Name: "Sam Whitlock", Href: "/skills-days/s1/learners/p9", Kind: "nurse", Why: "Ends on 3 Dec 2026.", Where: "at station 2"}},
		Done:   []AtStation{{ID: "p3", Name: "Łucja Żak", Href: "/skills-days/s1/learners/p3", Kind: "nurse", Why: "Current through 30 Nov 2027.", Shown: []DayShown{{"/demonstrations/d1", "Competent, signed"}}}},
		Vain:   []AtStation{{ID: "p1", Name: "Noor Haddadin", Href: "/skills-days/s1/learners/p1", Kind: "nurse", Why: "Ends on 3 Dec 2026.", Cannot: "Nobody observes themselves: somebody else must see this."}}}
}

func stationFault(frame Frame) StationPage {
	page := stationSample(frame)
	page.Here[0].Begin, page.Here[0].GoOn = "", "/demonstrations/d4/marks"
	page.Faults = Faults{What: "Nobody was taken.", Why: "Sam Whitlock is at station 2 now. Whoever is there passes them on first."}
	return page
}

func nameCheckSample(frame Frame) NameCheckPage {
	return NameCheckPage{Frame: frame, ID: "d9", Version: "v", Action: "/skills-days/s1/stations/1/learners/p2", Back: "/skills-days/s1/stations/1", Name: "Nguyễn Thị Lan", Kind: "mother", Cares: "Mira, 7K",
		Skill: "Manual ventilation with a bag", Client: "Mira, 7K", Observer: "Noor Haddadin", No: 1, Place: "skills room, second floor", Why: "Required, never shown.", Others: []string{"Łucja Żak, Manual ventilation with a bag"}}
}

func nameCheckFault(frame Frame) NameCheckPage {
	page := nameCheckSample(frame)
	page.Name, page.Manikin, page.Setting, page.Cannot = "Maximiliana-Konstantina Papadopoulou-Wolfeschlegelsteinhausen", true, "simulation", []string{"Bag ventilation comes first, is not current, and does not become so at this skills day."}
	page.Faults = Faults{What: "Nothing has begun.", Why: "One thing needs mending.", Next: "Look below.", Fields: []FieldFault{{"purpose", "It is", "Say whether it counts or is practice."}}}
	return page
}

func nameCheckOpen(frame Frame) NameCheckPage {
	page := nameCheckSample(frame)
	page.GoOn = "/demonstrations/d9/marks"
	return page
}

func nameCheckNot(frame Frame) NameCheckPage {
	page := nameCheckSample(frame)
	page.MayNot = "Nguyễn Thị Lan is at station 2 now. Whoever is there passes them on first."
	return page
}
