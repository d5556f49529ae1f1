package reports

import (
	"fmt"
	"regexp"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/phrase"
	"wellshown/assessment/wording"
)

// toGoHome is the answer of the core for an invented child with a whole plan, on
// 18 November 2026.
func toGoHome(t testing.TB, more ...assessment.Evidence) office.ReadinessView {
	t.Helper()
	zone := denver(t)
	at := issued.In(zone)
	plan := office.StandardPlan([]string{"suction", "tube-change", "bagging", "cpr-trach"})
	for i := range plan {
		plan[i].ID = assessment.CriterionID(fmt.Sprint(i + 1))
	}
	plan[3].Hours = 24
	through := civil.MustParse("2027-11-30")
	holds := assessment.Standing{Word: assessment.Current, Through: through}
	facts := assessment.Facts{At: at, Zone: zone, Titles: map[string]string{"suction": "Tracheostomy suctioning", "tube-change": "Planned tracheostomy tube change",
		"bagging": "Manual ventilation with a bag", "cpr-trach": "Resuscitation with a tracheostomy"},
		Family: []assessment.Relative{
			{Name: "Nguyễn Thị Lan", CardEnds: through, Standings: map[string]assessment.Standing{"suction": holds, "tube-change": holds, "bagging": holds, "cpr-trach": holds}},
			{Name: "Tomasz Rybak", CardEnds: through, Standings: map[string]assessment.Standing{"suction": holds, "bagging": holds, "cpr-trach": {Word: assessment.Due, Through: civil.DayOf(at, zone)},
				"tube-change": {Word: assessment.Learning, Next: assessment.Next{Demonstrations: 1, WithClient: 1}}}},
		},
		Shifts: []assessment.ShiftFact{{Label: phrase.Text("1 Dec, 19:00, Łucja Żak")}, {Label: phrase.Text("2 Dec, 07:00, Ольга Мартин")}}}
	day := func(n int) time.Time { return at.AddDate(0, 0, -n) }
	said := func(criterion int, word assessment.EvidenceWord, item string, n int, note string) {
		facts.Evidence = append(facts.Evidence, assessment.Evidence{Criterion: plan[criterion].ID, Word: word, Item: item, At: day(n), By: "Noor Haddadin", Note: note})
	}
	said(3, assessment.EvidenceStarted, "", 0, "")
	said(4, assessment.EvidenceStarted, "", 9, "")
	said(4, assessment.EvidenceEnded, "", 7, "settled well")
	for _, item := range plan[5].Items {
		if item != "nebuliser" {
			said(5, assessment.EvidenceMet, item, 4, "")
		}
	}
	said(5, assessment.EvidenceWaived, "nebuliser", 4, "not ordered for Mira")
	for i := 6; i < 13; i++ {
		said(i, assessment.EvidenceMet, "", 3, "")
	}
	facts.Evidence = append(facts.Evidence, more...)
	return office.ReadinessView{Readiness: assessment.Assess(plan, facts), Client: office.ClientView{FirstName: "Mira", Code: "7K"},
		Agency: office.AgencyView{Name: "Larkmoor Home Nursing", Zone: "America/Denver"}, At: at, Family: []string{"Nguyễn Thị Lan", "Tomasz Rybak"}}
}

func drawnReadiness(t *testing.T, called string, v office.ReadinessView) string {
	t.Helper()
	return drawn(t, called, func() (*paper, error) { return readiness(v, wording.In(wording.English)) })
}

// never is a share of the whole: a tube change and a letter do not weigh alike.
var never = regexp.MustCompile(`\d\s*%|per ?cent|percent`)

func TestReadiness(t *testing.T) {
	path := drawnReadiness(t, "readiness", toGoHome(t))
	golden(t, "readiness", path)
	says(t, path, "Not yet: 2 of 14 things are left", "Mira, 7K", "on 18 November 2026", "Nguyễn Thị Lan and Tomasz Rybak", "What is left",
		"One more family caregiver.", "Tomasz Rybak · Planned tracheostomy tube change: one competent demonstration, with the child.",
		"Next: ask the nurse or therapist for a time to practise, and to show it.", "0 h of 24 hours without a break so far.",
		"What is done", "met on 15 November 2026 by Noor Haddadin", "settled well", "ventilator: met on 14 November 2026 by Noor Haddadin",
		"Soon: Tomasz Rybak · Resuscitation with a tracheostomy ends today, 18 November 2026.",
		"What was waived, wholly or in part", "nebuliser: waived on 14 November 2026 by Noor Haddadin: not ordered for Mira",
		"In an emergency, call the local emergency number first.", "As of 18 Nov 2026, 15:42 MST")
	if got := said(t, path); never.MatchString(got) {
		t.Errorf("it gives a percentage: %q", never.FindString(got))
	}
}

