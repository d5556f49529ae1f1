package web

import (
	"fmt"
	"strings"
)

// A Field is one labelled control of a form, as the field part draws it.
type Field struct {
	ID       string // unique on the page: form name and field name
	Name     string // name sent by the browser
	Label    string
	Value    string   // what was typed or chosen, kept after a fault
	Hint     string   // one line below the label
	Fault    string   // what is wrong with the value; empty = nothing
	Kind     string   // text, email, password, pin, date, number, search, file, area, select, radios, check, checks
	Complete string   // autocomplete token (HTML, section 4.10.18.7.1)
	Unit     string   // unit after the control
	Required bool     // must be filled
	Either   bool     // this or another one must be filled
	Options  []Option // of a select, radios or checks
}

// An Option is one choice of a select, a radio group or a check group.
type Option struct {
	Value  string // what is sent
	Text   string // what is read
	Hint   string // a second line, shown for radios and checks
	Chosen bool   // ticked, for checks; selects and radios compare Value
}

// Describes lists the ids that explain the control, for aria-describedby.
func (f Field) Describes() string {
	var ids []string
	if f.Hint != "" {
		ids = append(ids, f.ID+"-hint")
	}
	if f.Fault != "" {
		ids = append(ids, f.ID+"-fault")
	}
	return strings.Join(ids, " ")
}

// newField makes a field of a form. Settings are words of the kind
// "hint=One line", "type=date", "complete=email", "unit=kg", "required".
func newField(faults Faults, name, label, value string, settings ...string) (Field, error) {
	f := Field{ID: faults.ID(name), Name: name, Label: label, Value: value, Kind: "text", Fault: faults.For(name)}
	for _, s := range settings {
		err := f.set(s)
		if err != nil {
			return Field{}, err
		}
	}
	return f, nil
}

// newChoice makes a field of options; it is a select unless "type=" says
// radios or checks.
func newChoice(faults Faults, name, label, value string, options []Option, settings ...string) (Field, error) {
	f, err := newField(faults, name, label, value, append([]string{"type=select"}, settings...)...)
	f.Options = options
	return f, err
}

// A ProofField asks a signer again who they are.
type ProofField struct {
	Password, PIN Field
	ByPIN         bool // the PIN is enough here
}

// newProof makes the fields by which a form is signed.
func newProof(faults Faults, byPIN bool, name, hint string) (ProofField, error) {
	must := "required"
	if byPIN {
		must = "either"
	}
	password, err := newField(faults, "password", name, "", "type=password", "complete=current-password", must, "hint="+hint)
	if err != nil {
		return ProofField{}, err
	}
	pin, err := newField(faults, "pin", "Your PIN", "", "type=pin", must, "hint="+hint)
	return ProofField{Password: password, PIN: pin, ByPIN: byPIN}, err
}

func (f *Field) set(setting string) error {
	key, value, _ := strings.Cut(setting, "=")
	switch key {
	case "hint":
		f.Hint = value
	case "type":
		f.Kind = value
	case "complete":
		f.Complete = value
	case "unit":
		f.Unit = value
	case "either":
		f.Either = true
	case "required":
		f.Required = true
	default:
		return fmt.Errorf("field %s: unknown setting %q", f.Name, setting)
	}
	return nil
}
