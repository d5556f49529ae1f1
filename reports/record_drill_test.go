package reports

import (
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

// A record of a drill says on paper that it was one, which scenario was read out, each moment
// as it was put down and that no limit is published; so does the transcript, in both
// languages. A record of none says nothing of drills (common practice, no source).
func TestADrillOnPaper(t *testing.T) {
	all, err := catalog.Scenarios("decannulation")
	if err != nil {
		t.Fatal(err)
	}
	drilled := circuitChange(t, func(v *office.DemonstrationView) {
		v.RealClient = false
		v.Drill = &office.RecordedDrill{Code: all[0].ID, Version: 2, Drawn: true, Timed: true, Times: assessment.DrillTimes{Recognised: 0, Acted: assessment.NotInDrill, Called: 3600},
			TakenBack: []assessment.DrillTap{{Moment: assessment.DrillActed, Seconds: 7}}, Scenario: all[0]}
	})
	untimed := circuitChange(t, func(v *office.DemonstrationView) { v.Drill = &office.RecordedDrill{Scenario: all[0]} })
	body := `{"version":1,"drill":{"scenario":"x","code":"decannulation-01","version":1,"title":"T","timed":true,"recognised_s":4,"acted_s":31,"called_s":9}}`
	transcripts := ofLucja(t)
	transcripts.Records[0].Body = body
	for language, want := range map[wording.Language][]string{
		wording.English: {"This was an emergency drill, in simulation.", "Recognised after 0 s. Did not act. Called for help after 3600 s.", "Version 2 of the scenario, drawn at random.", "“Acted” at 7 s was taken back.", "No limit is published", "stopped before any moment", "Emergency drill in simulation: Recognised after 4 s. Acted after 31 s."},
		wording.Spanish: {"Fue un simulacro de emergencia.", "Se dio cuenta a los 0 s. No actuó. Pidió ayuda a los 3.600 s.", "elegida al azar", "Se retiró “actuó” a los 7 s.", "No hay un límite publicado", "antes de anotar algún momento", "Simulacro de emergencia: Se dio cuenta a los 4 s. Actuó a los 31 s."},
	} {
		var said []string
		for _, v := range []office.DemonstrationView{drilled, untimed} {
			p, err := record(v, language)
			if err != nil {
				t.Fatal(err)
			}
			said = append(said, pageTexts(p)...)
		}
		p, err := transcript(transcripts, language)
		if err != nil {
			t.Fatal(err)
		}
		text := strings.Join(strings.Fields(strings.Join(append(said, pageTexts(p)...), " ")), " ")
		for _, words := range want {
			if !strings.Contains(text, words) {
				t.Errorf("%s: nothing says %q: %s", language, words, text)
			}
		}
		plain, err := record(circuitChange(t), language)
		if err != nil {
			t.Fatal(err)
		}
		if none := strings.Join(pageTexts(plain), " "); strings.Contains(none, "drill") || strings.Contains(none, "simulacro") {
			t.Errorf("%s: a record of no drill says %s", language, none)
		}
	}
}
