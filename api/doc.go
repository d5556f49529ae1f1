// Package api answers programs: JSON over HTTP under /api/v1. Every handler does
// the same three things: read the request, call one method of the office, show
// the answer. It decides nothing and knows no SQL.
//
// routes.go is the whole of it on one page: method, path, what somebody must be
// allowed to do, and the office method that does it. The wire files hold the
// shapes that programs see, and are the only place with json tags. Refusals are
// problem details (RFC 9457). The OpenAPI document is made from the same routes
// and shapes, so it cannot say anything else.
package api
