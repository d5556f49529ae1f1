package office

import (
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// PacketKind is what a packet is about.
type PacketKind string

// What a packet can be about.
const (
	PacketOfPerson   PacketKind = "person"   // all that somebody held on a night
	PacketOfClient   PacketKind = "child"    // everybody who looked after a child on a night
	PacketOfIncident PacketKind = "incident" // one person in one skill on a night, or on a shift
	PacketOfPeriod   PacketKind = "period"   // the whole agency over some days
)

// PacketKinds are those that can be asked for.
var PacketKinds = []PacketKind{PacketOfIncident, PacketOfPerson, PacketOfClient, PacketOfPeriod}

// PacketDays is for how many days a finished packet is kept. Asking again is cheap.
const PacketDays = 7

// MostPacketDays is the longest period of a packet, a leap year.
const MostPacketDays = 366

// PacketQuestion is what a packet answers.
type PacketQuestion struct {
	Kind    PacketKind
	Person  assessment.PersonID // person, incident
	Skill   assessment.SkillID  // incident
	Client  assessment.ClientID // child; incident in a skill that is held per child
	Shift   assessment.ShiftID  // incident, where it was on a shift; else empty
	From    civil.Date          // first day; of a night the day that it is named by
	Through civil.Date          // period: last day; else the last day that it touches
}

// Packet is what stands on the first page: the question, the answer and what comes.
type Packet struct {
	PacketQuestion
	ID       assessment.PacketID
	Agency   AgencyView
	Zone     *time.Location
	AskedAt  time.Time // all is told as it was known then
	AskedBy  string
	KnownAt  time.Time // up to when something counts as known then: the night's end, or the shift's beginning
	WholeDay bool      // KnownAt is the end of the last day
	Who      PersonRef // person, incident
	What     SkillRef  // incident
	For      ClientRef // child, incident
	On       *PacketShift
	Part     bool // what the asker was not let in for is left out
	Answer   PacketAnswer
	People   []PacketIndex // who comes, in order
	Head     HeadView      // that all proofs are under; Size 0: nothing is sealed
	Address  string        // where the packet is kept; empty: nowhere
}

// PacketAnswer is the answer in words.
type PacketAnswer struct {
	Held    bool     // everything asked about was held
	Finding string   // the answer, one sentence
	Because []string // what it rests on or what was lacking, and what changed since
	Records []assessment.DemonstrationID
}

// PacketIndex is one person of the contents with the records that are shown.
type PacketIndex struct {
	Person  PersonRef
	Records []PacketIndexed
}

// PacketIndexed is one record of the contents.
type PacketIndexed struct {
	ID    assessment.DemonstrationID
	Title string
	For   ClientRef
	On    civil.Date
}

// PacketPerson is what is told of one person.
type PacketPerson struct {
	Person     PersonRef
	LeftOn     civil.Date
	Standings  []PacketStanding
	Records    []PacketRecord // newest first
	Happenings []PacketHappening
	Cards      []PacketCard
	Carried    []PacketCarried
}

// PacketStanding is one skill of a person on a day.
type PacketStanding struct {
	Skill    SkillRef
	Client   ClientRef
	On       civil.Date
	Required bool
	Left     bool // had left the agency by then
	assessment.AsOf
	NotHeld []assessment.HeldRun // period: days in it without the skill, by what is known now
}

// Held reports whether the skill was held, by all that is to be asked.
func (s PacketStanding) Held() bool { return s.AsOf.Held() && !s.Left }

// PacketRecord is one return demonstration with what it did to the answer.
type PacketRecord struct {
	DemonstrationView
	Bears  bool                // a standing that is told rests on it
	Counts civil.Date          // first day on which it counts by all that is known now; zero: it does not
	Late   []string            // what came only after KnownAt, in words
	Taken  assessment.RecordID // the correction of it; empty: none
	Proofs []PacketProof
}

// PacketHappening is something else that bears on a standing.
type PacketHappening struct {
	HappeningView
	Late   bool                // written down after KnownAt
	Taken  assessment.RecordID // the correction of it; empty: none
	Proofs []PacketProof
}

// PacketCard is a resuscitation card.
type PacketCard struct {
	postgres.CardOnFile
	Late   bool // written down after KnownAt
	Proofs []PacketProof
}

// PacketProof is one row with all that the ledger has of it.
type PacketProof struct {
	postgres.RowKey
	Entries []SealedEntry // oldest first; none: it waits for its place
}

// PacketTail is what several people or records have in common.
type PacketTail struct {
	Observers []PacketObserver
	Revisions []PacketRevision
	Equipment []PacketEquipment
	Shifts    []PacketShift
	Roster    bool // shifts were looked for
}

// PacketObserver is somebody who observed, with what entitled them to it.
type PacketObserver struct {
	Person       PersonRef
	Licences     []PacketLicence
	Appointments []PacketAppointment
	Cards        []PacketCard
	Seen         []civil.Date // days on which they observed what is shown here
}

// PacketLicence is a licence on file.
type PacketLicence struct {
	postgres.LicenceOnFile
	Proofs []PacketProof
}

// PacketAppointment is an appointment as observer.
type PacketAppointment struct {
	AppointmentView
	Proofs []PacketProof
}

// PacketRevision is a checklist as it was in force or was shown by.
type PacketRevision struct {
	postgres.Revision
	Checklist assessment.Checklist
	Body      string // its text as it is hashed
	InForce   bool   // it was the newest in force at KnownAt
	Two       *PacketTwo
	Proofs    []PacketProof
}

// PacketEquipment is which type of a kind of equipment a child had.
type PacketEquipment struct {
	Client ClientRef
	postgres.Equipment
	On     civil.Date // the day it is told for
	Late   bool
	Proofs []PacketProof
}

// PacketShift is a shift of the night.
type PacketShift struct {
	ID     assessment.ShiftID
	Client ClientRef
	Person PersonRef // empty: nobody was on it, or Other
	Other  bool      // somebody was on it whom the asker was not let in for
	Starts time.Time // on the agency's clocks
	Ends   time.Time
}

// PacketWriter takes a packet in, piece by piece, so that no packet is ever held whole:
// its beginning, each person, what they have in common.
type PacketWriter interface {
	Begin(Packet) error
	Person(PacketPerson) error
	End(PacketTail) error
}
