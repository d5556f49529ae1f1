package api

import (
	"net/url"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
)

// ByID is a request that names a record by its id. Like all parts of requests it
// has a public name, because the framework overlooks what has none.
type ByID struct {
	ID string `path:"id" doc:"The id: a UUID in lower case."`
}

// OnDay is a request that asks about a day.
type OnDay struct {
	On string `query:"on" format:"date" doc:"The day asked about. Left out: today, where the agency is." example:"2027-01-15"`
}

func (d OnDay) day() (civil.Date, error) { return day(d.On) }

// day reads a day that has been looked at already; nothing is the zero day.
func day(s string) (civil.Date, error) {
	if s == "" {
		return civil.Date{}, nil
	}
	d, err := civil.Parse(s)
	if err != nil {
		return d, &fault.Fault{Kind: fault.Invalid, Message: "One thing needs mending.", Fields: map[string]string{"on": err.Error()}}
	}
	return d, nil
}

// maybeID reads an id that may be left out.
func maybeID[T ~string](s string) (T, error) {
	if s == "" {
		return "", nil
	}
	return assessment.ParseID[T](s)
}

// answer is one thing shown.
type answer[T any] struct{ Body T }

func shown[T any](body T) *answer[T] { return &answer[T]{body} }

// made is one thing that has come to be, and where it is found.
type made[T any] struct {
	Location string `header:"Location" doc:"Where it is found."`
	Body     T
}

func added[T any](body T, path ...string) *made[T] {
	at, err := url.JoinPath(Base, path...)
	if err != nil {
		at = Base
	}
	return &made[T]{at, body}
}

// done is the answer of an act that leaves nothing to show.
type done struct{}

// listed shows many things of one kind; next is where the following page begins.
func listed[V, T any](views []V, show func(V) T, next string) *answer[List[T]] {
	return shown(List[T]{Items: each(views, show), Next: next})
}

// each shows every one of a list. None is an empty list and never null.
func each[V, T any](views []V, show func(V) T) []T {
	items := make([]T, 0, len(views))
	for _, v := range views {
		items = append(items, show(v))
	}
	return items
}

// texts shows words of any kind as text. None is an empty list and never null.
func texts[S ~string](words []S) []string {
	return each(words, func(s S) string { return string(s) })
}

// maybeInstant is an instant in UTC, or nil for none.
func maybeInstant(at *time.Time) *time.Time {
	if at == nil {
		return nil
	}
	utc := at.UTC()
	return &utc
}
