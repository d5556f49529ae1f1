package reports

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"wellshown/assessment/civil"
)

var small = [...]string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}

// spelled is a number in words up to twelve, for the beginning of a sentence.
func spelled(n int) string {
	if n >= 0 && n < len(small) {
		return small[n]
	}
	return strconv.Itoa(n)
}

// counted is a number with its noun in the right form: 1 day, 3 days.
func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// listed joins things as a sentence does: a, b and c.
func listed(things []string) string {
	switch n := len(things); n {
	case 0:
		return ""
	case 1:
		return things[0]
	default:
		return strings.Join(things[:n-1], ", ") + " and " + things[n-1]
	}
}

// capital is s with a capital at its head.
func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

// ended is s with a full stop, unless it ends a sentence already.
func ended(s string) string {
	s = strings.TrimSpace(s)
	if last, _ := utf8.DecodeLastRuneInString(s); s == "" || strings.ContainsRune(".!?…", last) {
		return s
	}
	return s + "."
}

// datesInWords names days, each once and in the order given, without repeating a
// month or a year: 9, 12 and 18 November 2026.
func datesInWords(say phrases, days []civil.Date) string {
	days = slices.Compact(slices.Clone(days))
	parts := make([]string, len(days))
	for i, d := range days {
		y, m, day := d.Civil()
		parts[i] = strconv.Itoa(day)
		sameYear, sameMonth := false, false
		if i+1 < len(days) {
			ny, nm, _ := days[i+1].Civil()
			sameYear = ny == y
			sameMonth = sameYear && nm == m
		}
		if !sameMonth {
			parts[i] += " " + say.months[m-1]
		}
		if !sameYear {
			parts[i] += " " + strconv.Itoa(y)
		}
	}
	return listed(parts)
}
