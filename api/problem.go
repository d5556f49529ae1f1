package api

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"log/slog"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"wellshown/assessment/fault"
	"wellshown/assessment/phrase"
	"wellshown/assessment/wording"
)

// newProblem is a problem of a kind in one request.
func newProblem(k ProblemKind, request, detail string) *Problem {
	p := &Problem{Detail: detail, Instance: Base + "/requests/" + request}
	p.is(k)
	return p
}

func (p *Problem) is(k ProblemKind) {
	p.Type, p.Title, p.Status = Base+"/problems/"+k.Kind, k.Title, k.Status
}

// refusal shows what the office refused. What is no refusal is a fault of ours: it
// is written into the log under the number of the request, and nothing of it is told. It is
// said in the language that the caller reads, where it is known in it.
func refusal(ctx context.Context, by caller, err error) *Problem {
	var ready *Problem
	if errors.As(err, &ready) {
		return ready
	}
	f, ok := fault.As(err)
	if !ok {
		if !errors.Is(ctx.Err(), context.Canceled) { // else the asker went away before the answer
			slog.ErrorContext(ctx, "a request failed", "request", by.request, "error", err.Error())
		}
		return newProblem(kindOf(http.StatusInternalServerError), by.request, wording.In(by.reads).Say("Something went wrong on our side, and it has been noted. Nothing was changed."))
	}
	k, _ := kindNamed(ofFault[f.Kind])
	w := wording.In(by.reads)
	p := newProblem(k, by.request, saidIn(w, f.Phrase(), f.Message))
	for field, says := range f.Fields {
		p.Errors = append(p.Errors, FieldFault{field, saidIn(w, f.At(field), says)})
	}
	p.sort()
	if k.Kind == "invalid" && len(p.Errors) > 0 && !slices.ContainsFunc(p.Errors, inBody) {
		p.is(kindOf(http.StatusBadRequest))
	}
	return p
}

// saidIn is a sentence in the language of its reader; in English where it is not known in it.
func saidIn(w wording.Words, p phrase.Phrase, english string) string {
	if _, _, known := wording.Known(w.Language(), p.Format); !known {
		return english
	}
	return w.Of(p)
}

// renamed gives the fields of a refusal the names that they have here.
func renamed(err error, name func(string) string) error {
	f, ok := fault.As(err)
	if !ok || len(f.Fields) == 0 {
		return err
	}
	fields, said := map[string]string{}, map[string]phrase.Phrase{}
	for field, says := range f.Fields {
		fields[name(field)], said[name(field)] = says, f.SaidAt[field]
	}
	return &fault.Fault{Kind: f.Kind, Message: f.Message, Fields: fields, Said: f.Said, SaidAt: said}
}

// asked says that what is wrong stands in the address: there is no body to a question.
func asked(err error) error {
	return renamed(err, func(field string) string { return "query." + field })
}

// sort orders by place: the same faults, the same bytes.
func (p *Problem) sort() {
	slices.SortFunc(p.Errors, func(a, b FieldFault) int {
		return strings.Compare(a.Location+"\x00"+a.Detail, b.Location+"\x00"+b.Detail)
	})
}

// Error is the problem in one line.
func (p *Problem) Error() string { return fmt.Sprintf("%s: %s", p.Title, p.Detail) }

// GetStatus is the HTTP status.
func (p *Problem) GetStatus() int { return p.Status }

// ContentType is that of problem details.
func (p *Problem) ContentType(string) string { return problemJSON }

const problemJSON = "application/problem+json"

// GetHeaders are the headers that a status asks for (RFC 9110, sections 11.6.1 and
// 10.2.3).
func (p *Problem) GetHeaders() http.Header {
	h := http.Header{}
	switch p.Status {
	case http.StatusUnauthorized:
		h.Set("WWW-Authenticate", `Bearer realm="wellshown"`)
	case http.StatusTooManyRequests:
		h.Set("Retry-After", strconv.Itoa(waitSeconds))
	case http.StatusServiceUnavailable:
		h.Set("Retry-After", strconv.Itoa(busySeconds))
	}
	return h
}

// waitSeconds is how long the office makes somebody wait after too many tries.
const waitSeconds = 15 * 60

// busySeconds is how long whoever finds the house busy is asked to stay away.
const busySeconds = 60

// write answers a request with the problem.
func (p *Problem) write(w http.ResponseWriter) {
	for name, values := range p.GetHeaders() {
		if w.Header().Get(name) == "" { // whoever knows better has said so already
			w.Header()[name] = values
		}
	}
	w.Header().Set("Content-Type", problemJSON)
	w.Header().Set("Cache-Control", "no-store")
	w.WriteHeader(p.Status)
	if err := json.NewEncoder(w).Encode(p); err != nil {
		slog.Warn("a problem could not be sent", "instance", p.Instance, "error", err.Error())
	}
}
