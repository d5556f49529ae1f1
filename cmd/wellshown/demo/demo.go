// Package demo makes an invented agency with two years behind it: about forty
// caregivers, eight children, four educators, and everything that they have shown
// and signed. It wires a scenario and holds no rule: whatever happens goes through
// the office, in order of time, on a clock that it sets, and what comes of it is
// what the office decides. Names, places and devices are invented; nothing here is
// a child's order.
package demo

import (
	"context"
	"fmt"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
)

// Code, Name and Zone are the agency's.
const (
	Code = "larkmoor"
	Name = "Larkmoor Home Nursing"
	Zone = "America/Denver"
)

// Options are what the scenario cannot make itself.
type Options struct {
	Now         time.Time // the scenario ends here; every day in it is counted from this one
	Seed        uint64    // everything else follows from it
	Certificate func(office.CertificateFacts) ([]byte, error)
	BaseURL     string
	Doubled     func(context.Context) error // called each time there are twice as many demonstrations; may be nil
}

// SignIn is somebody who can sign in to the demo, with the secret, which exists
// nowhere else.
type SignIn struct{ Role, Name, Email, Secret string }

// Case is one caregiver in one skill, with one child.
type Case struct {
	Person assessment.PersonID
	Name   string
	Skill  string // code
	Client assessment.ClientID
	Child  string // code
}

// Counts say how much was made.
type Counts struct {
	Caregivers, Children int
	Demonstrations       int // recorded; the rest of this line tells of them
	NotYet, Stopped      int // not yet competent, stopped for safety
	Practices            int // do not count toward competence
	Unsigned, Late       int // never signed by the learner, or on a later day
	Withdrawals, Waivers int
	Corrections          int
	Visits               int
	Postponed            int // showings that the office refused to open when it came to them
	OpenSheets           int
	Revisions            int // of checklists, drafts among them
}

// Result is who can sign in and where to look first.
type Result struct {
	Agency     assessment.AgencyID
	Today      civil.Date
	SignIns    []SignIn
	Counts     Counts
	GoingHome  string                     // code of the child whose plan is partly met
	Ready      string                     // code of the child who can go home
	OneMore    Case                       // lacks one competent demonstration, and nothing that comes before it
	OneMoreBy  string                     // e-mail address of the educator who has a sheet for it open
	OneMoreDoc assessment.DemonstrationID // that sheet, marked in part
}

// Make makes the agency in a migrated database that has none of its code. It
// takes as long as two years of work take the office.
func Make(ctx context.Context, db *postgres.DB, opts Options) (Result, error) {
	if _, err := db.AtDoor().Agency(ctx, Code); fault.KindOf(err) != fault.NotFound {
		if err != nil {
			return Result{}, fmt.Errorf("look for an agency %s: %w", Code, err)
		}
		return Result{}, fault.Of(fault.Conflict, "There is an agency %s already. The demo is made once.", Code)
	}
	s, err := newStory(ctx, db, opts)
	if err != nil {
		return Result{}, err
	}
	if err := s.tell(); err != nil {
		return Result{}, fmt.Errorf("make the demo: on %s: %w", s.now().Format(time.DateOnly), err)
	}
	return s.result, nil
}
