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
	"wellshown/assessment/ledger"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
)

// Code, Name and Zone are the agency's. It is founded under the code Unfinished and
// gets its own as the very last thing, so that one that was broken off is known.
const (
	Code       = "larkmoor"
	Unfinished = "larkmoor-unfinished"
	Name       = "Larkmoor Home Nursing"
	Zone       = "America/Denver"
)

// Options are what the scenario cannot make itself.
type Options struct {
	Now         time.Time // the scenario ends here; every day in it is counted from this one
	Seed        uint64    // everything else follows from it
	Certificate func(office.CertificateFacts) ([]byte, error)
	BaseURL     string
	Ledger      *ledger.Keys                // that vouch for what is written; nil: nothing does
	Doubled     func(context.Context) error // called each time there are twice as many demonstrations; may be nil
	// Finish is called once, when all is made, before the agency gets its code; may
	// be nil. Whatever must not be missing from a demo that is there is done in it.
	Finish func(context.Context, Result) error
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

// Make makes the agency in a migrated database that has none of its code, nor one
// that was broken off. It takes as long as two years of work take the office.
func Make(ctx context.Context, db *postgres.DB, opts Options) (Result, error) {
	for _, code := range []string{Code, Unfinished} {
		if _, err := db.AtDoor().Agency(ctx, code); fault.KindOf(err) != fault.NotFound {
			if err != nil {
				return Result{}, fmt.Errorf("look for an agency %s: %w", code, err)
			}
			return Result{}, fault.Of(fault.Conflict, "There is an agency %s already. The demo is made once.", code)
		}
	}
	s, err := newStory(ctx, db, opts)
	if err != nil {
		return Result{}, err
	}
	if err := s.tell(); err != nil {
		return Result{}, fmt.Errorf("make the demo: on %s: %w", s.now().Format(time.DateOnly), err)
	}
	if opts.Finish != nil {
		if err := opts.Finish(ctx, s.result); err != nil {
			return Result{}, fmt.Errorf("finish the demo: %w", err)
		}
	}
	if err := s.office.ChangeAgencyCode(ctx, s.admin.Actor, Code); err != nil {
		return Result{}, fmt.Errorf("give the demo its code: %w", err)
	}
	return s.result, nil
}
