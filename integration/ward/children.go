package ward

import (
	"maps"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/office"
)

// ordered are the values of every child of a ward: those of a toddler in no
// particular. Where a range has two ends they differ, so that a value can lie
// inside, on an end, or outside.
var ordered = map[string]string{
	"spo2_low": "92", "spo2_high": "99", "hr_low": "85", "hr_high": "150", "rr_low": "20", "rr_high": "40",
	"leak_low": "4", "leak_high": "18", "vte_low": "60", "vte_high": "110", "peak_pressure_low": "14", "peak_pressure_high": "22",
	"off_vent_max": "20", "tube_id": "4", "tube_small_id": "3.5", "cuff_volume": "2",
	"cath_fr": "8", "cath_small_fr": "6", "suction_depth": "7", "depth_tol": "0.5", "suction_low": "80", "suction_high": "100",
	"suction_time_max": "10", "bag_rate_low": "20", "bag_rate_high": "30", "temp_low": "35", "temp_high": "39",
	"battery_min": "240", "battery_min_backup": "180", "battery_min_suction": "60", "o2_flow": "2", "o2_min": "60",
}

// orderedWords are the values that are put in words.
var orderedWords = map[string]string{
	"vent_settings": "rate 22 per min; pressure 18 over 6 cmH2O", "no_smaller_plan": "not needed", "cuff": "water, deflated by day",
	"stay_alone": "no", "call_first": "at once",
}

// Fitted is the equipment of every child of a ward, by kind.
var Fitted = map[string]string{
	"ventilator": "model one", "circuit": "single limb, leak port", "humidifier": "heated", "tracheostomy tube": "4.0 uncuffed",
}

// Client adds a child with every value ordered and every kind of equipment that
// a starter checklist depends on, from today.
func (w *Ward) Client(code, firstName string) assessment.ClientID {
	w.tb.Helper()
	c := must(w.Office.AddClient(w.tb.Context(), w.Coordinator, office.ClientForm{Code: code, FirstName: firstName}))(w.tb)
	must(w.Office.SetParameters(w.tb.Context(), w.Educators[0], c.ID, orders(w)))(w.tb)
	for _, kind := range slices.Sorted(maps.Keys(Fitted)) {
		w.Equip(c.ID, kind, Fitted[kind])
	}
	return c.ID
}

// orders are the values of a child as a form; a value of the catalogue that has
// none here fails the test.
func orders(w *Ward) []office.ParameterForm {
	var forms []office.ParameterForm
	for _, p := range catalog.Parameters() {
		f := office.ParameterForm{Name: p.Name, Value: ordered[p.Name], Words: orderedWords[p.Name], Unit: p.Unit}
		if f.Value == "" && f.Words == "" {
			w.tb.Fatalf("the ward orders no %s", p.Name)
		}
		forms = append(forms, f)
	}
	return forms
}

// Equip gives a child a type of a kind of equipment from today.
func (w *Ward) Equip(child assessment.ClientID, kind, model string) {
	w.tb.Helper()
	must(w.Office.SetEquipment(w.tb.Context(), w.Coordinator, child, office.EquipmentForm{Kind: kind, Type: model, From: w.Today().String()}))(w.tb)
}

// Join puts somebody on a child's team from today.
func (w *Ward) Join(who assessment.Actor, child assessment.ClientID) {
	w.tb.Helper()
	must(w.Office.AddToTeam(w.tb.Context(), w.Coordinator, child, office.TeamForm{Person: who.Person, From: w.Today().String()}))(w.tb)
}

// Require demands a skill from today: of a kind of caregiver, or of all for the
// empty kind.
func (w *Ward) Require(skill string, kind assessment.CaregiverKind) {
	w.tb.Helper()
	must(w.Office.SetRequirement(w.tb.Context(), w.Coordinator, office.RequirementForm{Skill: skill, Kind: string(kind), From: w.Today().String()}))(w.tb)
}
