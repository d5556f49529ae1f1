package assessment

import (
	"slices"

	"wellshown/assessment/fault"
)

// Act is one thing that somebody may or may not do. Every route states its act.
type Act string

// The acts.
const (
	ReadChecklists   Act = "read checklists"
	EditChecklists   Act = "edit checklists"
	PutInForce       Act = "put a checklist in force"
	ReadPeople       Act = "read people"
	EditPeople       Act = "edit people"
	GiveRoles        Act = "give roles"
	ReadClients      Act = "read children"
	EditClients      Act = "edit children"
	SetParameters    Act = "set a child's ordered values"
	ReadStandings    Act = "read standings"
	ReadRecords      Act = "read records"
	Observe          Act = "observe a demonstration"
	SignRecord       Act = "sign a record"
	Withdraw         Act = "withdraw a competency"
	Reinstate        Act = "reinstate a competency"
	Waive            Act = "waive a requirement"
	Correct          Act = "correct a record"
	Appoint          Act = "appoint an observer"
	EditRequirements Act = "edit requirements"
	ReadReadiness    Act = "read readiness"
	EditReadiness    Act = "keep the readiness plan"
	WaiveCriterion   Act = "waive a readiness criterion"
	SignReadiness    Act = "sign a plan as ready"
	EditTemplate     Act = "edit the template of plans"
	ReadReports      Act = "read reports"
	LogCare          Act = "log teaching and practice"
	ReadLedger       Act = "check the ledger"
	ReadEntries      Act = "read the entries of the ledger"
	LookUp           Act = "look up who was competent on a day"
	ReadErasures     Act = "read erasures"
	SetRetention     Act = "set how long records are kept"
	AskErasure       Act = "ask for an erasure"
	EraseHeld        Act = "erase what is held"
	OwnAccount       Act = "keep one's own account"
	VouchFor         Act = "vouch for a person"
	ReadSkillsDays   Act = "read skills days"
	PlanSkillsDays   Act = "plan a skills day"
	EditRoster       Act = "keep the roster"
	PlanVisits       Act = "plan visits"
	BringIn          Act = "bring in lists"
	AskPacket        Act = "ask for a surveyor's packet"
	ReadReminders    Act = "read reminders"
	EditReminders    Act = "set reminders"
	RecordIncident   Act = "record an incident"
	CloseIncident    Act = "close an incident"
	SetPractice      Act = "set the rules of practice"
	LogPractice      Act = "log in-service training and supervision"
	ReadLessons      Act = "read lessons"
	EditLessons      Act = "edit lessons"
	ForceLesson      Act = "put a lesson in force"
	ReadChecks       Act = "read knowledge checks"
	ReadBank         Act = "read what knowledge checks ask"
	TakeCheck        Act = "take a knowledge check"
	EditChecks       Act = "keep the knowledge checks"
	ReadLearning     Act = "read learning plans"
	PlanLearning     Act = "keep learning plans"
	NotePractice     Act = "write practice down"
	HandOver         Act = "hand over a caregiver's proof"
	TakeIn           Act = "take in proof from elsewhere"
	ReadNeighbours   Act = "read the neighbour agencies"
	EnterNeighbour   Act = "enter a neighbour agency"
	AgreeNeighbour   Act = "agree to a neighbour agency"
)

// Reach is how far a permission goes.
type Reach int

const (
	// Nothing: not at all.
	Nothing Reach = iota
	// Own: what concerns oneself, and the children one is on the team of.
	Own
	// Named: one's own, and the people and children that a surveyor was let in for.
	Named
	// Everything: everything in the agency.
	Everything
)

