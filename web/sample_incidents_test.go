package web

func incidentSamples() map[string]Page {
	frame := coordinatorFrame("today")
	line := IncidentLine{Href: "/incidents/i1", When: "Sat 28 Nov 2026, 03:10 MST", Person: "Maximiliana-Konstantina Papadopoulou-Wolfeschlegelsteinhausen", Skill: "Ventilator circuit change", Client: "Mira, 7K", Seen: "The circuit was put together the wrong way round; the alarm was answered after four minutes.", Then: "open, recorded on 30 Nov 2026 by Ines Okafor", Shape: "open"}
	closed, back := line, line
	closed.Then, closed.Shape, closed.Person, closed.Client = "closed on 2 Dec 2026 by Noor Haddadin", "met", "Łucja Żak", ""
	back.Then, back.Shape = "taken back on 3 Dec 2026 by Ruth Adeyemi", "fault"
	people, skills := append([]Option{{Text: "Choose whose hands"}}, optionsOf("Łucja Żak, nurse", "Nguyễn Thị Lan, mother")...), append([]Option{{Text: "Choose the skill"}}, optionsOf("Manual ventilation with a bag", "Tracheostomy suctioning, for one child")...)
	form := IncidentFormPage{Frame: frame, ID: "i9", People: people, Skills: skills, Clients: append([]Option{{Text: "every child"}}, optionsOf("Mira, 7K", "Theo, 4B")...), Zone: "MST", Withdraws: "skill and related", Says: "the skill and all related ones, with every child"}
	wrong := form
	wrong.Says, wrong.Scopes = "", []Option{{Value: "skill and related", Text: "the skill and all related ones", Hint: "with every child"}, {Value: "skill alone", Text: "the skill alone", Hint: "with the child that is named"}, {Value: "nothing", Text: "nothing", Hint: "they go on doing it alone"}}
	wrong.Seen, wrong.Faults = "It slipped.", Faults{What: "The incident was not recorded, and nothing was withdrawn.", Why: "One thing needs mending.", Fields: []FieldFault{{"happened", "When it happened", "This lies in the future. Check the day and time."}}}
	broken := CoverLine{ID: "s1", Href: "/coverage/shifts/s1", Client: "Mira, 7K", Carer: "Łucja Żak", When: "Thu 3 Dec 2026, 19:00–07:00", Word: "breaks", Shape: "stopped", Act: "Find somebody else", Why: []string{"Ventilator circuit change is withdrawn."}}
	visit := VisitLine{Day: "Tue 8 Dec 2026", Educator: "Noor Haddadin", Client: "Mira, 7K", Href: "/visits/v1"}
	took := TookLine{Skill: "Ventilator circuit change", Client: "Mira, 7K", Word: "withdrawn", Now: "Today withdrawn; on the day before it happened: current.", Next: "One competent demonstration on a later day.", Start: "/demonstrations/new?skill=circuit-change"}
	never := TookLine{Skill: "Humidifier: fill, heat and check", Client: "Theo, 4B", Word: "withdrawn", Now: "Today withdrawn; on the day before it happened: not started.", Next: "One competent demonstration on a later day."}
	open := IncidentPage{Frame: frame, Answer: "Łucja Żak, Ventilator circuit change: 2 skills are withdrawn, 1 shift breaks", Line: line, PersonAt: "/people/p8", Recorded: "Ines Okafor, 30 Nov 2026, 09:12 MST", Withdrew: "It withdrew the skill and all related ones, with every child.",
		Took: []TookLine{took}, Barred: []TookLine{never}, Through: "28 Jan 2027", Breaks: []CoverLine{broken}, MoreBreaks: []CoverLine{broken}, ShareOut: Link{"Propose who takes these 2", "/coverage/sharing?shift=s1&shift=s2"}, Visits: []VisitLine{visit}, Proposed: []VisitLine{visit}, Plan: "/visits", Taught: []TaughtAgain{{"30 Nov 2026", "Noor Haddadin", "both ways of the valve"}}, Teach: "/people/p8#log", Open: true,
		Waits: "Ventilator circuit change has not been shown again on a day after 30 Nov 2026 and signed by both.", Undo: UndoIncidentForm{Action: "/incidents/i1/taking-back"}}
	closing := open
	closing.Frame, closing.Waits, closing.Breaks, closing.MoreBreaks, closing.ShareOut, closing.Answer = educatorFrame("today"), "", nil, nil, Link{}, "Łucja Żak, Ventilator circuit change: everything is shown again"
	closing.Close = CloseIncidentForm{Action: "/incidents/i1/closing", Records: append([]Option{{Text: "Choose the record"}}, optionsOf("2 Dec 2026, 10:00 MST, seen by Noor Haddadin")...)}
	own := open
	own.Frame, own.Own, own.Breaks, own.MoreBreaks, own.ShareOut, own.Plan, own.Teach, own.Undo = motherFrame(), true, nil, nil, Link{}, "", "", UndoIncidentForm{}
	refused := closing
	refused.Close.Faults = Faults{What: "The incident was not closed.", Why: "One thing needs mending.", Fields: []FieldFault{{"note", "Note", "Say how they were taught again, and what the record shows."}}}
	over := IncidentPage{Frame: frame, Answer: "Łucja Żak, Ventilator circuit change: this incident is closed", Line: closed, PersonAt: "/people/p8", Recorded: "Ines Okafor, 30 Nov 2026, 09:12 MST", Withdrew: "It withdrew nothing.",
		Closed: &EndedLine{"Noor Haddadin, 2 Dec 2026, 11:00 MST", "Taught at the bedside."}, Record: Link{"The record that evaluated it again", "/demonstrations/d1"}, TakenBack: &EndedLine{"Ruth Adeyemi, 3 Dec 2026, 08:00 MST", "It was another nurse."}}
	rules := PracticePage{Frame: frameOf("Ada Holt", "today", "administrator"), Answer: "An incident withdraws the skill and all related ones, with every child; in-service hours are kept", Set: "Ada Holt, 30 Nov 2026, 09:00 MST", Action: "/practice",
		Form: PracticeForm{Withdraws: "skill and related", Scopes: wrong.Scopes[:2], ByItself: "yes", InService: "yes", Hours: "12", Year: "calendar year", Years: []Option{{Value: "employment anniversary", Text: "the year from the day of hire"}, {Value: "calendar year", Text: "the calendar year"}}}}
	bad := rules
	bad.Faults = Faults{What: "The rules are as they were.", Why: "One thing needs mending.", Fields: []FieldFault{{"in_service_hours", "Hours", "Give the hours, such as 1.5 or 1:30, in whole minutes."}}}
	return map[string]Page{"practice": rules, "practice-fault": bad, "practice-reading": PracticePage{Frame: frame, Answer: "An incident withdraws the skill alone, with the child that is named; rules for aides are off", Incident: "It withdraws the skill alone, with the child that is named.", InService: "In-service hours are not counted.", Supervision: "Supervision of aides is not kept here."},
		"incidents":      IncidentsPage{Frame: frame, Answer: "One incident is open", Open: []IncidentLine{line}, Over: []IncidentLine{closed, back}, New: "/incidents/new", Rules: "/practice"},
		"incidents-none": IncidentsPage{Frame: educatorFrame("today"), Answer: "No incident is open", New: "/incidents/new"}, "incident-form": form, "incident-form-fault": wrong,
		"incident": open, "incident-own": own, "incident-closing": closing, "incident-closing-fault": refused, "incident-over": over}
}

