package web

import "log/slog"

// logFault writes down a fault of ours. It names the request and the cause, never
// what somebody typed.
func logFault(v *visit, err error) {
	slog.Error("page failed", "id", v.site.opt.RequestID(v.ctx()), "route", v.c.FullPath(), "error", err.Error())
}
