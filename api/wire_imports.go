package api

import (
	"time"

	"wellshown/assessment/office"
)

// ListSent names a list that was sent.
type ListSent struct {
	ID string `json:"id" format:"uuid"`
}

// WaitingList is a list that was sent and not yet brought in.
type WaitingList struct {
	ID     string    `json:"id" format:"uuid"`
	Kind   string    `json:"kind" enum:"people,clients,shifts,carried-in"`
	Name   string    `json:"name" doc:"Of the file."`
	SentAt time.Time `json:"sent_at"`
}

// Import is what a list will do.
type Import struct {
	ID       string        `json:"id" format:"uuid"`
	Kind     string        `json:"kind" enum:"people,clients,shifts,carried-in"`
	Name     string        `json:"name" doc:"Of the file."`
	SentAt   time.Time     `json:"sent_at"`
	Version  string        `json:"version" doc:"Of what the list would do now. It is sent when the list is brought in."`
	Form     string        `json:"form" enum:"CSV,XLSX,iCalendar"`
	Encoding string        `json:"encoding,omitempty" doc:"In which its text was read."`
	Guessed  bool          `json:"guessed" doc:"Nothing in the file says in which letters it is: somebody must look whether the names read right."`
	Names    []string      `json:"names" doc:"Some to look at, where it was guessed."`
	NotTaken []string      `json:"not_taken" doc:"Columns of the file that are not ours."`
	Rows     []ImportRow   `json:"rows"`
	Faults   []ImportFault `json:"faults" doc:"While there is one nothing is brought in."`
	More     int           `json:"more" doc:"Faults that are not told."`
}

// ImportRow is one row with what it will do.
type ImportRow struct {
	Row   int               `json:"row" doc:"The line of the file where it begins, or the row of the spreadsheet."`
	Does  string            `json:"does" enum:"new,there already,asks,fault"`
	Cells map[string]string `json:"cells" doc:"By the names of our columns."`
	Notes []string          `json:"notes"`
	Asks  *ImportQuestion   `json:"asks,omitempty"`
}

// ImportQuestion asks who is meant by a name.
type ImportQuestion struct {
	Written string      `json:"written"`
	Rows    []int       `json:"rows" doc:"All that have it. The answer goes to the first."`
	Choices []PersonSay `json:"choices"`
}

// PersonSay is somebody who may be meant.
type PersonSay struct {
	ID   string `json:"id" format:"uuid"`
	Says string `json:"says"`
}

// ImportFault is one thing that needs mending in the file.
type ImportFault struct {
	Row    int    `json:"row,omitempty" doc:"Left out: of the file as a whole."`
	Column string `json:"column,omitempty"`
	Says   string `json:"says"`
}

// ImportForm brings a list in as it was looked at.
type ImportForm struct {
	Version      string         `json:"version" maxLength:"100"`
	Answers      []ImportAnswer `json:"answers,omitempty" maxItems:"5000" doc:"For each row that asks."`
	LettersRight bool           `json:"letters_right,omitempty" doc:"Somebody has looked: the names read right."`
}

// ImportAnswer says who is meant by a name.
type ImportAnswer struct {
	Row     int    `json:"row"`
	Person  string `json:"person,omitempty" doc:"One of the choices, by id."`
	Another bool   `json:"another,omitempty" doc:"None of them."`
}

// Imported is what an import did.
type Imported struct {
	Kind  string `json:"kind" enum:"people,clients,shifts,carried-in"`
	New   int    `json:"new"`
	There int    `json:"there"`
}

// CarriedIn is what somebody is said to have shown elsewhere, by old papers. It makes nobody current.
type CarriedIn struct {
	Person PersonRef       `json:"person"`
	Lines  []CarriedInLine `json:"lines"`
	Papers int             `json:"papers" doc:"How many photos and scans are attached."`
}

// CarriedInLine is one competency by an old paper.
type CarriedInLine struct {
	ID         string     `json:"id" format:"uuid"`
	Skill      SkillRef   `json:"skill"`
	Client     *ClientRef `json:"client,omitempty" doc:"The child, of a skill that is held for each."`
	ShownOn    string     `json:"shown_on" format:"date"`
	ByThePaper string     `json:"by_the_paper_through,omitempty" format:"date" doc:"Left out: the paper says no end. It is no last day of any standing."`
	SignedBy   string     `json:"signed_by"`
	Where      string     `json:"where"`
	BroughtBy  string     `json:"brought_by"`
	BroughtAt  time.Time  `json:"brought_at"`
	Papers     []int      `json:"papers" doc:"Numbers of the papers that show it."`
}

func importOf(v office.ImportView) Import {
	out := Import{ID: string(v.ID), Kind: string(v.Kind), Name: v.FileName, SentAt: v.SentAt, Version: v.Version, Form: string(v.Form), Encoding: v.Encoding, Guessed: v.Guessed,
		Names: append([]string{}, v.Names...), NotTaken: append([]string{}, v.Left...), Rows: []ImportRow{}, Faults: []ImportFault{}, More: v.More}
	for _, f := range v.Faults {
		out.Faults = append(out.Faults, ImportFault(f))
	}
	for _, r := range v.Rows {
		row := ImportRow{Row: r.Number, Does: r.Does, Cells: r.Cells, Notes: append([]string{}, r.Notes...)}
		if r.Ask != nil {
			row.Asks = &ImportQuestion{Written: r.Ask.Written, Rows: r.Ask.Rows, Choices: []PersonSay{}}
			for _, c := range r.Ask.Choices {
				row.Asks.Choices = append(row.Asks.Choices, PersonSay{string(c.ID), c.Says})
			}
		}
		out.Rows = append(out.Rows, row)
	}
	return out
}

func carriedIn(v office.CarriedView) CarriedIn {
	out := CarriedIn{Person: personRef(v.Person), Lines: []CarriedInLine{}, Papers: len(v.Papers)}
	for _, e := range v.Lines {
		line := CarriedInLine{ID: string(e.ID), Skill: skillRef(e.Skill), Client: clientRef(e.Client), ShownOn: e.ObservedOn.String(), SignedBy: e.Signer, Where: e.Place, BroughtBy: e.BroughtBy, BroughtAt: e.BroughtAt, Papers: append([]int{}, e.Papers...)}
		if !e.ThroughOn.IsZero() {
			line.ByThePaper = e.ThroughOn.String()
		}
		out.Lines = append(out.Lines, line)
	}
	return out
}
