package web

// Faults say what was wrong with a form that was sent: the summary above it
// and one message for each field. The zero value means that nothing was wrong.
type Faults struct {
	What   string       // what happened: "The demonstration was not recorded."
	Why    string       // why: "Two steps have no mark."
	Next   string       // what to do next: "Mark them, then record."
	Fields []FieldFault // in the order of the form
	Form   string       // name of the form on a page with several; set by In
}

// A FieldFault is what is wrong with one field.
type FieldFault struct {
	Field string // name of the field
	Label string // its label, for the summary
	Text  string // what is wrong and what is accepted
}

// Any tells whether there is anything to show.
func (f Faults) Any() bool { return f.What != "" || len(f.Fields) > 0 }

// For gives the message of a field, or nothing.
func (f Faults) For(name string) string {
	for _, fault := range f.Fields {
		if fault.Field == name {
			return fault.Text
		}
	}
	return ""
}

// In gives the same faults for a named form, so that two forms of one page
// can each have a field of the same name.
func (f Faults) In(form string) Faults {
	f.Form = form
	return f
}

// ID is the id of a field's control on the page.
func (f Faults) ID(name string) string {
	if f.Form == "" {
		return "field-" + name
	}
	return f.Form + "-" + name
}
