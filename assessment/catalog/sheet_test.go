package catalog_test

import (
	"testing"

	"wellshown/assessment"
)

func quantity(value, unit string) assessment.Quantity {
	return assessment.Quantity{Value: assessment.MustNumber(value), Unit: unit}
}

// ordered are the values of an invented child.
func ordered() assessment.Parameters {
	return assessment.Parameters{
		"spo2_low": quantity("92", "%"), "spo2_high": quantity("100", "%"),
		"hr_low": quantity("80", "1/min"), "hr_high": quantity("140", "1/min"),
		"rr_low": quantity("18", "1/min"), "rr_high": quantity("35", "1/min"),
		"leak_low": quantity("18", "L/min"), "leak_high": quantity("30", "L/min"),
		"vte_low": quantity("60", "mL"), "vte_high": quantity("110", "mL"),
		"peak_pressure_low": quantity("12", "cmH2O"), "peak_pressure_high": quantity("26", "cmH2O"),
		"off_vent_max": quantity("20", "s"), "tube_id": quantity("4.0", "mm"), "tube_small_id": quantity("3.5", "mm"),
		"cuff_volume": quantity("2", "mL"), "cath_fr": quantity("8", "Fr"), "cath_small_fr": quantity("6", "Fr"),
		"suction_depth": quantity("9.5", "cm"), "suction_low": quantity("80", "mmHg"), "suction_high": quantity("120", "mmHg"),
		"temp_low": quantity("34", "degC"), "temp_high": quantity("41", "degC"),
		"battery_min": quantity("240", "min"), "battery_min_backup": quantity("200", "min"), "battery_min_suction": quantity("45", "min"),
		"o2_flow": quantity("0.5", "L/min"), "o2_min": quantity("60", "min"),
	}
}

// shown is a sheet on which every step is independent and every value lies on
// an end of its range, the first of each group of alternatives.
func shown(t *testing.T, c assessment.Checklist) assessment.Sheet {
	t.Helper()
	known := ordered()
	for _, p := range c.Parameters {
		if _, ok := known[p.Name]; !ok && p.Default != nil {
			known[p.Name] = *p.Default
		}
	}
	var sheet assessment.Sheet
	for _, s := range c.Steps() {
		values, given := map[string]assessment.Quantity{}, map[string]bool{}
		for _, m := range s.Measures {
			if !given[m.Either] {
				values[m.Name] = within(t, m, known, values)
			}
			given[m.Either] = m.Either != ""
		}
		sheet.Entries = append(sheet.Entries, assessment.SheetEntry{No: s.No, Mark: assessment.Independent, Values: values})
	}
	return sheet
}

// within is a value that the range accepts: its end, or 1 below a strict one.
func within(t *testing.T, m assessment.Measure, known assessment.Parameters, values map[string]assessment.Quantity) assessment.Quantity {
	t.Helper()
	a, missing, err := m.Accepted(known, values)
	if err != nil || missing != "" {
		t.Fatalf("%s: %v, %s is missing", m.Name, err, missing)
	}
	n := assessment.Whole(30)
	switch {
	case a.Low != nil:
		n = *a.Low
	case a.High != nil && a.Exclusive:
		n = a.High.Minus(assessment.Whole(1))
	case a.High != nil:
		n = *a.High
	}
	return assessment.Quantity{Value: n, Unit: m.Unit}
}

// at is what becomes of a step shown independently with these values, all else
// being right.
func at(t *testing.T, c assessment.Checklist, no int, values map[string]assessment.Quantity, orders assessment.Parameters) assessment.Mark {
	t.Helper()
	sheet := shown(t, c)
	sheet.Entries[no-1].Values = values
	r, open, err := assessment.Score(c, orders, sheet)
	if err != nil || len(open) > 0 {
		t.Fatalf("%s, step %d with %v: %v, open %v", c.Code, no, values, err, open)
	}
	return r.Effective[no]
}

func score(t *testing.T, c assessment.Checklist, sheet assessment.Sheet) assessment.Result {
	t.Helper()
	r, open, err := assessment.Score(c, ordered(), sheet)
	if err != nil || len(open) > 0 {
		t.Fatalf("%s: %v, open %v", c.Code, err, open)
	}
	return r
}
