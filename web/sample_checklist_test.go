package web

import "wellshown/assessment/wording"

// piece is a text that the program says; nothing where it says nothing.
func piece(text string) []wording.Piece {
	if text == "" {
		return nil
	}
	return []wording.Piece{{Text: text}}
}

func checklistSamples() map[string]Page {
	frame := coordinatorFrame("checklists")
	ours := []RevisionLine{
		{"Circuit change", "/revisions/r5", 5, "draft", "20 Nov 2026", 29, 20, true, true},
		{"Circuit change", "/revisions/r4", 4, "in force", "1 Sep 2026", 29, 20, true, false},
		{"Tracheostomy suctioning", "/revisions/r3", 4, "in force", "1 Sep 2026", 22, 10, true, false},
		{"Bag ventilation", "/revisions/r2", 1, "retired", "1 Sep 2026", 20, 13, false, false}}
	states := append([]Option{{Text: "any state"}}, optionsOf("in force", "draft", "retired")...)
	changes := []Change{
		{"changed", "Step 18", "Open the patient end: the alarm sounds within 20 s", "Open the patient end: the alarm sounds within 15 s"},
		{"added", "Step 23", "", "Stay and see the child back in range, 120 s"},
		{"removed", "Step 27", "Warm the circuit before use", ""},
		{"changed", "Policy", "Valid 24 months", "Valid 12 months"}}
	var compared []ChangeSaid
	for _, c := range changes {
		compared = append(compared, ChangeSaid{c.How, piece(c.Where), piece(c.Before), piece(c.After)})
	}
	return map[string]Page{
		"draft-changed": DraftPage{Frame: frame, Skill: "Circuit change", Number: 5, Action: "/revisions/r5/source", Version: "a1", Read: "code: circuit-change\n", Changed: true, Changes: changes, Back: "/revisions/r5",
			Source: "code: circuit-change\ntitle: Circuit change\n", Faults: Faults{What: "The draft was not changed.", Why: "Somebody else was first."}},
		"in-force-changed": InForcePage{Frame: frame, Skill: "Circuit change", Number: 5, Action: "/revisions/r5/in-force", Policy: policySample(), Reviewer: "Ines Okafor", Back: "/revisions/r5",
			Version: "a1", Read: "code: circuit-change\n", Changed: true, Faults: Faults{What: "Revision 5 is still a draft.", Why: "Somebody has saved it since."}},
		"checklists": ChecklistsPage{Frame: frame, Checks: true, States: states, Ours: ours, Upload: "/revisions", InForce: 9, Drafts: 1, MayForce: true,
			Starter: []StarterLine{{"Emergency: tube comes out", "/catalogue/decannulation", "/catalogue/decannulation", false, 16, 12}, {"Tube change", "/catalogue/tube-change", "", true, 25, 16}}},
		"checklists-file-fault": ChecklistsPage{Frame: frame, States: states, Upload: "/revisions", Faults: Faults{
			What: "No draft was made.", Why: "The file has a fault.", Next: "Mend it and send the file again.",
			Fields: []FieldFault{{"file", "File", "circuit.yaml, line 41, step 12: “timed” needs a limit in seconds."}}}},
		"checklist": checklistSample(frame, "in force", 4),
		"checklist-starter": ChecklistPage{Frame: frame, Skill: "Emergency: tube comes out", State: "starter", Adopt: "/catalogue/decannulation/drafts",
			Sections: []Section{{Steps: []Step{{Number: 1, Text: "See it and say “tube is out”", Kind: "timed", Accepts: Worded{Text: "at most 10 s"}, Critical: "recognition starts everything", Least: "independent", Weight: 1}}}}},
		"compare": ComparePage{Frame: frame, Skill: "Circuit change", Older: 4, Newer: 5, Action: "/revisions/r5/compare", With: "r4", Others: []Option{{Value: "r4", Text: "revision 4"}, {Value: "r3", Text: "revision 3"}}, Changes: compared, Back: "/revisions/r5"},
		"draft": DraftPage{Frame: frame, Skill: "Circuit change", Number: 5, Action: "/revisions/r5/source", Lines: []SourceLine{{41, 12, "sections[1].steps[3].kind", "  - kind: timed", "“timed” needs a limit in seconds."}}, Discard: "/revisions/r5/discarding", Back: "/revisions/r5",
			Source: "code: circuit-change\ntitle: Circuit change\n", Faults: Faults{What: "The draft was not changed.", Why: "The text has two faults.", Next: "Mend them and save again.",
				Fields: []FieldFault{{"source", "Line 41, step 12", "“timed” needs a limit in seconds."}, {"source", "Line 60, step 18", "the weight must be 1 or more."}}}},
		"in-force": InForcePage{Frame: frame, Skill: "Circuit change", Number: 5, Action: "/revisions/r5/in-force", Replaces: 4, Holders: 12, Policy: policySample(),
			Reviewer: "Ines Okafor", Licence: "RN 40981", Now: "18 Nov 2026, 15:42 MST", Compare: "/revisions/r5/compare?with=r4", Back: "/revisions/r5", RecheckBy: "2027-02-28",
			Faults: Faults{What: "Revision 5 is still a draft.", Why: "The password does not fit.", Next: "Type it once more.", Fields: []FieldFault{{"password", "Your password", "It does not fit."}, {"reviewed", "Review", "Tick it only when it is true."}}}},
	}
}

