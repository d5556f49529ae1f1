package written

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v3"
)

// MaxChecklistBytes is the most that a written checklist may be: far above any
// real one.
const MaxChecklistBytes = 1 << 20

// bounds refuses what is no text of a fit size before anything reads it.
func bounds(src []byte) []Fault {
	if len(src) > MaxChecklistBytes {
		return []Fault{{Says: "the checklist is longer than 1 MiB"}}
	}
	if !utf8.Valid(src) {
		return []Fault{{Says: "the checklist is not UTF-8 text"}}
	}
	return nil
}

// yamlTree reads exactly one document. Anchors, aliases and tags have no place in
// a checklist and are refused, so that nothing can grow while it is read.
func yamlTree(src []byte) (*yaml.Node, []Fault) {
	if f := bounds(src); f != nil {
		return nil, f
	}
	d := yaml.NewDecoder(bytes.NewReader(src))
	var doc, next yaml.Node
	err := d.Decode(&doc)
	if errors.Is(err, io.EOF) || err == nil && len(doc.Content) == 0 {
		return nil, []Fault{{Says: "there is no checklist in it"}}
	}
	if err != nil {
		return nil, []Fault{yamlFault(src, err)}
	}
	if err := d.Decode(&next); err == nil {
		return nil, []Fault{{Line: next.Line, Says: "a second document begins: one file holds one checklist"}}
	} else if !errors.Is(err, io.EOF) {
		return nil, []Fault{yamlFault(src, err)}
	}
	return doc.Content[0], foreign(&doc)
}

var (
	yamlLine = regexp.MustCompile(`^(?:line ([0-9]+): )?(.*)$`)
	// What the library's parser says, as against its scanner, comes with a line
	// that is counted from 0 and left out where it is 0.
	yamlParser = regexp.MustCompile(`^did not find expected (',' or|key|'-' indicator|node content|<)`)
)

func yamlFault(src []byte, err error) Fault {
	m := yamlLine.FindStringSubmatch(strings.TrimPrefix(err.Error(), "yaml: "))
	if m == nil {
		return Fault{Says: "this is not YAML"}
	}
	line, _ := strconv.Atoi(m[1])
	if yamlParser.MatchString(m[2]) || m[1] == "" {
		line++
	}
	last := 1 + bytes.Count(bytes.TrimRight(src, "\n"), []byte("\n"))
	return Fault{Line: min(line, last), Says: "this is not YAML: " + m[2]}
}

// foreign lists the parts of YAML that a checklist does without.
func foreign(n *yaml.Node) []Fault {
	var found []Fault
	switch {
	case n.Kind == yaml.AliasNode || n.Anchor != "":
		found = []Fault{{Line: n.Line, Says: "anchors (&) and aliases (*) are not read: write it out"}}
	case n.Style&yaml.TaggedStyle != 0:
		found = []Fault{{Line: n.Line, Says: "tags (!) are not read"}}
	}
	for i := 0; i < len(n.Content) && len(found) < mostFaults; i++ {
		found = append(found, foreign(n.Content[i])...)
	}
	return found
}

// jsonTree reads exactly one JSON value into the same tree, with its lines.
func jsonTree(src []byte) (*yaml.Node, []Fault) {
	if f := bounds(src); f != nil {
		return nil, f
	}
	var whole json.RawMessage
	if err := json.Unmarshal(src, &whole); err != nil {
		return nil, []Fault{jsonFault(src, err)}
	}
	b := jsonBuilder{src: src, dec: json.NewDecoder(bytes.NewReader(src)), line: 1}
	b.dec.UseNumber()
	n, err := b.value(0)
	if err != nil {
		return nil, []Fault{{Line: b.line, Says: err.Error()}}
	}
	return n, nil
}

func jsonFault(src []byte, err error) Fault {
	f := Fault{Says: "this is not one JSON value: " + err.Error()}
	var syntax *json.SyntaxError
	if errors.As(err, &syntax) {
		f.Line = 1 + bytes.Count(src[:min(int(syntax.Offset), len(src))], []byte("\n"))
	}
	return f
}

// jsonBuilder walks the tokens of what is known to be valid JSON.
type jsonBuilder struct {
	src  []byte
	dec  *json.Decoder
	done int // bytes whose lines are counted
	line int
}

// Brackets within brackets: a checklist has eight.
const maxJSONDepth = 32

func (b *jsonBuilder) value(depth int) (*yaml.Node, error) {
	token, err := b.dec.Token()
	if err != nil {
		return nil, fmt.Errorf("read JSON: %w", err)
	}
	end := int(b.dec.InputOffset())
	b.line += bytes.Count(b.src[b.done:end], []byte("\n"))
	b.done = end
	if depth > maxJSONDepth {
		return nil, fmt.Errorf("brackets go deeper than %d", maxJSONDepth)
	}
	n := &yaml.Node{Kind: yaml.ScalarNode, Line: b.line}
	switch t := token.(type) {
	case json.Delim:
		return n, b.group(n, t, depth)
	case string:
		n.Tag, n.Value = "!!str", t
	case json.Number:
		n.Tag, n.Value = "!!int", t.String()
		if strings.ContainsAny(n.Value, ".eE") {
			n.Tag = "!!float"
		}
	case bool:
		n.Tag, n.Value = "!!bool", strconv.FormatBool(t)
	default:
		n.Tag = "!!null"
	}
	return n, nil
}

func (b *jsonBuilder) group(n *yaml.Node, open json.Delim, depth int) error {
	n.Kind = yaml.SequenceNode
	if open == '{' {
		n.Kind = yaml.MappingNode
	}
	for b.dec.More() {
		c, err := b.value(depth + 1)
		if err != nil {
			return err
		}
		n.Content = append(n.Content, c)
	}
	_, err := b.dec.Token() // the closing bracket
	return err
}