func TestReadinessFindings(t *testing.T) {
	lines := func(states ...assessment.CriterionState) assessment.Readiness {
		r := assessment.Readiness{Ready: len(states) > 0}
		for _, s := range states {
			r.Ready = r.Ready && s != assessment.StateNotMet
			r.Lines = append(r.Lines, assessment.Line{State: s})
		}
		return r
	}
	met, not, waived := assessment.StateMet, assessment.StateNotMet, assessment.StateWaived
	unsigned := map[string]assessment.Readiness{
		"Not yet: 2 of 2 things are left":                                  lines(not, not),
		"Still to be signed: everything on the list is in place":           lines(met, met),
		"Still to be signed: 2 of 3 things are in place and one is waived": lines(met, met, waived),
		"Still to be signed: 1 of 3 things are in place and 2 are waived":  lines(waived, met, waived),
	}
	for want, r := range unsigned {
		for _, s := range []*office.PlanSigned{nil, {By: "Dr Zoë Adeyemi"}} { // nobody, and before something changed
			if got := (office.ReadinessView{Readiness: r, Signed: s}).Finding().String(); got != want {
				t.Errorf("%q, want %q", got, want)
			}
		}
	}
	for want, r := range map[string]assessment.Readiness{
		"Not yet: the plan for going home is still empty":     lines(),
		"Not yet: one of 3 things is left":                    lines(met, not, waived),
		"Not yet: 2 of 2 things are left":                     lines(not, not),
		"Not yet: the one thing on the plan is left":          lines(not),
		"Ready: everything on the list is in place":           lines(met, met),
		"Ready: 2 of 3 things are in place and one is waived": lines(met, met, waived),
		"Ready: 1 of 3 things are in place and 2 are waived":  lines(waived, met, waived),
	} {
		if got := (office.ReadinessView{Readiness: r, Signed: &office.PlanSigned{Stands: true}}).Finding().String(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// The paper says the same in Spanish: what the agency and people wrote stays theirs.
func TestReadinessInSpanish(t *testing.T) {
	v := toGoHome(t)
	v.Days = office.PlanDays{Meeting: civil.MustParse("2026-12-01"), Home: civil.MustParse("2026-12-04")}
	v.Signed = &office.PlanSigned{By: "Dr Zoë Adeyemi", Licence: "MD 77", Meaning: office.PlanMeaning, At: issued}
	path := drawn(t, "readiness-es", func() (*paper, error) { return readiness(v, wording.In(wording.Spanish)) })
	golden(t, "readiness-es", path)
	says(t, path, "Todavía no: faltan 2 de 14 cosas", "el 18 de noviembre de 2026", "Nguyễn Thị Lan y Tomasz Rybak", "1 de diciembre de 2026", "4 de diciembre de 2026",
		"Dr Zoë Adeyemi firmó el 18 de noviembre de 2026. Después cambió algo, así que esa firma ya no vale.",
		"Falta un familiar más.", "Tomasz Rybak · Planned tracheostomy tube change: una demostración bien hecha, con el niño o la niña.",
		"Ahora: pida a la enfermera o al terapeuta una hora para practicar y para mostrarlo.", "Hasta ahora, 0 h de 24 horas sin interrupción.",
		"en orden el 15 de noviembre de 2026, según Noor Haddadin", "ventilador: en orden el 14 de noviembre de 2026, según Noor Haddadin",
		"nebulizador: ya no se exige desde el 14 de noviembre de 2026, por decisión de Noor Haddadin", "En una emergencia, llame primero al número local de emergencias.", "Página 1 de")
	saysNot(t, path, "What is", "Next", "left", "who", "by when", "In an emergency", "November", "Page", "en inglés")
}

// The first page answers, and says when the meeting is and who signed; what is left comes
// after it with who sees to it and by when (common practice, no source).
func TestReadinessForTheMeeting(t *testing.T) {
	v := toGoHome(t)
	v.Days = office.PlanDays{Meeting: civil.MustParse("2026-12-01")}
	for i := range v.Lines {
		for k := range v.Lines[i].Left {
			v.Lines[i].Left[k].By = v.Days.Meeting
		}
	}
	v.Lines[3].Left[0].By, v.Lines[3].Left[0].Name = civil.MustParse("2026-11-17"), "Tomasz Rybak"
	path := drawnReadiness(t, "readiness-meeting", v)
	first := strings.Join(strings.Fields(tool(t, "pdftotext", "-l", "1", "-layout", path, "-")), " ")
	for _, want := range []string{"Not yet: 2 of 14 things are left", "1 December 2026", "The day is not set yet.", "No clinician has signed this plan yet.", "who by when", "The family has done all care"} {
		if !strings.Contains(first, want) {
			t.Errorf("the first page does not say %q: %s", want, first)
		}
	}
	if strings.Contains(first, "What is done") || strings.Contains(first, "Next:") {
		t.Errorf("the first page says more than the answer: %s", first)
	}
	says(t, path, "Who: the family. By 1 December 2026.", "Who: Tomasz Rybak. By 1 December 2026.", "Who: Tomasz Rybak. It was due on 17 November 2026.")
}

// A signature stands with name, licence, instant and meaning (21 CFR 11.50(a)).
func TestReadinessSigned(t *testing.T) {
	v := toGoHome(t)
	v.Ready = true
	for i := range v.Lines {
		v.Lines[i].State, v.Lines[i].Left = assessment.StateMet, nil
	}
	v.Signed = &office.PlanSigned{By: "Dr Zoë Adeyemi", Licence: "MD 77", Meaning: office.PlanMeaning, At: issued, Stands: true}
	says(t, drawnReadiness(t, "readiness-signed", v), "Dr Zoë Adeyemi", "licence MD 77", "18 Nov 2026, 15:42 MST", "“I have read this plan. All that it asks for is in place, or waived by name.”")
}

// Every kind of criterion tells a family what to do.
func TestReadinessHasAnActForEachKind(t *testing.T) {
	for _, k := range assessment.CriterionKinds {
		if actOf(k).IsZero() {
			t.Errorf("nothing is said to do about %s", k)
		}
	}
}

func TestReadinessThatIsReached(t *testing.T) {
	v := toGoHome(t)
	v.Ready = true
	for i := range v.Lines {
		v.Lines[i].State, v.Lines[i].Left = assessment.StateMet, nil
	}
	v.Days.Meeting = civil.MustParse("2026-12-01")
	path := drawnReadiness(t, "readiness-unsigned", v)
	says(t, path, "Still to be signed: everything on the list is in place", "What comes next: a licensed clinician of the agency reads this plan and signs it.", "No clinician has signed this plan yet.",
		"A licensed clinician reads the plan and signs it", "an educator of the agency with a licence", "1 Dec 2026")
	saysNot(t, path, "Ready")
	v.Signed = &office.PlanSigned{By: "Dr Zoë Adeyemi", Licence: "MD 77", Meaning: office.PlanMeaning, At: issued, Stands: true}
	path = drawnReadiness(t, "readiness-ready", v)
	says(t, path, "Ready: everything on the list is in place", "On this day everything that was planned for Mira is in place.",
		"The team looks at Mira again on the day of going home.")
	saysNot(t, path, "Still to be signed", "reads the plan and signs it")
	saysNot(t, path, "What is left", "Not yet", "What was waived", "Next:")
}

func TestReadinessOfAnEmptyPlan(t *testing.T) {
	v := toGoHome(t)
	v.Readiness, v.Family = assessment.Readiness{On: v.On}, nil
	path := drawnReadiness(t, "readiness-empty", v)
	says(t, path, "Not yet: the plan for going home is still empty", "Ask the team to make the plan with you.", "Nobody of the family is on the team yet.")
	saysNot(t, path, "Ready")
}

// What a waiver rests on stands beside it: who, when and why.
func TestReadinessNamesWhoWaived(t *testing.T) {
	v := toGoHome(t, assessment.Evidence{Criterion: "1", Word: assessment.EvidenceWaived, At: issued.Add(-time.Hour), By: "Dr Zoë Adeyemi", Note: "aunt trains at home"})
	says(t, drawnReadiness(t, "readiness-waived", v), "waived on 18 November 2026 by Dr Zoë Adeyemi: aunt trains at home", "need not be so")
}

func TestReadinessOfALongPlan(t *testing.T) {
	v := toGoHome(t)
	var lines []assessment.Line
	for i := range 40 {
		l := v.Lines[0]
		l.Criterion.Title = fmt.Sprintf("Thing number %d of the list", i)
		l.Left = append([]assessment.Todo{{Phrase: phrase.Text(strings.Repeat("Somebody still has to do this. ", 5))}}, l.Left...)
		lines = append(lines, l)
	}
	v.Lines = lines
	got := said(t, drawnReadiness(t, "readiness-long", v))
	for i := range 40 {
		if !strings.Contains(got, fmt.Sprintf("Thing number %d of the list", i)) {
			t.Errorf("thing %d is lost", i)
		}
	}
}
