package catalog_test

import (
	"testing"

	"wellshown/assessment"
)

func one(name, value, unit string) map[string]assessment.Quantity {
	return map[string]assessment.Quantity{name: quantity(value, unit)}
}

// mark compares what becomes of a step with what is published.
func mark(t *testing.T, c assessment.Checklist, no int, values map[string]assessment.Quantity, orders assessment.Parameters, ok bool) {
	t.Helper()
	want := assessment.Independent
	if !ok {
		want = assessment.NotMet
	}
	if got := at(t, c, no, values, orders); got != want {
		t.Errorf("%s, step %d with %v is %s, want %s", c.Code, no, values, got, want)
	}
}

// AARC 2012 (Respir Care 2012;57(5):782-788), recommendation 3: 34 to 41 °C at
// the patient connection. A bare "37 C" is no such reading.
func TestTemperatureAtTheAirway(t *testing.T) {
	for code, no := range map[string]int{"circuit-change": 25, "humidifier": 14} {
		c := get(t, code)
		for value, ok := range map[string]bool{"34.0": true, "41.0": true, "33.9": false, "41.1": false} {
			mark(t, c, no, one("temperature", value, "degC"), ordered(), ok)
		}
		for _, unit := range []string{"", "C", "mmHg"} {
			sheet := shown(t, c)
			sheet.Entries[no-1].Values = one("temperature", "37", unit)
			if _, _, err := assessment.Score(c, ordered(), sheet); err == nil {
				t.Errorf("%s: 37 %q was taken for a temperature", code, unit)
			}
		}
	}
}

// AARC 2022 (Respir Care 2022;67(2):258-271): a suction event takes at most
// 15 s. ATS 2000 (AJRCCM 2000;161:297-308), as summarised: under 5 s.
func TestSuctionTime(t *testing.T) {
	c := get(t, "suction")
	orders := ordered()
	orders["suction_time_max"] = quantity("15", "s")
	mark(t, c, 13, one("pass", "15.0", "s"), orders, true)
	mark(t, c, 13, one("pass", "15.1", "s"), orders, false)
	mark(t, c, 13, one("pass", "10", "s"), ordered(), true) // 10 s where nothing is set: no source
	mark(t, c, 13, one("pass", "10.1", "s"), ordered(), false)
	mark(t, get(t, "blocked-tube"), 6, one("pass", "15.0", "s"), ordered(), true)
	mark(t, get(t, "blocked-tube"), 6, one("pass", "15.1", "s"), ordered(), false)

	step(&c, 13).Measures[0].Exclusive = true
	orders["suction_time_max"] = quantity("5", "s")
	mark(t, c, 13, one("pass", "4.9", "s"), orders, true)
	mark(t, c, 13, one("pass", "5.0", "s"), orders, false)
}

func step(c *assessment.Checklist, no int) *assessment.Step {
	for i := range c.Sections {
		for j := range c.Sections[i].Steps {
			if s := &c.Sections[i].Steps[j]; s.No == no {
				return s
			}
		}
	}
	return nil
}

// AARC 2022: suction pressure below 120 mmHg in children. The comparison is part
// of the checklist: with strict ends 120 is refused, with an order "up to 120"
// it is accepted.
func TestSuctionPressure(t *testing.T) {
	c := get(t, "suction")
	mark(t, c, 5, one("pressure", "119", "mmHg"), ordered(), true)
	mark(t, c, 5, one("pressure", "120", "mmHg"), ordered(), true)
	mark(t, c, 5, one("pressure", "121", "mmHg"), ordered(), false)
	step(&c, 5).Measures[0].Exclusive = true
	mark(t, c, 5, one("pressure", "119", "mmHg"), ordered(), true)
	mark(t, c, 5, one("pressure", "120", "mmHg"), ordered(), false)
}

// Suction is below ambient: with and without its sign it is one reading (common
// practice, no source). 1000 mmHg is beyond anything.
func TestSuctionPressureWithoutItsSign(t *testing.T) {
	for code, no := range map[string]int{"suction": 5, "go-bag": 8} {
		c := get(t, code)
		mark(t, c, no, one("pressure", "-100", "mmHg"), ordered(), true)
		mark(t, c, no, one("pressure", "100", "mmHg"), ordered(), true)
		mark(t, c, no, one("pressure", "-79", "mmHg"), ordered(), false)
		mark(t, c, no, one("pressure", "1000", "mmHg"), ordered(), false)
		mark(t, c, no, one("pressure", "-1000", "mmHg"), ordered(), false)
	}
}

// WHO 2009 hand hygiene posters: rub 20 to 30 s, wash 40 to 60 s, the whole
// procedure. Longer is no failure.
func TestHandHygiene(t *testing.T) {
	for code, no := range map[string]int{"suction": 2, "stoma-ties": 4, "tube-change": 4, "humidifier": 2, "circuit-test": 3, "circuit-change": 3} {
		c := get(t, code)
		for value, ok := range map[string]bool{"20": true, "19": false, "45": true} {
			mark(t, c, no, one("rub", value, "s"), ordered(), ok)
		}
		for value, ok := range map[string]bool{"40": true, "39": false, "75": true} {
			mark(t, c, no, one("wash", value, "s"), ordered(), ok)
		}
	}
}

// AHA 2020, as reported: 20 to 30 breaths per minute, one every 2 to 3 s; over
// 120 s that is 40 to 60.
func TestRateOfManualBreaths(t *testing.T) {
	c := get(t, "bagging")
	for value, ok := range map[string]bool{"39": false, "40": true, "60": true, "61": false} {
		mark(t, c, 10, one("breaths counted in 120 s", value, "breaths"), ordered(), ok)
	}
	for value, ok := range map[string]bool{"19": false, "20": true, "30": true, "31": false} {
		mark(t, c, 10, one("rate matched to a breathing child", value, "1/min"), ordered(), ok)
		mark(t, get(t, "cpr-trach"), 18, one("breaths", value, "1/min"), ordered(), ok)
	}
}

