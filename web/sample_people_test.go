package web

func peopleSamples() map[string]Page {
	lines := []PersonLine{
		{"Ruth Adeyemi", "/people/p5", "nurse", "caregiver, educator", false, "current", 12, 12},
		{"Dana Orlova", "/people/p1", "nurse", "caregiver", false, "lapsed", 10, 12},
		{"Nguyễn Thị Lan", "/people/p4", "mother", "caregiver", false, "learning", 9, 12},
		{"Ольга Мартин", "/people/p6", "nurse", "caregiver", false, "due", 12, 12},
		{"Łucja Zoë Bałut", "/people/p7", "aide", "caregiver", true, "waived", 3, 4},
		{"Ines Okafor", "/people/p8", "office", "coordinator", false, "", 0, 0},
	}
	kinds := append([]Option{{Text: "any kind"}}, options("family", "nurse", "aide")...)
	roles := append([]Option{{Text: "any role"}}, options("caregiver", "educator", "coordinator", "surveyor")...)
	return map[string]Page{
		"people": PeoplePage{Frame: coordinator("people"), Kinds: kinds, Roles: roles, People: lines, New: "/people/new", All: 62, Trouble: 4,
			Pager: Pager{Shown: "The first 50 of 62", Next: "/people?after=x"}},
		"people-nobody": PeoplePage{Frame: coordinator("people"), Kinds: kinds, Roles: roles, Find: "zz", Filtered: true, New: "/people/new"},
		"person":        personSample(),
		"person-form": PersonFormPage{Frame: coordinator("people"), New: true, Action: "/people", ID: "new", Kinds: options("family", "nurse", "aide", "office"),
			Roles: options("caregiver", "educator", "coordinator", "administrator", "surveyor"), Back: "/people"},
		"person-form-fault": PersonFormPage{Frame: coordinator("people"), New: true, Action: "/people", ID: "new", Name: "", Email: "dana.orlova@larkmoor",
			Kind: "nurse", Kinds: options("family", "nurse", "aide", "office"), Roles: options("caregiver", "educator"), Back: "/people",
			Faults: Faults{What: "Nobody was added.", Why: "Two fields need another look.", Next: "Nothing is lost; mend them and send again.",
				Fields: []FieldFault{{"name", "Full name", "It is empty. Give the name as it shall stand on certificates."},
					{"email", "E-mail", "It lacks the part after the last dot."}, {"roles", "May act as", "Tick at least one."}}}},
	}
}

func personSample() PersonPage {
	current := standing("Circuit change", "Mira, 7K", "current", "31 Aug 2027", "1 Sep 2026", 0, "")
	current.Certificate = "/certificates/LARK-2026-0033"
	current.Evidence = links("/demonstrations/d1", "21 Aug", "24 Aug", "1 Sep")
	due := standing("Emergency bag check", "", "due", "7 Dec 2026", "", 12, "One competent demonstration renews it.")
	due.Start = "/demonstrations/new?learner=p1"
	waived := standing("Humidifier", "", "waived", "", "1 Nov 2026", 0, "On leave.")
	withdrawn := standing("Tube change", "Mira, 7K", "withdrawn", "", "23 Nov 2026", 0, "Show it again on a later day.")
	return PersonPage{Frame: coordinator("people"), ID: "p1", Name: "Dana Orlova", Kind: "nurse", Roles: "caregiver", Email: "dana@larkmoor.example",
		On: "2026-11-25", Day: "Wednesday 25 November 2026", Today: true, Edit: "/people/p1/edit", Lapsed: 2, Due: 1, Current: 9,
		Standings: []SkillStanding{lapsedSuction(), withdrawn, due, current, waived,
			standing("Tube out", "", "learning", "", "", 0, "Two more competent demonstrations, one of them alone."),
			standing("Tube blocked", "", "not started", "", "", 0, "Three competent demonstrations on two days.")},
		Licences:     []Paper{{"Registered nurse", "RN-204417, state board", "1 Mar 2025", "28 Feb 2027", true}},
		Cards:        []Paper{{"Resuscitation card", "child and infant", "3 Oct 2024", "31 Oct 2026", false}},
		Appointments: []Paper{{"Observer", "suctioning, tube change", "1 Jan 2026", "31 Dec 2026", true}},
		History: []Event{
			{"23 Nov 2026", "Tube change withdrawn until shown again", "by Ines Okafor: ties were fastened before the tube was held.", ""},
			{"20 Nov 2025", "Return demonstration of suctioning: competent", "seen by Noor Haddadin, for Mira, 7K", "/demonstrations/d9"},
			{"12 Nov 2025", "Return demonstration of suctioning: not yet competent", "critical step 4 was cued", "/demonstrations/d8"}},
		Transcript: "/people/p1/transcript.pdf", May: PersonActs{Withdraw: true, Waive: true, Papers: true},
		Withdraw: WithdrawForm{ID: "w", Skills: options("Circuit change for Mira, 7K", "Emergency bag check"), Faults: Faults{
			What: "Nothing was withdrawn.", Why: "A reason is missing.", Next: "Say what was seen, then sign again.",
			Fields: []FieldFault{{"reason", "Reason", "It is empty."}}}},
		Waive:     WaiveForm{ID: "v", Skills: options("Tracheostomy suctioning for Mira, 7K"), From: "2026-11-25"},
		Reinstate: ReinstateForm{ID: "r", Withdrawals: options("Tube change, 23 Nov 2026")},
		Paper:     PaperForm{ID: "l", Kinds: options("registered nurse", "resuscitation card")}}
}

