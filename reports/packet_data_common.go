package reports

import (
	"encoding/json"

	"wellshown/assessment/civil"
)

// DataCommon is what several people or records have in common.
type DataCommon struct {
	Observers []DataObserver  `json:"observers"`
	Revisions []DataRevision  `json:"revisions"`
	Equipment []DataEquipment `json:"equipment"`
	Shifts    []DataShift     `json:"shifts,omitempty"` // as the roster stood at asked_at
}

// DataObserver is somebody who observed, with what entitled them to it.
type DataObserver struct {
	DataRef
	Seen         []civil.Date      `json:"observed_on"`
	Licences     []DataLicence     `json:"licences"`
	Appointments []DataAppointment `json:"appointments"`
	Cards        []DataCard        `json:"cards,omitempty"`
}

// DataLicence is a licence on file.
type DataLicence struct {
	ID         string         `json:"id"`
	Kind       string         `json:"kind"`
	Number     string         `json:"number"`
	Through    *civil.Date    `json:"through,omitempty"` // left out: it does not end
	RecordedAt string         `json:"recorded_at"`
	RecordedBy string         `json:"recorded_by"`
	TakenBack  *DataTakenBack `json:"taken_back,omitempty"`
	Proofs     []DataProof    `json:"proofs"`
}

// DataAppointment is an appointment as observer.
type DataAppointment struct {
	ID       string      `json:"id"`
	Skills   []string    `json:"skills"`
	From     civil.Date  `json:"from"`
	Through  civil.Date  `json:"through"`
	Founding bool        `json:"founding,omitempty"`
	Evidence string      `json:"evidence"`
	Proposed string      `json:"proposed_by"`
	Agreed   string      `json:"agreed_by,omitempty"`
	AgreedOn *civil.Date `json:"agreed_on,omitempty"`
	EndedOn  *civil.Date `json:"ended_on,omitempty"`
	Proofs   []DataProof `json:"proofs"`
}

// DataRevision is a checklist with its whole text as it is hashed.
type DataRevision struct {
	DataRevisionRef
	Skill     string      `json:"skill"`
	InForce   bool        `json:"in_force"` // it was the newest in force at known_at
	InForceAt string      `json:"in_force_at,omitempty"`
	InForceBy string      `json:"in_force_by,omitempty"`
	Statement string      `json:"statement,omitempty"`
	RetiredAt string      `json:"retired_at,omitempty"` // by asked_at
	Two       *DataTwo    `json:"agreement,omitempty"`  // left out: it came in force before it took two
	Policy    []string    `json:"policy"`
	SHA256    string      `json:"sha256"`
	Text      string      `json:"text"`
	Proofs    []DataProof `json:"proofs"`
}

// DataTwo is by which two people a revision came in force.
type DataTwo struct {
	ID         string      `json:"id"`
	ProposedBy DataRef     `json:"proposed_by"`
	ProposedAt string      `json:"proposed_at"`
	AgreedBy   DataRef     `json:"agreed_by"`
	AgreedAt   string      `json:"agreed_at"`
	Proofs     []DataProof `json:"proofs"`
}

// DataEquipment is which type of a kind of equipment a child had on a day.
type DataEquipment struct {
	ID         string      `json:"id"`
	Child      DataRef     `json:"child"`
	Kind       string      `json:"kind"`
	Type       string      `json:"type"` // empty: none any more
	From       civil.Date  `json:"from"`
	On         civil.Date  `json:"on"`
	RecordedAt string      `json:"recorded_at"`
	Late       bool        `json:"late,omitempty"`
	Proofs     []DataProof `json:"proofs"`
}

// DataShift is a shift of the night.
type DataShift struct {
	ID     string   `json:"id"`
	Child  DataRef  `json:"child"`
	Person *DataRef `json:"person,omitempty"`
	Other  bool     `json:"somebody_else,omitempty"` // whom the asker was not let in for
	Starts string   `json:"starts"`
	Ends   string   `json:"ends"`
}

// DataProof is one row of the record with its entries in the ledger; none: it waited for
// its place when the head was signed.
type DataProof struct {
	Kind    string      `json:"kind"`
	Subject string      `json:"subject"`
	Entries []DataEntry `json:"entries"`
}

// DataEntry is a leaf with its way up to the root of the head (RFC 6962), and beside the
// newest one the row that it holds the hash of, where that still is what it was.
type DataEntry struct {
	Leaf     json.RawMessage `json:"leaf"`
	Position int64           `json:"position"`
	Path     [][]byte        `json:"path"` // base64
	Record   json.RawMessage `json:"record,omitempty"`
}
