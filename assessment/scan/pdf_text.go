package scan

import (
	"bytes"
	"encoding/hex"
	"strings"
)

// hexText reads a string in hexadecimal (ISO 32000-1, section 7.3.4.3).
func (l *lexer) hexText() (any, error) {
	end := bytes.IndexByte(l.all[l.at:], '>')
	if end < 0 {
		return nil, errPDF
	}
	digits := strings.Map(func(r rune) rune {
		if r < 128 && isSpace(byte(r)) {
			return -1
		}
		return r
	}, string(l.all[l.at:l.at+end]))
	l.at += end + 1
	if len(digits)%2 == 1 {
		digits += "0"
	}
	text, err := hex.DecodeString(digits)
	if err != nil {
		return nil, errPDF
	}
	return pdfText(text), nil
}

// text reads a string in round brackets (ISO 32000-1, section 7.3.4.2).
func (l *lexer) text() (any, error) {
	text := pdfText{}
	for open := 1; l.at < len(l.all); {
		c := l.all[l.at]
		l.at++
		switch c {
		case '\\':
			text = l.escaped(text)
			continue
		case '\r':
			if l.starts("\n") {
				l.at++
			}
			c = '\n'
		case '(':
			open++
		case ')':
			if open--; open == 0 {
				return text, nil
			}
		}
		text = append(text, c)
	}
	return nil, errPDF
}

// escaped reads what stands behind a backslash.
func (l *lexer) escaped(text pdfText) pdfText {
	if l.at >= len(l.all) {
		return text
	}
	c := l.all[l.at]
	l.at++
	if i := strings.IndexByte("nrtbf", c); i >= 0 {
		return append(text, "\n\r\t\b\f"[i])
	}
	switch {
	case c == '\n':
		return text
	case c == '\r':
		if l.starts("\n") {
			l.at++
		}
		return text
	case c < '0' || c > '7':
		return append(text, c)
	}
	code := int(c - '0')
	for range 2 {
		if l.at >= len(l.all) || l.all[l.at] < '0' || l.all[l.at] > '7' {
			break
		}
		code = code*8 + int(l.all[l.at]-'0')
		l.at++
	}
	return append(text, byte(code))
}
