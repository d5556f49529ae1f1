package written

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"unicode/utf8"

	"wellshown/assessment/fault"
)

// caseObject is a JSON object as it was written. The library's own decoding into
// structs is too kind for this: it takes ZONE for zone and the last of two equal
// names.
type caseObject struct {
	names  []string // in the order written
	values map[string]any
}

// caseTree reads exactly one JSON value: objects as caseObject, arrays as []any,
// numbers as json.Number. Two equal names in one object are refused.
func caseTree(data []byte) (any, error) {
	if len(data) > MaxCaseBytes {
		return nil, fault.Of(fault.Invalid, "the case is longer than 1 MiB")
	}
	if bytes.HasPrefix(data, []byte("\xef\xbb\xbf")) {
		return nil, fault.Of(fault.Invalid, "the case begins with a byte order mark, which JSON must not (RFC 8259 section 8.1): save it as UTF-8 without one")
	}
	if !utf8.Valid(data) {
		return nil, fault.Of(fault.Invalid, "the case is not UTF-8 text")
	}
	if err := caseSyntax(data); err != nil {
		return nil, err
	}
	dec := json.NewDecoder(bytes.NewReader(data))
	dec.UseNumber()
	return caseValue(dec, "", 0)
}

// caseSyntax says on which line the JSON breaks, trailing data included.
func caseSyntax(data []byte) error {
	if json.Valid(data) {
		return nil
	}
	var all any
	err := json.Unmarshal(data, &all)
	var syntax *json.SyntaxError
	if !errors.As(err, &syntax) {
		return fault.Of(fault.Invalid, "the case is not JSON: %v", err)
	}
	line := 1 + bytes.Count(data[:min(int(syntax.Offset), len(data))], []byte("\n"))
	return fault.Of(fault.Invalid, "the case is not one JSON value: line %d: %v", line, err)
}

func caseValue(dec *json.Decoder, path string, depth int) (any, error) {
	if depth > maxCaseDepth {
		return nil, fault.Of(fault.Invalid, "%s: brackets go deeper than %d", path, maxCaseDepth)
	}
	token, err := dec.Token()
	if err != nil {
		return nil, fault.Of(fault.Invalid, "the case is not JSON: %v", err)
	}
	switch token {
	case json.Delim('{'):
		return caseMembers(dec, path, depth)
	case json.Delim('['):
		return caseElements(dec, path, depth)
	}
	return token, nil
}

func caseMembers(dec *json.Decoder, path string, depth int) (any, error) {
	o := caseObject{values: map[string]any{}}
	for dec.More() {
		token, err := dec.Token()
		if err != nil {
			return nil, fault.Of(fault.Invalid, "the case is not JSON: %v", err)
		}
		name, _ := token.(string)
		if _, twice := o.values[name]; twice {
			return nil, fault.Of(fault.Invalid, "%s is given twice", caseAt(path, name))
		}
		value, err := caseValue(dec, caseAt(path, name), depth+1)
		if err != nil {
			return nil, err
		}
		o.names, o.values[name] = append(o.names, name), value
	}
	_, err := dec.Token() // the closing bracket
	return o, err
}

func caseElements(dec *json.Decoder, path string, depth int) (any, error) {
	all := []any{}
	for dec.More() {
		value, err := caseValue(dec, fmt.Sprintf("%s[%d]", path, len(all)), depth+1)
		if err != nil {
			return nil, err
		}
		all = append(all, value)
	}
	_, err := dec.Token() // the closing bracket
	return all, err
}

// caseAt is the path of a member, such as policy.award.count.
func caseAt(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}
