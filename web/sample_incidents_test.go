package web

func incidentSamples() map[string]Page {
	frame := coordinatorFrame("today")
	line := IncidentLine{Href: "/incidents/i1", When: "Sat 28 Nov 2026, 03:10 MST", Person: "Maximiliana-Konstantina Papadopoulou-Wolfeschlegelsteinhausen", Skill: "Ventilator circuit change", Client: "Mira, 7K", Seen: "The circuit was put together the wrong way round; the alarm was answered after four minutes.", Then: "open, recorded on 30 Nov 2026 by Ines Okafor", Shape: "open"}
	closed, back := line, line
	closed.Then, closed.Shape, closed.Person, closed.Client = "closed on 2 Dec 2026 by Noor Haddadin", "met", "Łucja Żak", ""
	back.Then, back.Shape = "taken back on 3 Dec 2026 by Ruth Adeyemi", "fault"
	people, skills := append([]Option{{Text: "Choose whose hands"}}, optionsOf("Łucja Żak, nurse", "Nguyễn Thị Lan, mother")...), append([]Option{{Text: "Choose the skill"}}, optionsOf("Manual ventilation with a bag", "Tracheostomy suctioning, for one child")...)
	form := IncidentFormPage{Frame: frame, ID: "i9", People: people, Skills: skills, Clients: append([]Option{{Text: "every child, or choose the child"}}, optionsOf("Mira, 7K", "Theo, 4B")...), Zone: "MST", Withdraws: "skill and related", Says: "the skill and all related ones, with every child"}
	wrong := form
	wrong.Says, wrong.Scopes = "", []Option{{Value: "skill and related", Text: "the skill and all related ones", Hint: "with every child"}, {Value: "skill alone", Text: "the skill alone", Hint: "with the child that is named"}, {Value: "nothing", Text: "nothing", Hint: "they go on doing it alone"}}
	wrong.Seen, wrong.Faults = "It slipped.", Faults{What: "The incident was not recorded, and nothing was withdrawn.", Why: "One thing needs mending.", Fields: []FieldFault{{"happened", "When it happened", "This lies in the future. Check the day and time."}}}
	broken := CoverLine{ID: "s1", Href: "/coverage/shifts/s1", Client: "Mira, 7K", Carer: "Łucja Żak", When: "Thu 3 Dec 2026, 19:00–07:00", Word: "breaks", Shape: "stopped", Act: "Find somebody else", Why: []string{"Ventilator circuit change is withdrawn."}}
	visit := VisitLine{Day: "Tue 8 Dec 2026", Educator: "Noor Haddadin", Client: "Mira, 7K", Href: "/visits/v1"}
	took := TookLine{Skill: "Ventilator circuit change", Client: "Mira, 7K", Word: "withdrawn", Before: "current", Next: "One competent demonstration on a later day.", Start: "/demonstrations/new?skill=circuit-change"}
	never := TookLine{Skill: "Humidifier: fill, heat and check", Client: "Theo, 4B", Word: "withdrawn", Before: "not started", Next: "One competent demonstration on a later day."}
	open := IncidentPage{Frame: frame, Answer: "Łucja Żak, Ventilator circuit change: 2 skills are withdrawn, 1 shift breaks", Line: line, PersonAt: "/people/p8", Recorded: "Ines Okafor, 30 Nov 2026, 09:12 MST", Withdrew: "the skill and all related ones, with every child",
		Took: []TookLine{took}, Barred: []TookLine{never}, Through: "28 Jan 2027", Breaks: []CoverLine{broken}, Visits: []VisitLine{visit}, Proposed: []VisitLine{visit}, Plan: "/visits", Taught: []string{"30 Nov 2026, by Noor Haddadin: both ways of the valve"}, Teach: "/people/p8#log", Open: true,
		Waits: "Ventilator circuit change has not been shown again on a day after 30 Nov 2026 and signed by both.", Undo: UndoIncidentForm{Action: "/incidents/i1/taking-back"}}
	closing := open
	closing.Frame, closing.Waits, closing.Breaks, closing.Answer = educatorFrame("today"), "", nil, "Łucja Żak, Ventilator circuit change: everything is shown again"
	closing.Close = CloseIncidentForm{Action: "/incidents/i1/closing", Records: append([]Option{{Text: "Choose the record"}}, optionsOf("2 Dec 2026, 10:00 MST, seen by Noor Haddadin")...)}
	refused := closing
	refused.Close.Faults = Faults{What: "The incident was not closed.", Why: "One thing needs mending.", Fields: []FieldFault{{"note", "Note", "Say how they were taught again, and what the record shows."}}}
	over := IncidentPage{Frame: frame, Answer: "Łucja Żak, Ventilator circuit change: this incident is closed", Line: closed, PersonAt: "/people/p8", Recorded: "Ines Okafor, 30 Nov 2026, 09:12 MST", Withdrew: "nothing",
		Closed: "Noor Haddadin, 2 Dec 2026, 11:00 MST: Taught at the bedside.", Record: Link{"The record that evaluated it again", "/demonstrations/d1"}, TakenBack: "Ruth Adeyemi, 3 Dec 2026, 08:00 MST: It was another nurse."}
	rules := PracticePage{Frame: frameOf("Ada Holt", "today", "administrator"), Answer: "An incident withdraws the skill and all related ones, with every child; in-service hours are kept", Set: "Ada Holt, 30 Nov 2026, 09:00 MST", Action: "/practice",
		Form: PracticeForm{Withdraws: "skill and related", Scopes: wrong.Scopes[:2], ByItself: "yes", InService: "yes", Hours: "12", Year: "calendar year", Years: []Option{{Value: "employment anniversary", Text: "the year from the day of hire"}, {Value: "calendar year", Text: "the calendar year"}}}}
	bad := rules
	bad.Faults = Faults{What: "The rules are as they were.", Why: "One thing needs mending.", Fields: []FieldFault{{"in_service_hours", "Hours", "Give the hours, such as 1.5 or 1:30, in whole minutes."}}}
	return map[string]Page{"practice": rules, "practice-fault": bad, "practice-reading": PracticePage{Frame: frame, Answer: "An incident withdraws the skill alone, with the child that is named; rules for aides are off", Incident: "It withdraws the skill alone, with the child that is named.", InService: "In-service hours are not counted.", Supervision: "Supervision of aides is not kept here."},
		"incidents":      IncidentsPage{Frame: frame, Answer: "One incident is open", Open: []IncidentLine{line}, Over: []IncidentLine{closed, back}, New: "/incidents/new", Rules: "/practice"},
		"incidents-none": IncidentsPage{Frame: educatorFrame("today"), Answer: "No incident is open", New: "/incidents/new"}, "incident-form": form, "incident-form-fault": wrong,
		"incident": open, "incident-closing": closing, "incident-closing-fault": refused, "incident-over": over}
}