func clientSamples() map[string]Page {
	lines := []ClientLine{
		{"7K", "Mira", "/clients/c1", "/clients/c1/readiness", false, 3, 14, 6},
		{"4B", "Theo", "/clients/c2", "/clients/c2/readiness", true, 0, 14, 5},
		{"2C", "Zoë", "/clients/c3", "/clients/c3/readiness", false, 0, 0, 1},
	}
	criteria := options("Home and power checked", "Follow-up and emergency plan")
	return map[string]Page{
		"clients":      ClientsPage{Frame: coordinator("children"), GoingHome: 2, Clients: lines, New: "/clients/new"},
		"client":       clientSample(),
		"client-form":  ClientFormPage{Frame: coordinator("children"), New: true, Action: "/clients", ID: "new", Back: "/clients"},
		"client-fault": ClientFormPage{Frame: coordinator("children"), New: true, Action: "/clients", ID: "new", Code: "7K", Name: "Ada", Back: "/clients", Faults: Faults{What: "No child was added.", Why: "The code is taken.", Next: "Choose another.", Fields: []FieldFault{{"code", "Code", "7K belongs to another child of this agency."}}}},
		"parameter-form": ParameterFormPage{Frame: coordinator("children"), Action: "/clients/c1/parameters", ID: "new", Client: "Mira, 7K", Parameter: "suction-depth",
			Parameters: options("Suction depth", "Suction pressure, most"), Units: options("cm", "mm"), Was: "11.5 cm", Back: "/clients/c1"},
		"equipment-form": EquipmentFormPage{Frame: coordinator("children"), Action: "/clients/c1/equipment", ID: "new", Client: "Mira, 7K",
			Kinds: options("Ventilator", "Heated humidifier", "Suction unit"), Backup: true, Back: "/clients/c1"},
		"readiness": ReadinessPage{Frame: coordinator("children"), Client: "Mira", Code: "7K", On: "2026-11-25", Day: "25 November 2026", Today: true, GoesHome: "Friday 4 December",
			PDF: "/clients/c1/readiness.pdf", Back: "/clients/c1", MayAdd: true, MayWaive: true,
			Left: []Criterion{
				{Name: "Circuit change", Who: "Tomasz Rybak", Next: "Once more, without help. Thursday, with Noor.", Standing: "learning", Href: "/demonstrations/new", Act: "Observe"},
				{Name: "Emergency bag", Who: "Nguyễn Thị Lan", Next: "Show it twice more.", Standing: "learning", Href: "/people/p4", Act: "Open record"},
				{Name: "24 hours of care by the family alone", Next: "In hospital, with help nearby. Starts on Tuesday.", Href: "#evidence", Act: "Add evidence"}},
			Waived: []Criterion{{Name: "Second family caregiver for tube change", Evidence: "An aunt moves in on 1 December", Through: "31 Dec 2026"}},
			Met: []Criterion{{Name: "Two of the family can suction", Evidence: "Tomasz Rybak, Nguyễn Thị Lan", Day: "since 18 Nov 2026"},
				{Name: "Ventilator and back-up ventilator at home, checked", Evidence: "Noor Haddadin tried both", Day: "20 Nov 2026"}},
			Evidence: EvidenceForm{Action: "/clients/c1/readiness/evidence", ID: "e", Criteria: criteria},
			Waive:    CriterionWaiveForm{Action: "/clients/c1/readiness/waivers", ID: "v", Criteria: criteria}},
		"readiness-ready": ReadinessPage{Frame: mother(), Client: "Theo", Code: "4B", On: "2026-11-25", Day: "25 November 2026", Today: true, Ready: true, PDF: "/x.pdf",
			Met: []Criterion{{Name: "Two of the family can suction", Evidence: "both, through 2027", Day: "since 18 Nov 2026"}}},
	}
}

func clientSample() ClientPage {
	return ClientPage{Frame: coordinator("children"), ID: "c1", Code: "7K", Name: "Mira", GoesHome: "Friday 4 December 2026", Edit: "/clients/c1/edit",
		Readiness: "/clients/c1/readiness", Left: 3, All: 14, MayChange: true, Missing: []string{"longest time off the ventilator"},
		Parameters: []Parameter{{"Suction depth", "11.5", "cm", "order of 3 Nov 2026", "3 Nov 2026", "/clients/c1/parameters/new?parameter=suction_depth"},
			{"Suction pressure, most", "120", "mmHg", "order of 3 Nov 2026", "3 Nov 2026", "/clients/c1/parameters/new"}},
		Equipment: []Device{{"Ventilator", "portable, single limb", false, "12 Nov 2026", "20 Nov 2026", "/e"}, {"Ventilator", "portable", true, "12 Nov 2026", "", "/e"}, {"Heated humidifier", "", false, "", "", "/e"}},
		Team:      []Carer{{"Dana Orlova", "/people/p1", "nurse", "lapsed", 10, 12, "/clients/c1/team/p1/end"}, {"Nguyễn Thị Lan", "/people/p4", "mother", "learning", 9, 12, ""}},
		Needs:     []Need{{"Tracheostomy suctioning", "each carer", ""}, {"Humidifier", "each nurse, two of the family", "by equipment: heated humidifier"}},
		Join:      JoinForm{ID: "j", People: options("Ruth Adeyemi", "Imre Kovács"), From: "2026-11-25"}}
}
