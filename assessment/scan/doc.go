// Package scan makes a photo or a scan of a filled-in paper harmless before it is
// kept: what it is is told by its content, never by a name; pictures are decoded
// and encoded anew, so that nothing but what is seen on them is left; of a PDF only
// what draws its pages is written anew. What cannot be looked into is refused.
//
// It is pure, and what it does is bounded: by the bytes it is given, by the pixels
// of a picture, which are counted before it is decoded, and by what a PDF may unfold to.
package scan

import (
	"bytes"

	"wellshown/assessment/fault"
)

// What is taken.
const (
	MostBytes  = 8 << 20    // of one file as it is sent
	MostPixels = 40_000_000 // of a picture
	MostSheets = 20         // pages of one PDF
	mostKept   = 16 << 20   // bytes of one file as it is kept
)

// Page is one photo or scan as it is kept.
type Page struct {
	Type    string // JPEG, PNG or PDF
	Content []byte
	Sheets  int // pages of a PDF, 1 for a picture
}

// The types that are taken, as Content-Type says them.
const (
	JPEG = "image/jpeg"
	PNG  = "image/png"
	PDF  = "application/pdf"
)

// Clean tells what was sent by its content and makes it harmless.
func Clean(sent []byte) (Page, error) {
	page, err := clean(sent)
	if err == nil && len(page.Content) > mostKept {
		return Page{}, fault.Of(fault.Invalid, "This page would take too much room. Take the photo with fewer pixels, or scan it in grey.")
	}
	return page, err
}

func clean(sent []byte) (Page, error) {
	switch {
	case len(sent) == 0:
		return Page{}, fault.Of(fault.Invalid, "Nothing was sent. Choose a photo or a scan of the page.")
	case len(sent) > MostBytes:
		return Page{}, TooLarge()
	case bytes.HasPrefix(sent, []byte("\xff\xd8\xff")):
		return photo(sent, JPEG)
	case bytes.HasPrefix(sent, []byte("\x89PNG\r\n\x1a\n")):
		return photo(sent, PNG)
	case bytes.HasPrefix(sent, []byte("%PDF-")):
		return document(sent)
	}
	return Page{}, fault.Of(fault.Invalid, "This is no JPEG, PNG or PDF, whatever its name says. Take a photo as JPEG, or scan the page as PDF.")
}

// TooLarge is the refusal of more bytes than are taken.
func TooLarge() error {
	return fault.Of(fault.Invalid, "This file is too large: a page has at most %d MB. Take the photo with fewer pixels, or scan at 200 dots per inch. Nothing of it was kept.", MostBytes>>20)
}
