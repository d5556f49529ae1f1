package written

import (
	"fmt"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"unicode"

	"go.yaml.in/yaml/v3"

	"wellshown/assessment"
)

// reader fills the written form from a tree, notes where each part stands, and
// goes on after a fault, so that one reading finds all of them.
type reader struct {
	known Known
	lines map[string]int // by path
	found []Fault
	more  int   // faults that were counted and not kept
	steps []int // how many steps each section has
}

// mostKept bounds the work on a file that is nothing but faults.
const mostKept = 10 * mostFaults

func (r *reader) at(path string, line int, format string, args ...any) {
	if len(r.found) == mostKept {
		r.more++
		return
	}
	r.found = append(r.found, Fault{Line: line, Path: path, Says: fmt.Sprintf(format, args...)})
}

// readable is a part with its own ways to be written.
type readable interface {
	read(r *reader, path string, n *yaml.Node)
}

// fill reads n into a part of the form.
func (r *reader) fill(path string, n *yaml.Node, into reflect.Value) {
	r.lines[path] = n.Line
	if into.Kind() == reflect.Pointer {
		into.Set(reflect.New(into.Type().Elem()))
		into = into.Elem()
	}
	if own, ok := into.Addr().Interface().(readable); ok {
		own.read(r, path, n)
		return
	}
	switch into.Kind() {
	case reflect.Struct:
		r.group(path, n, into)
	case reflect.Slice:
		r.list(path, n, into)
	case reflect.String:
		into.SetString(r.text(path, n))
	case reflect.Int:
		into.SetInt(int64(r.whole(path, n)))
	case reflect.Bool:
		into.SetBool(r.yes(path, n))
	}
}

// group reads a mapping. What is not known is refused by name.
func (r *reader) group(path string, n *yaml.Node, into reflect.Value) {
	if n.Kind != yaml.MappingNode {
		r.at(path, n.Line, "this is %s where named parts belong", kindOf(n))
		return
	}
	places := placesOf(into.Type())
	lines := map[string]int{}
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, value := n.Content[i], n.Content[i+1]
		place, known := places.by[key.Value]
		first, twice := lines[key.Value]
		switch {
		case key.Kind != yaml.ScalarNode || !known:
			r.at(pathOf(path, key), key.Line, "there is no %s here: known are %s", short(key), strings.Join(places.names, ", "))
		case twice:
			r.at(within(path, key.Value), key.Line, "%s is written twice, first on line %d", key.Value, first)
		case value.ShortTag() == "!!null" && place.need != "key":
			r.at(within(path, key.Value), key.Line, "%s is empty: write a value or leave it out", key.Value)
		case value.ShortTag() != "!!null":
			r.fill(within(path, key.Value), value, into.Field(place.index))
		}
		lines[key.Value] = key.Line
	}
	for _, name := range places.names {
		if _, written := lines[name]; !written && places.by[name].need != "" {
			r.missing(path, n.Line, name, places.by[name].need)
		}
	}
}

func (r *reader) missing(path string, line int, name, need string) {
	if need == "key" {
		r.at(within(path, name), line, "%s is missing: write a number, or null for no limit", name)
		return
	}
	r.at(within(path, name), line, "%s is missing", name)
}

func (r *reader) list(path string, n *yaml.Node, into reflect.Value) {
	if n.Kind != yaml.SequenceNode {
		r.at(path, n.Line, "this is %s where a list belongs", kindOf(n))
		return
	}
	into.Set(reflect.MakeSlice(into.Type(), len(n.Content), len(n.Content)))
	for i, c := range n.Content {
		r.fill(fmt.Sprintf("%s[%d]", path, i), c, into.Index(i))
	}
	if len(n.Content) == 0 {
		into.SetZero()
	}
}

// text is words; space around them is dropped.
func (r *reader) text(path string, n *yaml.Node) string {
	if n.Kind != yaml.ScalarNode || n.ShortTag() != "!!str" {
		r.at(path, n.Line, "this is %s where text belongs (text that looks like something else goes in quotes)", kindOf(n))
		return ""
	}
	s := strings.TrimSpace(strings.ReplaceAll(n.Value, "\r\n", "\n"))
	if i := strings.IndexFunc(s, func(c rune) bool { return c != '\n' && unicode.IsControl(c) }); i >= 0 {
		r.at(path, n.Line, "the text holds a control character, which nothing can print")
		return ""
	}
	return s
}

var wholeText = regexp.MustCompile(`^-?(0|[1-9][0-9]{0,8})$`)

func (r *reader) whole(path string, n *yaml.Node) int {
	if n.Kind != yaml.ScalarNode || n.ShortTag() != "!!int" || !wholeText.MatchString(n.Value) {
		r.at(path, n.Line, "this is not a whole number of at most nine digits")
		return 0
	}
	i, _ := strconv.Atoi(n.Value)
	return i
}

func (r *reader) yes(path string, n *yaml.Node) bool {
	if n.Kind != yaml.ScalarNode || n.ShortTag() != "!!bool" {
		r.at(path, n.Line, "this is %s where true or false belongs", kindOf(n))
		return false
	}
	return strings.EqualFold(n.Value, "true")
}

// numberForm is an exact number as it is written: 15, 14.9, "1/2".
type numberForm string

func (f *numberForm) read(r *reader, path string, n *yaml.Node) {
	tag := n.ShortTag()
	if n.Kind != yaml.ScalarNode || tag != "!!str" && tag != "!!int" && tag != "!!float" {
		r.at(path, n.Line, "this is %s where a number belongs", kindOf(n))
		return
	}
	if _, err := assessment.ParseNumber(n.Value); err != nil {
		r.at(path, n.Line, "%v", err)
		return
	}
	*f = numberForm(n.Value)
}

// number is the value of what was read; unread is 0.
func (f numberForm) number() assessment.Number {
	n, err := assessment.ParseNumber(string(f))
	if err != nil || n.Sign() == 0 {
		return assessment.Number{}
	}
	return n
}

func (b *boundForm) read(r *reader, path string, n *yaml.Node) {
	before := len(r.found)
	if n.Kind == yaml.MappingNode {
		r.group(path, n, reflect.ValueOf((*boundGroup)(b)).Elem())
		from := 0
		for _, s := range []string{string(b.Value), b.Parameter, b.Measure} {
			if s != "" {
				from++
			}
		}
		if from != 1 && len(r.found) == before {
			r.at(path, n.Line, "an end of a range is one of: a value, a parameter, a measure")
		}
	} else {
		b.Value.read(r, path, n)
	}
	b.unread = len(r.found) > before
}

func (p *parameterForm) read(r *reader, path string, n *yaml.Node) {
	if n.Kind != yaml.ScalarNode {
		type plain parameterForm
		r.group(path, n, reflect.ValueOf((*plain)(p)).Elem())
		return
	}
	name := r.text(path, n)
	known, ok := r.known.find(name)
	if name != "" && !ok {
		r.at(path, n.Line, "%q is no known parameter: write its name, says and unit", name)
	}
	*p = parameterOut(known)
	p.Name = name
}
