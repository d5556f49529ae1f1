package api

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"net/http"
	"strings"

	"github.com/gin-gonic/gin"
)

// held keeps an answer back until it is whole: then it can still be replaced by a
// problem, and has an entity tag.
type held struct {
	gin.ResponseWriter
	status int
	body   bytes.Buffer
}

func (h *held) WriteHeader(code int)        { h.status = code }
func (h *held) WriteHeaderNow()             {}
func (h *held) Write(b []byte) (int, error) { return h.body.Write(b) }
func (h *held) WriteString(s string) (int, error) {
	return h.body.WriteString(s)
}
func (h *held) Status() int   { return h.status }
func (h *held) Size() int     { return h.body.Len() }
func (h *held) Written() bool { return h.body.Len() > 0 }
func (h *held) Flush()        {}

// Unwrap lets deadlines be set on the connection.
func (h *held) Unwrap() http.ResponseWriter { return h.ResponseWriter }

// whole holds the answer back and sends it at the end. What is read carries an
// entity tag, and is not sent again to whoever has it (RFC 9110, section 13). No
// cache keeps any of it: it is about people's health.
func whole(c *gin.Context) {
	h := &held{ResponseWriter: c.Writer, status: http.StatusOK}
	c.Writer = h
	defer func() { c.Writer = h.ResponseWriter }()
	c.Next()
	header := h.ResponseWriter.Header()
	header.Set("Cache-Control", "no-store")
	header.Set("X-Content-Type-Options", "nosniff")
	if c.Request.Method == http.MethodGet && h.status == http.StatusOK {
		h.tag(c.Request.Header.Values("If-None-Match"))
	}
	h.ResponseWriter.WriteHeader(h.status)
	if h.body.Len() == 0 {
		h.ResponseWriter.WriteHeaderNow()
		return
	}
	h.ResponseWriter.Write(h.body.Bytes()) // who does not listen any more is not told
}

// tag names the state of what was read, unless who answered has named it. A 304 repeats the tag (RFC 9110, section
// 15.4.5) and has neither body nor the headers that describe one.
func (h *held) tag(known []string) {
	tag := h.Header().Get("ETag")
	if tag == "" {
		sum := sha256.Sum256(h.body.Bytes())
		tag = `"` + base64.RawURLEncoding.EncodeToString(sum[:18]) + `"`
		h.Header().Set("ETag", tag)
	}
	if !matches(known, tag) {
		return
	}
	h.status = http.StatusNotModified
	h.body.Reset()
	for _, name := range []string{"Content-Type", "Content-Disposition", "Content-Length"} {
		h.Header().Del(name)
	}
}

// matches compares weakly, as If-None-Match does (RFC 9110, section 13.1.2).
func matches(known []string, tag string) bool {
	for _, list := range known {
		for one := range strings.SplitSeq(list, ",") {
			one = strings.TrimSpace(one)
			if one == "*" || strings.TrimPrefix(one, "W/") == tag {
				return true
			}
		}
	}
	return false
}
