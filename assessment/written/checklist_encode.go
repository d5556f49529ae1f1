package written

import (
	"bytes"
	"fmt"

	"go.yaml.in/yaml/v3"

	"wellshown/assessment"
	"wellshown/assessment/fault"
)

// EncodeJSON writes a checklist as one line of JSON: the same checklist, the
// same bytes. One that could not be read back is refused.
func EncodeJSON(c assessment.Checklist) ([]byte, error) {
	if err := encodable(c); err != nil {
		return nil, err
	}
	out, err := compact(formOf(c))
	if err != nil {
		return nil, fmt.Errorf("write checklist %s as JSON: %w", c.Code, err)
	}
	if _, err := DecodeJSON(out); err != nil {
		return nil, fmt.Errorf("write checklist %s as JSON: %w", c.Code, err)
	}
	return out, nil
}

// EncodeYAML writes a checklist for people to edit. One that could not be read
// back is refused.
func EncodeYAML(c assessment.Checklist) ([]byte, error) {
	if err := encodable(c); err != nil {
		return nil, err
	}
	var out bytes.Buffer
	e := yaml.NewEncoder(&out)
	e.SetIndent(2)
	if err := e.Encode(formOf(c)); err != nil {
		return nil, fmt.Errorf("write checklist %s as YAML: %w", c.Code, err)
	}
	if _, err := DecodeYAML("", out.Bytes()); err != nil {
		return nil, fmt.Errorf("write checklist %s as YAML: %w", c.Code, err)
	}
	return out.Bytes(), nil
}

// encodable refuses what the written form cannot say. One line says for skill
// and validity alike that a card is needed: a checklist in which the two
// disagree would change when written.
func encodable(c assessment.Checklist) error {
	if c.CardNeeded != c.Policy.Validity.CardNeeded {
		return fault.Of(fault.Invalid, "checklist %s: the skill and its validity disagree on whether a resuscitation card is needed", c.Code)
	}
	return c.Err()
}
