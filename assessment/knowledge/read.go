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
	ID         string    `yaml:"id"`
	Kind       Kind      `yaml:"kind"`
	Critical   bool      `yaml:"critical"`
	Difficulty int       `yaml:"difficulty"`
	Source     string    `yaml:"source"`
	Right      []int     `yaml:"right"`
	Unit       string    `yaml:"unit"`
	Units      []string  `yaml:"units"`
	Low        string    `yaml:"low"`
	High       string    `yaml:"high"`
	English    *textFile `yaml:"en"`
	Spanish    *textFile `yaml:"es"`
}

type textFile struct {
	Ask     string   `yaml:"ask"`
	Options []string `yaml:"options"`
	Left    []string `yaml:"left"`
	Right   []string `yaml:"right"`
	Teach   string   `yaml:"teach"`
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
