package catalog

import (
	"bytes"
	"embed"
	"fmt"

	"go.yaml.in/yaml/v3"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/wording"
)

//go:embed scenarios
var drills embed.FS

// Emergencies lists the skills that are drilled by scenarios, in teaching order.
var Emergencies = []string{"decannulation", "blocked-tube", "cpr-trach", "alarms-power"}

// scenarioForm is a scenario as it is written.
type scenarioForm struct {
	ID     string
	Source string
	EN, ES assessment.ScenarioText
}

// Scenarios reads the starter scenarios for drills of a skill. Like the checklists they are
// a draft that a licensed clinician reviews.
func Scenarios(code string) ([]assessment.Scenario, error) {
	src, err := drills.ReadFile("scenarios/" + code + ".yaml")
	if err != nil {
		return nil, fault.Of(fault.NotFound, "There are no starter scenarios for %q.", code)
	}
	var file struct {
		Skill     string
		Scenarios []scenarioForm
	}
	strict := yaml.NewDecoder(bytes.NewReader(src))
	strict.KnownFields(true)
	if err := strict.Decode(&file); err != nil {
		return nil, fmt.Errorf("read the scenarios of %s: %w", code, err)
	}
	var all []assessment.Scenario
	for _, f := range file.Scenarios {
		s := assessment.Scenario{ID: f.ID, Skill: file.Skill, Source: f.Source, Texts: map[string]assessment.ScenarioText{"en": f.EN, "es": f.ES}}
		if err := s.Check(string(wording.English), string(wording.Spanish)); err != nil {
			return nil, fmt.Errorf("read the scenario %s: %w", f.ID, err)
		}
		all = append(all, s)
	}
	return all, nil
}