func policySample() []string {
	return []string{"Three competent demonstrations in a row, on at least two days, one of them with the child.",
		"Every critical step independent; score at least 95 in 100; at most two cued steps.",
		"Holds 12 months. Can be renewed in the last 60 days by one competent demonstration.",
		"Lapsed for more than 24 months: the full award again."}
}

func checklistSample(frame Frame, state string, number int) ChecklistPage {
	return ChecklistPage{Frame: frame, Skill: "Single-limb heated ventilator circuit change", Number: number, State: state, Since: "1 Sep 2026", Specific: true,
		Intro:     "When it is soiled, damaged or failed its test, at the maker’s limit, or by order; not by a fixed weekday.",
		Equipment: []string{"new circuit of the ordered type and size", "test lung", "bag with mask and tracheostomy connection"},
		Before:    linksTo("/revisions/x", "Circuit self-test", "Bag ventilation"), Related: linksTo("/revisions/x", "Humidifier"),
		Policy: policySample(), Needs: []string{"longest time off the ventilator", "ventilator settings"},
		Reviewed: []Signature{{"Ines Okafor, registered nurse", "reviewer", "I have read every step and every limit.", "1 Sep 2026, 10:02 MST"}},
		BlankPDF: "/revisions/r4/blank.pdf", Start: "/demonstrations/new?revision=r4", Compare: "/revisions/r4/compare", Retire: "/revisions/r4/retirement", Next: "/skills/s1/revisions",
		Sections: []Section{{Title: "Get ready", Steps: []Step{
			{Number: 1, Text: "Say why the circuit is being changed and check the order", Kind: "said aloud", Weight: 1, Note: Worded{Text: "soil, damage, failed test, maker’s limit, order"}},
			{Number: 2, Text: "Name who will help and who does what", Kind: "said aloud", Critical: "a child off the ventilator needs a free pair of hands", Least: "independent", Weight: 1, NotApply: Worded{Text: "the child’s sheet says that one caregiver may do it alone"}},
			{Number: 3, Text: "Clean hands", Kind: "timed", Accepts: Worded{Text: "at least 20 s rub, or 40 s wash"}, Critical: "infection", Least: "independent", Weight: 1}}},
			{Title: "Change it", Steps: []Step{
				{Number: 20, Text: "Hold the tube at its plates, take off the old circuit and fit the new one", Kind: "timed", Accepts: Worded{Text: "at most {off_vent_max} s"}, Critical: "pull-out and time without breath", Least: "independent", Weight: 2}}}}}
}

func officeSamples() map[string]Page {
	people := optionsOf("Ruth Adeyemi", "Imre Kovács")
	skills := optionsOf("Tracheostomy suctioning", "Circuit change", "Tube change")
	checks := optionsOf("Tracheostomy suctioning", "Circuit change")
	checks[0].Chosen = true
	proposed := AppointmentLine{ID: "a2", Name: "Ruth Adeyemi", Href: "/people/p5", Skills: "suctioning, tube change", Licence: "Registered nurse RN-118820, state board",
		Evidence: "12 years at the regional children’s hospital; letter on file", From: "1 Dec 2026", Through: "30 Nov 2027",
		Signed: []Signature{{Name: "Ines Okafor", As: "proposed", At: "24 Nov 2026, 09:10 MST"}}, Agree: "/appointments/a2/agreement"}
	mine := proposed
	mine.ID, mine.Agree, mine.MayNot = "a3", "", "You proposed it, so somebody else must agree."
	agreed := proposed
	agreed.ID, agreed.Name, agreed.Agree, agreed.End = "a1", "Noor Haddadin", "", "/appointments/a1/end"
	return map[string]Page{
		"requirements": RequirementsPage{Frame: coordinatorFrame("people"), MayAdd: true, ID: "new", Skills: skills, Kinds: append([]Option{{Text: "everybody"}}, optionsOf("nurse", "aide", "family")...),
			Clients: append([]Option{{Text: "any child"}}, optionsOf("Mira, 7K")...), Devices: append([]Option{{Text: "any equipment"}}, optionsOf("Heated humidifier")...), From: "2026-11-25",
			Lines: []RequirementLine{{Skill: "Bag ventilation", Who: "each caregiver", From: "1 Jan 2025", End: "/requirements/q1/end"},
				{Skill: "Humidifier", Who: "each nurse, for children with: humidifier", From: "1 Jan 2027", Through: "31 Dec 2027", Later: true}}},
		"appointments": AppointmentsPage{Frame: coordinatorFrame("people"), Proposed: []AppointmentLine{proposed, mine}, Agreed: []AppointmentLine{agreed}, Observers: 1, Ended: []AppointmentLine{agreed}[:0],
			MayAdd: true, ID: "new", People: people, Skills: checks, From: "2026-11-25"},
		"papers": PapersPage{Frame: coordinatorFrame("papers"), On: "2026-11-25", Within: "90", Group: "caregiver", Clients: optionsOf("Mira, 7K", "Theo, 4B"), People: people, Skills: skills,
			Recent: []PaperLine{{"Tracheostomy suctioning · Nguyễn Thị Lan", "18 Nov 2026", "/certificates/x", "/certificates/x.pdf"}}},
	}
}
