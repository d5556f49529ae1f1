package web

import "wellshown/assessment/wording"

func learningSamples() map[string]Page {
	frame, mother := coordinatorFrame("people"), motherFrame()
	lines := []LearningLine{
		{Skill: "Manual ventilation with a bag", Shape: "learning", Stage: "shown 1 of 3 times", By: "ready by 3 March 2026", Teacher: "Noor Haddadin", Run: "/learning/p8/practice?what=bagging+"},
		{Skill: "Tracheostomy suctioning", Client: "Mira, 7K", Shape: "practice", Stage: "practised 4 times", By: "ready by 12 March 2026", Notes: []string{"Comes after: Manual ventilation with a bag.", "This day is past.", "2 days are missing until then, with what comes first."}, Run: "/learning/p8/practice?what=suction+c1"},
		{Skill: "Changing the tracheostomy tube", Client: "Mira, 7K", Shape: "not started", Stage: "not begun", By: "ready by 1 April 2026", Notes: []string{"Standing: withdrawn."}, Run: "/learning/p8/practice?what=tube-change+c1"}}
	dates := PlanDates{Target: "To be ready by 1 April 2026: Mira goes home", Warns: []string{"This day is past. Ask for another one.", "4 days are missing for all of it. It takes 10 days, one skill after the other. There is enough time from 11 June 2026 on."}}
	taught := []TaughtLine{{Day: "28 Feb 2026", What: "Tracheostomy suctioning and Manual ventilation with a bag", How: "shown, explained and taught back", By: "45 minutes with Maximiliana-Konstantina Papadopoulou-Wolfeschlegelsteinhausen", Note: "Depth by the child’s card.", Href: "/teaching/t1"},
		{Day: "20 Feb 2026", What: "Go-bag", How: "shown", By: "one minute with Noor Haddadin", Back: "Corrected later: another entry stands in its place.", Href: "/teaching/t2"}}
	runs := []PracticeEntry{{Day: "1 Mar 2026", What: "Tracheostomy suctioning", How: "with Noor Haddadin beside: 9 steps alone, 3 with help, 1 not yet", Href: "/practice-runs/r1"}, {Day: "27 Feb 2026", What: "Go-bag", How: "alone: 2 steps alone, 0 with help, 0 not yet", Back: "Written down by mistake: another’s", Href: "/practice-runs/r2"}}
	skills := optionsOf("Tracheostomy suctioning", "Manual ventilation with a bag")
	teachers := append([]Option{{Text: "Choose who taught"}}, optionsOf("Noor Haddadin", "Ines Okafor")...)
	teach := TeachForm{Action: "/learning/p8/sessions", ID: "t9", On: "2026-03-01", Trainers: teachers, Clients: append([]Option{{Text: "no child"}}, optionsOf("Mira, 7K")...), Skills: skills, How: howBoxes, Beside: optionsOf("Nguyễn Thị Lan")}
	full := LearningPage{Frame: frame, ID: "p8", Name: "Łucja Żak", Answer: "3 skills are left to learn. Next: Manual ventilation with a bag", Next: "Show Manual ventilation with a bag to an observer. Needed: 2 competent demonstrations, one of them on another day.", Prints: []Link{{"Print it: English", "/learning/p8/plan.pdf?language=en"}}, Dates: dates, Lines: lines, Held: []Link{{"Go-bag, for Mira, 7K, through 1 Feb 2027", "/people/p8"}}, Taught: taught, Practice: runs, Days: "/learning",
		Target: TargetForm{Action: "/learning/p8/target", Goal: "going home", Goals: goalOptions(), On: "2026-04-01"}, Choose: ChooseForm{Action: "/learning/p8/choices", Skills: append([]Option{{Text: "Choose the skill"}}, skills...), Teachers: teachers}, Teach: teach}
	wrong := full
	wrong.Teach.Minutes, wrong.Teach.Faults = "0", Faults{What: "The session was not written down.", Why: "One thing needs mending.", Fields: []FieldFault{{"minutes", "Minutes", "Give whole minutes, from 1 to 1440, which is a day."}}}
	circle := LearningPage{Frame: frame, ID: "p8", Name: "Łucja Żak", Answer: "2 skills are left to learn", Dates: PlanDates{Circle: "Suctioning comes before Changing the tube, which comes before Suctioning. None of them can be learnt first: take one out of the prerequisites of another."}, Lines: lines[:2]}
	own := PlanPage{Frame: mother, Name: "Nguyễn Thị Lan", Answer: full.Answer, Next: full.Next, Print: "/learning/p1/plan.pdf", Dates: dates, Lines: ownRuns(lines), Held: 1, Taught: taught[1:], Practice: runs}
	own.Taught[0].Href = ""
	days := LearningDaysPage{Frame: coordinatorFrame("checklists"), Action: "/learning/days", Rows: []LearningDaysRow{{"Tracheostomy suctioning", "3 days: common practice, as long as you set none"}, {"Go-bag", "1 day"}}, Skills: full.Choose.Skills}
	badDays := days
	badDays.Days, badDays.Faults = "0", Faults{What: "The days were not kept.", Fields: []FieldFault{{"days", "Days", "Give whole days, from 1 to 365."}}}
	session := TeachingPage{Frame: educatorFrame("people"), Line: taught[0], Who: []Link{{"Łucja Żak: shown and explained", "/learning/p8"}}, Fix: teach, Of: []LearnerHow{{"how-p8", "Łucja Żak", howBoxes}}}
	badFix := session
	badFix.Fix.Faults = Faults{What: "The session was not corrected.", Fields: []FieldFault{{"reason", "Reason", "Say what is wrong with it. It stays readable."}}}
	steps := []PracticeStep{{"step-1", 1, "Wash your hands.", "alone", wentOptions(wording.In(wording.English), false)}, {"step-2", 2, "Choose a catheter of the size on the child’s card, and check that the suction unit draws at the pressure that is ordered.", "", wentOptions(wording.In(wording.English), false)}}
	practise := PractisePage{Frame: educatorFrame("people"), Name: "Łucja Żak", Back: "/learning/p8", Skill: "Tracheostomy suctioning", Action: "/learning/p8/practice", ID: "r9", Revision: "v1", What: "suction c1", Clients: teach.Clients, Helpers: teachers, Steps: steps}
	alone := practise
	alone.Frame, alone.Own, alone.Back, alone.Helpers = mother, true, "/plan", nil
	badRun := practise
	badRun.Faults = Faults{What: "The practice was not written down.", Fields: []FieldFault{{"done_on", "Done on", "This day is to come. Write it down once it was done."}, {"marks", "Steps", "Say of at least one step how it went."}}}
	run := PracticeRunPage{Frame: mother, Name: "Nguyễn Thị Lan", Back: "/plan", Entry: runs[0], Note: "Slow and sure.", Steps: []PracticeStepLine{{1, "Wash your hands.", "alone"}, {2, "Choose a catheter.", ""}}}
	back := run
	back.Frame, back.Undo, back.Faults = educatorFrame("people"), "/practice-runs/r1/taking-back", Faults{What: "Nothing was taken back.", Fields: []FieldFault{{"reason", "Reason", "Say what is wrong with it. It stays readable."}}}
	return map[string]Page{"learning": full, "learning-fault": wrong, "learning-circle": circle, "learning-none": LearningPage{Frame: frame, ID: "p8", Name: "Łucja Żak", Answer: "Nothing is left to learn"}, "plan": own, "plan-none": PlanPage{Frame: mother, Name: "Nguyễn Thị Lan", Answer: "Nothing is left to learn"},
		"learning-days": days, "learning-days-fault": badDays, "teaching": session, "teaching-fault": badFix, "teaching-none": TeachingPage{Frame: frame, Line: taught[1]}, "practise": practise, "practise-own": alone, "practise-fault": badRun, "practice-run": run, "practice-run-back": back}
}

func ownRuns(lines []LearningLine) []LearningLine {
	var all []LearningLine
	for _, l := range lines {
		l.Own = true
		all = append(all, l)
	}
	return all
}
