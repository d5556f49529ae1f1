package written

import (
	"slices"

	"wellshown/assessment/fault"
)

// vectorNames are what stands around a case in the files of assessment/testdata:
// the rule that it shows, why that is so, and the answer that is wanted.
var vectorNames = []string{"rule", "why", "case", "want"}

// withoutVector takes the case out of what stands around it there. No case of its
// own has a member "case", so the two cannot be mistaken for one another. The
// answer that is wanted is not looked at: whoever has it compares it.
func withoutVector(tree any) (any, error) {
	o, isObject := tree.(caseObject)
	if !isObject {
		return tree, nil
	}
	inner, wrapped := o.values["case"]
	if !wrapped {
		return tree, nil
	}
	for _, name := range o.names {
		if !slices.Contains(vectorNames, name) {
			return nil, fault.Of(fault.Invalid, "%s: there is no such field beside a case", name)
		}
	}
	return inner, nil
}
