package fault

import "fmt"

// Fields gathers the faults of a form so that all are shown at once. The zero
// value is ready.
type Fields struct{ named map[string]string }

// Add notes a fault at a field; the first of a field is kept.
func (f *Fields) Add(field, format string, args ...any) {
	if f.named == nil {
		f.named = map[string]string{}
	}
	if _, seen := f.named[field]; !seen {
		f.named[field] = fmt.Sprintf(format, args...)
	}
}

// Take notes err at a field where err is one.
func (f *Fields) Take(field string, err error) {
	if err != nil {
		f.Add(field, "%s", err.Error())
	}
}

// Err is nil where nothing was noted, else one Invalid fault with all of it.
func (f *Fields) Err() error {
	if len(f.named) == 0 {
		return nil
	}
	msg := "One thing needs mending."
	if len(f.named) > 1 {
		msg = fmt.Sprintf("%d things need mending.", len(f.named))
	}
	return &Fault{Kind: Invalid, Message: msg, Fields: f.named}
}