// permissions is the whole table. A role that is not listed for an act has none.
var permissions = map[Act]map[Role]Reach{
	ReadChecklists:   {Administrator: Everything, Educator: Everything, Coordinator: Everything, Surveyor: Everything, Caregiver: Everything},
	EditChecklists:   {Administrator: Everything, Educator: Everything},
	PutInForce:       {Educator: Everything},
	ReadPeople:       {Administrator: Everything, Educator: Everything, Coordinator: Everything, Surveyor: Everything, Caregiver: Own},
	EditPeople:       {Administrator: Everything, Coordinator: Everything},
	GiveRoles:        {Administrator: Everything},
	ReadClients:      {Administrator: Everything, Educator: Everything, Coordinator: Everything, Surveyor: Everything, Caregiver: Own},
	EditClients:      {Administrator: Everything, Educator: Everything, Coordinator: Everything},
	SetParameters:    {Educator: Everything},
	ReadStandings:    {Administrator: Everything, Educator: Everything, Coordinator: Everything, Surveyor: Everything, Caregiver: Own},
	ReadRecords:      {Administrator: Everything, Educator: Everything, Coordinator: Everything, Surveyor: Everything, Caregiver: Own},
	Observe:          {Educator: Everything},
	SignRecord:       {Administrator: Own, Educator: Own, Coordinator: Own, Caregiver: Own},
	Withdraw:         {Administrator: Everything, Educator: Everything, Coordinator: Everything},
	Reinstate:        {Educator: Everything},
	Waive:            {Educator: Everything},
	Correct:          {Educator: Everything},
	Appoint:          {Administrator: Everything, Educator: Everything},
	EditRequirements: {Administrator: Everything, Coordinator: Everything},
	ReadReadiness:    {Administrator: Everything, Educator: Everything, Coordinator: Everything, Surveyor: Everything, Caregiver: Own},
	EditReadiness:    {Educator: Everything, Coordinator: Everything},
	WaiveCriterion:   {Educator: Everything},
	SignReadiness:    {Educator: Everything},
	EditTemplate:     {Administrator: Everything, Educator: Everything, Coordinator: Everything},
	ReadReports:      {Administrator: Everything, Educator: Everything, Coordinator: Everything, Surveyor: Everything},
	LogCare:          {Educator: Everything, Coordinator: Everything},
	ReadLedger:       {Administrator: Everything, Educator: Everything, Coordinator: Everything, Surveyor: Everything},
	ReadEntries:      {Administrator: Everything, Educator: Everything, Coordinator: Everything},
	LookUp:           {Administrator: Everything, Educator: Everything, Coordinator: Everything, Surveyor: Everything},
	ReadErasures:     {Administrator: Everything},
	SetRetention:     {Administrator: Everything},
	AskErasure:       {Administrator: Everything},
	EraseHeld:        {Administrator: Everything},
	OwnAccount:       {Administrator: Own, Educator: Own, Coordinator: Own, Caregiver: Own, Surveyor: Own},
	VouchFor:         {Administrator: Everything, Educator: Everything, Coordinator: Everything},
	ReadSkillsDays:   {Administrator: Everything, Educator: Everything, Coordinator: Everything},
	PlanSkillsDays:   {Educator: Everything, Coordinator: Everything},
	EditRoster:       {Administrator: Everything, Coordinator: Everything},
	PlanVisits:       {Administrator: Everything, Coordinator: Everything},
	BringIn:          {Administrator: Everything, Coordinator: Everything},
	AskPacket:        {Administrator: Everything, Educator: Everything, Coordinator: Everything, Surveyor: Everything},
	ReadReminders:    {Administrator: Everything, Coordinator: Everything},
	EditReminders:    {Administrator: Everything, Coordinator: Everything},
	RecordIncident:   {Administrator: Everything, Educator: Everything, Coordinator: Everything},
	CloseIncident:    {Educator: Everything},
	SetPractice:      {Administrator: Everything},
	LogPractice:      {Administrator: Everything, Educator: Everything, Coordinator: Everything},
	ReadLessons:      {Administrator: Everything, Educator: Everything, Coordinator: Everything, Surveyor: Everything, Caregiver: Everything},
	EditLessons:      {Administrator: Everything, Educator: Everything},
	ForceLesson:      {Educator: Everything},
	ReadChecks:       {Administrator: Everything, Educator: Everything, Coordinator: Everything, Caregiver: Own},
	ReadBank:         {Administrator: Everything, Educator: Everything, Coordinator: Everything},
	TakeCheck:        {Administrator: Own, Educator: Own, Coordinator: Own, Caregiver: Own},
	EditChecks:       {Educator: Everything},
	ReadLearning:     {Administrator: Everything, Educator: Everything, Coordinator: Everything, Caregiver: Own},
	PlanLearning:     {Administrator: Everything, Educator: Everything, Coordinator: Everything},
	NotePractice:     {Educator: Everything, Coordinator: Everything, Caregiver: Own},
	HandOver:         {Administrator: Everything, Educator: Everything, Coordinator: Everything, Caregiver: Own},
	TakeIn:           {Educator: Everything},
	ReadNeighbours:   {Administrator: Everything, Educator: Everything, Coordinator: Everything},
	EnterNeighbour:   {Administrator: Everything},
	AgreeNeighbour:   {Administrator: Everything, Educator: Everything, Coordinator: Everything},
}

