package web

import "wellshown/assessment/wording"

// ChecklistsPage lists our revisions and the starter catalogue.
// GET /checklists?find=&state=.
type ChecklistsPage struct {
	Frame
	Faults   Faults // of the file that was sent
	Checks   bool   // the reader may see the knowledge checks
	Drills   bool   // and the scenarios of drills
	Find     string
	State    string
	States   []Option // any, in force, draft, retired
	InForce  int      // how many there are
	Drafts   int      // how many there are
	MayForce bool     // this reader may put a draft in force
	Ours     []RevisionLine
	Starter  []StarterLine // none for who only learns: what is not in force is not to be learnt from
	Upload   string        // where a file is sent; empty = not for this reader
}

// A RevisionLine is a checklist revision in a list.
type RevisionLine struct {
	Skill    string
	Href     string
	Number   int
	State    string // draft, in force, retired
	Since    string // day of that state
	Steps    int
	Critical int // of the steps, how many are critical
	Specific bool
	Waits    bool // it was proposed, and waits for a second person
}

// A StarterLine is a checklist of the starter catalogue.
type StarterLine struct {
	Skill    string
	Href     string // read it
	Adopt    string // where POST makes a draft of it; empty = not for this reader, or taken
	Taken    bool
	Steps    int
	Critical int
}

// ComparePage shows what changed between two revisions.
// GET /revisions/{id}/compare?with=.
type ComparePage struct {
	Frame
	Skill   string
	Older   int
	Newer   int
	Action  string // where the choice of another revision goes
	With    string // id of the older revision
	Others  []Option
	Changes []ChangeSaid
	Back    string
}

// ChangeSaid is one difference, in the reader's language where that is known.
type ChangeSaid struct {
	How    string
	Where  []wording.Piece
	Before []wording.Piece
	After  []wording.Piece
}

// A Change is one difference, in the order of the newer revision.
type Change struct {
	How    string // added, removed, changed, moved
	Where  string // "Step 12", "Policy"
	Before string // empty when added
	After  string // empty when removed
}

// InForcePage puts a draft in force. GET and POST /revisions/{id}/in-force.
type InForcePage struct {
	Frame
	Faults    Faults
	Skill     string
	Number    int
	Action    string
	Replaces  int      // revision that retires by this; 0 = none
	Holders   int      // people who hold the skill by older revisions
	Preview   Preview  // what it changes
	NoPreview string   // why that cannot be told; empty where it can
	Seen      string   // the version of the preview
	Declined  string   // who declined it last, and why; empty: nobody
	Policy    []string // policy in words
	Reviewer  string   // name of who signs
	Licence   string   // theirs
	Now       string   // when it would be signed
	Statement string   // what was reviewed and against what, as typed
	Reviewed  bool     // "I have read every step" is ticked
	RecheckBy string   // ISO; empty = nobody has to show it anew
	Compare   string   // page that compares with what it replaces
	Version   string   // of the text that was read
	Read      string   // that text, so that what changes in the meantime can be told
	Changed   bool     // somebody has saved the draft since it was read
	Changes   []Change // by that
	Back      string
}

// DraftPage edits a draft as text: GET and POST /revisions/{id}/source. A file
// with faults is mended on it too, before there is a draft: POST /checklists.
type DraftPage struct {
	Frame
	Faults  Faults // of field source
	Lines   []SourceLine
	More    int    // faults beyond those
	Name    string // of the file that was sent; empty for a draft
	Skill   string
	Number  int // 0 while there is no draft
	Action  string
	Source  string   // YAML, as typed
	Version string   // of the draft that it was made from; empty while there is no draft
	Read    string   // that draft, so that what changes in the meantime can be told
	Changed bool     // somebody has saved the draft since
	Changes []Change // by that
	Discard string   // where POST throws the draft away; empty = not offered
	Back    string
}

// A SourceLine is one thing to mend in the text.
type SourceLine struct {
	Number int    // of the line, from 1; 0 = about no line
	Step   int    // step of the checklist; 0 = about none
	Path   string // where it stands, as programs write it
	Text   string // the line as typed
	Says   string // what is wrong
}
