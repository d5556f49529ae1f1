package web

// PapersPage lists what can be printed. GET /papers.
type PapersPage struct {
	Frame
	Faults    Faults
	Paper     string // whose form the faults belong to: overdue, readiness, transcript, blank, certificate
	On        string // ISO
	Within    string
	Group     string
	Client    string
	Clients   []Option
	Caregiver string
	People    []Option
	Skill     string
	Skills    []Option // revisions in force and drafts
	Number    string   // of a certificate
	Recent    []PaperLine
}

// A PaperLine is a certificate that was issued lately.
type PaperLine struct {
	Title string // "Suctioning · Nguyễn Thị Lan"
	Day   string
	Page  string
	PDF   string
}
