package api

// Paging is the part of a request that says which page of a list is asked for.
type Paging struct {
	After string `query:"after" maxLength:"100" doc:"Where the page begins: what the page before gave as next. Left out: the first page."`
	Limit int    `query:"limit" minimum:"1" maximum:"1000" doc:"At most so many; 200 unless given."`
}

// List is many things of one kind.
type List[T any] struct {
	Items []T    `json:"items"`
	Next  string `json:"next,omitempty" doc:"Where the next page begins: send it as after. Left out on the last page."`
}
