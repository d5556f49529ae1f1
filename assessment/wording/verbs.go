package wording

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// verb is one place in a format: flags, the index in brackets, the letter.
var verb = regexp.MustCompile(`%([-+# 0-9.]*)(?:\[(\d+)\])?([a-zA-Z%])`)

// Places lists what a format takes, by its place among the arguments: "1d", "2s".
func Places(format string) []string {
	seen, next := map[string]bool{}, 1
	for _, m := range verb.FindAllStringSubmatch(format, -1) {
		if m[3] == "%" {
			continue
		}
		if m[2] != "" {
			next, _ = strconv.Atoi(m[2]) // digits only
		}
		seen[strconv.Itoa(next)+m[3]] = true
		next++
	}
	return slices.Sorted(maps.Keys(seen))
}

// Differs says what a translation takes otherwise than its English text does; empty
// where they agree. A form for one may leave the number out.
func Differs(english, translated string, forOne bool) string {
	want, got := Places(english), Places(translated)
	if forOne {
		want, got = without(want, "1d"), without(got, "1d")
	}
	if slices.Equal(want, got) {
		return ""
	}
	return fmt.Sprintf("%q takes %s, and %q takes %s", english, strings.Join(want, " "), translated, strings.Join(got, " "))
}

func without(places []string, one string) []string {
	return slices.DeleteFunc(slices.Clone(places), func(p string) bool { return p == one })
}
