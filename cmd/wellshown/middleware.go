package main

import (
	"context"
	"crypto/rand"
	"encoding/hex"
	"errors"
	"log/slog"
	"net/http"
	"runtime/debug"
	"strings"
	"time"

	"github.com/gin-gonic/gin"

	"wellshown/api"
	"wellshown/assessment/office"
	"wellshown/web"
)

// maxBody is the largest request that is read, in bytes, but for one that carries a
// page of paper (bodies.go). A checklist of the catalogue is about 30 kB.
const maxBody = 1 << 20

// patience is how long one request may take: whoever waits longer has gone.
const patience = 20 * time.Second

// fixedHeaders are what every answer carries, a refusal as well as a page. Only the
// files that are the same for everybody may be kept (web says so for them).
var fixedHeaders = map[string]string{
	"Content-Security-Policy":      web.ContentSecurityPolicy,
	"X-Content-Type-Options":       "nosniff",
	"X-Frame-Options":              "DENY", // for browsers that do not know frame-ancestors
	"Referrer-Policy":              "same-origin",
	"Cross-Origin-Opener-Policy":   "same-origin",
	"Cross-Origin-Resource-Policy": "same-origin",
	"Permissions-Policy":           "camera=(), geolocation=(), microphone=(), payment=(), usb=(), publickey-credentials-create=(self), publickey-credentials-get=(self)",
	"Cache-Control":                "no-store",
}

// overTLS makes browsers come by TLS for a year.
const overTLS = "max-age=31536000"

// dress wraps the whole engine: what every answer carries, and how much and how long
// a request may be.
func dress(next http.Handler, secure bool) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		for name, value := range fixedHeaders {
			h.Set(name, value)
		}
		if secure {
			h.Set("Strict-Transport-Security", overTLS)
		}
		ctx, cancel := context.WithTimeout(r.Context(), bound(w, r))
		defer cancel()
		next.ServeHTTP(w, r.WithContext(ctx))
	})
}

// fromHere refuses what another site's page had a browser send: only pages of the
// address that people type may change anything.
func fromHere(base string, tell func(*gin.Context)) gin.HandlerFunc {
	guard := http.NewCrossOriginProtection()
	if err := guard.AddTrustedOrigin(strings.TrimSuffix(base, "/")); err != nil {
		slog.Warn("BASE_URL is no origin, so pages are told from others' by their host alone", "error", err)
	}
	return func(c *gin.Context) {
		if guard.Check(c.Request) == nil {
			return
		}
		c.Abort()
		if isAPI(c.Request) {
			api.FromElsewhere(c)
			return
		}
		tell(c)
	}
}

type requestKey struct{}

// requestID is the id of the request in a context, for logs and error pages.
func requestID(ctx context.Context) string {
	id, _ := ctx.Value(requestKey{}).(string)
	return id
}

// log gives each request an id and writes one line when it is answered: ids and
// routes, never names, values or free text.
func logRequests(c *gin.Context) {
	b := make([]byte, 8)
	if _, err := rand.Read(b); err != nil {
		panic(err) // never happens: crypto/rand ends the program itself
	}
	id := hex.EncodeToString(b)
	c.Request = c.Request.WithContext(context.WithValue(c.Request.Context(), requestKey{}, id))
	c.Header("X-Request-Id", id)
	started := time.Now()
	c.Next()
	slog.Info("request", "id", id, "method", c.Request.Method, "route", c.FullPath(), "status", c.Writer.Status(),
		"ms", float64(time.Since(started).Microseconds())/1000)
}

// caught keeps a panic in one request from more than that request: it is logged
// with its stack and answered like any other fault of ours. The API catches its own.
func caught(broke func(*gin.Context, error)) gin.HandlerFunc {
	return func(c *gin.Context) {
		defer func() {
			p := recover()
			if p == nil {
				return
			}
			if err, ok := p.(error); ok && errors.Is(err, http.ErrAbortHandler) {
				panic(p)
			}
			slog.Error("a request panicked", "id", requestID(c.Request.Context()), "route", c.FullPath(), "panic", api.KindOfPanic(p), "stack", string(debug.Stack()))
			c.Abort()
			if !c.Writer.Written() {
				broke(c, errors.New("panic: "+api.KindOfPanic(p)))
			}
		}()
		c.Next()
	}
}

// headAsGet answers HEAD wherever GET is: with the same head, and without a body,
// which the server leaves out by itself (RFC 9110 section 9.3.2): no paper leaves so.
func headAsGet(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.Method == http.MethodHead {
			get := *r
			get.Method = http.MethodGet
			r = get.WithContext(office.HeadOnly(get.Context()))
		}
		next.ServeHTTP(w, r)
	})
}

// allowHead says that where GET is allowed HEAD is too: routes do not have it.
func allowHead(h http.Header) {
	if allowed := h.Get("Allow"); strings.Contains(allowed, http.MethodGet) {
		h.Set("Allow", allowed+", "+http.MethodHead)
	}
}
