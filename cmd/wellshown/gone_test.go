package main

import (
	"bytes"
	"context"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
)

// Somebody who goes away before the answer is no fault of ours: the log does not call
// it one. A limit of our own that ran out is.
func TestWhoeverGoesAwayIsNoFault(t *testing.T) {
	w := newWalk(t)
	token, _ := w.signIn(w.own.Coordinator)
	for _, at := range []string{"/people", "/api/v1/people"} {
		for name, c := range map[string]struct {
			end  func(context.Context) (context.Context, context.CancelFunc)
			told bool
		}{
			"went away": {func(ctx context.Context) (context.Context, context.CancelFunc) {
				gone, cancel := context.WithCancel(ctx)
				cancel()
				return gone, cancel
			}, false},
			"ran out": {func(ctx context.Context) (context.Context, context.CancelFunc) { return context.WithTimeout(ctx, 0) }, true},
		} {
			var log bytes.Buffer
			slog.SetDefault(slog.New(slog.NewTextHandler(&log, nil)))
			ctx, cancel := c.end(t.Context())
			r := httptest.NewRequestWithContext(ctx, http.MethodGet, at, nil)
			r.Header.Set("Authorization", "Bearer "+token)
			r.AddCookie(&http.Cookie{Name: "wellshown", Value: token})
			w.handler.ServeHTTP(httptest.NewRecorder(), r)
			cancel()
			if told := strings.Contains(log.String(), "level=ERROR"); told != c.told {
				t.Errorf("%s, who asks %s: the log has\n%s", at, name, log.String())
			}
		}
	}
	slog.SetDefault(slog.New(slog.DiscardHandler))
}
