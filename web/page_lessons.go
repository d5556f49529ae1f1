package web

// LearnPage lists the lessons of what is asked of the reader. GET /learn.
type LearnPage struct {
	Frame
	Mine    bool // of the skills that are asked of the reader; else of all
	Ready   int  // how many there are to read
	Lessons []LearnLine
	PDF     string // all of them on paper; empty = none
	Kept    string // page of what is kept on this phone
	Write   string // page of who writes lessons; empty = not for this reader
}

// A LearnLine is a skill to learn.
type LearnLine struct {
	Title string
	Href  string // empty = there is no lesson yet
	Tag   string // language of the title, where it is not the page's
	Only  string // the only language that it is in, where it is not the reader's
}

// LessonPage is a lesson to read. GET /learn/{code}?in=.
type LessonPage struct {
	Frame
	Text      LessonText
	Reviewed  []string // who stands for it, since when
	Only      string   // the only language that it is in, where it is not the reader's
	Others    []Tongue // the same lesson in other languages
	PDF       string
	Copy      string // plain copy, to be kept on a phone
	Kept      string // page of what is kept
	Checklist string // by which the skill is shown; empty = none
	Back      string
}

// LessonCopyPage is a lesson and nothing else, to be kept on a phone: no name of a
// reader, nothing of anybody. GET /learn/{code}/copy.
type LessonCopyPage struct {
	Frame
	Text     LessonText
	Reviewed []string
	Kept     string
}

// KeptPage lists what is kept on this phone; a script fills it in. GET /learn/kept.
type KeptPage struct {
	Frame
	All string // page of all lessons
}

// LessonText is a lesson as a page draws it.
type LessonText struct {
	Title    string
	Tag      string // its language, BCP 47
	Dir      string
	Cautions []LessonBlock
	Lead     []LessonBlock
	Sections []LessonSection
}

// A LessonSection is a heading with what stands under it.
type LessonSection struct {
	Title  string
	Blocks []LessonBlock
}

// A LessonBlock is one part of a lesson.
type LessonBlock struct {
	Kind    string // heading, paragraph, caution, bullets, steps, picture
	Runs    []Run
	Items   [][]Run
	First   int // number of the first step
	Picture LessonPicture
}

// A Run is words said plainly or with weight.
type Run struct {
	Text   string
	Strong bool
}

// A LessonPicture is a line drawing; without shapes there is none of its name.
type LessonPicture struct {
	ID     string
	Says   string
	Box    string
	Shapes []PictureShape
}

// A PictureShape is an outline, or a digit that calls something out.
type PictureShape struct {
	Class string
	Data  string // of an outline
	Digit string
	X, Y  string
}

// LessonsPage is for whoever writes lessons: which skill has what. GET /lessons.
type LessonsPage struct {
	Frame
	Faults   Faults // of a drawing that was sent
	InForce  int
	Drafts   int
	Starters int // that were never taken up
	Skills   []LessonSkill
	Drawings []DrawingLine
	Name     string // of a drawing, as typed
}

// A LessonSkill is a skill with its lessons.
type LessonSkill struct {
	Skill string
	Lines []LessonLine
}

// A LessonLine is where a lesson in a language stands.
type LessonLine struct {
	Skill    string
	SkillID  string
	Language string
	Tag      string
	InForce  string // "version 2 since 18 Nov 2026"; empty = none
	Href     string // the version in force
	Draft    string // "version 3, saved 18 Nov 2026 by Noor Haddadin"; empty = none
	Edit     string // page of the draft
	Level    string // "grade 5.2"; empty = nothing to measure
	Hard     bool   // above what families can be expected to read
	Starter  bool   // there is a starter lesson to begin with
	Begin    bool   // a draft can be begun
	CSRF     string
}

// WithCSRF gives the form the page's token, for forms drawn in a list.
func (l LessonLine) WithCSRF(token string) LessonLine {
	l.CSRF = token
	return l
}

// A DrawingLine is a drawing of the agency.
type DrawingLine struct {
	Name    string
	Added   string
	Picture LessonPicture
}

// LessonVersionPage is one version for whoever writes lessons. GET /lessons/{id}.
type LessonVersionPage struct {
	Frame
	Faults  Faults // of retiring it
	Skill   string
	Tongue  string
	Number  int
	State   string
	Facts   []string // who wrote, reviewed, translated it
	Level   LessonLevel
	Text    LessonText
	Edit    string
	Force   string // page that puts a draft in force; empty = not for this reader
	Retire  string // where POST retires it
	Discard string
	Compare string
	Next    string // skill whose next version can be drafted; empty = not now
	Tag     string
}

// LessonLevel is how hard a lesson is to read.
type LessonLevel struct {
	Grade   string // "grade 5.2 (Flesch–Kincaid)"
	Within  bool
	Hardest string // sentence
	Words   int
}

// LessonDraftPage edits a draft. GET and POST /lessons/{id}/source.
type LessonDraftPage struct {
	Frame
	Faults     Faults
	Skill      string
	Tongue     string
	Tag        string
	Number     int
	Action     string
	Source     string
	Version    string
	Translated string // yes or empty
	From       string // the language that it would be translated from
	Level      LessonLevel
	Text       LessonText // as it stands in Source; without a title it cannot be read
	Changed    string     // who has saved it since it was read; empty = nobody
	Back       string
}

// LessonForcePage puts a draft in force. GET and POST /lessons/{id}/in-force.
type LessonForcePage struct {
	Frame
	Faults     Faults
	Skill      string
	Tongue     string
	Number     int
	Action     string
	Version    string
	Replaces   int // number of the version that retires by this; 0 = none
	Reviewer   string
	Licence    string
	Now        string
	Statement  string
	Reviewed   string // yes or empty
	From       string // language that it was translated from; empty = it was not
	Translator string
	Level      LessonLevel
	Text       LessonText
	Back       string
}

// LessonComparePage tells two versions apart. GET /lessons/{id}/compare?with=.
type LessonComparePage struct {
	Frame
	Skill   string
	Older   int
	Newer   int
	Action  string
	With    string
	Others  []Option
	Changes []Change
	Back    string
}
