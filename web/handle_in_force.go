package web

import (
	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

// inForce offers to sign for a draft that was read before. Whoever comes without
// having read it as it is now is led to it.
func (s *Site) inForce(v *visit) error {
	id, err := pathID[assessment.RevisionID](v, "id")
	if err != nil {
		return err
	}
	page, waits, err := s.inForcePage(v, id, v.query("read"), "", "")
	if err != nil {
		return err
	}
	switch {
	case waits != "":
		return v.to(proposalsAt+string(waits), "")
	case v.query("read") == "":
		return v.to(page.Back, "Read it first, then put it in force.")
	case page.Changed:
		return v.to(page.Back, "Somebody has saved this draft since you read it. Read it as it is now, then put it in force.")
	}
	return v.show(page)
}

// inForcePage is for whoever has read a version of a draft, with the text of it.
func (s *Site) inForcePage(v *visit, id assessment.RevisionID, version, read, recheck string) (InForcePage, assessment.ProposalID, error) {
	b, err := s.office.BeforeForce(v.ctx(), v.by(), id, read, recheck)
	if err != nil {
		return InForcePage{}, "", err
	}
	at := "/revisions/" + string(id)
	page := InForcePage{Frame: v.frame("checklists"), Skill: b.RevisionView.Title, Number: b.Number, Action: at + "/in-force", Replaces: b.Replaces.Number,
		Holders: b.Holders, Policy: b.Policy.InWords(), Reviewer: v.by().Name, Licence: b.Licence, Now: instant(b.Now, b.Zone), Version: b.Version, Read: b.Source, Changed: b.Version != version, Back: at,
		NoPreview: b.NoPreview, Seen: b.Preview.Version, Declined: v.declined(b.Declined), RecheckBy: recheck}
	if b.Preview.Version != "" {
		page.Preview = previewOf(b.Preview)
	}
	if page.Changed {
		page.Changes = changes(b.Changes)
	}
	if b.Replaces.ID != "" {
		page.Compare = at + "/compare?with=" + string(b.Replaces.ID)
	}
	return page, b.Waits.ID, nil
}

// errUnread answers whoever signs without having said that they read it.
var errUnread = &fault.Fault{Kind: fault.Invalid, Message: "One thing needs mending.",
	Fields: map[string]string{"reviewed": "Read every step and every limit first, then tick this."}}

// proposeInForce proposes to put a draft in force, or shows what that would change.
func (s *Site) proposeInForce(v *visit) error {
	id, err := pathID[assessment.RevisionID](v, "id")
	if err != nil {
		return err
	}
	var p office.ProposalView
	switch err = error(errUnread); {
	case v.looks():
		err = errLooked
	case v.ticked("reviewed"):
		p, err = s.office.ProposeInForce(v.ctx(), v.by(), office.PutInForceForm{Revision: id, Version: v.form("version"), Statement: v.form("statement"),
			RecheckBy: v.form("recheck_by"), Seen: v.form("seen"), Proof: v.proof()})
	}
	if err == nil {
		return v.to(proposalsAt+string(p.ID), "It is proposed. Another licensed educator finds it under Today, and must agree.")
	}
	refused := err
	var faults Faults
	unknown := v.take(&faults, err, "It is not proposed.", label("reviewed", "Your review"), label("statement", "What you reviewed"),
		label("recheck_by", "Show it anew by"), label("password", "Your password"))
	if unknown != nil {
		return unknown
	}
	page, waits, err := s.inForcePage(v, id, v.form("version"), v.secret("read"), v.form("recheck_by"))
	switch {
	case err != nil:
		return err
	case waits != "":
		return v.to(proposalsAt+string(waits), "")
	}
	page.Faults, page.Statement, page.Reviewed, page.Preview.Asked = faults, v.form("statement"), v.ticked("reviewed"), v.looks()
	if page.Changed { // what they ticked was said of another text
		page.Reviewed = false
		page.Faults.Next = "See what changed, read it as it is now, then sign. What you typed is still there."
	}
	return v.redrawn(page, refused)
}

func (s *Site) retire(v *visit) error {
	id, err := pathID[assessment.RevisionID](v, "id")
	if err != nil {
		return err
	}
	err = s.office.Retire(v.ctx(), v.by(), id, v.proof())
	if err == nil {
		return v.to("/revisions/"+string(id), "It is retired. Nobody can be observed by it any more.")
	}
	faults, unknown := v.wrong(err, "It is not retired.", label("password", "Your password"))
	if unknown != nil {
		return unknown
	}
	page, err := s.checklistPage(v, id)
	if err != nil {
		return err
	}
	page.Faults = faults
	return v.again(page)
}
