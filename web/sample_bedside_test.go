package web

import "strconv"

var stepTexts = []string{
	"Say why the circuit is being changed", "Name who will help and who does what", "Clean hands", "Wipe down the surface; let it dry",
	"Look at the child and read the oximeter", "Bag, mask, oxygen and suction in reach", "Open the new circuit; say type, size, date", "Check all parts for cracks",
	"New filter on the outlet", "Fill the water chamber to the line", "Join the parts in order", "Wipe each probe with alcohol", "Connect line, probe and cable", "Humidifier below the airway",
	"Cap unused ports", "Run the circuit test off the child", "Start on the test lung; read settings", "Open the patient end, alarm sounds", "Tell the child and helper; wait for “ready”",
	"Hold the tube at its plates. Old circuit off, new one on.", "Watch both sides of the chest rise; listen", "Read leak and pressure", "Stay; see the child back in range",
	"Humidifier on only now", "Read the airway temperature", "Tubing without drag", "Old circuit away; clean hands", "Write it down", "Say when you would stop and bag",
}

func stepLines(now, marked int) []StepLine {
	var all []StepLine
	for i, text := range stepTexts {
		line := StepLine{Number: i + 1, Text: text, Href: "/demonstrations/d3/marks/" + strconv.Itoa(i+1), Now: i+1 == now}
		if i < marked {
			line.Mark = "independent"
		}
		line.Critical = i%3 == 1
		all = append(all, line)
	}
	all[17].Values = "6 s"
	all[18].Mark = "cued"
	return all
}

func markButtons(chosen string) []MarkButton {
	var all []MarkButton
	for _, mark := range []string{"independent", "cued", "assisted", "not met", "unsafe"} {
		all = append(all, MarkButton{mark, mark == chosen})
	}
	return all
}

func markingSample() MarkingPage {
	lines := stepLines(20, 19)
	lines[3].Mark, lines[3].Open = "", "has no mark"
	return MarkingPage{Frame: educatorFrame(""), Skill: "Circuit change", Learner: "Tomasz Rybak", Client: "Mira, 7K", Real: true, Marked: 18, Total: 29,
		Before: lines[18:19], Steps: lines, Stop: "/demonstrations/d3/stop", Review: "/demonstrations/d3/review", Leave: "/today",
		Now: CurrentStep{Number: 20, Action: "/demonstrations/d3/marks/20", Text: stepTexts[19], Critical: "Pull-out, and time without breath.", Kind: "timed",
			Measures: []Measure{{Name: "time", Label: "Seconds, old off to new on", Unit: "s", UnitWords: "s", Accepts: "at most 30 s", Whose: "for Mira", Timed: true}},
			Marks:    markButtons(""), Earlier: "/demonstrations/d3/marks/19", Later: "/demonstrations/d3/marks/21"}}
}

func bedsideSamples() map[string]Page {
	values := markingSample()
	values.Before = values.Steps[20:21]
	values.Now = CurrentStep{Number: 22, Action: "/demonstrations/d3/marks/22", Text: "Read exhaled volume or leak, and pressure", Critical: "Shows leak or blockage.", Kind: "measured",
		Note: "Two values, both in range. Read the unit on the screen.",
		Measures: []Measure{
			{Name: "leak", Label: "Leak", Value: "24", Unit: "L/min", UnitWords: "L/min", OneOf: true, Accepts: "15 to 30 L/min", Whose: "for Mira"},
			{Name: "pressure", Label: "Peak pressure", Value: "31", Unit: "cmH2O", Units: []Option{{Value: "cmH2O", Text: "cmH2O"}, {Value: "kPa", Text: "kPa"}}, Accepts: "16 to 24 cmH2O", Whose: "for Mira", Outside: true}},
		Marks: markButtons("independent"), NotApply: "the ventilator shows neither", Remark: "Read it twice.", Earlier: "/x", Later: "/y"}
	values.Faults = Faults{What: "The mark was not kept.", Why: "A value is missing its number.", Next: "Type it, then mark again.", Fields: []FieldFault{{"value-leak", "Leak", "“2x4” is not a number."}, {"reason", "Why it does not apply", "Say why."}}}
	plain := markingSample()
	plain.Now.Measures, plain.Now.Kind, plain.Now.Critical, plain.Now.NotApply, plain.Real, plain.Practice = nil, "said aloud", "", "the child needs no word", false, true
	plain.Now.Text = "Tell the child and helper; wait for “ready”"
	all := markingSample()
	all.Now, all.Before, all.Marked = CurrentStep{}, nil, 29
	return map[string]Page{
		"marking": markingSample(), "marking-values": values, "marking-plain": plain, "marking-done": all,
		"stop": StopPage{Frame: educatorFrame(""), Skill: "Circuit change", Learner: "Tomasz Rybak", Client: "Mira, 7K", Action: "/demonstrations/d3/stop", Back: "/demonstrations/d3/marks/20"},
		"start": StartPage{Frame: educatorFrame("start"), ID: "new", Learners: optionsOf("Tomasz Rybak", "Sam Whitlock"), Skills: []Option{{Value: "circuit-change", Text: "Circuit change, revision 4"}},
			Clients: append([]Option{{Text: "no child: a general skill"}}, optionsOf("Mira, 7K")...), Observer: "Noor Haddadin", Cautions: []string{"Bag ventilation of Tomasz Rybak lapsed on 20 Nov. It comes before the circuit change."}},
		"start-fault": StartPage{Frame: educatorFrame("start"), ID: "new", Learners: optionsOf("Tomasz Rybak", "Sam Whitlock"), Skills: []Option{{Value: "circuit-change", Text: "Circuit change, revision 4"}}, Clients: optionsOf("Mira, 7K"), Setting: "real", Place: "home",
			Faults: Faults{What: "The demonstration was not started.", Why: "One thing is not chosen.", Next: "Choose it and begin.", Fields: []FieldFault{{"purpose", "It is", "Say whether it counts or is practice."}}}},
		"start-paper": StartPage{Frame: educatorFrame("start"), ID: "new", Learners: optionsOf("Tomasz Rybak", "Sam Whitlock"), Skills: []Option{{Value: "circuit-change", Text: "Circuit change, revision 4"}}, Clients: optionsOf("Mira, 7K"), Setting: "real", Place: "home", FromPaper: "yes", Printed: "3",
			Faults: Faults{What: "The demonstration was not begun.", Next: "Look at each one below; what you typed is still there.", Fields: []FieldFault{{"paper_revision", "Revision on the paper", "On 25 November 2026 revision 4 was in force, and the paper is of revision 3."}}}},
		"start-not": StartPage{Frame: educatorFrame("start"), MayNot: "Your appointment ended on 31 October 2026."},
	}
}

