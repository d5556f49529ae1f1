package web

import (
	"context"
	"errors"
	"log/slog"
)

// logFault writes down a fault of ours. It names the request and the cause, never
// what somebody typed. That the asker went away before the answer is no fault.
func logFault(v *visit, err error) {
	if errors.Is(v.ctx().Err(), context.Canceled) {
		return
	}
	slog.Error("page failed", "id", v.site.opt.RequestID(v.ctx()), "route", v.c.FullPath(), "error", err.Error())
}
