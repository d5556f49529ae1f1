// Package fault is the one vocabulary of refusals: what went wrong in words for
// the person who reads them, and of which kind, so that each edge answers alike.
package fault

import (
	"errors"
	"fmt"
	"sort"
	"strings"

	"wellshown/assessment/phrase"
)

// Kind sorts refusals by what the reader can do about them.
type Kind int

const (
	// Invalid: what was given cannot be read or is out of bounds.
	Invalid Kind = iota + 1
	// Refused: it can be read, but a rule of the house says no.
	Refused
	// NotFound: there is no such thing in this agency, or it was never there.
	NotFound
	// Conflict: somebody else changed it first, or it exists already.
	Conflict
	// Unauthenticated: we do not know who is asking.
	Unauthenticated
	// Forbidden: we know, and they may not.
	Forbidden
	// Throttled: too many tries; wait and try again.
	Throttled
	// Busy: we have too much to do just now; nothing was done.
	Busy
)

// Status is the HTTP status that says the same thing (RFC 9110).
func (k Kind) Status() int {
	switch k {
	case Invalid, Refused:
		return 422
	case NotFound:
		return 404
	case Conflict:
		return 409
	case Unauthenticated:
		return 401
	case Forbidden:
		return 403
	case Throttled:
		return 429
	case Busy:
		return 503
	}
	return 500
}

// Fault is a refusal. Message is a sentence for a person; Fields names single
// faults by the field that caused them. Said and SaidAt are the same as phrases, for
// readers of another language; where they are empty, the English sentences are their
// own names.
type Fault struct {
	Kind    Kind
	Message string
	Fields  map[string]string
	Said    phrase.Phrase
	SaidAt  map[string]phrase.Phrase
}

// Phrase is the message, to be said in any language.
func (f *Fault) Phrase() phrase.Phrase {
	if !f.Said.IsZero() {
		return f.Said
	}
	return plain(f.Message)
}

// At is what is wrong with a field, to be said in any language; nothing where nothing is.
func (f *Fault) At(field string) phrase.Phrase {
	if said := f.SaidAt[field]; !said.IsZero() {
		return said
	}
	return plain(f.Fields[field])
}

// said is a message as a phrase. One that is handed on whole is its own name.
func said(format string, args []any) phrase.Phrase {
	if format == "%s" && len(args) == 1 {
		switch a := args[0].(type) {
		case string:
			return plain(a)
		case *Fault:
			return a.Phrase()
		}
	}
	return phrase.Phrase{Format: format, Args: args}
}

// plain is a sentence that nothing goes into.
func plain(sentence string) phrase.Phrase {
	return phrase.Phrase{Format: strings.ReplaceAll(sentence, "%", "%%")}
}

// Error is the message with its fields.
func (f *Fault) Error() string {
	if len(f.Fields) == 0 {
		return f.Message
	}
	names := make([]string, 0, len(f.Fields))
	for n := range f.Fields {
		names = append(names, n)
	}
	sort.Strings(names)
	parts := make([]string, len(names))
	for i, n := range names {
		parts[i] = n + ": " + f.Fields[n]
	}
	return f.Message + " (" + strings.Join(parts, "; ") + ")"
}

// Of makes a refusal of a kind with a formatted message.
func Of(k Kind, format string, args ...any) error {
	return &Fault{Kind: k, Message: fmt.Sprintf(format, args...), Said: said(format, args)}
}

// As finds the refusal in err's chain.
func As(err error) (*Fault, bool) {
	var f *Fault
	ok := errors.As(err, &f)
	return f, ok
}

// KindOf is the kind of err, 0 where err is no refusal.
func KindOf(err error) Kind {
	if f, ok := As(err); ok {
		return f.Kind
	}
	return 0
}