// AHA 2020, as reported: 100 to 120 compressions a minute, 30 to 2 breaths
// alone and 15 to 2 with two rescuers, about 4 cm in infants and 5 cm in
// children, never over 6 cm; AHA 2010, table 1: pulse check at most 10 s, pauses
// below 10 s. The tolerance of the depth has no source.
func TestCompressions(t *testing.T) {
	c := get(t, "cpr-trach")
	for value, ok := range map[string]bool{"99": false, "100": true, "120": true, "121": false} {
		mark(t, c, 10, one("compressions", value, "1/min"), ordered(), ok)
	}
	for value, ok := range map[string]bool{"3.4": false, "4": true, "4.6": false} {
		mark(t, c, 11, one("infant", value, "cm"), ordered(), ok)
	}
	for value, ok := range map[string]bool{"4.4": false, "5": true, "6": true, "6.1": false} {
		mark(t, c, 11, one("child", value, "cm"), ordered(), ok)
	}
	mark(t, c, 11, one("child", "50", "mm"), ordered(), true)
	mark(t, c, 13, one("compressions per 2 breaths", "30", "compressions"), ordered(), true)
	mark(t, c, 13, one("compressions per 2 breaths", "15", "compressions"), ordered(), false)
	mark(t, c, 14, one("compressions per 2 breaths", "15", "compressions"), ordered(), true)
	mark(t, c, 4, one("check", "10", "s"), ordered(), true)
	mark(t, c, 4, one("check", "10.1", "s"), ordered(), false)
	mark(t, c, 15, one("longest pause", "9.9", "s"), ordered(), true)
	mark(t, c, 15, one("longest pause", "10", "s"), ordered(), false)
}

// Twice the trip (no source) and battery times within 10 % of the card (no
// source) follow what is recorded and ordered.
func TestRangesThatFollowOtherValues(t *testing.T) {
	c := get(t, "go-bag")
	trip := func(minutes, oxygen string) map[string]assessment.Quantity {
		return map[string]assessment.Quantity{"trip": quantity(minutes, "min"), "oxygen": quantity(oxygen, "min")}
	}
	mark(t, c, 17, trip("45", "90"), ordered(), true)
	mark(t, c, 17, trip("45", "89"), ordered(), false)
	power := get(t, "alarms-power")
	for value, ok := range map[string]bool{"215": false, "216": true, "264": true, "265": false} {
		mark(t, power, 13, map[string]assessment.Quantity{
			"ventilator": quantity(value, "min"), "back-up ventilator": quantity("200", "min"), "suction unit": quantity("45", "min"),
		}, ordered(), ok)
	}
	depth := get(t, "suction")
	for value, ok := range map[string]bool{"8.9": false, "9.0": true, "10.0": true, "10.1": false} {
		mark(t, depth, 4, one("depth", value, "cm"), ordered(), ok)
	}
}

// 0 as the longest time off the ventilator means bagged through every
// disconnection: only a bagged change can then pass.
func TestBaggedThroughEveryDisconnection(t *testing.T) {
	c := get(t, "circuit-change")
	orders := ordered()
	orders["off_vent_max"] = quantity("0", "s")
	mark(t, c, 20, one("old off to new on", "1", "s"), orders, false)
	mark(t, c, 20, one("longest gap while bagged", "5", "s"), orders, true)
	mark(t, c, 20, one("longest gap while bagged", "6", "s"), orders, false)
	mark(t, c, 20, one("old off to new on", "20", "s"), ordered(), true)
	mark(t, c, 20, one("old off to new on", "21", "s"), ordered(), false)
}

// Clin Simul Nurs 2019;27:39-47 (pass marks of 94 to 99 %) and Hosp Pediatr
// 2021;11(6):571 (critical steps missed by most): at 95 % of 24 steps, 23 pass
// unless the one is critical, and 22 do not.
func TestTwentyFourSteps(t *testing.T) {
	for _, row := range []struct {
		missed, critical int
		percent          string
		want             assessment.Outcome
	}{
		{1, 24, "95.8", assessment.NotYetCompetent},
		{1, 1, "95.8", assessment.Competent},
		{2, 1, "91.6", assessment.NotYetCompetent}, // 91.7 % rounded; cut, never rounded up
	} {
		c := assessment.Checklist{Policy: get(t, "suction").Policy, Sections: []assessment.Section{{}}}
		var sheet assessment.Sheet
		for no := 1; no <= 24; no++ {
			s := assessment.Step{No: no, Kind: assessment.Done, Weight: 1, Critical: no == row.critical, Least: assessment.Independent}
			c.Sections[0].Steps = append(c.Sections[0].Steps, s)
			e := assessment.SheetEntry{No: no, Mark: assessment.Independent}
			if no > 24-row.missed {
				e.Mark = assessment.NotMet
			}
			sheet.Entries = append(sheet.Entries, e)
		}
		r, _, err := assessment.Score(c, nil, sheet)
		if err != nil || r.Outcome != row.want || r.Score.Percent() != row.percent {
			t.Errorf("%+v: %s at %s %%, %v", row, r.Outcome, r.Score.Percent(), err)
		}
		if row.critical == 24 && (len(r.Reasons) != 1 || r.Reasons[0].Step != 24) {
			t.Errorf("the reasons are %v, want step 24 alone", r.Reasons)
		}
	}
}
