package api

import (
	"encoding/json"
	"strings"
	"testing"
)

func TestJSONIsReadStrictly(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ name, src, says string }{
		{"plain", `{"mark":"cued","readings":{"a":{"value":"1"},"b":{"value":"1"}}}`, ""},
		{"the same name in two objects", `[{"a":1},{"a":2}]`, ""},
		{"a value that reads like a name", `{"a":"b","b":"a"}`, ""},
		{"the same name twice", `{"mark":"unsafe","mark":"independent"}`, `"mark" stands twice`},
		{"the same name twice, written differently", `{"mark":"unsafe","m\u0061rk":"independent"}`, `"mark" stands twice`},
		{"the same name twice, deep down", `{"a":[{"b":{"c":1,"d":{},"c":[]}}]}`, `"c" stands twice`},
		{"U+0000 in a value", `{"a":"x\u0000y"}`, "U+0000"},
		{"U+0000 in a name", `{"a\u0000":1}`, "U+0000"},
		{"U+0000 in a list", `{"a":["x\u0000y"]}`, "U+0000"},
		{"no UTF-8", "{\"a\":\"\xff\"}", "UTF-8"},
		{"cut off", `{"a":`, "line 1, character 5"},
		{"on the second line", "{\"a\":1,\n b}", "line 2, character 2"},
		{"two documents", `{} {}`, "line 1, character 4"},
		{"a number that no number holds", `{"a":1e400}`, "too large"},
		{"nested without end", strings.Repeat("[", 20000), "not JSON"},
	} {
		var v any
		err := readJSON([]byte(c.src), &v)
		switch {
		case c.says == "" && err != nil:
			t.Errorf("%s: %v", c.name, err)
		case c.says != "" && (err == nil || !strings.Contains(err.Error(), c.says)):
			t.Errorf("%s: %v, want a word of %q", c.name, err, c.says)
		}
	}
}

// FuzzJSON compares with encoding/json: what is read is what it reads, and what it
// cannot read is not read either.
func FuzzJSON(f *testing.F) {
	for _, seed := range []string{`{}`, `{"a":[1,{"b":null}],"c":"\u0000"}`, `{"a":1,"a":2}`, `"x"`, `[[],{}]`, `{"a":{"a":{"a":1}}}`} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, src []byte) {
		var got, want any
		err := readJSON(src, &got)
		wantErr := json.Unmarshal(src, &want)
		if err != nil {
			return
		}
		if wantErr != nil {
			t.Fatalf("read %q, which is not JSON: %v", src, wantErr)
		}
		a, errA := json.Marshal(got)
		b, errB := json.Marshal(want)
		if errA != nil || errB != nil || string(a) != string(b) {
			t.Fatalf("read %s, want %s (%v, %v)", a, b, errA, errB)
		}
	})
}
