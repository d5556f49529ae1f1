package web

import "wellshown/assessment/wording"

func peopleSamples() map[string]Page {
	lines := []PersonLine{
		{"Ruth Adeyemi", "/people/p5", "nurse", "caregiver, educator", false, "current", 12, 12},
		{"Dana Orlova", "/people/p1", "nurse", "caregiver", false, "lapsed", 10, 12},
		{"Nguyễn Thị Lan", "/people/p4", "mother", "caregiver", false, "learning", 9, 12},
		{"Ольга Мартин", "/people/p6", "nurse", "caregiver", false, "due", 12, 12},
		{"Łucja Zoë Bałut", "/people/p7", "aide", "caregiver", true, "waived", 3, 4},
		{"Ines Okafor", "/people/p8", "office", "coordinator", false, "", 0, 0},
	}
	kinds := append([]Option{{Text: "any kind"}}, optionsOf("family", "nurse", "aide")...)
	roles := append([]Option{{Text: "any role"}}, optionsOf("caregiver", "educator", "coordinator", "surveyor")...)
	return map[string]Page{
		"people": PeoplePage{Frame: coordinatorFrame("people"), Kinds: kinds, Roles: roles, People: lines, New: "/people/new", Import: "/imports?kind=people", Tokens: true, All: 62, Trouble: 4,
			Pager: Pager{Shown: "The first 50 of 62", Next: "/people?after=x"}},
		"people-nobody": PeoplePage{Frame: coordinatorFrame("people"), Kinds: kinds, Roles: roles, Find: "zz", Filtered: true, New: "/people/new"},
		"person":        personSample(),
		"person-part":   partSample(),
		"person-form": PersonFormPage{Frame: coordinatorFrame("people"), New: true, GivesRoles: true, Action: "/people", ID: "new", Kinds: optionsOf("none", "family", "nurse", "aide"), Languages: optionsOf("English", "Spanish"),
			Roles: optionsOf("caregiver", "educator", "coordinator", "administrator", "surveyor"), Back: "/people"},
		"person-form-fault": PersonFormPage{Frame: coordinatorFrame("people"), New: true, GivesRoles: true, Action: "/people", ID: "new", Name: "", Email: "dana.orlova@larkmoor",
			Kind: "nurse", Kinds: optionsOf("family", "nurse", "aide", "office"), Roles: optionsOf("caregiver", "educator"), Back: "/people",
			Faults: Faults{What: "Nobody was added.", Why: "Two fields need another look.", Next: "Nothing is lost; mend them and send again.",
				Fields: []FieldFault{{"name", "Full name", "It is empty. Give the name as it shall stand on certificates."},
					{"email", "E-mail", "It lacks the part after the last dot."}, {"roles", "May act as", "Tick at least one."}}}},
	}
}

