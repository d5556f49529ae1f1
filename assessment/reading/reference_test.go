package reading_test

import (
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"wellshown/assessment/catalog"
	"wellshown/assessment/reading"
	"wellshown/assessment/wording"
)

// The counter is held to another one, the npm library "syllable", on all words of the
// starter lessons as often as they stand there. The two differ in single words (that
// one gives "blocked" two syllables), so what is compared is the whole, within three in a
// hundred: a twentieth of a syllable a word, half a grade.
func TestSyllablesAreThoseOfAnotherCounter(t *testing.T) {
	if _, err := os.Stat("../../node_modules/syllable"); err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal("there is no syllable: run npm ci")
		}
		t.Skip("npm ci fetches the library; make test does")
	}
	word := regexp.MustCompile(`[A-Za-z]+(?:['’][a-z]+)?`)
	var words []string
	for _, code := range catalog.Codes() {
		l, err := catalog.Lesson(code, wording.English)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range l.Passages() {
			words = append(words, word.FindAllString(p, -1)...)
		}
	}
	script, err := filepath.Abs("testdata/syllables.mjs")
	if err != nil {
		t.Fatal(err)
	}
	node := exec.Command("node", script)
	node.Stdin = strings.NewReader(strings.ReplaceAll(strings.Join(words, "\n"), "’", "'"))
	out, err := node.Output()
	if err != nil {
		t.Fatalf("count with the library: %v", err)
	}
	theirs, ours, same := 0, 0, 0
	for i, line := range strings.Split(string(out), "\n") {
		n, err := strconv.Atoi(line)
		if err != nil {
			t.Fatal(err)
		}
		m := reading.Measure("en", words[i]).Counts.Syllables
		theirs, ours = theirs+n, ours+m
		if n == m {
			same++
		}
	}
	t.Logf("%d words: %d syllables by us, %d by them, alike in %d", len(words), ours, theirs, same)
	if len(words) < 1000 || math.Abs(float64(ours-theirs)) > .03*float64(theirs) {
		t.Errorf("%d syllables by us, %d by them, in %d words", ours, theirs, len(words))
	}
}
