package written

import (
	"reflect"

	"go.yaml.in/yaml/v3"

	"wellshown/assessment"
)

// Known are parameters that a checklist may name without describing them.
type Known []assessment.Parameter

func (k Known) find(name string) (assessment.Parameter, bool) {
	for _, p := range k {
		if p.Name == name {
			return p, true
		}
	}
	return assessment.Parameter{}, false
}

// DecodeYAML reads a checklist written by hand. All that is wrong with it, in
// its form and in its content, comes back at once as *Faults, each with line,
// step and path; name is the file's, for those messages.
func DecodeYAML(name string, src []byte) (assessment.Checklist, error) {
	return Known(nil).DecodeYAML(name, src)
}

// DecodeYAML reads a checklist written by hand that may name the known
// parameters bare: `parameters: [spo2_low, spo2_high]`.
func (k Known) DecodeYAML(name string, src []byte) (assessment.Checklist, error) {
	n, faults := yamlTree(src)
	return k.decode(name, n, faults)
}

// DecodeJSON reads a checklist as EncodeJSON writes it, or as a program sends
// it. All faults come back at once, as from DecodeYAML.
func DecodeJSON(src []byte) (assessment.Checklist, error) {
	n, faults := jsonTree(src)
	return Known(nil).decode("", n, faults)
}

func (k Known) decode(name string, n *yaml.Node, faults []Fault) (assessment.Checklist, error) {
	if len(faults) > 0 {
		return assessment.Checklist{}, faultsOf(name, faults, 0)
	}
	r := &reader{known: k, lines: map[string]int{}}
	var f listForm
	r.fill("", n, reflect.ValueOf(&f).Elem())
	unread := len(r.found)
	c := r.checklist(f)
	r.check(c, r.found[:unread])
	if len(r.found) > 0 {
		return assessment.Checklist{}, faultsOf(name, r.found, r.more)
	}
	return c, nil
}
