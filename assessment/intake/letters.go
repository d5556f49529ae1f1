package intake

import (
	"bytes"
	"encoding/binary"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"

	"wellshown/assessment/fault"
)

// The encodings in which text is read.
const (
	UTF8        = "UTF-8"
	UTF16       = "UTF-16"
	Windows1252 = "Windows-1252" // which has all letters of Latin-1
)

// letters is a file as text, and how it was read. Nothing in a file says that it is Windows-1252: what is
// no UTF-8 is taken for it, and whoever sent it must look whether names come out right.
func letters(content []byte) (text, encoding string, err error) {
	switch {
	case bytes.HasPrefix(content, []byte("\xef\xbb\xbf")):
		content = content[3:]
		if !utf8.Valid(content) {
			return "", "", fault.Of(fault.Invalid, "This file says that it is UTF-8 and is not: byte %d stands for no letter. Save it as UTF-8 once more.", 4+broken(content))
		}
		text, encoding = string(content), UTF8
	case bytes.HasPrefix(content, []byte("\xff\xfe")):
		text, err = sixteen(content[2:], binary.LittleEndian)
		encoding = UTF16
	case bytes.HasPrefix(content, []byte("\xfe\xff")):
		text, err = sixteen(content[2:], binary.BigEndian)
		encoding = UTF16
	case utf8.Valid(content):
		text, encoding = string(content), UTF8
	default:
		encoding = Windows1252
		b, _ := charmap.Windows1252.NewDecoder().Bytes(content) // any byte is one letter of it, or none
		text = string(b)
	}
	if err == nil && strings.ContainsAny(text, "\x00\ufffd") {
		err = fault.Of(fault.Invalid, "This is no table that can be read as text. Save it from the spreadsheet as CSV in UTF-8, or as a workbook (XLSX).")
	}
	if !strings.Contains(text, "\n") {
		text = strings.ReplaceAll(text, "\r", "\n")
	}
	return text, encoding, err
}

// broken is where text stops being UTF-8.
func broken(content []byte) int {
	at := 0
	for at < len(content) {
		r, size := utf8.DecodeRune(content[at:])
		if r == utf8.RuneError && size <= 1 {
			break
		}
		at += size
	}
	return at
}

func sixteen(content []byte, order binary.ByteOrder) (string, error) {
	if len(content)%2 != 0 {
		return "", fault.Of(fault.Invalid, "This file is cut off: it says that it is UTF-16, and its last letter is half. Save it once more, best as UTF-8.")
	}
	units := make([]uint16, len(content)/2)
	for i := range units {
		units[i] = order.Uint16(content[2*i:])
	}
	return string(utf16.Decode(units)), nil // half a pair becomes U+FFFD, which is refused
}
