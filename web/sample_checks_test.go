package web

import "wellshown/assessment/wording"

func checkSamples() map[string]Page {
	mother := motherFrame()
	father := mother
	father.Language = wording.Spanish
	long := "When the catheter is at the depth mark and no mucus has come, and the child still works hard to breathe, what do you do?"
	own := []CheckLine{
		{Title: "Suctioning the tracheostomy", Shape: "open", Says: "Not passed yet. The last time, 7 of 10 were right.", Why: "The next try is from 27 Nov 2026, 09:14 on. Until then there is time to read and to ask.", Learn: "/learn/suction", Tries: linksTo("/sittings/s1", "26 Nov 2026: 7 of 10 right", "2 Nov 2026: 6 of 10 right")},
		{Title: "Giving breaths with the bag", Shape: "open", Says: "Not taken yet.", Why: "It comes before you show this skill to an educator.", Begin: "/checks/bagging/sittings", Learn: "/learn/bagging"},
		{Title: "When the tube comes out", Shape: "open", Says: "Passed before. It held through 2 Nov 2026.", GoOn: "/sittings/s2"},
		{Title: "The go-bag", Shape: "met", Says: "Passed. It holds through 2 Nov 2027.", Begin: "/checks/go-bag/sittings", Again: true},
	}
	all := []BankLine{{"Tracheostomy suctioning", "/checks/suction", "met", "Asked before it is shown: 10 questions, of which 9/10 must be right and every critical one.", "13 items in the bank; taken 24 times, passed 19 times"}, {"Bag ventilation", "/checks/bagging", "not started", "Not asked.", "No items yet; starter items can be taken in"}}
	at := SittingPage{Frame: mother, Title: "Suctioning the tracheostomy", Action: "/sittings/s2/answers", HandIn: "/sittings/s2/handing-in", Place: 3, Of: 10, Ask: long, Pause: "/checks"}
	options := []string{"Push on until you feel it stop, then pull back a little.", "Go no deeper, and draw back with suction.", "Hold it there."}
	single, order, bad, number := at, at, at, at
	single.Fields = []Field{choice(Faults{}, "radios", "Choose one", options, []int{2})}
	order.How, order.Place = "Give each step its place: 1 comes first.", 10
	for i, text := range options {
		order.Fields = append(order.Fields, selected(Faults{}, "place", i, text, "Place", numbersTo(3), 0))
	}
	bad = order
	bad.Fields = append([]Field(nil), order.Fields...)
	bad.Fields[0].Value, bad.Fields[1].Value, bad.Fields[0].Fault = "1", "1", "Give each step a place of its own."
	bad.Faults = Faults{What: "This answer is not kept yet.", Next: "Look below. What you typed is still there.", Fields: []FieldFault{{"place-1", bad.Fields[0].Label, bad.Fields[0].Fault}}}
	number.Fields = []Field{{ID: "field-value", Name: "value", Label: "Number", Kind: "number", Value: "2,5", Either: true}, {ID: "field-unit", Name: "unit", Label: "Unit", Kind: "radios", Value: "s", Either: true, Options: optionsOf("s", "min")}}
	over := SittingPage{Frame: mother, Title: at.Title, HandIn: at.HandIn, Of: 2, Open: 1, Pause: "/checks", Questions: []SittingLine{{1, long, "/sittings/s2?question=1", true}, {2, "How long may one pass last?", "/sittings/s2?question=2", false}}}
	done := over
	done.Open, done.Questions = 0, over.Questions[:1]
	late := SittingPage{Frame: mother, Title: at.Title, HandIn: at.HandIn, Of: 10, Open: 4, Pause: "/checks", Until: "26 Nov 2026, 09:14", Over: true, TooLate: true}
	reader := single
	reader.Frame, reader.Reader, reader.Until = educatorFrame("home"), true, "26 Nov 2026, 13:14"
	watched := SittingPage{Frame: educatorFrame("home"), Title: at.Title, Of: 10, Open: 4, Watched: "Nguyễn Thị Lan", Until: "26 Nov 2026, 13:14 MST"}
	items := []ResultItem{
		{Right: true, Ask: "Which signs tell you that suction is needed?", Given: []string{"Bubbling in the tube.", "Mucus at the end."}, Teach: "Suction when the child shows the need."},
		{Critical: true, Ask: long, Given: options[:1], Wanted: options[1:2], Teach: "Beyond the mark the catheter can wound the airway."},
		{Ask: "You check the bag. Match each move with what you hope to see.", Given: []string{"Let the bag go. → The bag resists."}, Wanted: []string{"Block the outlet and squeeze. → The bag resists: it does not leak.", "Let the bag go. → The bag fills again, ready for the next breath."}, Teach: "Some bags fail such tests."},
		{Ask: "How long may one pass last?", Wanted: []string{"15 s"}, Teach: "Little or no air gets in during a pass."}}
	failed := SittingResultPage{Frame: mother, Title: at.Title, On: "26 Nov 2026, 09:14", Right: 7, Of: 10, Critical: []string{long}, Next: own[0].Why, Learn: "/learn/suction", Print: "/sittings/s1/check.pdf", Present: "What was answered is written down. Whether somebody helped, it cannot tell.", Items: items}
	passed := failed
	passed.Passed, passed.Right, passed.Critical, passed.Next, passed.Through, passed.Items = true, 10, nil, "", "26 Nov 2027", items[:1]
	again := failed
	again.Next, again.Begin, again.Critical = "You may try again now.", "/checks/suction/sittings", nil
	tooLate, waits := failed, passed
	tooLate.Late = "It was open until 26 Nov 2026, 09:14 and was handed in after that. So it is no pass, whatever was answered. All that was answered in time is kept."
	waits.Frame, waits.Whose, waits.Waits, waits.Through, waits.Say = educatorFrame("home"), "Noor Haddadin", true, "", &PresenceForm{Action: "/sittings/s1/presence"}
	waits.Reader = "Whoever took this check could read what it asks, because of their work here. So it counts once another educator says that a trainer was there."
	seen := failed
	seen.Frame, seen.Whose, seen.Say = educatorFrame("home"), "Nguyễn Thị Lan", &PresenceForm{Action: "/sittings/s1/presence"}
	spanish := failed
	spanish.Frame = father
	rule := CheckRuleForm{Asked: "to learn", Length: "10", PassMark: "9/10", Months: "12", WaitHours: "24", Tries: "3", OpenFor: "240", Ways: optionsOf("not asked", "to learn", "before it is shown")}
	bank := CheckBankPage{Frame: educatorFrame("checklists"), Title: "Tracheostomy suctioning", At: "/checks/suction", Asked: all[0].Says, By: "Noor Haddadin, 2 Nov 2026, 09:14 MST", May: true, New: "/checks/suction/new-item", Few: 20, Rule: rule, Bank: BankForm{Text: "skill: suction\nitems: []\n"},
		People:  []CheckPerson{{"Nguyễn Thị Lan", "/people/p2", "open", "Not passed yet.", linksTo("/sittings/s1", "26 Nov 2026: 7 of 10 right, 1 critical missed")}, {"Dana Orlova", "/people/p1", "met", "Passed on 2 Nov 2026, holds through 2 Nov 2027.", nil}},
		Print:   []Tongue{{"English", "en", "/checks/suction/questions.pdf?in=en"}, {"Español", "es", "/checks/suction/questions.pdf?in=es"}},
		Items:   []CheckItemLine{{ID: "suction-02", Href: "/checks/suction/items/suction-02", Ask: long, Sort: "single, middling, critical", Source: "UK National Tracheostomy Safety Project", Says: "18 of 24 right, 75 %.", Also: []string{"Version 1, 1 Nov 2026 to 2 Nov 2026: 3 of 4 right. So few answers say little."}, By: "version 2, Noor Haddadin, 2 Nov 2026", Retire: "/checks/suction/items/suction-02/retirement"}},
		Retired: []CheckItemLine{{ID: "suction-09", Href: "/checks/suction/items/suction-09", Ask: "Which size?", Sort: "match, hard", Source: "common practice, no source", Says: "Not asked yet.", By: "version 1, Noor Haddadin, 2 Nov 2026", Retire: "/checks/suction/items/suction-09/retirement", Gone: true}}}
	bankFault := bank
	bankFault.Rule.PassMark, bankFault.Rule.Faults = "11/10", Faults{What: "The rule was not set.", Why: "One thing needs mending.", Fields: []FieldFault{{"pass_mark", "Share that must be right", "Give the share that must be right, such as 9/10 or 90 %, at most all."}}}
	textFault := bank
	textFault.Bank.Faults = Faults{What: "Nothing was taken in.", Why: "One thing needs mending.", Fields: []FieldFault{{"items", "Items", "The items cannot be read."}}}
	none := CheckBankPage{Frame: educatorFrame("checklists"), Title: "Bag ventilation", At: "/checks/bagging", Asked: "Not asked.", Starter: 14, May: true, New: "/checks/suction/new-item", Few: 20, Rule: rule}
	looks := none
	looks.Frame, looks.May, looks.New, looks.Starter = coordinatorFrame("checklists"), false, "", 0
	return map[string]Page{
		"checks": ChecksPage{Frame: mother, Takes: true, Left: 3, Own: own}, "checks-spanish": ChecksPage{Frame: father, Takes: true, Left: 3, Own: own}, "checks-none": ChecksPage{Frame: mother, Takes: true}, "checks-done": ChecksPage{Frame: mother, Takes: true, Own: own[3:]},
		"checks-staff": ChecksPage{Frame: educatorFrame("checklists"), Takes: true, Left: 1, Own: own[1:2], All: all}, "sitting": single, "sitting-order": order, "sitting-order-fault": bad, "sitting-number": number, "sitting-over": over, "sitting-done": done, "sitting-watched": watched,
		"sitting-result": failed, "sitting-result-passed": passed, "sitting-result-again": again, "sitting-result-seen": seen, "sitting-result-spanish": spanish,
		"check-bank": bank, "check-bank-fault": bankFault, "check-bank-text-fault": textFault, "check-bank-none": none, "check-bank-reader": looks, "sitting-late": late, "sitting-reader": reader, "sitting-result-late": tooLate, "sitting-result-waits": waits,
	}
}
