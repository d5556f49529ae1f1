package reports

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strings"
	"unicode"
)

// tableCSV writes a header and rows of texts, days and numbers as RFC 4180 has it: UTF-8, lines
// ended by CRLF, days as YYYY-MM-DD, nil as nothing. Texts are defused already.
func tableCSV(header []string, rows [][]any) ([]byte, error) {
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	w.UseCRLF = true
	if err := w.Write(header); err != nil {
		return nil, err
	}
	for _, row := range rows {
		fields := make([]string, len(row))
		for i, value := range row {
			if value != nil {
				fields[i] = fmt.Sprint(value)
			}
		}
		if err := w.Write(fields); err != nil {
			return nil, err
		}
	}
	w.Flush()
	return out.Bytes(), w.Error()
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
