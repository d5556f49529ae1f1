package reports

import (
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// The data of a packet, as it goes with the paper: JSON (RFC 8259), format
// "wellshown.packet", version 1. Days are YYYY-MM-DD, instants RFC 3339 with the offset of
// the agency's clocks, scores and readings exact numbers as text, hashes hexadecimal. A
// field that has nothing to say is left out. What is added later is optional and raises
// no version; whatever would change the meaning of a field does.

// PacketFormat and PacketVersion stand at the head of every packet's data.
const (
	PacketFormat  = "wellshown.packet"
	PacketVersion = 1
)

// PacketData is a whole packet.
type PacketData struct {
	Format  string       `json:"format"`
	Version int          `json:"version"`
	Packet  DataHead     `json:"packet"`
	People  []DataPerson `json:"people"`
	Common  DataCommon   `json:"common"`
}

// DataHead is the question, the answer, and the signed head that all proofs are under.
type DataHead struct {
	ID        string       `json:"id,omitempty"`
	Kind      string       `json:"kind"` // incident, person, child, period
	Agency    DataAgency   `json:"agency"`
	AskedAt   string       `json:"asked_at"` // all is told as it was known then
	AskedBy   string       `json:"asked_by"`
	From      civil.Date   `json:"from"`
	Through   civil.Date   `json:"through"`
	KnownAt   string       `json:"known_at"` // what came later was not known on that night
	Person    *DataRef     `json:"person,omitempty"`
	Skill     *DataRef     `json:"skill,omitempty"`
	Child     *DataRef     `json:"child,omitempty"`
	Shift     *DataShift   `json:"shift,omitempty"`
	Part      bool         `json:"part,omitempty"` // what the asker was not let in for is left out
	Answer    DataAnswer   `json:"answer"`
	Ledger    *DataHeadRef `json:"ledger,omitempty"` // left out where nothing is sealed
	Statement string       `json:"statement"`
}

// DataAgency is whose packet it is.
type DataAgency struct {
	ID   string `json:"id"`
	Name string `json:"name"`
	Zone string `json:"zone"` // IANA name
	Demo bool   `json:"demo,omitempty"`
}

// DataRef names a person, a skill or a child.
type DataRef struct {
	ID   string `json:"id"`
	Code string `json:"code,omitempty"`
	Name string `json:"name"`
	Kind string `json:"kind,omitempty"`
}

// DataAnswer is the answer: held only where everything asked about was.
type DataAnswer struct {
	Held    bool     `json:"held"`
	Finding string   `json:"finding"`
	Because []string `json:"because,omitempty"`
	Records []string `json:"records,omitempty"` // ids of what it rests on, the newest first
}

// DataHeadRef is a signed head with the public halves of the keys that check it.
type DataHeadRef struct {
	Head string   `json:"head"`
	Size int64    `json:"size"`
	Keys []string `json:"keys"`
}

// DataPerson is all that is told of one person.
type DataPerson struct {
	DataRef
	LeftOn     *civil.Date     `json:"left_on,omitempty"`
	Standings  []DataStanding  `json:"standings"`
	Records    []DataRecord    `json:"records"`
	Happenings []DataHappening `json:"happenings,omitempty"`
	Cards      []DataCard      `json:"cards,omitempty"`
	Carried    []DataCarried   `json:"carried_in,omitempty"` // said to have been shown elsewhere: no standing rests on it
}

// DataStanding is one skill on one day, told three times over.
type DataStanding struct {
	Skill    DataRef       `json:"skill"`
	Child    *DataRef      `json:"child,omitempty"`
	On       civil.Date    `json:"on"`
	Required bool          `json:"required"`
	Held     bool          `json:"held"`
	Left     bool          `json:"left,omitempty"` // was no longer with the agency
	Then     DataTelling   `json:"then"`           // by what was written down and signed by known_at
	Now      DataTelling   `json:"now"`            // by all that was known at asked_at
	Cleared  DataTelling   `json:"cleared"`        // the same, without what was taken back
	NotHeld  []DataStretch `json:"not_held,omitempty"`
}

// DataTelling is a standing with what made it so.
type DataTelling struct {
	Standing assessment.StandingWord `json:"standing"`
	Through  *civil.Date             `json:"through,omitempty"`
	Since    *civil.Date             `json:"since,omitempty"`
	Because  []string                `json:"because,omitempty"` // ids
	Needed   string                  `json:"needed,omitempty"`
}

// DataStretch is days of a period.
type DataStretch struct {
	From    civil.Date `json:"from"`
	Through civil.Date `json:"through"`
}

func instantIn(at time.Time, zone *time.Location) string {
	if at.IsZero() {
		return ""
	}
	return at.In(zone).Format(time.RFC3339)
}

func orNone(d civil.Date) *civil.Date {
	if d.IsZero() {
		return nil
	}
	return &d
}