func recordSamples() map[string]Page {
	reasons := []Reason{{16, Worded{Text: "Critical step 16 was cued; it must be independent."}}, {18, Worded{Text: "The alarm took 19 s; at most 15 s is accepted. It counts as not met."}}, {0, Worded{Text: "The score is 24½ of 29; 95 in 100 is the pass mark."}}}
	steps := []RecordStep{{Number: 16, Text: stepTexts[15], Critical: true, Mark: "cued", Failed: true, Remark: "Needed to be told to wait for the result."},
		{Number: 17, Text: stepTexts[16], Critical: true, Mark: "independent"},
		{Number: 18, Text: stepTexts[17], Critical: true, Mark: "independent", Effective: "not met", Values: Worded{Text: "19 s; at most 15 s is accepted"}, Failed: true}}
	record := RecordPage{Frame: educatorFrame(""), At: "/demonstrations/d3", Skill: "Circuit change", SkillHref: "/revisions/r4", Revision: 4, Learner: "Tomasz Rybak", LearnerAt: "/people/p9", Observer: "Noor Haddadin, RN", Client: "Mira, 7K",
		Place: Worded{Text: "home"}, Performed: "Wed 25 Nov 2026, 14:05 MST", Real: true, Outcome: "not yet competent", Score: "24½ of 29, pass mark 95 in 100", Reasons: reasons,
		Sections: []RecordSection{{"Change it", steps}}, PDF: "/demonstrations/d3.pdf", MayCorrect: true, Correct: CorrectForm{Action: "/demonstrations/d3/correction"},
		Sign: []SignForm{{Action: "/demonstrations/d3/signature", As: "observer", Name: "Noor Haddadin", Meaning: "I observed and judged this.", Licence: "RN CO-4471", Now: "25 Nov 2026, 14:41 MST"},
			{Action: "/demonstrations/d3/signature", As: "learner", Name: "Tomasz Rybak", Meaning: "I showed this and we talked it over.", Hand: true}}}
	signed := record
	signed.Outcome, signed.Reasons, signed.Counts, signed.Acts, signed.Certificate, signed.Sign = "competent", nil, true, "It acts from 25 November 2026.", "/certificates/x", nil
	signed.Next = "/waiting"
	signed.Score = "28½ of 29, pass mark 95 in 100"
	signed.Sections = []RecordSection{{"", steps[1:2]}}
	signed.Signed = []Signature{{"Noor Haddadin, RN", "observer", "I observed and judged this.", "25 Nov 2026, 14:42 MST"}, {"Tomasz Rybak", "learner", "I showed this and we talked it over.", "25 Nov 2026, 14:44 MST"}}
	byPIN := record
	byPIN.PIN = true
	stopped := record
	stopped.TakenBack = []string{"Step 12 was marked unsafe; at 10:32 that was taken back."}
	stopped.Outcome, stopped.Stopped, stopped.Corrected = "stopped for safety", "The tube slid; I held it and gave breaths by bag.", "Taken back on 26 Nov 2026, 09:10 MST by Rolf Teague: another child was meant."
	counts := []MarkCount{{"independent", 26}, {"cued", 1}, {"not met", 1}, {"not applicable", 1}}
	bedside := signed
	bedside.Bedside = &BedsideLine{Device: "The ward’s grey tablet", Received: "27 Nov 2026, 08:12 MST", Clocks: "It showed 23 Nov 2026, 14:05 MST when this was begun and 25 Nov 2026, 08:12 MST when it was sent.",
		Gap: "The clock of the device was 2 days behind when it sent this.", Outcomes: "The device said not yet competent. The office says competent, and that stands.", NameChecked: "23 Nov 2026, 14:04 MST", LookedOver: "23 Nov 2026, 14:31 MST",
		Pace: []string{"9 steps were marked within 6 seconds, at 14:02.", "6 steps were marked within 1 second, at 14:20."}, TalkedOver: "Calm and in order. The clamp was forgotten once.", Practise: "The clamp, three times on the manikin.",
		Drawn: drawnPath([][]int{{80, 600, 130, 240, 190, 640, 260, 300, 340, 620}, {400, 640, 430, 380, 520, 420, 480, 640, 610, 500, 900, 470}, {300, 180}})}
	bedside.Sections = []RecordSection{{"Change it", []RecordStep{steps[1], steps[2]}}}
	bedside.Sections[0].Steps[0].At, bedside.Sections[0].Steps[1].At = "14:02:09", "14:02:31"
	plainly := stopped
	plainly.Bedside = &BedsideLine{Device: "My phone", Received: "25 Nov 2026, 16:40 MST"}
	fromPaper := signed
	fromPaper.FromPaper = "on paper; typed in on 25 Nov 2026, 18:20 MST"
	fromPaper.Pages = []PaperPage{{1, "photo or picture, SHA-256 5f20c1aa90b3e4d7…", "/demonstrations/d3/pages/1", ""}, {2, "scan of 6 pages, SHA-256 0b1f7c6622aa91ff…", "/demonstrations/d3/pages/2", ""}}
	typed := ReviewPage{Frame: educatorFrame(""), Skill: "Circuit change", Learner: "Tomasz Rybak", Client: "Mira, 7K", Action: "/demonstrations/d3/record", Back: "/demonstrations/d3/marks", Version: "29",
		Outcome: "competent", Score: "29 of 29, pass mark 95 in 100", Marks: counts, Steps: 29}
	bare, full, refused := typed, typed, typed
	bare.Paper = &PaperForm{Action: "/demonstrations/d3/pages", Revision: 4, Text: "3f2a-9c01-77de", Needed: true}
	full.Paper = &PaperForm{Revision: 4, Text: "3f2a-9c01-77de", Pages: []PaperPage{{1, "photo or picture, 412 kB", "/demonstrations/d3/pages/1", "/demonstrations/d3/pages/1/removal"}, {2, "scan of 6 pages, 1804 kB", "/demonstrations/d3/pages/2", "/demonstrations/d3/pages/2/removal"}}}
	refused.Paper = &PaperForm{Action: "/demonstrations/d3/pages", Revision: 4, Text: "3f2a-9c01-77de", Pages: full.Paper.Pages, Faults: Faults{What: "The page was not attached.", Why: "This file is too large: a page has at most 8 MB."}}
	return map[string]Page{
		"record-bedside": bedside, "record-bedside-plain": plainly, "record-paper": fromPaper, "review-paper": bare, "review-paper-full": full, "review-paper-refused": refused,
		"record": record, "record-pin": byPIN, "record-signed": signed, "record-stopped": stopped,
		"review-open": ReviewPage{Frame: educatorFrame(""), Skill: "Circuit change", Learner: "Tomasz Rybak", Client: "Mira, 7K", Back: "/demonstrations/d3/marks", Steps: 29, Marks: counts,
			Open: []OpenStep{{4, stepTexts[3], "has no mark", "/demonstrations/d3/marks/4"}, {22, stepTexts[21], "needs its value", "/demonstrations/d3/marks/22"}}},
		"review-stopped": ReviewPage{Frame: educatorFrame(""), Skill: "Circuit change", Learner: "Tomasz Rybak", Client: "Mira, 7K", Action: "/demonstrations/d3/record", Back: "/demonstrations/d3/marks", Outcome: "stopped for safety",
			Ended: true, Say: "/demonstrations/d3/stop", Stopped: "The tube slid; I held it and gave breaths by bag.", Resume: "/demonstrations/d3/resumption", Discard: "/demonstrations/d3/discarding", Marks: counts, Steps: 29},
		"review": ReviewPage{Frame: educatorFrame(""), Skill: "Circuit change", Learner: "Tomasz Rybak", Client: "Mira, 7K", Action: "/demonstrations/d3/record", Back: "/demonstrations/d3/marks", Version: "29",
			Outcome: "not yet competent", Score: "24½ of 29, pass mark 95 in 100", Reasons: reasons, Marks: counts, Steps: 29},
	}
}
