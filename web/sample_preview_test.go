package web

// brokenSample is a shift that a change would break.
func brokenSample() []CoverLine {
	return []CoverLine{{ID: "s1", Href: "/coverage/shifts/s1", Client: "Mira, 7K", Carer: "Ruth Adeyemi", When: "Thu 3 Dec 2026, 19:00–07:00", Word: "breaks", Shape: "stopped", Act: "See the shift",
		Why: []string{"Ruth Adeyemi is not current in Tracheostomy suctioning for Mira on 3 Dec 2026: withdrawn."}, Source: "of a weekly pattern"}}
}

func previewSample() Preview {
	return Preview{Told: true, Answer: "Two people change standing, and 1 shift breaks that does not break now", Reach: "Standings on every day from today on, and the shifts through Thursday 28 January 2027, as they are now. Nothing has been changed.",
		People: []PreviewPerson{
			{Name: "Nguyễn Thị Lan", Href: "/people/p2", Kind: "mother", Shape: "lapsed", Changes: []PreviewChange{{"Circuit change", "Mira, 7K", []PreviewTurn{{"current", "lapsed", "1 Mar 2027 to 24 Jul 2027"}}}}},
			{Name: "Ruth Adeyemi", Href: "/people/p5", Kind: "nurse", Shape: "lapsed", Changes: []PreviewChange{{"Circuit change", "Mira, 7K", []PreviewTurn{{"current", "due", "28 Jan 2027 to 28 Feb 2027"}, {"current", "lapsed", "from 1 Mar 2027 on"}}}}}},
		Broken: brokenSample(), Otherwise: brokenSample(), OtherwiseWords: "One shift breaks already, and would for other reasons", More: "And 3 more.", Mended: brokenSample()}
}

func nothingSample() Preview {
	return Preview{Told: true, Asked: true, Answer: "It changes nobody’s standing and breaks no shift", Reach: previewSample().Reach}
}

func proposalSample() ProposalPage {
	return ProposalPage{Frame: educatorFrame("checklists"), Skill: "Circuit change", Number: 5, By: "Ines Okafor", When: "24 Nov 2026, 09:10 MST", Statement: "Two alarms after changes in spring; reviewed against the makers’ instructions.",
		Recheck: "28 Feb 2027", Replaces: 4, Compare: "/revisions/r5/compare?with=r4", Policy: policySample(), Read: "/revisions/r5", Preview: previewSample(), Seen: "x.y", Agree: "/proposals/q1/agreement",
		Reviewer: "Noor Haddadin", Licence: "RN 40981", Now: "25 Nov 2026, 07:02 MST", Dropping: "/proposals/q1/dropping", Back: "/checklists"}
}

func proposalLinesSample() []ProposalLine {
	return []ProposalLine{{"/proposals/q1", "Circuit change", 5, "Ines Okafor", "24 Nov 2026, 09:10 MST", "28 Feb 2027", false}, {"/proposals/q2", "Tube change", 2, "Noor Haddadin", "23 Nov 2026, 16:40 MST", "", true}}
}

func previewSamples() map[string]Page {
	mine := proposalSample()
	mine.Mine, mine.Agree, mine.Preview = true, "", Preview{}
	refused := proposalSample()
	refused.Faults = Faults{What: "It is not in force.", Why: "What this changes is not what you looked at: something has changed since.", Next: "Look at it as it is now."}
	refused.Drop = Faults{What: "Nothing was changed.", Fields: []FieldFault{{"reason", "What is to be changed first", "Say what is to be changed first."}}}
	not := proposalSample()
	not.Agree, not.Preview, not.MayNot = "", Preview{}, "One person alone could have been both."
	declined := proposalSample()
	declined.Agree, declined.Dropping, declined.Preview, declined.Verdict, declined.Ended, declined.Reason, declined.Read = "", "", Preview{}, "declined", "Declined by Noor Haddadin, 25 Nov 2026, 07:02 MST.", "Twenty-eight days are too short for us.", ""
	proposing := InForcePage{Frame: educatorFrame("checklists"), Skill: "Circuit change", Number: 5, Action: "/revisions/r5/in-force", Replaces: 4, Holders: 12, Policy: policySample(), Reviewer: "Noor Haddadin", Preview: previewSample(),
		Seen: "x.y", RecheckBy: "2027-02-28", Declined: "Ines Okafor, 24 Nov 2026, 09:10 MST: “Say which alarm.”", Back: "/revisions/r5"}
	cannot := proposing
	cannot.Preview, cannot.NoPreview, cannot.Declined = Preview{}, "This day is past. Choose today or later.", ""
	fit := EquipmentFormPage{Frame: coordinatorFrame("children"), Action: "/clients/c1/equipment", ID: "new", Client: "Mira, 7K", Kinds: optionsOf("ventilator", "humidifier"), Kind: "ventilator", Type: "portable turbine", From: "2026-12-01", Back: "/clients/c1", Preview: previewSample()}
	waits := checklistSample(educatorFrame("checklists"), "draft", 5)
	waits.Waits, waits.Proposal, waits.Reviewed, waits.Start, waits.Retire = "Ines Okafor has proposed on 24 Nov 2026, 09:10 MST to put it in force.", "/proposals/q1", nil, "", ""
	return map[string]Page{"proposal": proposalSample(), "proposal-mine": mine, "proposal-refused": refused, "proposal-not": not, "proposal-declined": declined, "in-force-preview": proposing, "in-force-cannot": cannot,
		"equipment-preview": fit, "requirements-preview": RequirementsPage{Frame: coordinatorFrame("people"), MayAdd: true, ID: "new", Skills: optionsOf("Bag ventilation"), Kinds: optionsOf("nurse"), Clients: optionsOf("Mira, 7K"), Devices: optionsOf("Heated humidifier"), From: "2026-11-25", Preview: nothingSample()},
		"checklist-waits": waits, "waiting-proposals": WaitingPage{Frame: educatorFrame(""), First: true, Proposals: proposalLinesSample()},
		"educator-today-proposals": EducatorTodayPage{Frame: educatorFrame("today"), Today: "Wednesday 25 November 2026", Proposals: proposalLinesSample(), Decide: 1, Me: "/people/p1"}}
}
