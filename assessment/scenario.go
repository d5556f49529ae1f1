package assessment

import (
	"fmt"
	"maps"
	"math/big"
	"slices"

	"wellshown/assessment/fault"
)

// Scenario is what an observer reads out in a drill, always in simulation. The drill itself
// is an ordinary demonstration of its skill's checklist.
type Scenario struct {
	ID        string // stable for ever
	Skill     string // code
	Source    string // as published, or common practice
	ThenAfter int    // how many seconds after the beginning Then is read out; 0: as it says itself
	Texts     map[string]ScenarioText
}

// ScenarioText is a scenario in one language, by its BCP 47 tag.
type ScenarioText struct {
	Title     string `json:"title"`
	Read      string `json:"read"`      // is read out at the start
	Then      string `json:"then"`      // is read out once they act, or after ThenAfter
	Recognise string `json:"recognise"` // what is seen or heard when they have recognised it
	Act       string `json:"act"`       // when they act
	Call      string `json:"call"`      // when they call for help
}

// In is the text in a language, else in English.
func (s Scenario) In(language string) ScenarioText {
	if t, ok := s.Texts[language]; ok {
		return t
	}
	return s.Texts["en"]
}

// Same reports whether two scenarios say the same.
func (s Scenario) Same(as Scenario) bool {
	return s.Source == as.Source && s.ThenAfter == as.ThenAfter && maps.Equal(s.Texts, as.Texts)
}

// Check refuses a scenario that cannot be read out in each of some languages.
func (s Scenario) Check(languages ...string) error {
	var f fault.Fields
	if s.ID == "" || s.Skill == "" {
		f.Add("id", "a scenario has an id and a skill")
	}
	if s.Source == "" {
		f.Add("source", "Name the published source, or say: common practice, no source.")
	}
	if s.ThenAfter < 0 || s.ThenAfter > MostDrillSeconds {
		f.Add("then_after", "Give whole seconds, from 1 to %d, or nothing.", MostDrillSeconds)
	}
	for _, l := range languages {
		t := s.Texts[l]
		texts := map[string]string{"title": t.Title, "read": t.Read, "then": t.Then, "recognise": t.Recognise, "act": t.Act, "call": t.Call}
		for _, name := range slices.Sorted(maps.Keys(texts)) {
			if !Says(texts[name]) {
				f.Add(l+"_"+name, "This is empty. Both languages are asked for.")
			}
		}
	}
	return f.Err()
}

// DrawScenario draws one of some scenarios by a seed in hexadecimal, so that whoever knows
// the seed finds the same again: the seed as a number, modulo how many there are.
func DrawScenario(all []Scenario, seed string) (Scenario, error) {
	n, ok := new(big.Int).SetString(seed, 16)
	if !ok || n.Sign() < 0 || len(all) == 0 {
		return Scenario{}, fmt.Errorf("draw one of %d scenarios by the seed %q", len(all), seed)
	}
	return all[new(big.Int).Mod(n, big.NewInt(int64(len(all)))).Int64()], nil
}
