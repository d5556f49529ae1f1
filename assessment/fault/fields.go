package fault

import (
	"errors"
	"fmt"

	"wellshown/assessment/phrase"
)

// Fields gathers the faults of a form so that all are shown at once. The zero
// value is ready.
type Fields struct {
	named map[string]string
	said  map[string]phrase.Phrase
}

// Add notes a fault at a field; the first of a field is kept.
func (f *Fields) Add(field, format string, args ...any) {
	f.note(field, fmt.Sprintf(format, args...), said(format, args))
}

func (f *Fields) note(field, words string, said phrase.Phrase) {
	if f.named == nil {
		f.named, f.said = map[string]string{}, map[string]phrase.Phrase{}
	}
	if _, seen := f.named[field]; !seen {
		f.named[field], f.said[field] = words, said
	}
}

// Take notes err at a field where err is one.
func (f *Fields) Take(field string, err error) {
	if err == nil {
		return
	}
	said := plain(err.Error())
	var refused *Fault
	if errors.As(err, &refused) && refused.Error() == err.Error() && len(refused.Fields) == 0 {
		said = refused.Phrase()
	}
	f.note(field, err.Error(), said)
}

// Err is nil where nothing was noted, else one Invalid fault with all of it.
func (f *Fields) Err() error {
	if len(f.named) == 0 {
		return nil
	}
	said := phrase.Count(len(f.named), "One thing needs mending.", "%d things need mending.")
	return &Fault{Kind: Invalid, Message: said.String(), Fields: f.named, Said: said, SaidAt: f.said}
}
