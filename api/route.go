package api

import (
	"context"
	"net/http"
	"reflect"
	"strconv"
	"strings"

	"github.com/danielgtaylor/huma/v2"
	"github.com/danielgtaylor/huma/v2/adapters/humagin"

	"wellshown/assessment"
	"wellshown/assessment/handover"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

// Route is one address with one method, and what somebody must be allowed to do
// there.
type Route struct {
	Method    string
	Path      string         // such as /api/v1/people/{id}
	Act       assessment.Act // empty where Public
	Public    bool           // open to whoever asks
	Operation string         // its name in the OpenAPI document
}

// Table lists every route.
func Table() []Route {
	var all []Route
	for _, chapter := range (&edge{}).chapters() {
		for _, r := range chapter.routes {
			all = append(all, Route{Method: r.method, Path: Base + r.path, Act: r.act, Public: r.act == public, Operation: r.name})
		}
	}
	return all
}

// public stands where the others have an act: the route is open to everybody.
const public assessment.Act = ""

// chapter is a group of routes as the document shows them.
type chapter struct {
	name, says string
	routes     []route
}

// route is one line of the table: method, path, what one must be allowed to do,
// its name, the office method that does it, and the handler.
type route struct {
	method string
	path   string
	act    assessment.Act
	name   string
	calls  string // what the handler calls, once; a test holds it to that
	add    func(huma.API, huma.Operation)
}

// caller is who sends a request, and from where.
type caller struct {
	assessment.Actor
	address string           // of the client, for slowing down guesses
	token   string           // of their session, where they sent one as a bearer
	request string           // number of the request
	browser string           // as it names itself
	reads   wording.Language // in which refusals are said (RFC 9110, section 12.5.4)
}

type callerKey struct{}

// on makes a handler answer for a route: it hands over the caller and shows what
// was refused.
func on[I, O any](handle func(context.Context, caller, *I) (*O, error)) func(huma.API, huma.Operation) {
	return func(door huma.API, op huma.Operation) {
		if _, hasBody := reflect.TypeFor[O]().FieldByName("Body"); hasBody && op.Method == http.MethodPost {
			op.DefaultStatus = http.StatusCreated
		}
		if strings.HasPrefix(op.OperationID, "preview-") || op.OperationID == "check-file" { // nothing of it stays
			op.DefaultStatus = http.StatusOK
		}
		huma.Register(door, op, func(ctx context.Context, in *I) (*O, error) {
			by, _ := ctx.Value(callerKey{}).(caller)
			out, err := handle(office.FromBrowser(ctx, by.browser), by, in)
			switch {
			case err == nil:
				return out, nil
			case op.Method == http.MethodGet:
				err = asked(err)
			}
			return nil, refusal(ctx, by, err)
		})
	}
}

// guard lets nobody in who is not known or may not do the act. The office asks
// again; here it comes before the body is looked at.
func (e *edge) guard(act assessment.Act) func(huma.Context, func(huma.Context)) {
	return func(ctx huma.Context, next func(huma.Context)) {
		c := humagin.Unwrap(ctx)
		// The address of the connection, not one that a header claims: else whoever
		// guesses passwords would have a new one for every guess.
		by := caller{address: c.RemoteIP(), token: Bearer(c.Request), request: requestID(c.Writer), browser: c.Request.UserAgent(), reads: wording.Preferred(c.GetHeader("Accept-Language"))}
		if act != public {
			var err error
			if by.Actor, err = e.identify(c.Request); err == nil {
				err = by.May(act)
			}
			if err != nil {
				refusal(ctx.Context(), by, err).write(c.Writer)
				return
			}
		}
		next(huma.WithValue(ctx, callerKey{}, by))
	}
}

// operation is a route as the framework and the document know it.
func (e *edge) operation(in chapter, r route) huma.Operation {
	said := words[r.name]
	op := huma.Operation{OperationID: r.name, Method: r.method, Path: r.path, Summary: said.summary, Description: said.inFull(r.act), Tags: []string{in.name},
		MaxBodyBytes:    mostBody + 1, // the framework refuses what is as large as its limit
		BodyReadTimeout: slowestBody, Middlewares: huma.Middlewares{e.guard(r.act)}, Responses: others(r), RejectUnknownQueryParameters: true,
		Security: []map[string][]string{}}
	switch r.name {
	case "attach-page":
		op.MaxBodyBytes, op.BodyReadTimeout = mostPage+1, slowestPage
	case "check-file":
		op.MaxBodyBytes, op.BodyReadTimeout = handover.MostBytes+1, slowestPage
	case "take-in-file": // JSON writes each quotation mark of a text as two letters
		op.MaxBodyBytes, op.BodyReadTimeout = 2*handover.MostBytes-1, slowestPage
	case "send-list":
		op.MaxBodyBytes, op.BodyReadTimeout = office.MostImportBytes+1, slowestPage
	}
	if r.act != public {
		op.Security = []map[string][]string{{"session": {}}}
		if r.act.ForPrograms() {
			op.Security = append(op.Security, map[string][]string{"program": {}})
		}
		op.Extensions = map[string]any{"x-act": string(r.act)}
	}
	return op
}

// others are the answers besides the one that was hoped for.
func others(r route) map[string]*huma.Response {
	may := []string{"malformed", "not-found", "conflict", "invalid", "our-fault"}
	if r.act != public || r.method == http.MethodPost {
		may = append(may, "signed-out", "not-allowed")
	}
	if r.method != http.MethodGet {
		may = append(may, "too-slow", "too-large", "wrong-format", "too-many-tries", "busy")
	}
	if r.calls == "SaveDraft" {
		may = append(may, "changed", "unread")
	}
	all := map[string]*huma.Response{}
	for _, name := range may {
		k, _ := kindNamed(name)
		all[strconv.Itoa(k.Status)] = &huma.Response{Ref: "#/components/responses/" + k.Kind}
	}
	if r.method == http.MethodGet {
		all["304"] = &huma.Response{Ref: "#/components/responses/not-modified"}
	}
	return all
}

// roles tells who may do an act, as the permissions stand.
func roles(act assessment.Act) string {
	var all, own []string
	for _, r := range assessment.Roles {
		switch (assessment.Actor{Roles: []assessment.Role{r}, Survey: &assessment.Survey{Whole: true}}).Reach(act) {
		case assessment.Everything:
			if r == assessment.Surveyor {
				own = append(own, string(r)+" (what they were let in for)")
				continue
			}
			all = append(all, string(r))
		case assessment.Own:
			own = append(own, string(r)+" (their own)")
		}
	}
	return strings.Join(append(all, own...), ", ")
}
