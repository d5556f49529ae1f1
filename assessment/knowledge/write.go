package knowledge

import (
	"bytes"
	"encoding/json"
	"fmt"

	"go.yaml.in/yaml/v3"

	"wellshown/assessment"
	"wellshown/assessment/fault"
)

// JSON is the item in its written form, as it is kept.
func (i Item) JSON() ([]byte, error) {
	body, err := json.Marshal(i.file())
	if err != nil {
		return nil, fmt.Errorf("write item %s: %w", i.ID, err)
	}
	return body, nil
}

// ReadItem reads one item as JSON, as strictly as a bank.
func ReadItem(body []byte) (Item, error) {
	d := json.NewDecoder(bytes.NewReader(body))
	d.DisallowUnknownFields()
	var f itemFile
	if err := d.Decode(&f); err != nil {
		return Item{}, fault.Of(fault.Invalid, "The item cannot be read: %s.", err)
	}
	i, err := f.item()
	if err != nil {
		return i, err
	}
	return i, i.Check()
}

// YAML is the bank in its written form.
func (b Bank) YAML() ([]byte, error) {
	f := bankFile{Skill: b.Skill}
	for _, i := range b.Items {
		f.Items = append(f.Items, i.file())
	}
	body, err := yaml.Marshal(f)
	if err != nil {
		return nil, fmt.Errorf("write the items of %s: %w", b.Skill, err)
	}
	return body, nil
}

func (i Item) file() itemFile {
	f := itemFile{ID: i.ID, Kind: i.Kind, Critical: i.Critical, Difficulty: i.Difficulty, Source: i.Source, Right: i.Right, Unit: i.Unit, Units: i.Units, Low: decimalOf(i.Low), High: decimalOf(i.High)}
	written := func(language string) *textFile {
		t, there := i.Texts[language]
		if !there {
			return nil
		}
		return &textFile{t.Ask, t.Options, t.Left, t.Right, t.Teach}
	}
	f.English, f.Spanish = written("en"), written("es")
	return f
}

func decimalOf(n *assessment.Number) string {
	if n == nil {
		return ""
	}
	return n.String()
}
