package api

// Problem says why a request was not answered as asked (RFC 9457).
type Problem struct {
	Type     string       `json:"type" format:"uri-reference" doc:"Which kind of problem this is. Read it for more." example:"/api/v1/problems/invalid"`
	Title    string       `json:"title" doc:"The kind of problem in a few words." example:"Something needs mending"`
	Status   int          `json:"status" doc:"The HTTP status." example:"422"`
	Detail   string       `json:"detail" doc:"What is wrong here, for a person." example:"One thing needs mending."`
	Instance string       `json:"instance" format:"uri-reference" doc:"The number of this request, as an address that leads nowhere. Name it when you ask for help."`
	Errors   []FieldFault `json:"errors,omitempty" doc:"Each thing to mend, with its place."`
}

// FieldFault is one thing to mend.
type FieldFault struct {
	Location string `json:"location,omitempty" doc:"The field of the body, such as performed_at, or the parameter, such as query.on. Left out where it concerns the whole." example:"performed_at"`
	Detail   string `json:"detail" doc:"What is wrong with it, and what is accepted." example:"This lies in the future. Check the day and time."`
}

// ProblemKind explains one kind of problem.
type ProblemKind struct {
	Kind   string `json:"kind" example:"invalid"`
	Title  string `json:"title"`
	Status int    `json:"status" doc:"The HTTP status it comes with."`
	Help   string `json:"help" doc:"What to do about it."`
}
