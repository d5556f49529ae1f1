package web

import (
	"wellshown/assessment/catalog"
	"wellshown/assessment/wording"
)

func drillSamples() map[string]Page {
	all, err := catalog.Scenarios("decannulation")
	if err != nil {
		panic(err) // the program does not start without them either
	}
	en, es := scenarioIn(all[0], "en"), scenarioIn(all[0], "es")
	times := []string{"Recognised after 4 s.", "Acted after 31 s.", "Called for help after 9 s."}
	lines := []ScenarioLine{{en.Title, "/scenarios/decannulation-01", "A starter: a draft until a licensed clinician has read it. Not used yet.", false}, {"The tube is out at the playground, and nobody is near who knows the child", "/scenarios/decannulation-own-1", "Your agency's, version 3, by Noor Haddadin on 2 Nov 2026, 09:14 MST.", true}}
	desk := DrillsPage{Frame: educatorFrame("checklists"), Begin: "/drills/new", Write: "/scenarios/new", Skills: []DrilledSkill{{"Emergency: tube comes out (accidental decannulation)", "/drills/new?skill=decannulation", lines}, {"Emergency: blocked tube", "", nil}},
		Last: []DrillLine{{"Nguyễn Thị Lan", "Emergency: tube comes out (accidental decannulation)", "/demonstrations/d4", "competent", "25 Nov 2026, " + en.Title + ", for Mira, 7K", times}, {"Tomasz Rybak", "Emergency: blocked tube", "/demonstrations/d5", "stopped for safety", "24 Nov 2026, A plug during an outing", []string{"It was stopped before any moment was put down."}}}}
	reader := desk
	reader.Frame, reader.Begin, reader.Write, reader.Last = coordinatorFrame("checklists"), "", "", nil
	shown := ScenarioPage{Frame: educatorFrame("checklists"), Title: en.Title, Skill: desk.Skills[0].Title, Says: lines[1].Says, Source: all[0].Source, After: "after 45 seconds", Texts: []ScenarioShown{en, es}, Older: []ScenarioOlder{{lines[0].Says, []ScenarioShown{en, es}}},
		Begin: "/drills/new?skill=decannulation&scenario=decannulation-01", Edit: "/scenarios/decannulation-01/edit", Retire: "/scenarios/decannulation-01/retirement"}
	retired := shown
	retired.Retired, retired.Begin, retired.After = true, "", ""
	form := ScenarioFormPage{Frame: educatorFrame("checklists"), Action: "/scenarios/decannulation-01", Title: en.Title, Stands: "/scenarios/decannulation-01", Version: "3", Source: all[0].Source, After: "45", EN: en, ES: es}
	fresh := ScenarioFormPage{Frame: educatorFrame("checklists"), Action: "/scenarios", Skills: optionsOf("Emergency: blocked tube"), Faults: Faults{What: "The scenario was not kept.", Next: "Look below. What you typed is still there.", Fields: []FieldFault{{"es_read", "Spanish: what is read out", "This is empty. Both languages are asked for."}, {"then_after", "Read out the second part after", "Give whole seconds, from 1 to 3600, or nothing."}}}}
	start := DrillStartPage{Frame: educatorFrame("start"), ID: "new", Learners: optionsOf("Tomasz Rybak, nurse", "Nguyễn Thị Lan, mother"), Skills: []Option{{Value: "decannulation", Text: desk.Skills[0].Title}}, Clients: optionsOf("Mira, 7K"), Scenarios: optionsOf("draw one at random", en.Title), Observer: "Noor Haddadin",
		Cautions: []string{"Not current in what comes first: Bag ventilation. Show that first, or make this a practice."}}
	startFault := start
	startFault.Cautions, startFault.Purpose, startFault.Faults = nil, "practice", Faults{What: "The drill was not begun.", Fields: []FieldFault{{"scenario", "Scenario", "This scenario is not offered for this skill. Choose another, or have one drawn."}, {"purpose", "It is", "Say whether it counts or is practice."}}}
	moments := []DrillMoment{{"recognised", "Recognised", en.Recognise, ""}, {"acted", "Acted", en.Act, ""}, {"called", "Called", en.Call, ""}}
	drill := DrillPage{Frame: educatorFrame(""), ID: "d4", Action: "/demonstrations/d4/drill", Skill: desk.Skills[0].Title, Learner: "Nguyễn Thị Lan", Client: "Mira, 7K", Text: en, Other: es, ThenAfter: 45, How: "Drawn at random out of 3.", Moments: moments, Stop: "/demonstrations/d4/stop", Leave: "/", Marks: "/demonstrations/d4/marks"}
	spanish := drill
	spanish.Text, spanish.Other, spanish.ThenAfter, spanish.Practice = es, en, 0, true
	timed := drill
	timed.Timed, timed.TakenBack = true, []string{"“Acted” at 2 s was taken back."}
	timed.Moments = []DrillMoment{{"recognised", "Recognised", en.Recognise, "4"}, {"acted", "Acted", en.Act, "4.5"}, {"called", "Called", en.Call, "9"}}
	timed.Faults = Faults{What: "The moments were not kept.", Fields: []FieldFault{{"acted", "Acted", "Give whole seconds, from 0 to 3600, or nothing where it did not happen."}}}
	marked := markingSample()
	marked.Real, marked.Drill = false, "/demonstrations/d4/drill"
	record := recordSamples()["record-signed"].(RecordPage)
	record.Real, record.Drill = false, &DrillShown{Text: en, Says: "Version 1 of the scenario, drawn at random.", Times: times, TakenBack: timed.TakenBack}
	mother := record
	mother.Frame, mother.Certificate, mother.MayCorrect = motherFrame(), "", false
	mother.Language = wording.Spanish
	mother.Drill = &DrillShown{Text: es, Says: "Versión 1 de la situación, elegida al azar.", Times: []string{"Se dio cuenta a los 4 s.", "Actuó a los 31 s.", "Pidió ayuda a los 9 s."}}
	return map[string]Page{
		"drills": desk, "drills-reader": reader, "drills-none": DrillsPage{Frame: coordinatorFrame("checklists")}, "scenario": shown, "scenario-retired": retired, "scenario-form": form, "scenario-form-fault": fresh,
		"drill-start": start, "drill-start-fault": startFault, "drill-start-not": DrillStartPage{Frame: educatorFrame("start"), MayNot: "Your appointment ended on 31 October 2026."},
		"drill": drill, "drill-spanish": spanish, "drill-fault": timed, "marking-drill": marked, "record-drill": record, "record-drill-spanish": mother,
	}
}
