package web

// PlanTemplatePage shows what new plans for going home begin with. GET /plan-template.
type PlanTemplatePage struct {
	Frame
	Faults Faults
	Own    bool // the agency's own; else the standard one
	Lines  []PlanLine
	Take   string // where POST makes the standard one the agency's own; empty = not offered
	Drop   string // where POST goes back to the standard one; empty = not offered
	Add    CriterionForm
}

// A PlanLine is one line of the template.
type PlanLine struct {
	ID      string
	Name    string
	Spanish string // empty: nobody has written it
	Asks    string // how it is judged, and how much of it
	SaidBy  string // who may say that it is so; empty: it is worked out
	Source  string
	Change  CriterionForm
	Remove  string // where POST takes it off; empty = not for this reader
	CSRF    string // set by WithCSRF
}

// WithCSRF gives the line the page's token, for its forms.
func (l PlanLine) WithCSRF(token string) PlanLine {
	l.CSRF = token
	return l
}

// ChangeName is the name of the form that changes the line.
func (l PlanLine) ChangeName() string { return "change-" + l.ID }

// Refused is the form of the page that was refused.
func (p PlanTemplatePage) Refused() Link {
	forms := []Faults{p.Add.Faults.In("add")}
	for _, l := range p.Lines {
		forms = append(forms, l.Change.Faults.In(l.ChangeName()))
	}
	return refusedIn(forms...)
}
