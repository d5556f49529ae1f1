package reports

import (
	"bytes"
	"context"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"
	"unicode"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// OverdueCSV is what Overdue prints as a table: RFC 4180, UTF-8, lines ended by
// CRLF, one header, days as YYYY-MM-DD. Texts that a spreadsheet would take for a
// formula are defused by an apostrophe before them.
func (r *Reports) OverdueCSV(ctx context.Context, by assessment.Actor, q office.OverdueQuery) ([]byte, string, error) {
	v, err := r.office.Overdue(ctx, by, q)
	if err != nil {
		return nil, "", fmt.Errorf("list what is overdue: %w", err)
	}
	out, err := overdueCSV(v)
	if err != nil {
		return nil, "", fmt.Errorf("write what is overdue as CSV: %w", err)
	}
	return r.handOut(ctx, by, office.Export{Act: assessment.ReadReports, Paper: "overdue as a table", Subject: string(q.Client)})(out, fileName("csv", append([]string{"overdue"}, overdueParts(v)...)...), nil)
}

var overdueHeader = []string{"on", "caregiver", "kind", "relation", "skill_code", "skill", "child_code", "child", "standing", "last_day", "days_left"}

func overdueCSV(v office.Overdue) ([]byte, error) {
	return tableCSV(overdueHeader, len(v.Lines), func(i int) []string { return overdueFields(v, v.Lines[i]) })
}

// tableCSV is a header and lines as RFC 4180 has them.
func tableCSV(header []string, lines int, fields func(line int) []string) ([]byte, error) {
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	w.UseCRLF = true
	if err := w.Write(header); err != nil {
		return nil, err
	}
	for i := range lines {
		if err := w.Write(fields(i)); err != nil {
			return nil, err
		}
	}
	w.Flush()
	return out.Bytes(), w.Error()
}

// overdueFields is one line. Days are counted only where there is a last day:
// below zero once it has passed.
func overdueFields(v office.Overdue, l office.OverdueLine) []string {
	last, days := "", ""
	if l.Word != assessment.Withdrawn && !l.Through.IsZero() {
		last, days = l.Through.String(), strconv.Itoa(l.DaysLeft)
	}
	return []string{v.On.String(), defused(l.Person.Name), string(l.Person.Kind), defused(l.Person.Relation), defused(l.Skill.Code),
		defused(l.Skill.Title), defused(l.Client.Code), defused(l.Client.FirstName), string(l.Word), last, days}
}

// defused is a text that no spreadsheet computes. Which beginnings it must defuse
// is common practice (OWASP, "CSV Injection": = + - @, tab, carriage return and
// the full-width forms; OWASP ASVS 5.0, 1.2.10: NUL too), also behind spaces, quotes
// and marks without width, which some programs take away before they look. Any
// other text stays as it is.
func defused(s string) string {
	s = strings.ToValidUTF8(s, "\uFFFD")
	if strings.ContainsAny(firstOf(s), "\t\r\n\x00") || strings.ContainsAny(firstOf(strings.TrimLeftFunc(s, passedOver)), "=+-@＝＋－＠﹢﹣﹦﹫") {
		return "'" + s
	}
	return s
}

// passedOver is what may stand before a formula without keeping it from being one.
func passedOver(r rune) bool {
	return unicode.IsSpace(r) || unicode.In(r, unicode.Cc, unicode.Cf) || strings.ContainsRune("\"'`‘’“”", r)
}

func firstOf(s string) string {
	for _, r := range s {
		return string(r)
	}
	return ""
}