func practiceSamples() map[string]Page {
	frame := coordinatorFrame("today")
	people := []Option{{Value: "p8", Text: "Maximiliana-Konstantina Papadopoulou-Wolfeschlegelsteinhausen", Hint: "aide"}, {Value: "p2", Text: "Ada Lund", Hint: "aide", Chosen: true}}
	hours := InServicePage{Frame: frame, Answer: "Two aides are short of hours, 1 period ends within 90 days", Rules: "/practice", Rule: "12 hours in each year from the day of hire", CSV: "/in-service.csv",
		Lines:    []InServiceLine{{"Łucja Żak", "/people/p3", "open", "The day of hire is not known, so nothing can be counted.", "", "/in-service?hire=p3#hired"}, {"Ada Lund", "/people/p2", "due", "11 of 12 h, 15 Mar 2025 through 14 Mar 2026: short by 1 h", "In the 12 months before, 0:30 h were missing at the end.", ""}, {"Sam Whitlock", "/people/p5", "met", "12 of 12 h, 1 Jun 2025 through 31 May 2026", "", ""}},
		Sessions: []HeldSession{{ID: "s1", Day: "1 Feb 2026", Topic: "Preventing falls", Says: "1:30 h by Ruth Adeyemi, RN", People: "Ada Lund, Sam Whitlock", Undo: "/in-service/s1/taking-back", CSRF: "token"}, {ID: "s2", Day: "16 Mar 2025", Topic: "First week", Says: "4 h by Ruth Adeyemi, RN, orientation", People: "Ada Lund", Back: "It was another day."}},
		Log:      SessionForm{Action: "/in-service", ID: "s9", On: "2026-03-01", Counts: "yes", People: people}, Hired: HiredForm{Action: "/in-service/hired", People: append([]Option{{Text: "Choose who"}}, people...)}}
	undoing := hours
	undoing.Sessions = []HeldSession{hours.Sessions[0]}
	undoing.Sessions[0].Reason, undoing.Sessions[0].Faults = "x", Faults{What: "Nothing was taken back.", Why: "One thing needs mending.", Fields: []FieldFault{{"reason", "Reason", "Say what is wrong with it. It stays readable."}}}
	one := hours
	one.All, one.Lines = "/in-service", hours.Lines[:1]
	wrong := hours
	wrong.Log.Faults = Faults{What: "The session was not written down.", Why: "One thing needs mending.", Fields: []FieldFault{{"people", "Who took part", "Choose who took part."}}}
	clients, who := append([]Option{{Text: "Choose the child"}}, optionsOf("Mira, 7K", "Theo, 4B")...), append([]Option{{Text: "Choose who assessed it"}}, optionsOf("Noor Haddadin", "Ruth Adeyemi")...)
	watched := SupervisionPage{Frame: frame, Answer: "One assessment is overdue, 1 more is due within 7 days", Rules: "/practice",
		Lines: []SupervisionLine{{"Ada Lund", "/people/p2", "Mira, 7K", "lapsed", "Assess by 15 Mar 2026: overdue", "Watch giving care by 1 Mar 2027", "with skilled care · last assessed on 1 Mar 2026", "/supervision?aide=p2&client=c1#log"}, {"Maximiliana-Konstantina Papadopoulou-Wolfeschlegelsteinhausen", "/people/p8", "Theo, 4B", "met", "Assess by 30 Apr 2026", "Watch giving care by 28 Feb 2027", "whether the child gets skilled care is not said, so the shorter times are taken · not assessed yet", "/supervision?aide=p8&client=c2#log"}},
		Made:  []MadeLine{{Says: "1 Mar 2026: Ada Lund with Mira, 7K, by Noor Haddadin, on site, watched giving care", Found: "The catheter was laid down on the table.", Incident: "/incidents/new?person=p2", Undo: "/supervision/v1/taking-back", CSRF: "token"}, {Says: "14 Feb 2026: Ada Lund with Mira, 7K, by Noor Haddadin, audio-video (The road was closed by a flood.)", Back: true}},
		Care:  []CareLine{{Client: "Mira, 7K", Says: "skilled care too, from 1 Jan 2026; 60-day episodes from 1 Jan 2026"}, {Client: "Theo, 4B", Says: "Not said yet: the shorter times are taken.", Set: "/supervision?care=c2#care"}},
		Log:   SupervisionForm{Action: "/supervision", ID: "v9", Aides: append([]Option{{Text: "Choose the aide"}}, people...), Clients: clients, Supervisors: who, On: "2026-03-16", How: "on site", Hows: []Option{{Value: "on site", Text: "on site"}, {Value: "audio-video", Text: "by two-way audio-video", Hint: "with skilled care only, once in 60 days, and with the circumstances"}}},
		Set:   CareForm{Action: "/supervision/skilled-care", Clients: clients, From: "2026-03-16", Answers: []Option{{Value: "yes", Text: "skilled care too"}, {Value: "no", Text: "no skilled care"}}}}
	bad := watched
	bad.Set.Faults = Faults{What: "It was not set.", Why: "One thing needs mending.", Fields: []FieldFault{{"skilled", "It gets", "Choose one of the two."}}}
	return map[string]Page{"in-service": hours, "in-service-fault": wrong, "in-service-undo-fault": undoing, "in-service-one": one, "in-service-off": InServicePage{Frame: frame, Answer: "In-service hours are not counted here", Off: true, Rules: "/practice"}, "in-service-none": InServicePage{Frame: educatorFrame("today"), Rules: "/practice"},
		"supervision": watched, "supervision-fault": bad, "supervision-off": SupervisionPage{Frame: frame, Answer: "Supervision of aides is not kept here", Off: true, Rules: "/practice"}, "supervision-none": SupervisionPage{Frame: educatorFrame("today"), Rules: "/practice"}}
}
