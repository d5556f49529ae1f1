package written

import (
	"bytes"
	"encoding/json"
	"io"
	"regexp"
	"strings"
)

// sheetNeeds must stand in every sheet: what is left out would be read as nothing.
var sheetNeeds = []string{"version", "id", "agency", "learner", "skill", "revision", "place", "real", "formal", "performed_at", "finished_at", "stopped", "marks", "taken_back", "outcome"}

// mayBeNull are names whose value may be null; null anywhere else would be read as
// nothing, too.
var mayBeNull = map[string]bool{"score": true, "name_checked_at": true}

// sheetName is how the names of the format are written: a name that differs in its case
// alone would be read as the same one.
var sheetName = regexp.MustCompile(`^[a-z_]+$`)

// sheetLevel is an object or a list that is being read.
type sheetLevel struct {
	list, free bool // free: its names are the checklist's
	names      map[string]bool
	name       string // that was read last
	value      bool   // its value comes next
}

// checkSheetNames walks through a sheet and refuses names that stand twice, are written
// otherwise or are missing, null where something must stand, and what no database holds.
func checkSheetNames(src []byte) error {
	d := json.NewDecoder(bytes.NewReader(src))
	d.UseNumber()
	var open []*sheetLevel
	for {
		token, err := d.Token()
		switch {
		case err == io.EOF:
			return nil // what is not whole is refused when it is decoded
		case err != nil:
			return unreadable("it is not JSON")
		}
		if text, is := token.(string); is && strings.ContainsRune(text, 0) {
			return unreadable("it holds the character U+0000")
		}
		if len(open) == 0 && token != json.Delim('{') {
			return unreadable("it is no object")
		}
		if open, err = nextSheetToken(open, token); err != nil {
			return err
		}
	}
}

func nextSheetToken(open []*sheetLevel, token json.Token) ([]*sheetLevel, error) {
	var in *sheetLevel
	if len(open) > 0 {
		in = open[len(open)-1]
	}
	switch token {
	case json.Delim('{'), json.Delim('['):
		next := &sheetLevel{list: token == json.Delim('['), names: map[string]bool{}}
		if in != nil {
			next.free = !in.list && !in.free && (in.name == "parameters" || in.name == "readings")
			in.value = false
		}
		return append(open, next), nil
	case json.Delim('}'), json.Delim(']'):
		if len(open) == 1 {
			return open[:0], in.whole()
		}
		return open[:len(open)-1], nil
	}
	return open, in.take(token)
}

// take looks at a name, or at a value that is neither object nor list.
func (l *sheetLevel) take(token json.Token) error {
	switch {
	case token == nil && (l.list || l.free || !mayBeNull[l.name]):
		return unreadable("something is null")
	case l.list:
		return nil
	case l.value:
		l.value = false
		return nil
	}
	name, _ := token.(string)
	switch {
	case l.names[name]:
		return unreadable("a name stands twice")
	case !l.free && !sheetName.MatchString(name):
		return unreadable("a field is unknown")
	}
	l.names[name], l.name, l.value = true, name, true
	return nil
}

// whole reports what lacks in the outermost object.
func (l *sheetLevel) whole() error {
	for _, name := range sheetNeeds {
		if !l.names[name] {
			return unreadable("it lacks " + name)
		}
	}
	return nil
}
