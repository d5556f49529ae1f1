package catalog

import "wellshown/assessment"

// Parameters are the values of a child on which the starter checklists rely, in
// the order in which a record asks for them. One without a unit is put in words.
// All come from signed orders, the maker or the child's plan; the few defaults
// say where they come from.
func Parameters() []assessment.Parameter {
	unset := func(value, unit string) *assessment.Quantity {
		return &assessment.Quantity{Value: assessment.MustNumber(value), Unit: unit}
	}
	return []assessment.Parameter{
		{Name: "spo2_low", Says: "lowest oxygen saturation accepted, by order", Unit: "%"},
		{Name: "spo2_high", Says: "highest oxygen saturation accepted, by order", Unit: "%"},
		{Name: "hr_low", Says: "lowest heart rate accepted, by order", Unit: "1/min"},
		{Name: "hr_high", Says: "highest heart rate accepted, by order", Unit: "1/min"},
		{Name: "rr_low", Says: "lowest breathing rate accepted, by order", Unit: "1/min"},
		{Name: "rr_high", Says: "highest breathing rate accepted, by order", Unit: "1/min"},

		{Name: "vent_settings", Says: "ventilator settings as on the printed card on the device: name, value and unit of each"},
		{Name: "leak_low", Says: "lowest leak accepted, by order or as usual for the child", Unit: "L/min"},
		{Name: "leak_high", Says: "highest leak accepted, by order or as usual for the child", Unit: "L/min"},
		{Name: "vte_low", Says: "lowest exhaled volume accepted, by order or as usual for the child", Unit: "mL"},
		{Name: "vte_high", Says: "highest exhaled volume accepted, by order or as usual for the child", Unit: "mL"},
		{Name: "peak_pressure_low", Says: "lowest peak pressure accepted, by order or as usual for the child", Unit: "cmH2O"},
		{Name: "peak_pressure_high", Says: "highest peak pressure accepted, by order or as usual for the child", Unit: "cmH2O"},
		{Name: "off_vent_max", Says: "longest time off the ventilator without breaths, by order; 0 means bagged through every disconnection", Unit: "s"},

		{Name: "tube_id", Says: "inner diameter of the tube, by order", Unit: "mm"},
		{Name: "tube_small_id", Says: "inner diameter of the smaller tube, by order; none where the smallest made is in use", Unit: "mm"},
		{Name: "no_smaller_plan", Says: "the team's written plan where there is no smaller tube; otherwise \"not needed\""},
		{Name: "cuff", Says: "cuff: none, air or water, and its schedule, by order and maker"},
		{Name: "cuff_volume", Says: "volume in the cuff, by order and maker", Unit: "mL"},

		{Name: "cath_fr", Says: "size of the suction catheter, by order", Unit: "Fr"},
		{Name: "cath_small_fr", Says: "size of the catheter that fits the smaller tube, by order; the usual size where there is no smaller tube", Unit: "Fr"},
		{Name: "suction_depth", Says: "suction depth, by order", Unit: "cm"},
		{Name: "depth_tol", Says: "how far the depth may be off, by order; 0.5 cm if unset has no source", Unit: "cm", Default: unset("0.5", "cm")},
		{Name: "suction_low", Says: "lowest suction pressure below ambient, by order", Unit: "mmHg"},
		{Name: "suction_high", Says: "highest suction pressure below ambient, by order; published for children: below 120 mmHg (AARC 2022)", Unit: "mmHg"},
		{Name: "suction_time_max", Says: "longest suction pass, by policy; never over 15 s (AARC 2022); 10 s if unset has no source", Unit: "s", Default: unset("10", "s")},

		{Name: "bag_rate_low", Says: "lowest rate of manual breaths, by order; 20 if unset is for absent breathing (AHA 2020)", Unit: "1/min", Default: unset("20", "1/min")},
		{Name: "bag_rate_high", Says: "highest rate of manual breaths, by order; 30 if unset is for absent breathing (AHA 2020)", Unit: "1/min", Default: unset("30", "1/min")},
		{Name: "temp_low", Says: "lowest gas temperature at the airway, by order and maker, within 34 to 41 °C (AARC 2012)", Unit: "degC"},
		{Name: "temp_high", Says: "highest gas temperature at the airway, by order and maker, within 34 to 41 °C (AARC 2012)", Unit: "degC"},

		{Name: "battery_min", Says: "how long the ventilator's battery lasts, by maker and age of the battery", Unit: "min"},
		{Name: "battery_min_backup", Says: "how long the back-up ventilator's battery lasts, by maker and age of the battery", Unit: "min"},
		{Name: "battery_min_suction", Says: "how long the suction unit's battery lasts, by maker and age of the battery", Unit: "min"},
		{Name: "o2_flow", Says: "oxygen flow, by order", Unit: "L/min"},
		{Name: "o2_min", Says: "time that must be left in the oxygen cylinder, by plan", Unit: "min"},

		{Name: "stay_alone", Says: "may one caregiver do this alone: yes or no, by order"},
		{Name: "call_first", Says: "when to call for help, by the child's written emergency plan: at once, or after one failed attempt"},
	}
}

// HomeParameters are values of a child on which no starter checklist relies, and which the
// papers that go home with the child say.
func HomeParameters() []assessment.Parameter {
	return []assessment.Parameter{
		{Name: "upper_airway", Says: "can air pass through mouth and nose, by order: open or none"},
	}
}
