package written

import (
	"encoding/json"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
)

// caseFields reads the members of one object and keeps the first fault of the
// whole case, so that reading code need not stop at each.
type caseFields struct {
	path   string
	values map[string]any
	first  *error
}

// openCase opens value as an object that may have the named members and no
// others. A member that is null counts as left out.
func openCase(value any, path string, first *error, names ...string) caseFields {
	f := caseFields{path: path, first: first}
	o, ok := value.(caseObject)
	if !ok {
		f.refuse("", "this is %s where an object in curly brackets belongs", caseKind(value))
		return f
	}
	for _, n := range o.names {
		if !slices.Contains(names, n) {
			f.refuse(n, "there is no such field here: known are %s", strings.Join(names, ", "))
		}
	}
	f.values = o.values
	return f
}

func caseKind(value any) string {
	switch value.(type) {
	case nil:
		return "null"
	case bool:
		return "true or false"
	case string:
		return "text"
	case json.Number:
		return "a number"
	case []any:
		return "a list"
	}
	return "an object"
}

// refuse notes a fault at a member; the first one of the case is kept.
func (f caseFields) refuse(name, format string, args ...any) {
	if *f.first == nil {
		at := f.path
		if name != "" {
			at = caseAt(f.path, name)
		}
		if at != "" {
			at += ": "
		}
		*f.first = fault.Of(fault.Invalid, "%s%s", at, fmt.Sprintf(format, args...))
	}
}

func (f caseFields) has(name string) bool { return f.values[name] != nil }

// need is a member that must be there.
func (f caseFields) need(name string) (any, bool) {
	if !f.has(name) {
		f.refuse(name, "this is missing")
		return nil, false
	}
	return f.values[name], true
}

func (f caseFields) text(name string) string {
	v, ok := f.need(name)
	if !ok {
		return ""
	}
	s, ok := v.(string)
	if !ok {
		f.refuse(name, "this is %s where text in quotes belongs", caseKind(v))
	}
	return s
}

// word is text that says something.
func (f caseFields) word(name string) string {
	s := f.text(name)
	if f.has(name) && strings.TrimSpace(s) == "" {
		f.refuse(name, "this is empty")
	}
	return s
}

func (f caseFields) yes(name string) bool {
	v, ok := f.need(name)
	if !ok {
		return false
	}
	b, ok := v.(bool)
	if !ok {
		f.refuse(name, "this is %s where true or false belongs", caseKind(v))
	}
	return b
}

// yesOr is a member with a default.
func (f caseFields) yesOr(name string, otherwise bool) bool {
	if !f.has(name) {
		return otherwise
	}
	return f.yes(name)
}

var wholeForm = regexp.MustCompile(`^-?(0|[1-9][0-9]{0,8})$`)

// whole is an integer of at most nine digits.
func (f caseFields) whole(name string) int {
	v, ok := f.need(name)
	if !ok {
		return 0
	}
	n, ok := v.(json.Number)
	if !ok || !wholeForm.MatchString(n.String()) {
		f.refuse(name, "this is not a whole number of at most nine digits, such as 3")
		return 0
	}
	i, _ := strconv.Atoi(n.String())
	return i
}

// wholeOr is a member with a default.
func (f caseFields) wholeOr(name string, otherwise int) int {
	if !f.has(name) {
		return otherwise
	}
	return f.whole(name)
}

// limit is a whole number, nil for no limit.
func (f caseFields) limit(name string) *int {
	if !f.has(name) {
		return nil
	}
	n := f.whole(name)
	return &n
}

// number is an exact number, written as text so that nothing rounds it.
func (f caseFields) number(name string) assessment.Number {
	v, ok := f.need(name)
	if !ok {
		return assessment.Number{}
	}
	return f.exact(name, v)
}

func (f caseFields) exact(name string, v any) assessment.Number {
	s, ok := v.(string)
	if !ok {
		f.refuse(name, `this is %s: write numbers as text, such as "14.9" or "1/2", so that they stay exact`, caseKind(v))
		return assessment.Number{}
	}
	n, err := assessment.ParseNumber(s)
	if err != nil {
		f.refuse(name, "%v", err)
	}
	return n
}

// list is an array of at most so many elements.
func (f caseFields) list(name string, most int) []any {
	v, ok := f.need(name)
	if !ok {
		return nil
	}
	all, ok := v.([]any)
	switch {
	case !ok:
		f.refuse(name, "this is %s where a list in square brackets belongs", caseKind(v))
	case len(all) > most:
		f.refuse(name, "the list has %d elements: at most %d are read", len(all), most)
		return nil
	}
	return all
}

// day is a civil day.
func (f caseFields) day(name string) civil.Date {
	s := f.text(name)
	if !f.has(name) {
		return civil.Date{}
	}
	d, err := civil.Parse(s)
	if err != nil {
		f.refuse(name, "%v", err)
	}
	return d
}

// RFC 3339 with its offset: an instant without one would be another instant in
// every zone. Leap seconds are not read.
var instantForm = regexp.MustCompile(`^[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}(\.[0-9]{1,9})?(Z|[+-]([01][0-9]|2[0-3]):[0-5][0-9])$`)

// instant is a moment with its offset. Years are kept off the ends of the
// calendar, where the civil day in some zone would leave it.
func (f caseFields) instant(name string) time.Time {
	s := f.text(name)
	if !f.has(name) {
		return time.Time{}
	}
	at, err := time.Parse(time.RFC3339Nano, s)
	if err != nil || !instantForm.MatchString(s) || at.Year() < 2 || at.Year() > 9998 {
		f.refuse(name, "%q is not an instant: write it with its offset, such as 2026-01-05T10:00:00-07:00", s)
		return time.Time{}
	}
	return at
}

// instantOr is an instant that may not have come yet.
func (f caseFields) instantOr(name string) time.Time {
	if !f.has(name) {
		return time.Time{}
	}
	return f.instant(name)
}

// oneOf is text that must be one of some words.
func oneOf[T ~string](f caseFields, name string, words ...T) T {
	s := T(f.text(name))
	if f.has(name) && !slices.Contains(words, s) {
		quoted := make([]string, len(words))
		for i, w := range words {
			quoted[i] = strconv.Quote(string(w))
		}
		f.refuse(name, "%q is none of %s", string(s), strings.Join(quoted, ", "))
	}
	return s
}
