package written

import (
	"fmt"
	"slices"
	"strings"

	"wellshown/assessment/fault"
)

// Fault is one thing to mend in a written checklist.
type Fault struct {
	Line int    // from 1; 0 where it concerns no line
	Step int    // the step concerned, from 1; 0 where it concerns none
	Path string // such as "sections[0].steps[2].kind", indexes from 0
	Says string // what is wrong, in words
}

// String names the place from the outside in: line, step, path.
func (f Fault) String() string {
	var where []string
	if f.Line > 0 {
		where = append(where, fmt.Sprintf("line %d", f.Line))
	}
	if f.Step > 0 {
		where = append(where, fmt.Sprintf("step %d", f.Step))
	}
	if f.Path != "" {
		where = append(where, f.Path)
	}
	if len(where) == 0 {
		return f.Says
	}
	return strings.Join(where, ", ") + ": " + f.Says
}

// Faults is everything to mend in a written checklist, in the order of its
// lines. It unwraps to a fault.Fault of the kind Invalid with a field for each
// path.
type Faults struct {
	Name string // of the file, where it has one
	List []Fault
	More int // how many were found beyond those listed
}

// Error has one fault on each line, each with the name of the file.
func (f *Faults) Error() string {
	lines := make([]string, 0, len(f.List)+1)
	for _, one := range f.List {
		lines = append(lines, f.named(one.String()))
	}
	if f.More > 0 {
		lines = append(lines, f.named(fmt.Sprintf("and %d more", f.More)))
	}
	return strings.Join(lines, "\n")
}

func (f *Faults) named(s string) string {
	if f.Name == "" {
		return s
	}
	return f.Name + ", " + s
}

// Unwrap is the same as a refusal with fields.
func (f *Faults) Unwrap() error {
	var fields fault.Fields
	for _, one := range f.List {
		path := one.Path
		if path == "" {
			path = "checklist"
		}
		one.Path = ""
		fields.Add(path, "%s", one.String())
	}
	return fields.Err()
}

// mostFaults bounds what is reported of one file: past this, a file is not a
// checklist with faults but something else.
const mostFaults = 100

// faultsOf orders what was found; it is nil where nothing was. More were found
// and not kept.
func faultsOf(name string, found []Fault, more int) error {
	if len(found) == 0 {
		return nil
	}
	slices.SortStableFunc(found, func(a, b Fault) int { return a.Line - b.Line })
	f := &Faults{Name: name, List: found, More: more}
	if len(found) > mostFaults {
		f.List, f.More = found[:mostFaults], more+len(found)-mostFaults
	}
	return f
}
