package reports

import (
	"strings"

	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

// drill says that it was an emergency drill, by which scenario, and when its moments came.
func (p *paper) drill(v office.DemonstrationView) {
	if v.Drill == nil {
		return
	}
	w := p.say.w
	how := w.Say("Version %d of the scenario, chosen by the observer.", v.Drill.Version)
	if v.Drill.Drawn {
		how = w.Say("Version %d of the scenario, drawn at random.", v.Drill.Version)
	}
	t := v.Drill.Scenario.In(string(w.Language()))
	pieces := []words{text(w.Say("This was an emergency drill, in simulation.") + " " + t.Title + "."), text(drillTimes(w, *v.Drill)), soft(how)}
	for _, b := range v.Drill.TakenBack {
		pieces = append(pieces, soft(w.Of(b.Phrase())))
	}
	p.row(label(w.Say("drill")), append(pieces, soft(w.Say("No limit is published for these times. What the checklist says decides.")))...)
}

// drillTimes says the three moments in one line.
func drillTimes(w wording.Words, d office.RecordedDrill) string {
	if !d.Timed {
		return w.Say("It was stopped before any moment was put down.")
	}
	var all []string
	for _, m := range d.Times.Phrases() {
		all = append(all, w.Of(m))
	}
	return strings.Join(all, " ")
}