func personSample() PersonPage {
	current := standingOf("Circuit change", "Mira, 7K", "current", "31 Aug 2027", "1 Sep 2026", 0, "")
	current.Certificate = "/certificates/LARK-2026-0033"
	current.Evidence = linksTo("/demonstrations/d1", "21 Aug", "24 Aug", "1 Sep")
	due := standingOf("Emergency bag check", "", "due", "7 Dec 2026", "", 12, "One competent demonstration renews it.")
	due.Start = "/demonstrations/new?learner=p1"
	waived := standingOf("Humidifier", "", "waived", "", "1 Nov 2026", 0, "On leave.")
	withdrawn := standingOf("Tube change", "Mira, 7K", "withdrawn", "", "23 Nov 2026", 0, "Show it again on a later day.")
	return PersonPage{Frame: coordinatorFrame("people"), ID: "p1", Name: "Dana Orlova", Kind: "nurse", Roles: "caregiver", Email: "dana@larkmoor.example",
		On: "2026-11-25", Day: "Wednesday 25 November 2026", Today: true, Edit: "/people/p1/edit", Lapsed: 2, Due: 1, Current: 9,
		CarriedIn: []CarriedLine{{Title: "Single-limb circuit change", For: "for Mira, 7K", Shown: "shown on 4 March 2026 at Old Town Homecare", Paper: "signed by A. Roe, RN; by the old paper through 4 March 2027"}},
		Standings: []SkillStanding{lapsedSuction(), withdrawn, due, current, waived,
			standingOf("Tube out", "", "learning", "", "", 0, "Two more competent demonstrations, one of them alone."),
			standingOf("Tube blocked", "", "not started", "", "", 0, "Three competent demonstrations on two days.")},
		Licences:     []Paper{{"Registered nurse", "RN-204417, state board", "1 Mar 2025", "28 Feb 2027", true}},
		Cards:        []Paper{{"Resuscitation card", "child and infant", "3 Oct 2024", "31 Oct 2026", false}},
		Appointments: []Paper{{"Observer", "suctioning, tube change", "1 Jan 2026", "31 Dec 2026", true}},
		History: []Event{
			{"23 Nov 2026", "Tube change withdrawn until shown again", []wording.Piece{{Text: "by Ines Okafor: "}, {Text: "ties were fastened before the tube was held.", Typed: true}}, ""},
			{"20 Nov 2025", "Return demonstration of suctioning: competent", []wording.Piece{{Text: "seen by Noor Haddadin, for Mira, 7K"}}, "/demonstrations/d9"},
			{"12 Nov 2025", "Return demonstration of suctioning: not yet competent", []wording.Piece{{Text: "critical step 4 was cued"}}, "/demonstrations/d8"}},
		Devices:    deviceSamples("/people/p1"),
		Transcript: "/transcript.pdf?person=p1", Drill: "/drills/new?learner=p1", May: PersonActs{Withdraw: true, Waive: true, Papers: true, Correct: true, Log: true, Leave: true, Link: true},
		Codes: CodesForm{May: true}, CannotSign: "Cannot sign yet; vouch for them below, once you have asked them.",
		Vouch: VouchForm{May: true, Links: linkSamples(), Waits: "The password was set anew by a link that Ada Minton made."},
		Withdraw: WithdrawForm{ID: "w", Skills: optionsOf("Circuit change for Mira, 7K", "Emergency bag check"), Faults: Faults{
			What: "Nothing was withdrawn.", Why: "A reason is missing.", Next: "Say what was seen, then sign again.",
			Fields: []FieldFault{{"reason", "Reason", "It is empty."}}}},
		Waive:     WaiveForm{ID: "v", Skills: optionsOf("Tracheostomy suctioning for Mira, 7K"), From: "2026-11-25"},
		Reinstate: ReinstateForm{ID: "r", Withdrawals: optionsOf("Tube change, 23 Nov 2026")},
		Undo: TakeBackForm{Name: "undo", Action: "/people/p1/taking-back", Title: "Take back what was written down by mistake", Choices: optionsOf("Tracheostomy suctioning: taught, 3 Nov 2025"), Faults: Faults{
			What: "Nothing was taken back.", Fields: []FieldFault{{"reason", "Reason", "Say what is wrong with it."}}}},
		UndoPaper: TakeBackForm{Name: "undo-paper", Action: "/people/p1/papers/taking-back", Title: "Take a licence or card back", Choices: optionsOf("Resuscitation card, through 31 Oct 2026")},
		Card:      CardForm{Issuer: "Heart course", Faults: Faults{What: "The card was not added.", Fields: []FieldFault{{"printed_end", "Printed end", "Write it as 06/2027."}}}},
		Log:       LogForm{Skills: optionsOf("Circuit change for Mira, 7K"), On: "2026-11-25"}}
}

