package web

import (
	"fmt"
	"strings"

	"wellshown/assessment/wording"
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
	Lang     string   // in which it is typed, where that is not the page's
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
// "hint=One line", "type=date", "complete=email", "unit=kg", "required"; one that ends
// with "=" takes the next as its value, so that it can be said in any language. Options
// make it a select, unless "type=" says radios or checks.
func newField(faults Faults, name, label, value string, settings ...any) (Field, error) {
	f := Field{ID: faults.ID(name), Name: name, Label: label, Value: value, Kind: "text", Fault: faults.For(name)}
	taking := "" // a setting whose value comes next
	for _, s := range settings {
		switch s := s.(type) {
		case []Option:
			f.Kind, f.Options = "select", s
		case string:
			if taking == "" && strings.HasSuffix(s, "=") {
				taking = s
				continue
			}
			if err := f.set(taking + s); err != nil {
				return Field{}, err
			}
			taking = ""
		default:
			return Field{}, fmt.Errorf("field %s: a setting is a word or options, not %T", name, s)
		}
	}
	if taking != "" {
		return Field{}, fmt.Errorf("field %s: setting %q has no value", name, taking)
	}
	return f, nil
}

// A ProofField asks a signer again who they are.
type ProofField struct {
	Password, PIN Field
	ByPIN         bool // the PIN is enough here
}

// proofIn makes the fields by which a form is signed, in a language.
func proofIn(words wording.Words) func(faults Faults, byPIN bool, name, hint string) (ProofField, error) {
	return func(faults Faults, byPIN bool, name, hint string) (ProofField, error) {
		must := "required"
		if byPIN {
			must = "either"
		}
		password, err := newField(faults, "password", name, "", "type=password", "complete=current-password", must, "hint=", hint)
		if err != nil {
			return ProofField{}, err
		}
		pin, err := newField(faults, "pin", words.Say("Your PIN"), "", "type=pin", must, "hint=", hint)
		return ProofField{Password: password, PIN: pin, ByPIN: byPIN}, err
	}
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
	case "lang":
		f.Lang = value
	case "either":
		f.Either = true
	case "required":
		f.Required = true
	default:
		return fmt.Errorf("field %s: unknown setting %q", f.Name, setting)
	}
	return nil
}
