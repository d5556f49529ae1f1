package written

import (
	"fmt"
	"reflect"
	"regexp"
	"strings"
	"sync"

	"go.yaml.in/yaml/v3"
)

// place is where a named part goes in the form.
type place struct {
	index int
	need  string
}

type places struct {
	names []string // in the order of the form
	by    map[string]place
}

var placesByType sync.Map // reflect.Type → places

// placesOf reads the names off the form, so that they stand in one place.
func placesOf(t reflect.Type) places {
	if p, ok := placesByType.Load(t); ok {
		return p.(places)
	}
	p := places{by: map[string]place{}}
	for i := range t.NumField() {
		f := t.Field(i)
		name, _, _ := strings.Cut(f.Tag.Get("yaml"), ",")
		if name == "" {
			continue
		}
		p.names = append(p.names, name)
		p.by[name] = place{i, f.Tag.Get("need")}
	}
	placesByType.Store(t, p)
	return p
}

func within(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}

var plainName = regexp.MustCompile(`^[A-Za-z0-9_ -]{1,40}$`)

// pathOf is the path of a name that is not known, where it can be shown.
func pathOf(path string, key *yaml.Node) string {
	if key.Kind != yaml.ScalarNode || !plainName.MatchString(key.Value) {
		return within(path, "?")
	}
	return within(path, key.Value)
}

// kindOf says what a node is, to someone who did not expect it.
func kindOf(n *yaml.Node) string {
	switch n.Kind {
	case yaml.MappingNode:
		return "a group of named parts"
	case yaml.SequenceNode:
		return "a list"
	case yaml.ScalarNode:
	default:
		return "something else"
	}
	switch n.ShortTag() {
	case "!!str":
		return "text"
	case "!!int", "!!float":
		return "a number"
	case "!!bool":
		return "true or false"
	case "!!null":
		return "nothing"
	case "!!timestamp":
		return "a date"
	}
	return "something else"
}

// short quotes a name that was not expected, however long it is.
func short(n *yaml.Node) string {
	if n.Kind != yaml.ScalarNode {
		return "such name"
	}
	if runes := []rune(n.Value); len(runes) > 40 {
		return fmt.Sprintf("%q", string(runes[:40])+"…")
	}
	return fmt.Sprintf("%q", n.Value)
}
