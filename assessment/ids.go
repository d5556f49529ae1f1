package assessment

import (
	"regexp"

	"wellshown/assessment/fault"
)

// A type for each kind of id, so that none can be handed over for another. All
// are lower-case UUID text; new ones are version 7 (RFC 9562), made by whoever
// creates the record so that sending it twice is harmless.
type (
	AgencyID        string
	PersonID        string
	ClientID        string
	SkillID         string
	RevisionID      string
	LessonID        string
	DemonstrationID string
	AppointmentID   string
	RequirementID   string
	CriterionID     string
	PlanLineID      string // of a line of the agency's template
	CertificateID   string
	ErasureID       string
	ProposalID      string // to put a revision in force
	DeviceID        string
	PacketID        string
	SkillsDayID     string
	ShiftID         string // of one that comes of a pattern: see Pattern.ShiftID
	PatternID       string
	VisitID         string // of a home visit
	DigestID        string // of the letter of one day to one person
	FeedID          string // of a private calendar
	RecordID        string // a withdrawal, reinstatement, waiver, correction, recheck …
)

var idForm = regexp.MustCompile(`^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$`)

// ParseID reads an id of any kind. What is no id was never the id of anything,
// so the answer is "not found" and tells nothing else.
func ParseID[T ~string](s string) (T, error) {
	if !idForm.MatchString(s) {
		return "", fault.Of(fault.NotFound, "There is no such record.")
	}
	return T(s), nil
}

// CaseKey says whose standing in what: a caregiver, a skill and, for
// client-specific skills, a client; for general skills Client is empty.
type CaseKey struct {
	Person PersonID
	Skill  SkillID
	Client ClientID
}
