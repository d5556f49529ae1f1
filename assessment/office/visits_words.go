package office

import (
	"fmt"
	"strings"

	"wellshown/assessment"
)

// unmetWords says why no visit meets something.
func unmetWords(u assessment.Unmet) string {
	if u.Why != assessment.OffOrFull {
		return string(u.Why)
	}
	var who []string
	for _, e := range u.Educators {
		var why []string
		if n := len(e.Off); n > 0 {
			why = append(why, "off on "+days(n))
		}
		if n := len(e.Full); n > 0 {
			why = append(why, "full on "+days(n))
		}
		who = append(who, e.Name+" is "+strings.Join(why, " and "))
	}
	return string(u.Why) + ": " + strings.Join(who, "; ")
}

func days(n int) string {
	if n == 1 {
		return "1 day"
	}
	return fmt.Sprintf("%d days", n)
}
