package reports

import (
	"slices"
	"strings"
	"testing"
	"unicode/utf8"
)

func TestWrap(t *testing.T) {
	f := blankPaper(t).faces[sans]
	wide := func(s string) float64 { return f.width(s, 10) + 0.01 }
	for _, c := range []struct {
		in    string
		width float64
		want  []string
	}{
		{"", 100, nil},
		{"   ", 100, nil},
		{"one two three", 1000, []string{"one two three"}},
		{"one two three", wide("one two"), []string{"one two", "three"}},
		{"one  two", wide("one"), []string{"one", "two"}},
		{"a\nb\n\nc", 100, []string{"a", "b", "", "c"}},
		{"Żółć-Ściślewska", wide("Żółć-Ściśle"), []string{"Żółć-", "Ściślewsk", "a"}},
		{"2026-11-18", wide("2026-1"), []string{"2026-1", "1-18"}}, // broken only because it must be
		{"abcdef", wide("abc"), []string{"abc", "def"}},
		{"ae\u0316bc", wide("ae\u0316"), []string{"ae\u0316", "bc"}},
		{"wide", 1, []string{"w", "i", "d", "e"}},
	} {
		if got := wrap(f, 10, c.in, c.width); !slices.Equal(got, c.want) {
			t.Errorf("wrap(%q) = %q, want %q", c.in, got, c.want)
		}
	}
}

func TestClipped(t *testing.T) {
	f := blankPaper(t).faces[sans]
	if got := clipped(f, 10, "short", 100); got != "short" {
		t.Errorf("what fits was cut: %q", got)
	}
	got := clipped(f, 10, "Seven of forty caregivers", 60)
	if !strings.HasSuffix(got, "…") || f.width(got, 10) > 60 || len(got) < 8 {
		t.Errorf("cut to %q, %.1f wide", got, f.width(got, 10))
	}
}

// No text is lost or added but spaces, and no line is wider than asked unless it
// is one letter with its marks.
func FuzzWrap(f *testing.F) {
	for _, s := range []string{"one two three", "a-b/c–d", "ễ\u0316\u0316 x", "\n\n", strings.Repeat("Ж", 99)} {
		f.Add(s, 40.0)
	}
	f.Fuzz(func(t *testing.T, s string, width float64) {
		if !(width > 0 && width < 1000) {
			return
		}
		face := blankPaper(t).faces[sans]
		clean := face.boxed(normal(s))
		lines := wrap(face, 10, clean, width)
		bare := func(s string) string { return strings.NewReplacer(" ", "", "\n", "").Replace(s) }
		if got, want := bare(strings.Join(lines, "")), bare(clean); got != want && strings.TrimSpace(clean) != "" {
			t.Errorf("%q became %q", want, got)
		}
		for _, l := range lines {
			if !utf8.ValidString(l) || face.width(l, 10) > width && clusterLen(strings.TrimSpace(l)) < len(strings.TrimSpace(l)) {
				t.Errorf("line %q is %.1f wide, wanted %.1f", l, face.width(l, 10), width)
			}
		}
	})
}
