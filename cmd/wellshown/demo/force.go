package demo

import (
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
)

// propose has an educator look at what a draft changes, and propose to put it in force; a
// day where it is to be shown anew by then.
func (s *story) propose(by *educator, draft office.RevisionView, statement string, recheck civil.Date) (assessment.ProposalID, error) {
	f := office.PutInForceForm{Revision: draft.ID, Version: draft.Version, Statement: statement, Proof: office.ByPassword(by.secret)}
	if !recheck.IsZero() {
		f.RecheckBy = recheck.String()
	}
	seen, err := s.office.PreviewInForce(s.ctx, by.Actor, office.PreviewForm{Revision: f.Revision, Version: f.Version, RecheckBy: f.RecheckBy})
	if err != nil {
		return "", fmt.Errorf("look at what %s changes: %w", draft.Code, err)
	}
	f.Seen = seen.Version
	p, err := s.office.ProposeInForce(s.ctx, by.Actor, f)
	if err != nil {
		return "", fmt.Errorf("propose %s: %w", draft.Code, err)
	}
	return p.ID, nil
}

// comesInForce has one educator propose a draft and another, who looks at what it changes
// too, agree to it.
func (s *story) comesInForce(first, second *educator, draft office.RevisionView, statement string, recheck civil.Date) error {
	id, err := s.propose(first, draft, statement, recheck)
	if err != nil {
		return err
	}
	d, err := s.office.Proposal(s.ctx, second.Actor, id)
	if err != nil {
		return fmt.Errorf("look at what was proposed of %s: %w", draft.Code, err)
	}
	err = s.office.AgreeInForce(s.ctx, second.Actor, office.AgreeForm{Proposal: id, Seen: d.Preview.Version, Proof: office.ByPassword(second.secret)})
	if err != nil {
		return fmt.Errorf("agree to %s: %w", draft.Code, err)
	}
	return nil
}
