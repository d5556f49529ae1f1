package assessment

import (
	"fmt"
	"math/big"

	"wellshown/assessment/fault"
)

// Scenario is what an observer reads out in a drill, always in simulation. The drill itself
// is an ordinary demonstration of its skill's checklist.
type Scenario struct {
	ID     string // stable for ever
	Skill  string // code
	Source string // as published, or common practice
	Texts  map[string]ScenarioText
}

// ScenarioText is a scenario in one language, by its BCP 47 tag.
type ScenarioText struct {
	Title     string
	Read      string // is read out at the start
	Then      string // is read out once they act
	Recognise string // what is seen or heard when they have recognised it
	Act       string // when they act
	Call      string // when they call for help
}

// Check refuses a scenario that cannot be read out in each of some languages.
func (s Scenario) Check(languages ...string) error {
	var f fault.Fields
	if s.ID == "" || s.Skill == "" {
		f.Add("id", "a scenario has an id and a skill")
	}
	if s.Source == "" {
		f.Add("source", "name the published source, or say common practice, no source")
	}
	for _, l := range languages {
		t := s.Texts[l]
		for name, text := range map[string]string{"title": t.Title, "read": t.Read, "then": t.Then, "recognise": t.Recognise, "act": t.Act, "call": t.Call} {
			if text == "" {
				f.Add(l+"."+name, "it is empty")
			}
		}
	}
	return f.Err()
}

// DrillTimes are the three moments of a drill in whole seconds after the scenario was read
// out; negative: it did not happen. They change no score.
type DrillTimes struct{ Recognised, Acted, Called int }

// NotInDrill says that a moment did not come.
const NotInDrill = -1

// MostDrillSeconds is as long as a drill can go on: an hour.
const MostDrillSeconds = 3600

// Check refuses times that cannot be.
func (d DrillTimes) Check() error {
	var f fault.Fields
	for name, at := range map[string]int{"recognised": d.Recognised, "acted": d.Acted, "called": d.Called} {
		if at < NotInDrill || at > MostDrillSeconds {
			f.Add(name, "give whole seconds, from 0 to %d, or nothing where it did not happen", MostDrillSeconds)
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
