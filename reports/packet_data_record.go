package reports

import "wellshown/assessment/civil"

// DataRecord is one return demonstration.
type DataRecord struct {
	ID          string            `json:"id"`
	Skill       DataRef           `json:"skill"`
	Child       *DataRef          `json:"child,omitempty"`
	Observer    DataRef           `json:"observer"`
	Revision    DataRevisionRef   `json:"revision"`
	PerformedAt string            `json:"performed_at"`
	RecordedAt  string            `json:"recorded_at"`
	Place       string            `json:"place"`
	RealClient  bool              `json:"real_client"`
	Formal      bool              `json:"formal"`
	Outcome     string            `json:"outcome"`
	Score       *string           `json:"score"` // from 0 to 1, exact; null: no step was marked
	Percent     string            `json:"score_percent,omitempty"`
	PassMark    string            `json:"pass_mark_percent"`
	Reasons     []DataReason      `json:"reasons,omitempty"`
	Stopped     string            `json:"stopped,omitempty"` // the reason
	Equipment   map[string]string `json:"equipment,omitempty"`
	Steps       []DataStep        `json:"steps"`
	Signatures  []DataSignature   `json:"signatures"`
	SignedHash  string            `json:"signed_sha256"`
	CountsFrom  *civil.Date       `json:"counts_from,omitempty"`
	Bears       bool              `json:"bears"`          // a standing that is told rests on it
	Late        []string          `json:"late,omitempty"` // what came only after known_at
	TakenBack   *DataTakenBack    `json:"taken_back,omitempty"`
	Certificate *int              `json:"certificate,omitempty"`
	Proofs      []DataProof       `json:"proofs"`
}

// DataRevisionRef names a revision of a checklist.
type DataRevisionRef struct {
	ID     string `json:"id"`
	Number int    `json:"number"`
	Title  string `json:"title"`
}

// DataReason is one rule that was not met.
type DataReason struct {
	Rule  string `json:"rule"`
	Step  int    `json:"step,omitempty"`
	Of    string `json:"of,omitempty"`
	Words string `json:"words"`
}

// DataStep is one step with its mark.
type DataStep struct {
	No            int                    `json:"no"`
	Text          string                 `json:"text"`
	Critical      bool                   `json:"critical,omitempty"`
	Mark          string                 `json:"mark,omitempty"`
	CountsAs      string                 `json:"counts_as,omitempty"` // where its values made it another
	NotApplicable string                 `json:"not_applicable,omitempty"`
	Readings      map[string]DataReading `json:"readings,omitempty"`
	Note          string                 `json:"note,omitempty"`
	MarkedAt      string                 `json:"marked_at,omitempty"`
}

// DataReading is a value as it was read.
type DataReading struct {
	Value string `json:"value"`
	Unit  string `json:"unit,omitempty"`
}

// DataSignature is what 21 CFR 11.50 has a signature show.
type DataSignature struct {
	Part    string `json:"part"`
	Name    string `json:"printed_name"`
	Licence string `json:"licence"`
	Meaning string `json:"meaning"`
	At      string `json:"signed_at"`
	Zone    string `json:"zone"`
}

// DataTakenBack says that something counts no more.
type DataTakenBack struct {
	ID     string `json:"id,omitempty"` // of the correction
	At     string `json:"at"`
	By     string `json:"by,omitempty"`
	Reason string `json:"reason"`
}

// DataHappening is a withdrawal, a reinstatement, a waiver, teaching or practice.
type DataHappening struct {
	ID        string         `json:"id"`
	Kind      string         `json:"kind"`
	Skill     DataRef        `json:"skill"`
	Child     *DataRef       `json:"child,omitempty"`
	At        string         `json:"at"`
	From      *civil.Date    `json:"from,omitempty"`
	Through   *civil.Date    `json:"through,omitempty"`
	Until     string         `json:"until,omitempty"`
	Of        string         `json:"of,omitempty"`
	Reason    string         `json:"reason,omitempty"`
	By        string         `json:"by"`
	Late      bool           `json:"late,omitempty"`
	TakenBack *DataTakenBack `json:"taken_back,omitempty"`
	Proofs    []DataProof    `json:"proofs"`
}

// DataCard is a resuscitation card.
type DataCard struct {
	ID         string         `json:"id"`
	Issuer     string         `json:"issuer"`
	Through    civil.Date     `json:"through"`
	RecordedAt string         `json:"recorded_at"`
	RecordedBy string         `json:"recorded_by"`
	Late       bool           `json:"late,omitempty"`
	TakenBack  *DataTakenBack `json:"taken_back,omitempty"`
	Proofs     []DataProof    `json:"proofs"`
}

// DataCarried is one competency by an old paper. It was not observed here.
type DataCarried struct {
	ID         string      `json:"id"`
	Skill      DataRef     `json:"skill"`
	Child      *DataRef    `json:"child,omitempty"`
	ObservedOn civil.Date  `json:"observed_on"`
	Through    *civil.Date `json:"valid_through,omitempty"` // by the old paper
	SignedBy   string      `json:"signed_by"`
	Where      string      `json:"where"`
	BroughtAt  string      `json:"brought_at"`
	BroughtBy  string      `json:"brought_by"`
	Papers     int         `json:"papers,omitempty"` // that are kept of it
	Late       bool        `json:"late,omitempty"`
	Proofs     []DataProof `json:"proofs"`
}