// Acts lists every act of the table.
func Acts() []Act {
	var all []Act
	for a := range permissions {
		all = append(all, a)
	}
	return all
}

// Reach is how far the actor's roles together let them do act.
func (a Actor) Reach(act Act) Reach {
	if a.Program != nil {
		if act.ForPrograms() && slices.Contains(a.Program.Acts, act) {
			return Everything
		}
		return Nothing
	}
	reach := Nothing
	for _, r := range a.Roles {
		full := permissions[act][r]
		if r == Surveyor {
			full = a.Survey.reach(act, full)
		}
		reach = max(reach, full)
	}
	return reach
}

// Reads reports whether the act changes nothing.
func (a Act) Reads() bool {
	switch a {
	case ReadChecklists, ReadPeople, ReadClients, ReadStandings, ReadRecords, ReadReadiness, ReadReports, ReadLedger, ReadEntries, LookUp, ReadErasures, ReadSkillsDays, ReadReminders, ReadLessons, ReadChecks, ReadLearning, HandOver, ReadNeighbours:
		return true
	case ReadBank:
		return true
	}
	return false
}

// SignedAlone reports whether one signature does it, and may make somebody current
// or decide what does. Such a signature counts only once its owner alone could have
// made it.
func (a Act) SignedAlone() bool {
	switch a {
	case Reinstate, Waive, WaiveCriterion, SignReadiness, Correct, PutInForce:
		return true
	}
	return false
}

// May refuses an act that none of the actor's roles allows at all.
func (a Actor) May(act Act) error {
	switch {
	case a.Reach(act) != Nothing:
		return nil
	case a.Program != nil && !act.ForPrograms():
		return fault.Of(fault.Forbidden, "A program cannot do this: %s. It takes a person who is signed in.", act)
	case a.Program != nil:
		return fault.Of(fault.Forbidden, "This token does not allow this: %s. Ask an administrator of the agency for one that does.", act)
	}
	if a.Is(Surveyor) && permissions[act][Surveyor] != Nothing {
		return a.Survey.Refuse()
	}
	return fault.Of(fault.Forbidden, "Your role does not allow this: %s. Ask an administrator of your agency.", act)
}

// MayFor refuses an act that concerns a person or, where related, one of the
// actor's own children. What lies outside the actor's reach looks like what was
// never there.
func (a Actor) MayFor(act Act, person PersonID, related bool) error {
	return a.mayFor(act, person, related, a.Survey.MayMeet(person))
}

// MayForCase is MayFor for what is held on a person for one client; the empty client
// stands for what is held for every child.
func (a Actor) MayForCase(act Act, person PersonID, client ClientID) error {
	return a.mayFor(act, person, false, a.Survey.MayRead(person, client))
}

func (a Actor) mayFor(act Act, person PersonID, related, surveyed bool) error {
	if err := a.May(act); err != nil {
		return err
	}
	own := related || person != "" && person == a.Person
	if reach := a.Reach(act); reach == Everything || own || reach == Named && surveyed {
		return nil
	}
	return fault.Of(fault.NotFound, "There is no such record.")
}
