package api

import (
	"crypto/rand"
	"errors"
	"fmt"
	"log/slog"
	"net/http"
	"net/url"
	"regexp"
	"runtime"
	"runtime/debug"
	"strings"
	"unicode/utf8"

	"github.com/gin-gonic/gin"
)

// requestHeader carries the number of a request. Whoever numbers requests for a log
// has set it on the answer before; else it is set here.
const requestHeader = "X-Request-Id"

var requestForm = regexp.MustCompile(`^[A-Za-z0-9._-]{1,64}$`)

func requestID(w http.ResponseWriter) string {
	id := w.Header().Get(requestHeader)
	if !requestForm.MatchString(id) {
		id = newRequestID()
		w.Header().Set(requestHeader, id)
	}
	return id
}

// newRequestID is a random UUID (version 4, RFC 9562).
func newRequestID() string {
	var b [16]byte
	rand.Read(b[:]) // never fails (crypto/rand)
	b[6], b[8] = b[6]&0x0f|0x40, b[8]&0x3f|0x80
	return fmt.Sprintf("%x-%x-%x-%x-%x", b[:4], b[4:6], b[6:8], b[8:10], b[10:])
}

// caught turns a panic into a problem. The number of the request finds the rest in
// the log.
func caught(c *gin.Context) {
	id := requestID(c.Writer)
	defer func() {
		r := recover()
		if r == nil {
			return
		}
		if r == http.ErrAbortHandler {
			panic(r)
		}
		slog.ErrorContext(c.Request.Context(), "a request panicked", "request", id, "panic", KindOfPanic(r), "stack", string(debug.Stack()))
		c.Abort()
		newProblem(kindOf(http.StatusInternalServerError), id, "Something went wrong on our side, and it has been noted.").write(c.Writer)
	}()
	c.Next()
}

// KindOfPanic is what the log may keep of a panic: what the runtime says, and of any
// other value its type, for a value may hold a name. The stack tells where it was.
func KindOfPanic(p any) string {
	var ours runtime.Error
	if err, ok := p.(error); ok && errors.As(err, &ours) {
		return ours.Error()
	}
	return fmt.Sprintf("%T", p)
}

// readable refuses addresses that cannot mean anything here: text that no database
// can hold, and a parameter that is given twice, of which one would be overlooked.
func readable(c *gin.Context) {
	if !storable(c.Request.URL.Path) {
		refuse(c, http.StatusNotFound, "There is no such record.")
		return
	}
	q, err := url.ParseQuery(c.Request.URL.RawQuery)
	if err != nil {
		refuse(c, http.StatusBadRequest, "What follows the question mark cannot be read.")
		return
	}
	for name, values := range q {
		switch {
		case len(values) > 1:
			refuse(c, http.StatusBadRequest, "A parameter is given twice. Give each once.")
			return
		case !storable(name) || !storable(values[0]):
			refuse(c, http.StatusBadRequest, "A parameter holds characters that cannot be read.")
			return
		}
	}
}

func storable(s string) bool { return utf8.ValidString(s) && !strings.ContainsRune(s, 0) }

func refuse(c *gin.Context, status int, says string) {
	c.Abort()
	newProblem(kindOf(status), requestID(c.Writer), says).write(c.Writer)
}

// TooMany answers whoever asks too much. How long to wait stands in the header
// already.
func TooMany(c *gin.Context) {
	refuse(c, http.StatusTooManyRequests, "There were too many requests. Nothing was done. Wait "+c.Writer.Header().Get("Retry-After")+" seconds and ask again.")
}

// FromElsewhere answers what another site's page had a browser send.
func FromElsewhere(c *gin.Context) {
	refuse(c, http.StatusForbidden, "This was sent from another site's page, so nothing was done. A program sends no Origin; a page sends it from the address of the service.")
}

// NoRoute answers for addresses of the API that there are not, and for methods that
// an address does not know, and leaves all other addresses to whoever comes after
// it. It is the engine's answer for both.
func NoRoute(c *gin.Context) {
	switch {
	case !strings.HasPrefix(c.Request.URL.Path+"/", Base+"/"):
	case c.Writer.Status() == http.StatusMethodNotAllowed: // the engine has looked already
		refuse(c, http.StatusMethodNotAllowed, "This address does not know the method that was used.")
	default:
		refuse(c, http.StatusNotFound, "There is nothing at this address.")
	}
}
