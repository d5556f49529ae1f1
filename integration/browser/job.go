package browser

// AxeJob is what axe.mjs is told to do: which visitors look at which pages.
type AxeJob struct {
	Chromium string    `json:"chromium"`
	Base     string    `json:"base"`
	Visitors []Visitor `json:"visitors"`
}

// ShotsJob is what shots.mjs is told to do: of which pages to put pictures where.
type ShotsJob struct {
	Chromium string    `json:"chromium"`
	Base     string    `json:"base"`
	Out      string    `json:"out"`
	Visitors []Visitor `json:"visitors"`
}

// Visitor comes with a cookie of their own, or without one.
type Visitor struct {
	Cookie *Cookie `json:"cookie,omitempty"`
	Pages  []Page  `json:"pages"`
}

// Cookie is what a browser sends with each request.
type Cookie struct {
	Name  string `json:"name"`
	Value string `json:"value"`
}

// Page is an address with the looks that it is to be given, by the names that
// axe.mjs knows them by.
type Page struct {
	Name   string   `json:"name"`
	Path   string   `json:"path"`
	Looks  []string `json:"looks"`
	Status int      `json:"status,omitempty"` // of the answer; 200 where nothing is said
}

// Looked counts what axe.mjs looked at: pages, states of them, and of these the ones
// that axe-core was run on.
type Looked struct {
	Counts struct{ Pages, States, Axe int }
}
