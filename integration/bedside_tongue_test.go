package integration

import (
	"io/fs"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"wellshown/assessment/catalog"
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

// What came of a demonstration reads on a device as it does on the office's pages, whatever
// the reason, for each checklist of the catalogue: where all of its words are known in the
// language, in it, and else in English as a whole and said to be English (WCAG 2.2, 3.1.2).
func TestADeviceSaysReasonsAsTheOfficeInSpanish(t *testing.T) {
	lists, err := catalog.All()
	if err != nil {
		t.Fatal(err)
	}
	es := wording.In(wording.Spanish)
	whole, some := 0, 0
	for i, c := range lists {
		if i%2 == 1 {
			c.Sections[0].Steps[0].Text = "A step of the agency’s own" // known in no other language
		}
		task := tongueTask{Tongue: tongueOfList(c), Sheet: sheetOf(c)}
		reasons := reasonsOf(c)
		for _, r := range reasons {
			task.Reasons = append(task.Reasons, map[string]any{"rule": string(r.Rule), "step": r.Step, "of": r.Of})
		}
		var said struct{ Reasons [][2]string }
		byNode(t, "tongue.mjs", task.whole(), &said)
		for k, r := range reasons {
			want, known := es.Whole(r.Phrase(c))
			lang := ""
			if !known {
				lang = "en"
			}
			for _, p := range c.Parameters {
				short, _, _ := strings.Cut(p.Says, ",")
				if known {
					short, _ = es.Theirs(short)
				}
				want = strings.ReplaceAll(want, "{"+p.Name+"}", short)
			}
			if said.Reasons[k] != [2]string{want, lang} {
				t.Errorf("%s: %q in %q, want %q in %q", c.Code, said.Reasons[k][0], said.Reasons[k][1], want, lang)
			}
			if known {
				whole++
			} else {
				some++
			}
		}
	}
	if whole < 200 || some < 6 {
		t.Errorf("%d reasons are known in Spanish, and %d are not", whole, some)
	}
}

// What an observer tapped together of our short phrases is read in the learner's language
// before it, as it was signed; what they typed stands as it was typed, said to be English
// (the text that is signed is never another one; common practice, no source).
func TestWhatWasTappedIsReadBesideWhatIsKept(t *testing.T) {
	lists, err := catalog.All()
	if err != nil {
		t.Fatal(err)
	}
	c := lists[0]
	step := c.Steps()[0]
	es := wording.In(wording.Spanish)
	stepES, known := es.Theirs(step.Text)
	if !known || strings.Contains(step.Text, "{") {
		t.Fatalf("%q is no step to try it with", step.Text)
	}
	tapped := "Asked how it felt; heard the answer; Showed the step once more"
	practise := "Step " + strconv.Itoa(step.No) + ": " + step.Text
	cases := [][2]string{
		{"Equipment failed", es.Say("Equipment failed")},
		{tapped, es.Say("Asked how it felt; heard the answer") + "; " + es.Say("Showed the step once more")},
		{practise + "; Equipment failed", es.Say("Step %d: %s", step.No, stepES) + "; " + es.Say("Equipment failed")},
		{"Equipment failed twice", ""}, {tapped + "; she was calm", ""}, {"Step 99: " + step.Text, ""}, {"", ""}, {"; ", ""}, {"toString", ""},
	}
	task := tongueTask{Tongue: tongueOfList(c), Sheet: sheetOf(c)}
	for _, c := range cases {
		task.Typed = append(task.Typed, c[0])
	}
	var said struct {
		Typed   [][2]string
		Page    []string
		English []string
		Taken   map[string]string
	}
	task.Reasons = []any{map[string]any{"rule": "unsafe", "step": step.No}}
	byNode(t, "tongue.mjs", task.whole(), &said)
	for i, c := range cases {
		want := [2]string{c[1], c[0]} // its reading, and it as it stands
		if c[1] == "" {
			want = [2]string{c[0], "en"}
		}
		if said.Typed[i] != want {
			t.Errorf("%q reads %q, want %q", c[0], said.Typed[i], want)
		}
	}
	if want := "Step 1 was unsafe: " + step.Text; !slices.Equal(said.Page, []string{"es", "ltr"}) || !slices.Equal(said.English, []string{"en", want, ""}) {
		t.Errorf("the page is %v, and after it %v", said.Page, said.English)
	}
	if said.Taken[step.Text] != stepES || len(said.Taken) > 12 {
		t.Errorf("a sheet of the first steps takes along %v", said.Taken)
	}
}

// A learner reads English where their language came with neither sheet nor pack, where the
// pack is of before there were languages, and where the words are of other texts than the
// device says: half a page in English is read by nobody. What the pack says of them now
// comes before what it said when the sheet was begun (common practice, no source).
func TestInWhichLanguageALearnerReads(t *testing.T) {
	type given = map[string]any
	es, old := given{"tag": "es"}, given{"tag": "es", "edition": "another"}
	learner := func(language string) []any {
		return []any{given{"id": "l", "language": language}, given{"id": "m", "language": "es"}}
	}
	before := given{"learners": []any{given{"id": "l"}, given{"id": "m"}}}
	cases := []struct {
		sheet, pack given
		want        string
	}{
		{given{}, nil, "en"}, {given{}, before, "en"},
		{given{"tongue": es}, nil, "es"}, {given{"tongue": es}, before, "es"},
		{given{"tongue": old}, nil, "en"}, {given{"tongue": old}, before, "en"},
		{given{}, given{"learners": learner("es"), "tongues": []any{es}}, "es"},
		{given{"tongue": old}, given{"learners": learner("es"), "tongues": []any{es}}, "es"},
		{given{"tongue": es}, given{"learners": learner("es"), "tongues": []any{old}}, "es"},
		{given{"tongue": old}, given{"learners": learner("es"), "tongues": []any{old}}, "en"},
		{given{"tongue": es}, given{"learners": learner("en"), "tongues": []any{es}}, "en"},
		{given{"tongue": es}, given{"learners": learner("vi"), "tongues": []any{es}}, "en"},
		{given{}, given{"learners": learner("es")}, "en"},
		{given{"tongue": es}, given{"learners": []any{}, "tongues": []any{es}}, "es"}, // they are in it no more
	}
	lists, err := catalog.All()
	if err != nil {
		t.Fatal(err)
	}
	task := tongueTask{Tongue: tongueOfList(lists[0]), Sheet: sheetOf(lists[0])}
	for _, c := range cases {
		task.Choices = append(task.Choices, given{"sheet": c.sheet, "pack": c.pack})
	}
	var said struct{ Choices []string }
	byNode(t, "tongue.mjs", task.whole(), &said)
	for i, c := range cases {
		if said.Choices[i] != c.want {
			t.Errorf("%v, %v: %s, want %s", c.sheet, c.pack, said.Choices[i], c.want)
		}
	}
}
