package demo

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
)

// child is one of the eight. Days are counted back from the last one; the agency
// knows a child from the day its first caregiver comes.
type child struct {
	code, name string
	inHospital bool // still, so that what is shown with the child is shown there
	size       string
	values     map[string]string // by parameter: a number in its usual unit, or words
	equipment  map[string]string // by kind

	id    assessment.ClientID
	since civil.Date
}

// place is where something is shown with the child.
func (c *child) place() string {
	if c.inHospital {
		return "hospital, child's room"
	}
	return "at home"
}

// Three sheets of ordered values for an infant, a toddler and a schoolchild. They
// are invented, as everything about these children is.
var (
	infant = map[string]string{"spo2_low": "93", "spo2_high": "99", "hr_low": "100", "hr_high": "165", "rr_low": "26", "rr_high": "50",
		"vte_low": "35", "vte_high": "65", "peak_pressure_low": "14", "peak_pressure_high": "22", "off_vent_max": "10",
		"tube_id": "3.5", "tube_small_id": "3", "cuff_volume": "0", "cath_fr": "7", "cath_small_fr": "6", "suction_depth": "6.5",
		"suction_low": "70", "suction_high": "90", "bag_rate_low": "20", "bag_rate_high": "30"}
	toddler = map[string]string{"spo2_low": "92", "spo2_high": "99", "hr_low": "85", "hr_high": "150", "rr_low": "20", "rr_high": "40",
		"vte_low": "70", "vte_high": "120", "peak_pressure_low": "14", "peak_pressure_high": "24", "off_vent_max": "15",
		"tube_id": "4", "tube_small_id": "3.5", "cuff_volume": "0", "cath_fr": "8", "cath_small_fr": "7", "suction_depth": "7.5",
		"suction_low": "80", "suction_high": "100", "bag_rate_low": "20", "bag_rate_high": "30"}
	schoolchild = map[string]string{"spo2_low": "92", "spo2_high": "99", "hr_low": "70", "hr_high": "130", "rr_low": "16", "rr_high": "32",
		"vte_low": "150", "vte_high": "260", "peak_pressure_low": "15", "peak_pressure_high": "26", "off_vent_max": "20",
		"tube_id": "5", "tube_small_id": "4.5", "cuff_volume": "2.5", "cath_fr": "10", "cath_small_fr": "8", "suction_depth": "9",
		"suction_low": "90", "suction_high": "110", "bag_rate_low": "20", "bag_rate_high": "25"}
	everyAge = map[string]string{"leak_low": "4", "leak_high": "20", "depth_tol": "0.5", "suction_time_max": "10", "temp_low": "35", "temp_high": "39",
		"battery_min": "240", "battery_min_backup": "210", "battery_min_suction": "60", "o2_flow": "1", "o2_min": "90",
		"vent_settings": "mode pressure control; rate 22 per minute; pressure 18 over 6 cmH2O; inspiratory time 0.7 s",
		"cuff":          noCuff, "no_smaller_plan": "not needed", "stay_alone": "no", "call_first": "at once"}
)

const noCuff = "none"

// kit is the equipment of a child, by kind, with what differs from the usual.
func kit(tube string, differs ...string) map[string]string {
	k := map[string]string{"ventilator": "portable turbine, type A", "circuit": "single limb, leak port", "humidifier": "heated pass-over, type A",
		"tracheostomy tube": tube}
	for i := 0; i+1 < len(differs); i += 2 {
		k[differs[i]] = differs[i+1]
	}
	return k
}

// sheet is the ordered values of one age with what differs from them.
func sheet(age map[string]string, differs ...string) map[string]string {
	v := maps.Clone(everyAge)
	maps.Copy(v, age)
	for i := 0; i+1 < len(differs); i += 2 {
		v[differs[i]] = differs[i+1]
	}
	return v
}

func theChildren() []*child {
	return []*child{
		{code: "7K", name: "Mira", inHospital: true, size: "infant", values: sheet(infant), equipment: kit("3.5 mm, uncuffed")},
		{code: "4B", name: "Theo", size: "child", values: sheet(toddler), equipment: kit("4.0 mm, uncuffed")},
		{code: "2C", name: "Amadou", size: "child", values: sheet(schoolchild, "cuff", "water, 2.5 mL, up at night", "stay_alone", "yes"), equipment: kit("5.0 mm, cuffed")},
		{code: "9R", name: "Rosa", size: "child", values: sheet(toddler, "stay_alone", "yes"), equipment: kit("4.0 mm, uncuffed", "ventilator", "portable turbine, type B")},
		{code: "3F", name: "Kai", size: "child", values: sheet(schoolchild, "cuff", "air, 2.5 mL, up at night"), equipment: kit("5.0 mm, cuffed")},
		{code: "6T", name: "Leila", size: "child", values: sheet(toddler, "o2_flow", "0.5"), equipment: kit("4.0 mm, uncuffed", "circuit", "single limb, exhalation valve")},
		{code: "5W", name: "Jonah", size: "child", values: sheet(toddler, "call_first", "after one failed attempt"), equipment: kit("4.0 mm, uncuffed", "humidifier", "heated pass-over, type B")},
		{code: "8M", name: "Anouk", inHospital: true, size: "infant", values: sheet(infant, "suction_depth", "6"), equipment: kit("3.5 mm, uncuffed", "ventilator", "portable turbine, type B")},
	}
}

// arrive adds a child on the day that the agency comes to know it, with what is
// ordered and what it breathes with.
func (s *story) arrive(c *child) error {
	v, err := s.office.AddClient(s.ctx, s.coordinate[0].Actor, office.ClientForm{Code: c.code, FirstName: c.name})
	if err != nil {
		return fmt.Errorf("add %s: %w", c.code, err)
	}
	c.id = v.ID
	if _, err := s.office.SetParameters(s.ctx, s.educators[0].Actor, c.id, c.orders()); err != nil {
		return fmt.Errorf("order the values of %s: %w", c.code, err)
	}
	if err := s.writePapers(c); err != nil {
		return fmt.Errorf("write down what the papers of %s say: %w", c.code, err)
	}
	for _, kind := range slices.Sorted(maps.Keys(c.equipment)) {
		if err := s.equip(c, kind, c.equipment[kind], s.day()); err != nil {
			return err
		}
	}
	return nil
}

func (s *story) equip(c *child, kind, model string, from civil.Date) error {
	_, err := s.office.SetEquipment(s.ctx, s.coordinate[0].Actor, c.id, office.EquipmentForm{Kind: kind, Type: model, From: from.String()})
	if err != nil {
		return fmt.Errorf("give %s a %s: %w", c.code, kind, err)
	}
	return nil
}

// orders are the values as the educator types them from the signed orders. A
// value without one of the two forms is left as it is by default.
func (c *child) orders() []office.ParameterForm {
	var forms []office.ParameterForm
	for _, p := range catalog.Parameters() {
		f := office.ParameterForm{Name: p.Name}
		if p.Unit == "" {
			f.Words = c.values[p.Name]
		} else {
			f.Value, f.Unit = c.values[p.Name], p.Unit
		}
		forms = append(forms, f)
	}
	return forms
}

// without reports whether a step's reason not to apply holds for this child.
func (c *child) without(mayNotApply string) bool {
	return strings.Contains(mayNotApply, "no cuff") && c.values["cuff"] == noCuff ||
		strings.Contains(mayNotApply, "{stay_alone}") && c.values["stay_alone"] == "yes"
}
