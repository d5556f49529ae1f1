package api

import (
	"context"
	"net/http"

	"wellshown/assessment/fault"
)

// kinds are all kinds of problem there are; each has a page of its own under
// /problems, to which the type of a problem points.
var kinds = []ProblemKind{
	{"malformed", "The request cannot be read", http.StatusBadRequest, "Mend the form of the request. Sending the same again will not help."},
	{"signed-out", "Sign in first", http.StatusUnauthorized, "Sign in with POST /api/v1/sessions and send the token as Authorization: Bearer."},
	{"not-allowed", "This is not allowed to you", http.StatusForbidden, "Ask an administrator of your agency for the role that it takes."},
	{"not-found", "There is no such record", http.StatusNotFound, "Look at the id or code again. What belongs to others looks the same as what never was."},
	{"wrong-method", "There is no such act here", http.StatusMethodNotAllowed, "The Allow header names what can be done at this address."},
	{"not-acceptable", "There is no answer in this form", http.StatusNotAcceptable, "Answers are JSON, or what the document names for the address."},
	{"too-slow", "The request came too slowly", http.StatusRequestTimeout, "Send it again. Nothing was done."},
	{"conflict", "It is not as you think it is", http.StatusConflict, "Somebody else was first, or it was done already. Read it again, then decide."},
	{"changed", "It has changed since you read it", http.StatusPreconditionFailed, "Read it again, put your change into what it says now, and send that with the new entity tag."},
	{"unread", "Say what yours was made from", http.StatusPreconditionRequired, "Read it first, and send its entity tag as If-Match: one tag, as it was given."},
	{"too-large", "This is too large", http.StatusRequestEntityTooLarge, "A body has at most 1 MiB."},
	{"wrong-format", "The body has a form that is not read here", http.StatusUnsupportedMediaType, "Send JSON as application/json, and checklists as application/yaml."},
	{"invalid", "Something needs mending", http.StatusUnprocessableEntity, "Each entry of errors names a field and what is wrong with it."},
	{"refused", "A rule says no", http.StatusUnprocessableEntity, "The request can be read, and a rule of the house is against it. The detail says which and what to do first."},
	{"too-many-tries", "Too many tries", http.StatusTooManyRequests, "Wait as long as the Retry-After header says."},
	{"busy", "There is too much to do just now", http.StatusServiceUnavailable, "Nothing was done. Wait as long as the Retry-After header says and send it again."},
	{"our-fault", "Something went wrong on our side", http.StatusInternalServerError, "Try again later. If it stays, name the instance when you ask for help."},
}

// ofFault names the problem that each kind of refusal is.
var ofFault = map[fault.Kind]string{
	fault.Invalid: "invalid", fault.Refused: "refused", fault.NotFound: "not-found", fault.Conflict: "conflict",
	fault.Unauthenticated: "signed-out", fault.Forbidden: "not-allowed", fault.Throttled: "too-many-tries", fault.Busy: "busy",
}

func kindNamed(name string) (ProblemKind, bool) {
	for _, k := range kinds {
		if k.Kind == name {
			return k, true
		}
	}
	return ProblemKind{}, false
}

// kindOf is the kind of a status; one that is not listed is a fault of ours.
func kindOf(status int) ProblemKind {
	for _, k := range kinds {
		if k.Status == status {
			return k
		}
	}
	k, _ := kindNamed("our-fault")
	return k
}

type kindIn struct {
	Kind string `path:"kind" doc:"The last part of a problem's type." example:"invalid"`
}

func (e *edge) problemKind(_ context.Context, _ caller, in *kindIn) (*answer[ProblemKind], error) {
	k, ok := kindNamed(in.Kind)
	if !ok {
		return nil, fault.Of(fault.NotFound, "There is no such kind of problem.")
	}
	return shown(k), nil
}
