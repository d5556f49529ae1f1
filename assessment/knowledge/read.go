package knowledge

import (
	"bytes"
	"errors"
	"fmt"
	"io"

	"go.yaml.in/yaml/v3"

	"wellshown/assessment"
	"wellshown/assessment/fault"
)

// Bank is the items of one skill.
type Bank struct {
	Skill string
	Items []Item
}

type bankFile struct {
	Skill string     `yaml:"skill"`
	Items []itemFile `yaml:"items"`
}

type itemFile struct {
	ID         string    `yaml:"id" json:"id"`
	Kind       Kind      `yaml:"kind" json:"kind"`
	Critical   bool      `yaml:"critical" json:"critical"`
	Difficulty int       `yaml:"difficulty" json:"difficulty"`
	Source     string    `yaml:"source" json:"source"`
	Right      []int     `yaml:"right,flow,omitempty" json:"right,omitempty"`
	Unit       string    `yaml:"unit,omitempty" json:"unit,omitempty"`
	Units      []string  `yaml:"units,flow,omitempty" json:"units,omitempty"`
	Low        string    `yaml:"low,omitempty" json:"low,omitempty"`
	High       string    `yaml:"high,omitempty" json:"high,omitempty"`
	English    *textFile `yaml:"en,omitempty" json:"en,omitempty"`
	Spanish    *textFile `yaml:"es,omitempty" json:"es,omitempty"`
}

type textFile struct {
	Ask     string   `yaml:"ask" json:"ask"`
	Options []string `yaml:"options,omitempty" json:"options,omitempty"`
	Left    []string `yaml:"left,omitempty" json:"left,omitempty"`
	Right   []string `yaml:"right,omitempty" json:"right,omitempty"`
	Teach   string   `yaml:"teach" json:"teach"`
}

// Read reads a bank as YAML. A field that it does not know, an item that cannot be
// asked, and an id that is there twice are refused.
func Read(src []byte) (Bank, error) {
	d := yaml.NewDecoder(bytes.NewReader(src))
	d.KnownFields(true)
	var f bankFile
	if err := d.Decode(&f); err != nil {
		return Bank{}, fault.Of(fault.Invalid, "The items cannot be read: %s.", err)
	}
	if err := d.Decode(new(any)); !errors.Is(err, io.EOF) {
		return Bank{}, fault.Of(fault.Invalid, "The items are one document, and there is more after it.")
	}
	b, seen := Bank{Skill: f.Skill}, map[string]bool{}
	for n, one := range f.Items {
		i, err := one.item()
		if err == nil {
			err = i.Check()
		}
		if err != nil {
			return Bank{}, fmt.Errorf("read item %d (%s): %w", n+1, one.ID, err)
		}
		if seen[i.ID] {
			return Bank{}, fault.Of(fault.Invalid, "The id %q is there twice.", i.ID)
		}
		seen[i.ID], b.Items = true, append(b.Items, i)
	}
	return b, nil
}

func (f itemFile) item() (Item, error) {
	i := Item{ID: f.ID, Kind: f.Kind, Critical: f.Critical, Difficulty: f.Difficulty, Source: f.Source, Right: f.Right, Unit: f.Unit, Units: f.Units, Texts: map[string]Text{}}
	var err error
	if i.Low, err = number(f.Low); err != nil {
		return i, err
	}
	if i.High, err = number(f.High); err != nil {
		return i, err
	}
	for language, t := range map[string]*textFile{"en": f.English, "es": f.Spanish} {
		if t != nil {
			i.Texts[language] = Text{t.Ask, t.Options, t.Left, t.Right, t.Teach}
		}
	}
	return i, nil
}

func number(s string) (*assessment.Number, error) {
	if s == "" {
		return nil, nil
	}
	n, err := assessment.ParseNumber(s)
	return &n, err
}
