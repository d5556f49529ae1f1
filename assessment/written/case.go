// This part of the package reads and writes the case files of `wellshown score`
// and `wellshown standing`: one question each, as JSON, so that anyone can check
// the rules without a database. Reading is strict. What is not understood is
// refused by name, never passed over: a misspelt field in a case would otherwise
// answer another question than the one that was asked.
package written

import (
	"encoding/json"

	"wellshown/assessment/fault"
)

// Limits on one case. They lie far above any real caregiver's history and keep
// the longest answer to a few seconds.
const (
	MaxCaseBytes   = 1 << 20 // 1 MiB
	maxCaseEntries = 1000    // entries of a history
	maxCaseSteps   = 500     // steps of a checklist
	maxCaseItems   = 100     // parameters of a child, values of a step
	maxCaseWeight  = 1000000
	maxCaseDepth   = 20 // brackets within brackets
)

// AnswerScore answers one case of `wellshown score`, as one line of JSON without
// its line end.
func AnswerScore(data []byte) ([]byte, error) {
	c, err := DecodeScoreCase(data)
	if err != nil {
		return nil, err
	}
	answer, err := c.Answer()
	if err != nil {
		return nil, err
	}
	return caseJSON(answer)
}

// AnswerStanding answers one case of `wellshown standing`, as one line of JSON
// without its line end: one object for each day that was asked about.
func AnswerStanding(data []byte) ([]byte, error) {
	c, err := DecodeStandingCase(data)
	if err != nil {
		return nil, err
	}
	answer, err := c.Answer()
	if err != nil {
		return nil, err
	}
	return caseJSON(answer)
}

func caseJSON(v any) ([]byte, error) {
	out, err := json.Marshal(v)
	if err != nil {
		return nil, fault.Of(fault.Invalid, "write the answer: %v", err)
	}
	return out, nil
}
