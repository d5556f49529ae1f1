package written

import (
	"bytes"
	"encoding/json"
	"fmt"

	"wellshown/assessment"
)

// scenarioForm is the written form of a scenario for drills. Its order never changes: the
// text has a hash.
type scenarioForm struct {
	Source    string                  `json:"source"`
	ThenAfter int                     `json:"then_after,omitempty"`
	EN        assessment.ScenarioText `json:"en"`
	ES        assessment.ScenarioText `json:"es"`
}

// Scenario writes a scenario down as JSON.
func Scenario(s assessment.Scenario) (string, error) {
	text, err := json.Marshal(scenarioForm{s.Source, s.ThenAfter, s.Texts["en"], s.Texts["es"]})
	if err != nil {
		return "", fmt.Errorf("write down a scenario: %w", err)
	}
	return string(text), nil
}

// ReadScenario reads what Scenario wrote, of a skill under an id.
func ReadScenario(id, skill, text string) (assessment.Scenario, error) {
	var f scenarioForm
	d := json.NewDecoder(bytes.NewReader([]byte(text)))
	d.DisallowUnknownFields()
	if err := d.Decode(&f); err != nil {
		return assessment.Scenario{}, fmt.Errorf("read the scenario %s: %w", id, err)
	}
	return assessment.Scenario{ID: id, Skill: skill, Source: f.Source, ThenAfter: f.ThenAfter,
		Texts: map[string]assessment.ScenarioText{"en": f.EN, "es": f.ES}}, nil
}
