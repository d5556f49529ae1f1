package web

import (
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

const proposalsAt = "/proposals/"

func (s *Site) proposal(v *visit) error {
	id, err := pathID[assessment.ProposalID](v, "id")
	if err != nil {
		return err
	}
	page, err := s.proposalPage(v, id)
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) proposalPage(v *visit, id assessment.ProposalID) (ProposalPage, error) {
	d, err := s.office.Proposal(v.ctx(), v.by(), id)
	if err != nil {
		return ProposalPage{}, err
	}
	at := proposalsAt + string(id)
	page := ProposalPage{Frame: v.frame("checklists"), Skill: d.Title, Number: d.Number, By: d.ProposedBy.Name, When: v.instant(d.ProposedAt), Statement: d.Statement, Recheck: day(d.RecheckBy),
		Replaces: d.Replaces.Number, Policy: d.Checklist.Policy.InWords(), Read: "/revisions/" + string(d.Revision), Verdict: string(d.Verdict), Reason: d.Reason, Mine: d.Mine,
		Reviewer: v.by().Name, Licence: d.Licence, Now: v.instant(d.Now), Back: "/checklists"}
	if d.Replaces.ID != "" {
		page.Compare = page.Read + "/compare?with=" + string(d.Replaces.ID)
	}
	if d.Checklist.Code == "" {
		page.Policy = nil
	}
	if d.Verdict != "" {
		page.Ended = sentence(page.Verdict + " by " + d.EndedBy.Name + ", " + v.instant(d.EndedAt))
		page.Read = ""
		if d.Verdict == assessment.ForceAgreed {
			page.Read = "/revisions/" + string(d.Revision)
		}
		return page, nil
	}
	page.Dropping = at + "/dropping"
	if !d.Mine {
		page.MayNot = d.MayNot
	}
	if d.MayNot == "" {
		page.Agree, page.Preview, page.Seen = at+"/agreement", previewOf(d.Preview), d.Preview.Version
	}
	return page, nil
}

func (s *Site) agreeProposal(v *visit) error {
	id, err := pathID[assessment.ProposalID](v, "id")
	if err != nil {
		return err
	}
	err = error(errUnread)
	if v.ticked("reviewed") {
		err = s.office.AgreeInForce(v.ctx(), v.by(), office.AgreeForm{Proposal: id, Seen: v.form("seen"), Proof: v.proof()})
	}
	if err == nil {
		return v.to(proposalsAt+string(id), "It is in force from now on.")
	}
	faults, unknown := v.wrong(err, "It is not in force.", label("reviewed", "Your review"), label("password", "Your password"))
	if unknown != nil {
		return unknown
	}
	page, err := s.proposalPage(v, id)
	if err != nil {
		return err
	}
	page.Faults = faults
	page.Reviewed = v.ticked("reviewed") && page.Seen == v.form("seen") // what they ticked was said of what they saw
	return v.again(page)
}

// dropProposal takes a proposal back or declines it.
func (s *Site) dropProposal(v *visit) error {
	id, err := pathID[assessment.ProposalID](v, "id")
	if err != nil {
		return err
	}
	p, refused := s.office.DropProposal(v.ctx(), v.by(), id, v.form("reason"))
	if refused == nil {
		if p.Verdict == assessment.ForceTakenBack {
			return v.to("/revisions/"+string(p.Revision), "The proposal is taken back. The draft can be edited again.")
		}
		return v.to(proposalsAt+string(id), "It is declined. "+p.ProposedBy.Name+" sees why on the page of the draft.")
	}
	page, err := s.proposalPage(v, id)
	if err != nil {
		return err
	}
	page.Why = v.form("reason")
	if err := v.take(&page.Drop, refused, "Nothing was changed.", label("reason", "What is to be changed first")); err != nil {
		return err
	}
	return v.again(page)
}

// proposalLines are proposals that wait, for the reader, and how many of them wait for
// the reader and not for somebody else.
func (v *visit) proposalLines(all []office.WaitingProposal) ([]ProposalLine, int) {
	var lines []ProposalLine
	theirs := 0
	for _, p := range all {
		lines = append(lines, ProposalLine{Href: proposalsAt + string(p.ID), Skill: p.Title, Number: p.Number, By: p.ProposedBy.Name, When: v.instant(p.ProposedAt), Recheck: day(p.RecheckBy), Mine: p.Mine})
		if !p.Mine {
			theirs++
		}
	}
	return lines, theirs
}

// declined says who declined a proposal and why; nothing for none.
func (v *visit) declined(p office.ProposalView) string {
	if p.ID == "" {
		return ""
	}
	return p.EndedBy.Name + ", " + v.instant(p.EndedAt) + ": “" + strings.TrimSpace(p.Reason) + "”"
}
