package reports

import (
	"slices"
	"testing"
	"time"

	"wellshown/assessment/catalog"
	"wellshown/assessment/civil"
	"wellshown/assessment/knowledge"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/assessment/wording"
)

// ofTheFather is an invented father's check on 18 November 2026: a form with an item of each
// kind, of which the first, a critical one, was missed and the last not answered.
func ofTheFather(t testing.TB, language string) office.SittingView {
	t.Helper()
	bank, err := catalog.Items("suction")
	if err != nil {
		t.Fatal(err)
	}
	zone := denver(t)
	v := office.SittingView{Agency: office.AgencyView{Name: "Larkmoor Home Nursing"}, ID: "s", Person: office.PersonRef{Name: "José Prado"}, Skill: office.SkillRef{ID: "k", Code: "suction", Title: "Tracheostomy suctioning"}, Language: language,
		Zone: zone, HandedIn: time.Date(2026, 11, 18, 16, 4, 0, 0, time.UTC), Now: time.Date(2026, 11, 19, 16, 0, 0, 0, time.UTC), Rule: postgres.KnowledgeRule{MarkRight: 9, MarkOf: 10, Months: 12}}
	v.Called = office.CalledAs(v.Skill)
	var form []knowledge.Item
	for _, kind := range append([]knowledge.Kind{"critical"}, knowledge.Kinds...) {
		n := slices.IndexFunc(bank.Items, func(i knowledge.Item) bool {
			return (i.Kind == kind || kind == "critical" && i.Critical && i.Kind == knowledge.Single) && !slices.ContainsFunc(form, func(f knowledge.Item) bool { return f.ID == i.ID })
		})
		if n >= 0 {
			form = append(form, bank.Items[n])
		}
	}
	var answers []knowledge.Answer
	for n, i := range form {
		a := knowledge.Answer{Item: i.ID}
		switch {
		case n == 0:
			a.Chosen = []int{i.Right[0]%i.Options() + 1}
		case n == len(form)-1:
		case i.Kind == knowledge.Numeric:
			a.Value, a.Unit = i.Low.String(), i.Unit
		case i.Kind == knowledge.Order:
			for place := range i.Options() {
				a.Chosen = append(a.Chosen, place+1)
			}
		default:
			a.Chosen = i.Right
		}
		answers = append(answers, a)
		v.Questions = append(v.Questions, office.Question{Place: n + 1, Item: i, Shown: i.Shown("x"), Answer: a, Given: a.Given()})
	}
	v.Result = v.Rule.Core().Judge(form, answers, v.HandedIn.Add(-time.Hour), v.HandedIn)
	for n, q := range v.Questions {
		v.Questions[n].Right = !slices.Contains(v.Result.Missed, q.Item.ID)
	}
	return v
}

// A check on paper says in the language in which it was taken what was asked, answered and
// right, and what each question teaches (common practice, no source).
func TestACheckOnPaper(t *testing.T) {
	for _, language := range wording.Languages {
		v := ofTheFather(t, string(language))
		called := "knowledge-check-" + string(language)
		path := drawn(t, called, func() (*paper, error) { return sitting(v) })
		golden(t, called, path)
		for _, q := range v.Questions {
			said := q.Item.In(string(language))
			says(t, path, said.Ask, said.Teach)
			if !q.Right {
				says(t, path, q.RightAnswer(string(language))...)
			}
		}
	}
	spanish := drawn(t, "knowledge-check-again", func() (*paper, error) { return sitting(ofTheFather(t, "es")) })
	says(t, spanish, "Todavía no aprobado: 4 de 6 correctas", "José Prado", "18 nov 2026, 09:04 MST", "Esto hay que saberlo antes", "Sin respuesta")
	saysNot(t, spanish, "passed", "right", "answer", "Suction", "Knowledge", "must be", "Page", "November")
	passed := ofTheFather(t, "en")
	passed.Result.Passed, passed.Through = true, civil.MustParse("2027-11-18")
	says(t, drawn(t, "knowledge-check-passed", func() (*paper, error) { return sitting(passed) }), "Passed: 4 of 6 right", "through 18 November 2027", "Passing a check makes nobody competent")
	passed.Reader, passed.Waits = true, true
	says(t, drawn(t, "knowledge-check-reader", func() (*paper, error) { return sitting(passed) }), "Passed, and it does not count yet: 4 of 6 right", "could read what it asks", "counts once another educator says that a trainer was there", "not yet")
	passed.Waits, passed.PresentBy = false, "Noor Haddadin"
	says(t, drawn(t, "knowledge-check-watched", func() (*paper, error) { return sitting(passed) }), "It counts, because Noor Haddadin says that a trainer was there.", "through 18 November 2027")
	late := ofTheFather(t, "es")
	late.Result.Late, late.Ends = true, late.HandedIn.Add(-time.Hour)
	says(t, drawn(t, "knowledge-check-late", func() (*paper, error) { return sitting(late) }), "Estuvo abierto hasta el 18 nov 2026, 08:04 MST", "no cuenta como aprobado")
}

// Checks stand apart on a transcript, and never in the words of standings.
func TestChecksOnATranscript(t *testing.T) {
	v := ofLucja(t)
	day := civil.MustParse
	suction, bagging := office.SkillRef{ID: "k", Code: "suction", Title: "Tracheostomy suctioning"}, office.SkillRef{ID: "b", Code: "own-skill", Title: "Our own skill"}
	v.Checks = []office.PassedCheck{{Skill: suction, Called: office.CalledAs(suction), On: day("2026-11-02"), Through: day("2027-11-02"), Holds: true, Right: 10, Of: 10},
		{Skill: bagging, Called: office.CalledAs(bagging), On: day("2025-11-02"), Through: day("2026-11-02"), Right: 9, Of: 10}, {Skill: bagging, Called: office.CalledAs(bagging), On: day("2025-11-02"), Holds: true, Right: 9, Of: 10}}
	v.Checks = append(v.Checks, office.PassedCheck{Skill: bagging, Called: office.CalledAs(bagging), On: day("2026-11-02"), Right: 9, Of: 10, Reader: true},
		office.PassedCheck{Skill: bagging, Called: office.CalledAs(bagging), On: day("2026-11-03"), Holds: true, Right: 9, Of: 10, Reader: true, PresentBy: "Noor Haddadin"})
	says(t, drawnTranscript(t, "transcript-readers", v), "it does not count yet", "could read what it asks", "because Noor Haddadin says")
	says(t, drawnTranscript(t, "transcript-checks", v), "Knowledge checks that were passed", "passing one makes nobody current", v.Checks[0].Called.In("en"), "10 of 10", "2 Nov 2027", "over: it is to be taken again", "without an end", "Our own skill")
	spanish := drawn(t, "transcript-checks-es", func() (*paper, error) { return transcript(v, wording.Spanish) })
	says(t, spanish, "Repasos aprobados", "10 de 10", "ya no vale: hay que hacerlo otra vez", "todavía no cuenta", "podía leer lo que pregunta")
	saysNot(t, spanish, "Knowledge", "passed", "the check is good")
}
