package integration

import (
	"io/fs"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

// saysAtTheBedside finds what a module says in the language of whoever holds the device.
var saysAtTheBedside = regexp.MustCompile(`\bsays\(("(?:[^"\\]|\\.)*")`)

// Every text that a device says to a learner to whom it is handed is one of the list that a
// pack carries, each of the list is said somewhere, has a translation into every language,
// and takes the same in it; and the device knows the list by its mark, so that it never
// says half of another one (common practice, no source).
func TestWhatADeviceSaysToALearnerIsCarriedByThePack(t *testing.T) {
	house := houseFS(t)
	names, err := fs.Glob(house, "web/static/bedside/*.js")
	if err != nil {
		t.Fatal(err)
	}
	var all strings.Builder
	said := map[string]string{}
	for _, name := range names {
		body, err := fs.ReadFile(house, name)
		if err != nil {
			t.Fatal(err)
		}
		all.Write(body)
		for _, m := range saysAtTheBedside.FindAllSubmatch(body, -1) {
			text, err := strconv.Unquote(string(m[1]))
			if err != nil {
				t.Fatalf("%s: %s: %v", name, m[1], err)
			}
			said[text] = name
		}
	}
	carried := map[string]bool{}
	for _, p := range office.HandedTexts {
		carried[p.Format] = true
		if !strings.Contains(all.String(), strconv.Quote(p.Format)) {
			t.Errorf("no module says %q", p.Format)
		}
		for _, l := range wording.Languages[1:] {
			one, other, known := wording.Known(l, p.Format)
			if !known || one != "" {
				t.Errorf("%q is not known in %s, or counts, which a device does not", p.Format, l.Own())
			} else if differs := wording.Differs(p.Format, other, false); differs != "" {
				t.Error(differs)
			}
		}
	}
	for text, name := range said {
		if !carried[text] {
			t.Errorf("%s says %q, which no pack carries", name, text)
		}
	}
	if len(said) < 40 {
		t.Errorf("only %d texts are said", len(said))
	}
	if !strings.Contains(all.String(), `const edition = "`+office.HandedEdition()+`"`) {
		t.Errorf("tongue.js does not know the edition %s", office.HandedEdition())
	}
}

// plainInModules finds sentences in a module that are said in no language but their own:
// literals of several words that are no names of classes.
var plainInModules = regexp.MustCompile("(?:class: |says\\()?(\"(?:[^\"\\\\]|\\\\.)*\"|`[^`]*`)")

// The modules that draw nothing but what learners are handed say all of it by the list; a
// sentence of English beside it would stay English in their hands.
func TestNoModuleOfWhatIsHandedOverSaysPlainEnglish(t *testing.T) {
	inserted := regexp.MustCompile(`\$\{[^}]*\}`)
	words := regexp.MustCompile(`[A-Za-z]{2,}[^a-z]? [A-Za-z]{2,}`)
	for _, name := range []string{"hand.js", "drawing.js", "passkeys.js"} {
		body, err := fs.ReadFile(houseFS(t), "web/static/bedside/"+name)
		if err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(string(body)) {
			if code := strings.TrimSpace(line); strings.HasPrefix(code, "//") || strings.HasPrefix(code, "import ") {
				continue
			}
			for _, m := range plainInModules.FindAllStringSubmatch(line, -1) {
				if m[0] == m[1] && words.MatchString(inserted.ReplaceAllString(m[1], "")) {
					t.Errorf("%s says %s in English alone", name, m[1])
				}
			}
		}
	}
}
