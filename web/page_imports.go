package web

// ImportsPage is where lists are sent that an agency brings along. GET and POST /imports.
type ImportsPage struct {
	Frame
	Faults  Faults
	Kind    string
	Kinds   []Option
	Waiting []ImportLine
	Lists   []ListShape
}

// An ImportLine is a file that was sent and not yet brought in.
type ImportLine struct {
	Name string
	Href string
	Says string // what it is of, and when it was sent
}

// A ListShape says what a list of a kind holds.
type ListShape struct {
	Title   string
	Columns []ListColumn
	CSV     string // template
	XLSX    string
	More    string // what else is to know; empty: nothing
}

// A ListColumn is one column of a list.
type ListColumn struct {
	Name   string
	Says   string
	Needed bool
}

// ImportPage shows what a file will do before it does it. GET and POST /imports/{id}.
type ImportPage struct {
	Frame
	ID       string
	Faults   Faults // of the form
	FileName string
	List     string // "people"
	How      string // "CSV in UTF-8, separated by semicolons"
	Left     string // columns that are not taken; empty: none
	Guessed  bool   // nothing in the file says in which letters it is
	Names    []string
	Letters  string // yes: the names were said to read right
	Version  string
	Wrong    []RowFault
	More     int // faults that are not told
	Asks     []RowQuestion
	New      []RowLine
	There    []RowLine
	Asking   int // rows that wait for an answer
	Columns  []ListColumn
	Effect   string // what comes of it, in a sentence
}

// CountNew is how many rows are new, CountThere how many are here already.
func (p ImportPage) CountNew() int { return len(p.New) }

// CountThere is how many rows are here already.
func (p ImportPage) CountThere() int { return len(p.There) }

// CountWrong is how many things need mending.
func (p ImportPage) CountWrong() int { return len(p.Wrong) + p.More }

// A RowFault is one thing that needs mending in the file.
type RowFault struct {
	Row    string // "row 12"; empty: the file
	Column string
	Says   string
}

// A RowQuestion asks who is meant.
type RowQuestion struct {
	Name    string // of the field
	Label   string
	Hint    string
	Options []Option
	Answer  string
}

// A RowLine is one row and what it will do.
type RowLine struct {
	Number int
	Head   string
	Says   string
	Notes  []string
}

// CarriedInPage is what somebody is said to have shown elsewhere. GET /people/{id}/carried-in.
type CarriedInPage struct {
	Frame
	ID         string
	Name       string
	Lines      []CarriedLine
	Papers     []CarriedPaper
	May        bool // attach papers and take lines off
	Import     string
	Faults     Faults
	Shows      []Option // lines that a paper may show
	TakeIn     bool     // a signed file of a neighbour
	FileFaults Faults
	Children   []Option
	Client     string // as chosen
	Same       bool
	Named      string // in the file, where it is another name
}

// A CarriedLine is one competency by an old paper.
type CarriedLine struct {
	Title  string
	For    string // "for Mira, 7K"
	Shown  string // "shown on 4 March 2026 at Old Town Homecare"
	Paper  string // "signed by A. Roe, RN; by the old paper it holds through 4 March 2027"
	By     string // who carried it in, and when
	Papers []Link
	Remove string // where the form goes; empty: not for this reader
	CSRF   string
}

// WithCSRF gives the line's form the page's token.
func (l CarriedLine) WithCSRF(token string) CarriedLine { l.CSRF = token; return l }

// A CarriedPaper is a photo or scan of an old paper.
type CarriedPaper struct {
	Number int
	Says   string
	Href   string
}
