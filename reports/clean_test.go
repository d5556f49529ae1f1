package reports

import (
	"strings"
	"testing"

	"golang.org/x/text/unicode/norm"
)

func TestNormal(t *testing.T) {
	for _, c := range []struct{ in, want, why string }{
		{"Nguye\u0302\u0303n", "Nguyễn", "decomposed letters are composed (Unicode Annex 15, NFC)"},
		{"Zoe\u0308", "Zoë", "the same"},
		{"a\xffb\xc3", "a□b□", "broken UTF-8 shows"},
		{"a\ufffdb", "a□b", "so does what was broken before it came here"},
		{"😀👍🏽", "□□□", "beyond the Basic Multilingual Plane; the tone of skin is a character too"},
		{"👩\u200d⚕\ufe0f", "□⚕", "a joiner and a variation selector have no shape"},
		{"a\x00\x07b", "a□□b", "controls show"},
		{"a\u202egpj\u202c", "agpj", "a change of direction does not reach the paper"},
		{"\ufeffa\u00ad\u200bb", "ab", "nor do a byte order mark, a soft hyphen, a zero width space"},
		{"a\r\nb\rc\u2028d\u0085e\ff", "a\nb\nc\nd\ne\nf", "line breaks of all systems"},
		{"a\tb\u3000c", "a b c", "a tab and a wide space are spaces"},
		{"a\u00a0b", "a\u00a0b", "a space that must not break stays"},
	} {
		if got := normal(c.in); got != c.want {
			t.Errorf("normal(%+q) = %+q, want %+q: %s", c.in, got, c.want, c.why)
		}
	}
}

func TestWhatAFaceLacksIsABox(t *testing.T) {
	p := blankPaper(t)
	for in, want := range map[string]string{
		"李 Lan": "□ Lan", "שרה": "□□□", "سارة": "□□□□", "Ólafur ⚕": "Ólafur □", "नमस्ते": "□□□□□□",
	} {
		for _, w := range []words{name(in), strong(in), text(in)} {
			if f, got := p.set(w.style, in); got != want || !f.covers(got) {
				t.Errorf("face %d prints %q as %q, want %q", f.id, in, got, want)
			}
		}
	}
}

// Where the serif lacks a letter the whole text goes to the bold sans.
func TestOneFaceForOneName(t *testing.T) {
	p := blankPaper(t)
	for in, want := range map[string]faceID{
		"Nguyễn Thị Ánh": serifBold, "Ольга\nМартин": serifBold, "Łucja ☑": sansBold, "Ada 李": sansBold,
	} {
		if f, _ := p.set(nameStyle, in); f.id != want {
			t.Errorf("%q is set in face %d, want %d", in, f.id, want)
		}
	}
}

// The names that must print, each in each face, by what another program reads.
func TestNamesComeOutAsTheyWentIn(t *testing.T) {
	names := []string{
		"Nguyễn Thị Ánh", "Łucja Żółć-Ściślewska", "Zoë", "Ольга Мартин", "Čeněk Ďuriš", "İpek Şığ", "Ẹ̀bùn Ọláyẹmí",
		"Ελένη Παπαδοπούλου", "Ŝi Ĉu (ĵus) \\ Ġ", "Ňaďa Ŕehoř Ċensu", "Þórður Ðe Æsa", "Արամ", "ქეთი",
	}
	for _, who := range names {
		p := blankPaper(t)
		p.row(label("a"), name(who), strong(who), text(who), soft(who))
		got := tool(t, "pdftotext", "-raw", filed(t, finished(t, p)), "-")
		if n := strings.Count(got, norm.NFC.String(who)+"\n"); n != 4 {
			t.Errorf("%q is read %d times of 4:\n%s", who, n, got)
		}
	}
}

func TestWhatIsMissingIsReadAsABox(t *testing.T) {
	for in, want := range map[string]string{
		"Nguye\u0302\u0303n Thi\u0323 A\u0301nh": "Nguyễn Thị Ánh", "Mira 😀 7K": "Mira □ 7K", "Li 李": "Li □", "Ann\xffe": "Ann□e",
	} {
		p := blankPaper(t)
		p.row(words{}, name(in), text(in))
		got := tool(t, "pdftotext", "-raw", filed(t, finished(t, p)), "-")
		if strings.Count(got, want+"\n") != 2 {
			t.Errorf("%+q is read as %q, want %q", in, got, want)
		}
	}
}

func FuzzNothingPanics(f *testing.F) {
	for _, s := range []string{"", " ", "Ánh", "😀", "\xff\xfe", "\x00\n\n\t", "שלום \u202e", "e\u0301\u0301\u0301", strings.Repeat("W", 300), "a\u0300" + strings.Repeat("\u0316", 50)} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if len(s) > 400 {
			s = s[:400]
		}
		p := everywhere(t, s)
		if pdf := finished(t, p); !strings.HasPrefix(string(pdf), "%PDF-") {
			t.Error("not a PDF")
		}
		inside(t, p)
	})
}