func clientSamples() map[string]Page {
	lines := []ClientLine{
		{"7K", "Mira", "/clients/c1", "/clients/c1/readiness", false, false, 3, 14, 6},
		{"4B", "Theo", "/clients/c2", "/clients/c2/readiness", true, true, 0, 14, 5},
		{"2C", "Zoë", "/clients/c3", "/clients/c3/readiness", false, false, 0, 0, 1},
		{"9D", "Ivo", "/clients/c4", "/clients/c4/readiness", true, false, 0, 14, 4},
	}
	return map[string]Page{
		"clients":      ClientsPage{Frame: coordinatorFrame("children"), GoingHome: 2, Clients: lines, New: "/clients/new"},
		"client":       clientSample(),
		"client-form":  ClientFormPage{Frame: coordinatorFrame("children"), New: true, Action: "/clients", ID: "new", Back: "/clients"},
		"client-fault": ClientFormPage{Frame: coordinatorFrame("children"), New: true, Action: "/clients", ID: "new", Code: "7K", Name: "Ada", Back: "/clients", Faults: Faults{What: "No child was added.", Why: "The code is taken.", Next: "Choose another.", Fields: []FieldFault{{"code", "Code", "7K belongs to another child of this agency."}}}},
		"parameter-form": ParameterFormPage{Frame: coordinatorFrame("children"), Action: "/clients/c1/parameters", ID: "new", Client: "Mira, 7K", Parameter: "suction-depth",
			Parameters: optionsOf("Suction depth", "Suction pressure, most"), Units: optionsOf("cm", "mm"), Was: "11.5 cm", Back: "/clients/c1"},
		"equipment-form": EquipmentFormPage{Frame: coordinatorFrame("children"), Action: "/clients/c1/equipment", ID: "new", Client: "Mira, 7K",
			Kinds: optionsOf("ventilator", "humidifier", "suction unit"), Type: "portable, single limb", From: "2026-11-25", Back: "/clients/c1"},
		"readiness":       readinessSample(),
		"readiness-empty": ReadinessPage{Frame: coordinatorFrame("children"), ID: "c1", Client: "Zoë", Code: "2C", Today: true, Day: "25 November 2026", Start: "/clients/c3/readiness", Back: "/clients/c3"},
		"readiness-sign": ReadinessPage{Frame: coordinatorFrame("children"), ID: "c2", Client: "Theo", Code: "4B", On: "2026-11-25", Day: "25 November 2026", Today: true, Ready: true, PDF: "/x.pdf", Meeting: "1 December 2026", Home: "4 December 2026",
			Met:  []Criterion{{ID: "k1", Name: "Two of the family can suction", Evidence: plainly("both, through 2027")}},
			Sign: PlanSignForm{Action: "/clients/c2/readiness/signature", ID: "s1", Version: "0", Name: "Ines Okafor", Licence: "RN CO-4471", Meaning: "I have read this plan.", Now: "25 Nov 2026, 10:02 MST"}},
		"plan-template-standard": PlanTemplatePage{Frame: coordinatorFrame("children"), Take: "/plan-template", Lines: []PlanLine{{Name: "The home is safe", Asks: "somebody’s word", SaidBy: "an educator or a coordinator", Source: "American Thoracic Society 2016, table 5, section 3"}}},
		"plan-template": PlanTemplatePage{Frame: coordinatorFrame("children"), Own: true, Drop: "/plan-template/standard", Lines: []PlanLine{{ID: "l1", Name: "The home is safe", Spanish: "La casa es segura", Asks: "somebody’s word", SaidBy: "a licensed clinician", Remove: "/plan-template/lines/l1/removal",
			Change: CriterionForm{Action: "/plan-template/lines/l1", Title: "The home is safe", Spanish: "La casa es segura", Says: "clinician", Sayers: optionsOf("an educator or a coordinator", "clinician"), Faults: Faults{What: "The line was not changed.", Fields: []FieldFault{{"title", "In words", "Say what must be met, in a short line."}}}}}},
			Add: CriterionForm{Action: "/plan-template/lines", ID: "l9", Kinds: optionsOf("family current", "attested"), Skills: optionsOf("Suctioning"), Counts: true, Timed: true, Lists: true, Sayers: optionsOf("an educator or a coordinator")}},
		"readiness-ready": ReadinessPage{Frame: motherFrame(), ID: "c2", Client: "Theo", Code: "4B", On: "2026-11-25", Day: "25 November 2026", Today: true, Ready: true, PDF: "/x.pdf", WhoSigns: "Who: an educator of the agency with a licence. By 1 December 2026.",
			Met: []Criterion{{ID: "k1", Name: "Two of the family can suction", Evidence: plainly("both, through 2027")}}},
		"readiness-signed": ReadinessPage{Frame: motherFrame(), ID: "c2", Client: "Theo", Code: "4B", On: "2026-11-25", Day: "25 November 2026", Today: true, Ready: true, Stands: true, Signed: "Ines Okafor, licence RN CO-4471, signed on 25 Nov 2026, 10:02 MST.", PDF: "/x.pdf",
			Met: []Criterion{{ID: "k1", Name: "Two of the family can suction", Evidence: plainly("both, through 2027")}}},
	}
}

func clientSample() ClientPage {
	return ClientPage{Frame: coordinatorFrame("children"), ID: "c1", Code: "7K", Name: "Mira", Since: "10 March 2026", Today: "2026-11-25", Edit: "/clients/c1/edit",
		Readiness: "/clients/c1/readiness", HomePapers: "/clients/c1/home-papers", Left: 3, All: 14, MayChange: true, MaySet: true, Standings: "/standings?client=c1", Missing: []string{"longest time off the ventilator"},
		Parameters: []Parameter{{"Suction depth", Worded{Text: "11.5"}, "cm", "Ines Okafor", "3 Nov 2026", "/clients/c1/parameters/new?parameter=suction_depth"},
			{"Longest suction", Worded{Text: "10"}, "s", "", "", "/clients/c1/parameters/new"}},
		Equipment: []Device{{"ventilator", "portable, single limb", "12 Nov 2026", []string{"bedside, dual limb until 12 Nov 2026"}, "/e"}, {"humidifier", "", "", nil, "/e"}},
		Team:      []Carer{{"Dana Orlova", "/people/p1", "nurse", "since 1 Sep 2026", "lapsed", 10, 12, "/clients/c1/team/p1/end"}, {"Nguyễn Thị Lan", "/people/p4", "mother", "since 1 Sep 2026", "learning", 9, 12, ""}},
		Needs:     []Need{{"Tracheostomy suctioning", "each carer", ""}, {"Humidifier", "each nurse, two of the family", "by equipment: heated humidifier"}},
		Join:      JoinForm{ID: "j", People: optionsOf("Ruth Adeyemi", "Imre Kovács"), From: "2026-11-25"}}
}

