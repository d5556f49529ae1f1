package lesson_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"wellshown/assessment/lesson"
)

func read(t *testing.T, src string) lesson.Lesson {
	t.Helper()
	l, err := lesson.Read([]byte(src))
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// Common practice, no source.
func TestWhatChangedInALesson(t *testing.T) {
	older := read(t, "# A\n\nOne.\n\n## Why\n\nTwo.\n\n- a\n- b\n- c\n")
	for src, want := range map[string]string{
		"# A\n\nOne.\n\n## Why\n\nTwo.\n\n- a\n- b\n- c\n":        "",
		"# A\n\nOne.\n\n## Why\n\nTwo.\n\n- a\n- x\n- c\n":        "Why: b > x",
		"# A\n\nOne.\n\n## Why\n\nTwo.\n\n- a\n- c\n":             "Why: b > ",
		"# A\n\nOne.\n\n## Why\n\nTwo.\n\n- a\n- b\n- n\n- c\n":   "Why:  > n",
		"# B\n\nOne.\n\n## Why\n\nTwo.\n\n- a\n- b\n- c\n":        "B: A > B",
		"# A\n\n**One.**\n\n## Why\n\nTwo.\n\n- a\n- b\n- c\n":    "A: One. > **One.**",
		"# A\n\nOne.\n\n## Why\n\n- a\n- b\n- c\n\nLast.\n":       "Why: Two. > ; Why:  > Last.",
		"# A\n\nOne.\n\n## Because\n\nTwo.\n\n- a\n- b\n- c\n":    "Because: Why > Because",
		"# A\n\nOne.\n\n## Why\n\nTwo.\n\n- a\n- b\n\n1. c\n":     "",
		"# A\n\nOne.\n\n![It shows](x-1.svg)\n\n## Why\n\nTwo.\n": "A:  > It shows (x-1.svg); Why: a > ; Why: b > ; Why: c > ",
	} {
		var got []string
		for _, c := range lesson.Compare(older, read(t, src)) {
			got = append(got, c.Section+": "+c.Before+" > "+c.After)
		}
		if s := strings.Join(got, "; "); s != want {
			t.Errorf("%q: %q, not %q", src, s, want)
		}
	}
}

// Whatever two lessons say, what the changes take away and add makes the one of the
// other, as often as it stands there.
func TestChangesMakeTheOneOfTheOther(t *testing.T) {
	random := rand.New(rand.NewPCG(6, 2))
	some := func() string {
		var b strings.Builder
		b.WriteString("# T\n\n")
		for range 1 + random.IntN(9) {
			fmt.Fprintf(&b, "p%d\n\n", random.IntN(4))
		}
		return b.String()
	}
	for range 2000 {
		a, b := read(t, some()), read(t, some())
		count := map[string]int{}
		for _, p := range a.Passages() {
			count[p]++
		}
		for _, c := range lesson.Compare(a, b) {
			count[c.Before]--
			count[c.After]++
		}
		delete(count, "")
		for _, p := range b.Passages() {
			count[p]--
		}
		for p, n := range count {
			if n != 0 {
				t.Fatalf("%q is off by %d: %q, %q", p, n, a.Passages(), b.Passages())
			}
		}
	}
}
