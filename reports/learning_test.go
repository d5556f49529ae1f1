package reports

import (
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/phrase"
	"wellshown/assessment/postgres"
	"wellshown/assessment/wording"
)

// ofTheMother is an invented mother's plan on 18 November 2026: three skills are left, one
// is held, and she practised twice, once with nobody there.
func ofTheMother() office.LearningPlan {
	day := civil.MustParse
	mira := office.ClientRef{ID: "m", Code: "7K", FirstName: "Mira"}
	noor := office.PersonRef{ID: "n", Name: "Noor Haddadin"}
	suction, bagging := office.SkillRef{ID: "s", Code: "suction", Title: "Tracheostomy suctioning"}, office.SkillRef{ID: "b", Code: "bagging", Title: "Manual ventilation with a self-inflating bag"}
	tube, bag := office.SkillRef{ID: "t", Code: "tube-change", Title: "Tracheostomy tube change, planned"}, office.SkillRef{ID: "g", Code: "go-bag", Title: "Our own bag"}
	shown := assessment.TaughtHow{Shown: true, Explained: true}
	back := assessment.TaughtHow{TaughtBack: true}
	v := office.LearningPlan{Person: office.PersonView{ID: "p", Name: "Rosa Quintero", Kind: assessment.Family, Language: "es"}, Today: day("2026-11-18"),
		Agency: office.AgencyView{Name: "Larkmoor Home Nursing", Zone: "America/Denver"}, Goal: assessment.GoingHome, With: mira,
		Dates: assessment.LearningDates{Target: day("2026-11-24"), Needed: 10, Short: 4, Enough: day("2026-11-28")}}
	v.Lines = []office.LearningLine{
		{Skill: bagging, Required: true, Teacher: noor, Next: assessment.Next{Demonstrations: 2, OnOtherDays: 1}, Word: assessment.Learning, LearningDate: assessment.LearningDate{By: day("2026-11-19")},
			Learnt: assessment.Learnt{Taught: true, Sessions: 2, How: shown.And(back), Runs: 2, Alone: 1, Asked: true, Checked: true, Shown: 1, Of: 3, Word: assessment.Learning}},
		{Skill: suction, Client: mira, Required: true, First: []string{bagging.Title}, Word: assessment.Withdrawn, LearningDate: assessment.LearningDate{By: day("2026-11-21"), Chosen: true, Short: 2},
			Learnt: assessment.Learnt{Taught: true, Asked: true, Of: 3, Word: assessment.Withdrawn}},
		{Skill: tube, Client: mira, First: []string{suction.Title}, Word: assessment.NotStarted, LearningDate: assessment.LearningDate{By: day("2026-11-24")},
			Learnt: assessment.Learnt{Runs: 1, Alone: 1, Of: 3, Word: assessment.NotStarted}}}
	v.Held = []office.StandingView{{Skill: bag, Client: mira, Required: true, Standing: assessment.Standing{Word: assessment.Current, Through: day("2027-11-30")}}}
	v.Sessions = []office.TeachingView{
		{TeachingSession: postgres.TeachingSession{HeldOn: day("2026-11-16"), Minutes: 45}, Teacher: noor, Taught: []office.SkillRef{bagging, suction}, Who: []office.TaughtView{{Person: office.PersonRef{ID: "p"}, TaughtHow: back}}},
		{TeachingSession: postgres.TeachingSession{HeldOn: day("2026-11-10"), Minutes: 1, Corrected: "x"}, Teacher: noor, Taught: []office.SkillRef{bagging}, Who: []office.TaughtView{{Person: office.PersonRef{ID: "p"}, TaughtHow: shown}}}}
	run := func(on, by, back string) office.PracticeRunView {
		return office.PracticeRunView{PracticeRun: postgres.PracticeRun{Person: "p", WrittenBy: assessment.PersonID(by), DoneOn: day(on), Alone: by == "p", Back: back, Went: []assessment.PracticeMark{assessment.WentAlone, assessment.WentWithHelp}}, What: bagging, Beside: noor}
	}
	v.Runs = []office.PracticeRunView{run("2026-11-17", "p", ""), run("2026-11-15", "n", "Another’s.")}
	return v
}

// The plan is said in each language: what is next, each skill with how often it was taught,
// practice clearly apart, and that none of it counts (common practice, no source).
func TestLearningPlanInEachLanguage(t *testing.T) {
	v := ofTheMother()
	in := func(l wording.Language) string {
		called := "learning-plan-" + string(l)
		path := drawn(t, called, func() (*paper, error) { return learningPlan(v, wording.In(l)) })
		golden(t, called, path)
		return path
	}
	says(t, in(wording.English), "3 skills are left to learn. Next: Manual ventilation with a self-inflating bag", "To be ready by 24 November 2026: Mira goes home", "4 days are missing for all of it.",
		"Show Manual ventilation with a self-inflating bag to an observer. Needed: 2 competent demonstrations, one of them on another day.", "Taught 2 times: shown how, explained and taught back.",
		"Practised 2 times, 1 of them by myself, not observed: practice counts for no skill.", "Shown and signed by both: 1 of 3 times.", "Standing: withdrawn.", "Knowledge check not passed yet.",
		"Practised once by myself, not observed: practice counts for no skill.", "Corrected later: another entry stands in its place.", "Written down by mistake: Another’s.",
		"practised by myself, not observed: one step alone, 1 with help, 0 not yet", "Our own bag, for Mira, 7K", "In an emergency, call the local emergency number first.")
	spanish := in(wording.Spanish)
	says(t, spanish, "Quedan 3 habilidades por aprender.", "Se le enseñó 2 veces: se le mostró, se le explicó y lo explicó con sus palabras.", "sin que nadie observara", "Mostrado y con las dos firmas: 1 de 3 veces.",
		"Práctica: no cuenta para ninguna habilidad", "En una emergencia, llame primero al número local de emergencias.")
	saysNot(t, spanish, "taught", "Taught", "practised", "observed", "Shown", "Needed", "Held", "ready by", "Standing", "November", "Page", "teacher", "Manual ventilation")
}

// A plan of which nothing is left, one without a day, and one without an order are told
// plainly, and name nothing that is next.
func TestLearningPlansWithoutAnOrder(t *testing.T) {
	done := ofTheMother()
	done.Lines, done.Dates = nil, assessment.LearningDates{}
	says(t, drawn(t, "learning-done", func() (*paper, error) { return learningPlan(done, wording.In(wording.English)) }), "Nothing is left to learn", "The day is not set yet.", "Held already")
	round := ofTheMother()
	round.Circle = phrase.Text("A comes before B, which comes before A.")
	path := drawn(t, "learning-circle", func() (*paper, error) { return learningPlan(round, wording.In(wording.English)) })
	says(t, path, "3 skills are left to learn", "No order can be given.", "A comes before B")
	saysNot(t, path, "Show Manual ventilation with a self-inflating bag to an observer")
}