func readinessSample() ReadinessPage {
	evidence, waivers := "/clients/c1/readiness/evidence", "/clients/c1/readiness/waivers"
	return ReadinessPage{Frame: coordinatorFrame("children"), ID: "c1", Client: "Mira", Code: "7K", On: "2026-11-25", Day: "25 November 2026", Today: true,
		PDF: "/clients/c1/readiness.pdf", Back: "/clients/c1", MayEdit: true,
		Left: []Criterion{
			{ID: "k1", Name: "Two of the family can change the circuit", Left: []Todo{{plainly("Tomasz Rybak: once more, without help.")[0], "Who: Tomasz Rybak. It was due on 20 November 2026.", true}}, Standing: "learning", Act: Link{"Observe", "/demonstrations/new"}, Waive: CriterionWaiveForm{Action: waivers}},
			{ID: "k2", Name: "24 hours of care by the family alone", Left: []Todo{{plainly("In hospital, with help nearby: not started.")[0], "Who: the family. By 1 December 2026.", false}},
				Say: SayForm{Action: evidence, ID: "e1", Words: optionsOf("started", "ended", "not met"), Faults: Faults{What: "Nothing was kept.", Fields: []FieldFault{{"at", "When", "This lies in the future."}}}}, Change: CriterionForm{Action: "/clients/c1/readiness/criteria/k2", Title: "24 hours of care by the family alone", Timed: true, Hours: "24", Child: true, By: "2026-12-01", Responsible: "Ines Okafor", Sayers: optionsOf("an educator or a coordinator", "a licensed clinician")}, Remove: "/clients/c1/readiness/criteria/k2/removal"},
			{ID: "k3", Name: "Equipment at home", Left: []Todo{{plainly("back-up ventilator: delivered, not checked")[0], "Who: the agency.", false}}, Source: "American Thoracic Society 2016, recommendation 4c", Say: SayForm{Action: evidence, ID: "e2", Words: optionsOf("delivered", "met"), Items: optionsOf("ventilator", "back-up ventilator")}}},
		Waived: []Criterion{{ID: "k4", Name: "Second family caregiver for tube change", Evidence: plainly("waived by Ines Okafor: an aunt moves in on 1 December"), End: CriterionWaiveForm{Action: waivers + "/end"}}},
		Met: []Criterion{{ID: "k5", Name: "Two of the family can suction", Evidence: plainly("Tomasz Rybak, through 31 Oct 2027", "Nguyễn Thị Lan, through 30 Nov 2027"), Flags: []string{"Tomasz Rybak: holds only through 1 Dec 2026."}},
			{ID: "k6", Name: "Home and power", Foreign: "en", SaidBy: "a licensed clinician", Evidence: [][]wording.Piece{{{Text: "met, by Noor Haddadin: "}, {Text: "outlets and letter to the power company", Typed: true}}}}},
		Meeting: "1 December 2026", Days: PlanDaysForm{Action: "/clients/c1/readiness/days", Meeting: "2026-12-01", Faults: Faults{What: "The days were not set.", Fields: []FieldFault{{"home", "Going home", "This day is past. Choose today or later."}}}},
		Signed: "Ines Okafor, licence RN CO-4471, signed on 24 Nov 2026, 10:02 MST: “I have read this plan.”", Spanish: "/clients/c1/readiness.pdf?language=es", Pattern: "/plan-template",
		Shifts: []Shift{{"Dana Orlova", "Fri 4 Dec, 19:00 to 07:00", []string{"Tracheostomy suctioning"}, "/x"}, {"Ruth Adeyemi", "Sat 5 Dec, 07:00 to 19:00", nil, "/y"}},
		Plan:   ShiftForm{Action: "/clients/c1/readiness/shifts", People: optionsOf("Ruth Adeyemi")},
		Add:    CriterionForm{Action: "/clients/c1/readiness/criteria", ID: "k9", Kinds: optionsOf("family current", "attested"), Skills: optionsOf("Suctioning"), Counts: true, Timed: true, Lists: true}}
}

// partSample is what a surveyor sees who was let in for one child.
func partSample() PersonPage {
	p := personSample()
	p.Frame, p.Part, p.MaySeeRules = frameOf("Halina Wren", "survey", "surveyor"), true, false
	return p
}

// plainly are sentences of the program, with nothing in them that somebody typed.
func plainly(all ...string) [][]wording.Piece {
	var said [][]wording.Piece
	for _, text := range all {
		said = append(said, []wording.Piece{{Text: text}})
	}
	return said
}
