package api

// List is many things of one kind.
type List[T any] struct {
	Items []T    `json:"items"`
	Next  string `json:"next,omitempty" doc:"Where the next page begins: send it as after. Left out on the last page."`
}
