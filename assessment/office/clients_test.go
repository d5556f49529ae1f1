package office_test

import (
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

func TestClients(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	add := func(by assessment.Actor, code, name string) (office.ClientView, error) {
		return w.Office.AddClient(t.Context(), by, office.ClientForm{Code: code, FirstName: name})
	}
	c := must(add(w.Coordinator, " 7k ", "Zoë"))(t)
	if c.Code != "7K" || c.FirstName != "Zoë" || len(c.Team) != 0 || len(c.Equipment) != 0 {
		t.Errorf("added: %+v", c)
	}
	_, err := add(w.Coordinator, "7K", "Tam")
	wantRefusal(t, err, fault.Conflict, "with this code already")
	_, err = add(w.Coordinator, "", "")
	wantAtField(t, err, "code", "short code")
	wantAtField(t, err, "first_name", "first name")
	_, err = add(w.Coordinator, "7 K", "Tam")
	wantAtField(t, err, "code", "letters, digits and hyphens")
	_, err = add(w.Nurse("Nan Orme"), "8K", "Tam")
	wantRefusal(t, err, fault.Forbidden, "edit children")

	must(add(w.Educators[0], "2B", "Ai"))(t)
	c = must(w.Office.EditClient(t.Context(), w.Admin, c.ID, office.ClientForm{Code: "9Z", FirstName: "Zoë"}))(t)
	if got := must(w.Office.Client(t.Context(), w.Coordinator, c.ID))(t); got.Code != "9Z" {
		t.Errorf("edited: %+v", got)
	}
	codes := func(find string) string {
		var all []string
		for _, c := range must(w.Office.Clients(t.Context(), w.Coordinator, find))(t) {
			all = append(all, c.Code)
		}
		return strings.Join(all, " ")
	}
	if codes("") != "2B 9Z" || codes("ZO") != "9Z" || codes("b") != "2B" || codes("%") != "" {
		t.Errorf("listed: %q, %q, %q, %q", codes(""), codes("ZO"), codes("b"), codes("%"))
	}
	must(w.Office.ClientLeaves(t.Context(), w.Coordinator, c.ID, w.Today()))(t)
	if codes("") != "2B" {
		t.Errorf("who has left is listed: %q", codes(""))
	}
	_, err = w.Office.ClientLeaves(t.Context(), w.Coordinator, c.ID, civil.Date{})
	wantAtField(t, err, "on", "first day")
}

// parameter finds one of a child's ordered values.
func parameter(t *testing.T, c office.ClientView, name string) office.ParameterView {
	t.Helper()
	for _, p := range c.Parameters {
		if p.Name == name {
			return p
		}
	}
	t.Fatalf("there is no %s among %d", name, len(c.Parameters))
	return office.ParameterView{}
}

func TestParameters(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	c := must(w.Office.AddClient(t.Context(), w.Coordinator, office.ClientForm{Code: "7K", FirstName: "Tam"}))(t)
	if p := parameter(t, c, "depth_tol"); p.Set || p.Default != "0.5 cm" || p.Unit != "cm" {
		t.Errorf("unset: %+v", p)
	}
	set := func(forms ...office.ParameterForm) (office.ClientView, error) {
		return w.Office.SetParameters(t.Context(), w.Educators[0], c.ID, forms)
	}
	v := must(set(office.ParameterForm{Name: "suction_low", Value: "80"}, office.ParameterForm{Name: "suction_high", Value: " 13.3 ", Unit: "kPa"},
		office.ParameterForm{Name: "tube_small_id", Words: "none"}, office.ParameterForm{Name: "call_first", Words: "at once"}))(t)
	if p := parameter(t, v, "suction_high"); !p.Set || p.Value != "13.3" || p.Unit != "kPa" || p.SetBy != "Edda Lorne" || !p.SetAt.Equal(w.Now()) {
		t.Errorf("set: %+v", p)
	}
	if p := parameter(t, v, "tube_small_id"); p.Words != "none" || p.Value != "" {
		t.Errorf("set in words: %+v", p)
	}
	first := w.Now()
	w.Pass(time.Second)
	v = must(set(office.ParameterForm{Name: "suction_low", Value: "80", Unit: "mmHg"}, office.ParameterForm{Name: "call_first"}))(t)
	if p := parameter(t, v, "suction_low"); !p.SetAt.Equal(first) {
		t.Errorf("what stayed as it was is ordered anew: %+v", p)
	}
	if p := parameter(t, v, "call_first"); p.Set {
		t.Errorf("unset again: %+v", p)
	}
}

func TestParametersRefused(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	c := must(w.Office.AddClient(t.Context(), w.Coordinator, office.ClientForm{Code: "7K", FirstName: "Tam"}))(t)
	set := func(forms ...office.ParameterForm) error {
		_, err := w.Office.SetParameters(t.Context(), w.Educators[0], c.ID, forms)
		return err
	}
	wantNone(t, set(office.ParameterForm{Name: "spo2_low", Value: "92"}))
	for _, c := range []struct {
		field, says string
		forms       []office.ParameterForm
	}{
		{"mood", "no ordered value of this name", []office.ParameterForm{{Name: "mood", Words: "good"}}},
		{"hr_low", "not a number", []office.ParameterForm{{Name: "hr_low", Value: "fast"}}},
		{"hr_low", "not a number", []office.ParameterForm{{Name: "hr_low", Value: "1e3"}}},
		{"hr_low", "without a sign", []office.ParameterForm{{Name: "hr_low", Value: "-80"}}},
		{"hr_low", "not both", []office.ParameterForm{{Name: "hr_low", Value: "80", Words: "eighty"}}},
		{"hr_low", "twice", []office.ParameterForm{{Name: "hr_low", Value: "80"}, {Name: "hr_low", Value: "81"}}},
		{"temp_high", "cannot be turned into", []office.ParameterForm{{Name: "temp_high", Value: "37", Unit: "mmHg"}}},
		{"call_first", "put in words", []office.ParameterForm{{Name: "call_first", Value: "1"}}},
		{"hr_high", "cannot be above", []office.ParameterForm{{Name: "hr_low", Value: "120"}, {Name: "hr_high", Value: "119.9"}}},
		{"suction_high", "cannot be above", []office.ParameterForm{{Name: "suction_low", Value: "80"}, {Name: "suction_high", Value: "10", Unit: "kPa"}}}, // 75.0 mmHg
		{"spo2_high", "cannot be above", []office.ParameterForm{{Name: "spo2_high", Value: "91"}}},                                                        // against what stands
		{"bag_rate_low", "cannot be above", []office.ParameterForm{{Name: "bag_rate_low", Value: "31"}}},                                                  // against the default of 30
	} {
		wantAtField(t, set(append(c.forms, office.ParameterForm{Name: "cuff", Words: "water"})...), c.field, c.says)
	}
	v := must(w.Office.Client(t.Context(), w.Coordinator, c.ID))(t)
	if p := parameter(t, v, "cuff"); p.Set {
		t.Error("a refused form was half written")
	}
	wantNone(t, set(office.ParameterForm{Name: "hr_low", Value: "120"}, office.ParameterForm{Name: "hr_high", Value: "120"}))
	_, err := w.Office.SetParameters(t.Context(), w.Coordinator, c.ID, nil)
	wantRefusal(t, err, fault.Forbidden, "ordered values")
}

func TestEquipment(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	c := must(w.Office.AddClient(t.Context(), w.Coordinator, office.ClientForm{Code: "7K", FirstName: "Tam"}))(t)
	set := func(kind, model, from string) (office.ClientView, error) {
		return w.Office.SetEquipment(t.Context(), w.Educators[0], c.ID, office.EquipmentForm{Kind: kind, Type: model, From: from})
	}
	must(set("Ventilator", "model  one", "2026-01-01"))(t)
	must(set("ventilator", "model two", "2026-02-01"))(t)
	must(set("humidifier", "heated", "2026-01-01"))(t)
	v := must(set("humidifier", "", "2026-01-03"))(t)
	if len(v.Equipment) != 2 || v.Equipment[0].Kind != "humidifier" || v.Equipment[0].Type != "" || v.Equipment[1].Type != "model one" ||
		v.Equipment[1].From.String() != "2026-01-01" || len(v.Equipment[1].History) != 2 {
		t.Errorf("on 2026-01-05: %+v", v.Equipment)
	}
	w.Day("2026-02-01")
	v = must(w.Office.Client(t.Context(), w.Coordinator, c.ID))(t)
	if v.Equipment[1].Type != "model two" {
		t.Errorf("on 2026-02-01: %+v", v.Equipment)
	}
	_, err := set("ventilator", "model two", "2026-03-01")
	wantRefusal(t, err, fault.Conflict, "has this type")
	_, err = set("", "x", "")
	wantAtField(t, err, "kind", "kind of equipment")
	wantAtField(t, err, "from", "Give the day")
	_, err = set("vent;drop", "x", "2026-03-01")
	wantAtField(t, err, "kind", "words in letters")
	v = must(set("ventilator", "model three", "2026-02-01"))(t) // of two for one day the later word counts
	if v.Equipment[1].Type != "model three" {
		t.Errorf("corrected: %+v", v.Equipment[1])
	}
}

// A holding that depends on the ventilator ends with it (ATS 2016, table 5, section
// 4: training on the very type in that home), and the index says the same.
func TestEquipmentEndsWhatWasShown(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	child := w.Client("7K", "Tam")
	nurse := w.Nurse("Nan Orme")
	w.Join(nurse, child)
	w.Award(nurse, "circuit-test", child)
	w.Pass(24 * time.Hour)
	if s := w.Standing(nurse, "circuit-test", child, w.Today()); !s.Word.Holds() {
		t.Fatalf("after the award: %+v", s)
	}
	w.Equip(child, "ventilator", "model two")
	if s := w.Standing(nurse, "circuit-test", child, w.Today()); s.Word.Holds() {
		t.Errorf("with another ventilator: %+v", s)
	}
	if found, err := w.Office.Rebuild(t.Context()); err != nil || len(found.Wrong) != 0 {
		t.Errorf("the index after the change: %+v, %v", found, err)
	}
}

func TestTeam(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	child := w.Client("7K", "Tam")
	nurse := w.Nurse("Nan Orme")
	join := func(from, through string) (office.ClientView, error) {
		return w.Office.AddToTeam(t.Context(), w.Coordinator, child, office.TeamForm{Person: nurse.Person, From: from, Through: through})
	}
	v := must(join("2026-01-10", "2026-01-20"))(t)
	if len(v.Team) != 1 || v.Team[0].Here || v.Team[0].Name != "Nan Orme" || v.Team[0].Kind != assessment.Nurse {
		t.Errorf("on 2026-01-05: %+v", v.Team)
	}
	for _, days := range [][2]string{{"2026-01-20", ""}, {"2026-01-01", "2026-01-10"}, {"2026-01-12", "2026-01-13"}, {"2025-01-01", ""}} {
		_, err := join(days[0], days[1])
		wantRefusal(t, err, fault.Conflict, "on some of these days already")
	}
	must(join("2026-01-21", ""))(t)
	_, err := join("", "")
	wantAtField(t, err, "from", "Give the day")
	_, err = join("2026-05-02", "2026-05-01")
	wantAtField(t, err, "through", "before the first")
	_, err = w.Office.AddToTeam(t.Context(), w.Coordinator, child, office.TeamForm{From: "2026-01-01"})
	wantAtField(t, err, "person", "Choose")

	end := func(client assessment.ClientID, through string) error {
		_, err := w.Office.EndOnTeam(t.Context(), w.Coordinator, client, v.Team[0].ID, through)
		return err
	}
	wantAtField(t, end(child, "2026-01-09"), "through", "before the first")
	wantAtField(t, end(child, "2026-01-21"), "through", "2026-01-20 only")
	wantRefusal(t, end(w.Client("8M", "Ai"), "2026-01-15"), fault.NotFound, "no such record")
	wantNone(t, end(child, "2026-01-15"))

	sees := func(day string) bool {
		w.Day(day)
		_, err := w.Office.Client(t.Context(), nurse, child)
		if err != nil {
			wantRefusal(t, err, fault.NotFound, "There is no such record.")
		}
		if listed := must(w.Office.Clients(t.Context(), nurse, ""))(t); len(listed) == 1 != (err == nil) {
			t.Errorf("on %s: %d are listed, and asking for the child says %v", day, len(listed), err)
		}
		return err == nil
	}
	for day, want := range map[string]bool{"2026-01-09": false, "2026-01-10": true, "2026-01-15": true, "2026-01-16": false, "2026-01-21": true} {
		if sees(day) != want {
			t.Errorf("on %s they see the child: %v, want %v", day, !want, want)
		}
	}
}
