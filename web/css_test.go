package web

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// Contrast by WCAG 2.2, "relative luminance" and "contrast ratio" of its
// glossary: (L1 + 0.05) / (L2 + 0.05), from 1 to 21.
func contrast(a, b string) float64 {
	l1, l2 := luminance(a), luminance(b)
	return (math.Max(l1, l2) + 0.05) / (math.Min(l1, l2) + 0.05)
}

func luminance(hex string) float64 {
	var sum float64
	for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
		n, err := strconv.ParseUint(hex[1+2*i:3+2*i], 16, 8)
		if err != nil {
			panic(err)
		}
		c := float64(n) / 255
		if c <= 0.04045 {
			c /= 12.92
		} else {
			c = math.Pow((c+0.055)/1.055, 2.4)
		}
		sum += weight * c
	}
	return sum
}

// The glossary gives the ends of the scale.
func TestContrastScale(t *testing.T) {
	if got := fmt.Sprintf("%.0f %.0f", contrast("#000000", "#FFFFFF"), contrast("#123456", "#123456")); got != "21 1" {
		t.Errorf("got %s, want 21 1", got)
	}
}

func stylesheet(t *testing.T) string {
	t.Helper()
	body, err := staticFiles.ReadFile("static/app.css")
	if err != nil {
		t.Fatal(err)
	}
	return string(body)
}

// tokens gives the colours of a scheme: the first block of tokens is light,
// the second dark.
func tokens(t *testing.T, scheme int) map[string]string {
	t.Helper()
	blocks := regexp.MustCompile(`(?s):root \{.*?\}`).FindAllString(stylesheet(t), 2)
	colours := map[string]string{}
	for _, m := range regexp.MustCompile(`--([a-z-]+): (#[0-9A-F]{6});`).FindAllStringSubmatch(blocks[scheme], -1) {
		colours[m[1]] = m[2]
	}
	return colours
}

func TestContrast(t *testing.T) {
	const words, shapes = 4.5, 3 // WCAG 2.2, 1.4.3 and 1.4.11
	pairs := []struct {
		front, back string
		least       float64
	}{
		{"ink", "paper", words}, {"ink", "sheet", words}, {"ink", "shade", words}, {"ink", "wash", words},
		{"soft", "paper", words}, {"soft", "sheet", words}, {"soft", "shade", words}, {"soft", "wash", words},
		{"accent", "paper", words}, {"accent", "sheet", words}, {"accent", "wash", words}, {"on-accent", "accent", words},
		{"alarm", "sheet", words}, {"sheet", "alarm", words}, {"alarm", "wash", words},
		{"edge", "paper", shapes}, {"edge", "sheet", shapes}, {"margin", "paper", shapes}, {"margin", "sheet", shapes},
		{"current", "sheet", shapes}, {"due-edge", "sheet", shapes}, {"lapsed", "sheet", shapes},
		{"learning", "sheet", shapes}, {"waived", "sheet", shapes}, {"current", "shade", shapes}, {"due-edge", "shade", shapes},
		{"lapsed", "shade", shapes}, {"learning", "shade", shapes},
		{"waived", "paper", shapes},
	}
	for scheme, name := range []string{"light", "dark"} {
		colours := tokens(t, scheme)
		for _, p := range pairs {
			got := contrast(colours[p.front], colours[p.back])
			if got < p.least {
				t.Errorf("%s: %s on %s is %.2f, at least %.1f", name, p.front, p.back, got, p.least)
			}
		}
	}
}

// The light shapes are fills of the colour-blind-safe set of Okabe and Ito
// (Color Universal Design, 2008), values from memory of that publication.
func TestShapesUsePublishedColours(t *testing.T) {
	light := tokens(t, 0)
	for name, want := range map[string]string{"current": "#0072B2", "due": "#E69F00", "lapsed": "#D55E00", "waived": "#009E73"} {
		if light[name] != want {
			t.Errorf("%s is %s, want %s", name, light[name], want)
		}
	}
}

func TestStylesheetFetchesNothing(t *testing.T) {
	for _, word := range []string{"url(", "@import", "http:", "https:", "expression("} {
		if strings.Contains(stylesheet(t), word) {
			t.Errorf("the stylesheet contains %s", word)
		}
	}
}

// Nothing is laid out by left and right: a page that runs from right to left is its
// mirror image (CSS Logical Properties and Values, level 1).
func TestStylesheetRunsBothWays(t *testing.T) {
	for _, m := range regexp.MustCompile(`(?m)^.*(?:(?:margin|padding|border)-(?:left|right)|text-align: (?:left|right)|float: (?:left|right)|[;{ ](?:left|right): ).*$`).FindAllString(stylesheet(t), -1) {
		t.Errorf("laid out by left or right: %s", m)
	}
	four := regexp.MustCompile(`(?:padding|margin): ([^\s;()]+) ([^\s;()]+) ([^\s;()]+) ([^\s;()]+);`)
	for _, m := range four.FindAllStringSubmatch(stylesheet(t), -1) {
		if m[2] != m[4] {
			t.Errorf("differs on the left and on the right: %s", m[0])
		}
	}
}

// What a person's settings ask for is answered.
func TestStylesheetAnswersSettings(t *testing.T) {
	for _, query := range []string{"prefers-color-scheme: dark", "prefers-reduced-motion", "forced-colors: active", "@media print", ":focus-visible"} {
		if !strings.Contains(stylesheet(t), query) {
			t.Errorf("the stylesheet does not answer %s", query)
		}
	}
}

// Every class that a template names is styled: a misspelt one would be silent.
func TestClassesAreStyled(t *testing.T) {
	css := stylesheet(t)
	for name, node := range drawn(t) {
		if strings.Contains(name, " full") { // their classes are made of filler
			continue
		}
		for n := range node.Descendants() {
			for _, class := range strings.Fields(attrOf(n, "class")) {
				if !regexp.MustCompile(`\.` + regexp.QuoteMeta(class) + `\b`).MatchString(css) {
					t.Errorf("%s: class %s has no style", name, class)
				}
			}
		}
	}
}
