package lesson_test

import (
	"strings"
	"testing"

	"wellshown/assessment/fault"
	"wellshown/assessment/lesson"
)

const whole = `# Suctioning

Mucus can block the tube. *Not* here.
`

const sample = "\ufeff# Suctioning\r\n\r\nMucus can block the tube.\r\nSuction takes it **out**.\r\n\r\n> The child’s orders come first.\r\n\r\n## Step by step\r\n\r\n1. Wash your hands.\r\n2. Look & listen \\*twice\\*.\r\n\r\n" +
	"![A catheter goes into the tube](suction-1.svg)\r\n\r\n3. Rinse.\r\n\r\n### After\r\n\r\n- Write it down\r\n- Rest &amp; breathe\r\n"

// What CommonMark 0.31 says of headings, soft line ends, strong words, block quotes,
// lists with a start, images, backslashes and entities.
func TestReading(t *testing.T) {
	l, err := lesson.Read([]byte(sample))
	if err != nil {
		t.Fatal(err)
	}
	if l.Title != "Suctioning" || len(l.Lead) != 2 || len(l.Sections) != 1 || l.Sections[0].Title != "Step by step" {
		t.Fatalf("%+v", l)
	}
	if p := l.Lead[0]; p.Kind != lesson.Paragraph || p.Spans.Text() != "Mucus can block the tube. Suction takes it out." || len(p.Spans) != 3 || !p.Spans[1].Strong {
		t.Errorf("the first paragraph is %+v", p)
	}
	if c := l.Lead[1]; c.Kind != lesson.Caution {
		t.Errorf("the caution is %+v", c)
	}
	var kinds []string
	for _, b := range l.Sections[0].Blocks {
		kinds = append(kinds, string(b.Kind))
	}
	if got := strings.Join(kinds, " "); got != "steps picture steps heading bullets" {
		t.Fatalf("the blocks are %s", got)
	}
	b := l.Sections[0].Blocks
	if b[0].First != 1 || b[0].Items[1].Text() != "Look & listen *twice*." || b[2].First != 3 || b[4].Items[1].Text() != "Rest & breathe" {
		t.Errorf("%+v", b)
	}
	if b[1].Drawing != "suction-1" || b[1].Says != "A catheter goes into the tube" || strings.Join(l.Drawings(), " ") != "suction-1" {
		t.Errorf("the drawing is %+v", b[1])
	}
	if level := l.Level("en"); level.Counts.Sentences != 12 || !level.Within() {
		t.Errorf("%+v", level)
	}
}

// What could carry a script or lead elsewhere, or what we do not draw, is refused with
// its line.
func TestWhatIsNotLetThrough(t *testing.T) {
	for inside, why := range map[string]string{
		"<script>alert(1)</script>":             "HTML",
		"words <b onclick=x>bold</b>":           "HTML",
		"<!-- hidden -->":                       "HTML",
		"[here](javascript:alert(1))":           "link",
		"<https://elsewhere.example>":           "link",
		"[here][1]\n\n[1]: https://x.example":   "link",
		"![x](javascript:alert(1))":             "named like",
		"![x](https://elsewhere.example/a.svg)": "named like",
		"![x](../a.svg)":                        "named like",
		"![](suction-1.svg)":                    "what the drawing shows",
		"![x](suction-1.svg \"title\")":         "no title",
		"words ![x](suction-1.svg)":             "drawing within",
		"![<script>](suction-1.svg)":            "HTML",
		"    code":                              "code",
		"```\ncode\n```":                        "code",
		"`code`":                                "code",
		"---":                                   "line across",
		"*slanted*":                             "slanted",
		"- one\n  - two":                        "list within",
		"- one\n\n  > two":                      "caution within",
		"> - one":                               "list",
		"# Another title":                       "one heading",
		"#### Deep":                             "one heading",
		"##":                                    "says nothing",
		"-\n- b":                                "says nothing",
		"bell \a":                               "cannot be printed",
		"**<i>x</i>**":                          "HTML",
	} {
		_, err := lesson.Read([]byte("# Title\n\nWords.\n\n" + inside + "\n"))
		if fault.KindOf(err) != fault.Invalid || !strings.Contains(err.Error(), why) {
			t.Errorf("%q: %v", inside, err)
		}
	}
	for _, src := range []string{"", "words", "## Section\n\nWords.", "# Title", whole, "\xff# Title\n\nWords", "# T\n\n" + strings.Repeat("a ", lesson.MostBytes), "# T\n\n" + strings.Repeat("a\n\n", lesson.MostBlocks+1)} {
		if _, err := lesson.Read([]byte(src)); fault.KindOf(err) != fault.Invalid {
			t.Errorf("%.40q: %v", src, err)
		}
	}
	_, err := lesson.Read([]byte("# Title\n\nWords.\n\nMore.\n\nSee <b>this</b>.\n"))
	if err == nil || !strings.Contains(err.Error(), "line 7") {
		t.Errorf("the line is not told: %v", err)
	}
}

func FuzzRead(f *testing.F) {
	f.Add([]byte(sample))
	f.Fuzz(func(t *testing.T, src []byte) {
		l, err := lesson.Read(src)
		if err != nil {
			if fault.KindOf(err) != fault.Invalid {
				t.Errorf("a refusal of another kind: %v", err)
			}
			return
		}
		if l.Title == "" || len(l.Blocks()) == 0 {
			t.Errorf("a lesson that says nothing: %+v", l)
		}
	})
}
