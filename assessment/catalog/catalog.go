// Package catalog holds the twelve starter skills as written checklists. They
// are a starting point that a licensed clinician reviews, edits and puts in
// force; nothing here is in force by itself.
package catalog

import (
	"embed"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/written"
)

//go:embed *.yaml
var files embed.FS

// codes lists the skills in the order in which they are taught: none before a
// skill that it builds on.
var codes = []string{
	"bagging", "suction", "decannulation", "blocked-tube", "cpr-trach", "stoma-ties", "tube-change",
	"humidifier", "circuit-test", "alarms-power", "circuit-change", "go-bag",
}

// Safety is the caution that comes first in every starter checklist.
const Safety = "A starting point only. A licensed clinician reviews, edits and puts each revision in force " +
	"for one agency, and for client-specific skills for one child. The child's signed orders, the device " +
	"maker's instructions, local codes and licensed practice come first; where they differ from a line here, " +
	"they win. In a real emergency call the local emergency number. Nothing here is in force by default. " +
	"Emergency skills are shown on a manikin or in simulation, never by provoking an emergency in a child. " +
	"The observer stops the attempt the moment a child is at risk and takes over: the outcome is then " +
	"stopped for safety."

// Codes lists the codes of the skills, in teaching order.
func Codes() []string { return append([]string(nil), codes...) }

// All reads every starter checklist, in teaching order.
func All() ([]assessment.Checklist, error) {
	all := make([]assessment.Checklist, 0, len(codes))
	for _, code := range codes {
		c, err := Get(code)
		if err != nil {
			return nil, err
		}
		all = append(all, c)
	}
	return all, nil
}

// Get reads the starter checklist of one skill; a code that is not in the
// catalogue is a fault of the kind NotFound.
func Get(code string) (assessment.Checklist, error) {
	src, err := Source(code)
	if err != nil {
		return assessment.Checklist{}, err
	}
	c, err := written.Known(Parameters()).DecodeYAML(code+".yaml", src)
	if err != nil {
		return assessment.Checklist{}, fmt.Errorf("read starter checklist: %w", err)
	}
	return c, nil
}

// Source is the YAML of one starter checklist as it was written.
func Source(code string) ([]byte, error) {
	for _, known := range codes {
		if code == known {
			return files.ReadFile(code + ".yaml")
		}
	}
	return nil, fault.Of(fault.NotFound, "There is no starter checklist %q.", code)
}
