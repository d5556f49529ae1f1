package main

import (
	"io"
	"net/http"
	"path"
	"time"

	"wellshown/api"
	"wellshown/assessment/office"
)

const (
	// mostPage is the largest request with a page of paper, in bytes: the file with the
	// form around it.
	mostPage = office.MostPageBytes + 64<<10
	// pagePatience is how long such a request may take: 8 MB over a slow line.
	pagePatience = 2 * time.Minute
	// mostLost is how much of a request that is too large is read and thrown away, so
	// that the browser, which listens only once it has sent all, hears why it was refused.
	mostLost = 128 << 20
)

// sendsPage reports whether a request may carry a photo, a scan or a list. No other request is
// read beyond maxBody.
func sendsPage(r *http.Request) bool {
	for _, at := range largeBodies[r.Method] {
		if fits, err := path.Match(at, r.URL.Path); fits && err == nil {
			return true
		}
	}
	return false
}

// largeBodies are the addresses that take a photo, a scan or a list, by method.
var largeBodies = map[string][]string{
	http.MethodPost: {"/demonstrations/*/pages", "/people/*/carried-in/papers", "/people/*/carried-in/files", "/check", "/imports", api.Base + "/imports", api.Base + "/check", api.Base + "/people/*/carried-in/files"},
	http.MethodPut:  {api.Base + "/sheets/*/pages/*"},
}

// bound limits how much of a request is read, and gives back how long it may take.
func bound(w http.ResponseWriter, r *http.Request) time.Duration {
	if !sendsPage(r) {
		r.Body = http.MaxBytesReader(w, r.Body, maxBody)
		return patience
	}
	r.Body = &largeBody{ReadCloser: r.Body, left: mostPage, known: r.ContentLength}
	line := http.NewResponseController(w)
	// What cannot set them has none, and the limits of the server hold.
	_ = line.SetReadDeadline(time.Now().Add(pagePatience))
	_ = line.SetWriteDeadline(time.Now().Add(pagePatience + patience))
	return pagePatience
}

// largeBody is a body up to mostPage. Of a larger one nothing is handed on once that is
// known, and what is left of it is thrown away.
type largeBody struct {
	io.ReadCloser
	left  int64
	known int64 // how long it says it is; -1: it does not
	spent error
}

// Read is io.Reader's; beyond the limit it fails with http.MaxBytesError.
func (b *largeBody) Read(p []byte) (int, error) {
	switch {
	case b.spent != nil:
		return 0, b.spent
	case b.known > mostPage:
		return 0, b.lose()
	case b.left == 0:
		var more [1]byte
		if n, err := b.ReadCloser.Read(more[:]); n == 0 {
			return 0, err
		}
		return 0, b.lose()
	}
	n, err := b.ReadCloser.Read(p[:min(int64(len(p)), b.left)])
	b.left -= int64(n)
	return n, err
}

func (b *largeBody) lose() error {
	_, _ = io.CopyN(io.Discard, b.ReadCloser, mostLost) // whoever has hung up hears nothing anyway
	b.spent = &http.MaxBytesError{Limit: mostPage}
	return b.spent
}
