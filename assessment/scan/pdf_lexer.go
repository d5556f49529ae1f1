package scan

import (
	"bytes"
	"errors"
	"fmt"
	"strconv"
	"strings"
)

// What a file may ask of us.
const (
	mostDeep   = 64
	mostValues = 400_000
)

var errPDF = errors.New("what stands in a PDF is not as ISO 32000 has it")

// lexer reads values from a PDF or from what one of its streams unfolds to.
type lexer struct {
	all    []byte
	at     int
	values *int // how many were read of the whole file
}

func isSpace(c byte) bool     { return strings.IndexByte("\x00\t\n\f\r ", c) >= 0 }
func isDelimiter(c byte) bool { return strings.IndexByte("()<>[]{}/%", c) >= 0 }

// blank skips white space and comments.
func (l *lexer) blank() {
	for l.at < len(l.all) {
		switch c := l.all[l.at]; {
		case c == '%':
			for l.at < len(l.all) && l.all[l.at] != '\n' && l.all[l.at] != '\r' {
				l.at++
			}
		case isSpace(c):
			l.at++
		default:
			return
		}
	}
}

// word is what stands up to the next white space or delimiter.
func (l *lexer) word() string {
	from := l.at
	for l.at < len(l.all) && !isSpace(l.all[l.at]) && !isDelimiter(l.all[l.at]) {
		l.at++
	}
	return string(l.all[from:l.at])
}

func (l *lexer) starts(with string) bool { return bytes.HasPrefix(l.all[l.at:], []byte(with)) }

// value reads one.
func (l *lexer) value(deep int) (any, error) {
	if *l.values++; deep > mostDeep || *l.values > mostValues {
		return nil, errPDF
	}
	l.blank()
	switch {
	case l.at >= len(l.all):
		return nil, errPDF
	case l.starts("<<"):
		l.at += 2
		return l.dict(deep)
	case l.starts("<"):
		l.at++
		return l.hexText()
	case l.starts("("):
		l.at++
		return l.text()
	case l.starts("["):
		l.at++
		return l.list(deep)
	case l.starts("/"):
		l.at++
		return l.name()
	}
	word := l.word()
	switch {
	case word == "true" || word == "false" || word == "null":
		return pdfKeyword(word), nil
	case !isNumber(word):
		return nil, fmt.Errorf("%w: %.20q", errPDF, word)
	}
	if ref, is := l.ref(word); is {
		return ref, nil
	}
	return pdfNumber(word), nil
}

func isNumber(word string) bool {
	digits := strings.TrimLeft(word, "+-")
	return digits != "" && len(word) < 40 && strings.Trim(digits, "0123456789.") == "" && strings.Count(digits, ".") <= 1 && digits != "."
}

// ref tells "12 0 R" from a number; where it is none nothing is read.
func (l *lexer) ref(word string) (pdfRef, bool) {
	number, err := strconv.Atoi(word)
	if err != nil || number < 0 {
		return pdfRef{}, false
	}
	before := l.at
	l.blank()
	generation, err := strconv.Atoi(l.word())
	l.blank()
	if err == nil && generation >= 0 && l.word() == "R" {
		return pdfRef{number, generation}, true
	}
	l.at = before
	return pdfRef{}, false
}

func (l *lexer) list(deep int) (any, error) {
	list := pdfList{}
	for {
		l.blank()
		if l.starts("]") {
			l.at++
			return list, nil
		}
		v, err := l.value(deep + 1)
		if err != nil {
			return nil, err
		}
		list = append(list, v)
	}
}

func (l *lexer) dict(deep int) (any, error) {
	dict := pdfDict{}
	for {
		l.blank()
		if l.starts(">>") {
			l.at += 2
			return dict, nil
		}
		if !l.starts("/") {
			return nil, errPDF
		}
		l.at++
		key, err := l.name()
		if err != nil {
			return nil, err
		}
		v, err := l.value(deep + 1)
		if err != nil {
			return nil, err
		}
		if _, twice := dict[key]; twice { // readers differ on which of the two counts
			return nil, errPDF
		}
		dict[key] = v
	}
}

// name reads a name with its #xx resolved, so that no other spelling hides it.
func (l *lexer) name() (pdfName, error) {
	word := l.word()
	if !strings.Contains(word, "#") {
		return pdfName(word), nil
	}
	var out []byte
	for i := 0; i < len(word); i++ {
		if word[i] != '#' {
			out = append(out, word[i])
			continue
		}
		if i+2 >= len(word) {
			return "", errPDF
		}
		c, err := strconv.ParseUint(word[i+1:i+3], 16, 8)
		if err != nil {
			return "", errPDF
		}
		out, i = append(out, byte(c)), i+2
	}
	return pdfName(out), nil
}
