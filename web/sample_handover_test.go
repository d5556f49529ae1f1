package web

// handoverSamples are the pages of files that people take along.
func handoverSamples() map[string]Page {
	frame := coordinatorFrame("people")
	public := Frame{Demo: true}
	held := []HandoverLine{{Title: "Manual ventilation with a bag", Says: "was held, since 2 February 2026; it was to end after 28 February 2027"},
		{Title: "Tracheostomy suctioning", Says: "was withdrawn, since 4 February 2026", By: "for one child (number 1 in this file)"}}
	entries := []HandoverLine{{Number: 1, Title: "Manual ventilation with a bag", Says: "shown on 2 February 2026: competent, in simulation · checklist revision 2", By: "observed by Maximiliana-Konstantina Papadopoulou, RN 4411", Since: "It stands in the ledger here, and was not taken back."},
		{Number: 2, Title: "Tracheostomy suctioning", Says: "shown on 3 February 2026: competent, with the child · for one child (number 1 in this file)", By: "observed by Ines Varga, RN 4411", Signed: []string{"not signed by both: it did not count"}, Taken: "taken back on 5 February 2026: it did not count any more", Since: "Taken back since, on 6 February 2026."},
		{Number: 3, Title: "Tracheostomy suctioning", Says: "withdrawn on 4 February 2026", By: "by Ines Varga"}}
	known := HandoverCheckPage{Frame: public, Answer: "known", Fingerprint: "0A1B 2C3D 4E5F 6071 8293 A4B5 C6D7 E8F9", SHA256: "4f1e8d8a64b36c5d0f3ad7a8c0dbb8e1f4c2d10a6b0c7f9e2d3a4b5c6d7e8f90",
		Knows: []string{"Larkmoor Home Nursing knows this key as that of Elm Nursing."}, Of: "Elm Nursing", Who: "Nguyễn Thị Lan", Day: "5 February 2026", Made: "5 Feb 2026, 02:00 MST", Held: held, Entries: entries}
	here, unknown, ended, empty := known, known, known, known
	here.Answer, here.Knows, here.Later, here.Erased, here.Invented = "here", nil, []string{"6 February 2026"}, true, true
	unknown.Answer, unknown.Knows = "unknown", nil
	ended.Answer, ended.Knows = "ended", []string{"Larkmoor Home Nursing knew this key as that of Elm Nursing, and has not trusted it since 6 February 2026."}
	empty.Held, empty.Entries, empty.Gone = nil, nil, true
	line := "key-1a2b3c4d+04e95438+AddamAGCsQq31Uv+08lkBzoO4XLz2qYjJa8CGmj3B1Ea 01963f7a-0000-7000-8000-0000000000aa"
	waiting := NeighbourLine{ID: "n1", Name: "Elm Nursing", Fingerprint: known.Fingerprint, Signed: []string{"entered by Ruth Ames, 2 Feb 2026, 10:00 MST"}, Agree: "/neighbours/n1/agreement", End: "/neighbours/n1/end"}
	own, agreed, over := waiting, waiting, waiting
	own.ID, own.Agree, own.MayNot = "n2", "", "You have entered it: somebody else compares and agrees."
	agreed.ID, agreed.Agree, agreed.Signed = "n3", "", append(agreed.Signed, "agreed by Noor Haddadin, 3 Feb 2026, 10:00 MST")
	over.ID, over.Agree, over.End, over.Ended = "n4", "", "", "Ended by Noor Haddadin, 4 Feb 2026, 10:00 MST: Their key was lost."
	refused := waiting
	refused.Faults = Faults{What: "You have not agreed.", Why: "One thing needs mending.", Next: "Look below.", Fields: []FieldFault{{"compared", "Compared", "Compare the fingerprint first."}}}
	neighbours := NeighboursPage{Frame: frame, Here: "Larkmoor Home Nursing", Line: line, Fingerprint: known.Fingerprint, MayEnter: true, Known: []NeighbourLine{agreed}, Waiting: []NeighbourLine{waiting, own}, Ended: []NeighbourLine{over}}
	unsaved := neighbours
	unsaved.Waiting, unsaved.Name, unsaved.Typed = nil, "Elm", "key"
	unsaved.Faults = Faults{What: "Nothing was entered.", Fields: []FieldFault{{"line", "Their line", "Paste the whole line."}}}
	return map[string]Page{
		"handover":       HandoverPage{Frame: motherFrame(), Name: "Nguyễn Thị Lan", Own: true, File: "/people/p1/handover.json", Transcript: "/transcript.pdf?person=p1", CheckAt: "/check", Back: "/people/p1"},
		"handover-other": HandoverPage{Frame: frame, Name: "Maximiliana-Konstantina Papadopoulou-Wolfeschlegelsteinhausen", File: "/people/p1/handover.json", Transcript: "/transcript.pdf?person=p1", CheckAt: "/check", Back: "/people/p1"},
		"handover-check": known, "handover-check-here": here, "handover-check-unknown": unknown, "handover-check-ended": ended, "handover-check-empty": empty,
		"handover-check-changed": HandoverCheckPage{Frame: public, Answer: "changed", Changed: []string{"The signature does not fit what was signed.", "Changed: entry 2."}},
		"neighbours":             neighbours, "neighbours-none": NeighboursPage{Frame: frame, Here: "Larkmoor Home Nursing"}, "neighbours-fault": unsaved,
		"neighbours-refused": NeighboursPage{Frame: frame, Here: "Larkmoor Home Nursing", Line: line, Fingerprint: known.Fingerprint, Waiting: []NeighbourLine{refused}},
	}
}
