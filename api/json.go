package api

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"
)

// readJSON reads a body into v. It is stricter than encoding/json where leniency
// would let a sender mean one thing and the reader take another: a name that
// stands twice in an object, bytes that are no UTF-8, and the character U+0000,
// which the database cannot hold. Every error is a sentence for a person.
func readJSON(data []byte, v any) error {
	if !utf8.Valid(data) {
		return errors.New("This is not UTF-8, and JSON is (RFC 8259, section 8.1).")
	}
	if err := json.Unmarshal(data, v); err != nil {
		return inWords(data, err)
	}
	return checkNames(data)
}

func inWords(data []byte, err error) error {
	var syntax *json.SyntaxError
	if errors.As(err, &syntax) {
		before := data[:min(int(syntax.Offset), len(data))]
		line := bytes.Count(before, []byte("\n")) + 1
		return fmt.Errorf("This is not JSON: look at line %d, character %d.", line, len(before)-bytes.LastIndexByte(before, '\n')-1)
	}
	var wrong *json.UnmarshalTypeError
	if errors.As(err, &wrong) && wrong.Field != "" {
		return fmt.Errorf("The value of %s cannot be read: it is too large or of another kind.", wrong.Field)
	}
	return errors.New("A value cannot be read: it is too large or of another kind.")
}

// checkNames walks through well-formed JSON and refuses names that stand twice and
// text with U+0000.
func checkNames(data []byte) error {
	d := json.NewDecoder(bytes.NewReader(data))
	d.UseNumber()
	var open []*object
	for {
		token, err := d.Token()
		if err != nil {
			return nil // the end: what is not well-formed was refused before
		}
		switch t := token.(type) {
		case json.Delim:
			open = nest(open, t)
			continue
		case string:
			if strings.ContainsRune(t, 0) {
				return errors.New("Text cannot hold the character U+0000.")
			}
		}
		if len(open) > 0 {
			if err := open[len(open)-1].take(token); err != nil {
				return err
			}
		}
	}
}

// object is an object or a list that is being read.
type object struct {
	list  bool
	names map[string]bool
	value bool // the next token is the value of the name just read
}

func nest(open []*object, d json.Delim) []*object {
	switch d {
	case '{', '[':
		if len(open) > 0 {
			open[len(open)-1].value = false
		}
		return append(open, &object{list: d == '[', names: map[string]bool{}})
	}
	return open[:len(open)-1]
}

func (o *object) take(token json.Token) error {
	if o.list {
		return nil
	}
	if o.value {
		o.value = false
		return nil
	}
	name, _ := token.(string)
	if o.names[name] {
		return fmt.Errorf("The name %q stands twice in one object. Send it once.", name)
	}
	o.names[name], o.value = true, true
	return nil
}
