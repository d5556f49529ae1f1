package web

// ItemPage is one item of a bank: how it is asked, how it was answered, and the form that
// writes it. GET and POST /checks/{code}/items/{item}, GET and POST /checks/{code}/new-item.
type ItemPage struct {
	Frame
	Faults  Faults
	Skill   string
	ID      string // empty = it is new
	Kind    string // of the item, as it is sent; empty = to be chosen
	Sort    string // in words
	Kinds   []Link // to choose from, where it is new
	Back    string
	Action  string // where POST keeps it; empty = not for this reader
	Version int    // that was read
	Stands  string // "Version 2, Noor Haddadin, 2 Nov 2026, 09:14 MST"
	Before  []string
	Gone    bool   // it is not asked any more
	Retire  string // where POST takes it out, or back in; empty = not for this reader
	Changed string // who has saved it meanwhile; empty = nobody
	Says    []string
	Tells   string
	Asked   []AskedBefore // what it asked before, and how that was answered; the newest first
	Head    []Field       // id, difficulty
	Rows    []ItemRow     // the question and its answers
	More    bool          // more rows can be had
	Right   []Field
	Teach   ItemRow
	Tail    []Field // critical, source
	Looks   []ItemLook
}

// AskedBefore is how an item was answered while it said something else.
type AskedBefore struct {
	Name  string // "Version 1, 1 Nov 2026 to 2 Nov 2026"
	Says  string
	Tells string
}

// An ItemRow is what belongs together: a question or an answer in both languages.
type ItemRow struct {
	Title  string
	Fields []Field
}

// An ItemLook is the item as somebody sees it who takes the check, in one language.
type ItemLook struct {
	Tag    string
	Dir    string
	Tongue string
	Only   bool // nothing is typed in this language: English is asked
	Ask    string
	How    string
	Fields []Field
	Right  []string
	Teach  string
	Level  LessonLevel
}
