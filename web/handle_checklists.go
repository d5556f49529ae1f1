package web

import (
	"errors"
	"io"
	"net/http"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

func (s *Site) checklists(v *visit) error {
	page, err := s.checklistsPage(v, Faults{})
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) checklistsPage(v *visit, faults Faults) (ChecklistsPage, error) {
	page := ChecklistsPage{Frame: v.frame("checklists"), Checks: v.may(assessment.ReadChecks), Drills: v.may(assessment.ReadBank), Faults: faults, Find: v.query("find"), State: v.query("state"),
		States: []Option{{Value: "", Text: v.say("in force and drafts")}, {Value: "in force", Text: v.say("in force")}, {Value: "draft", Text: v.say("drafts")}, {Value: "retired", Text: v.say("retired")}}}
	shelf, err := s.office.Shelf(v.ctx(), v.by(), page.Find, page.State)
	if err != nil {
		return page, err
	}
	edits := v.may(assessment.EditChecklists)
	for _, l := range shelf.Ours {
		page.Ours = append(page.Ours, RevisionLine{Skill: l.Title, Href: "/revisions/" + string(l.ID), Number: l.Number, State: string(l.State),
			Since: sinceOf(l.RevisionView, v), Steps: l.Steps, Critical: l.Critical, Specific: l.Scope == assessment.ClientSpecific, Waits: l.Waits != ""})
		switch l.State {
		case assessment.InForce:
			page.InForce++
		case assessment.Draft:
			page.Drafts++
		}
	}
	page.MayForce = v.may(assessment.PutInForce)
	if !edits && !v.may(assessment.ReadReports) {
		return page, nil
	}
	for _, l := range shelf.Starter {
		line := StarterLine{Skill: l.Title, Href: "/catalogue/" + l.Code, Taken: l.Taken, Steps: l.Steps, Critical: l.Critical}
		if edits && !l.Taken {
			line.Adopt = line.Href
		}
		page.Starter = append(page.Starter, line)
	}
	if edits {
		page.Upload = "/checklists"
	}
	return page, nil
}

// sinceOf is the day since which a revision stands where it stands.
func sinceOf(r office.RevisionView, v *visit) string {
	switch r.State {
	case assessment.InForce:
		return v.dayIn(r.InForceAt)
	case assessment.Retired:
		return v.dayIn(r.RetiredAt)
	case assessment.Draft:
		return v.dayIn(&r.DraftedAt)
	}
	return ""
}

// adopt takes a starter checklist as a draft. Whoever does it twice finds the
// first one.
func (s *Site) adopt(v *visit) error {
	r, err := s.office.AdoptStarter(v.ctx(), v.by(), v.c.Param("code"))
	if fault.KindOf(err) == fault.Conflict {
		return v.to("/checklists", "Your agency has this skill already.")
	}
	if err != nil {
		return err
	}
	return v.to("/revisions/"+string(r.ID), "It is a draft now. Read it, edit it, then put it in force.")
}

func (s *Site) draftRevision(v *visit) error {
	id, err := pathID[assessment.SkillID](v, "id")
	if err != nil {
		return err
	}
	r, err := s.office.DraftRevision(v.ctx(), v.by(), id)
	if fault.KindOf(err) == fault.Conflict {
		return v.to("/checklists?state=draft", "There is a draft of this checklist already.")
	}
	if err != nil {
		return err
	}
	return v.to("/revisions/"+string(r.ID)+"/source", "The next revision is drafted. Edit it, then put it in force.")
}

// addChecklist takes a checklist as a file, or as the text that was mended after
// the file had faults.
func (s *Site) addChecklist(v *visit) error {
	name, source, err := sentFile(v)
	if err != nil {
		return err
	}
	if strings.TrimSpace(source) == "" {
		page, err := s.checklistsPage(v, Faults{What: "No checklist was sent.", Next: "Choose a file with one.",
			Fields: []FieldFault{{"file", "File", "There is nothing in it, or no file was chosen."}}})
		if err != nil {
			return err
		}
		return v.again(page)
	}
	r, err := s.office.AddChecklist(v.ctx(), v.by(), name, source)
	if err == nil {
		return v.to("/revisions/"+string(r.ID), "It is a draft now. Read it, then put it in force.")
	}
	page := DraftPage{Frame: v.frame("checklists"), Name: name, Action: "/checklists", Source: source, Back: "/checklists"}
	return s.sourceAgain(v, page, err)
}

// sentFile is the text of the file that was sent, with its name, or the field
// "source" where there is no file.
func sentFile(v *visit) (name, source string, err error) {
	header, err := v.c.FormFile("file")
	if errors.Is(err, http.ErrMissingFile) || errors.Is(err, http.ErrNotMultipart) {
		return v.form("name"), v.secret("source"), nil
	}
	if err != nil {
		return "", "", tooLarge(err)
	}
	file, err := header.Open()
	if err != nil {
		return "", "", tooLarge(err)
	}
	defer file.Close()
	text, err := io.ReadAll(file)
	if err != nil {
		return "", "", tooLarge(err)
	}
	return header.Filename, strings.ToValidUTF8(string(text), "\uFFFD"), nil
}

func (s *Site) source(v *visit) error {
	id, err := pathID[assessment.RevisionID](v, "id")
	if err != nil {
		return err
	}
	draft, err := s.office.Draft(v.ctx(), v.by(), id, "")
	if err != nil {
		return err
	}
	return v.show(draftPage(v, draft))
}

func draftPage(v *visit, d office.DraftView) DraftPage {
	at := "/revisions/" + string(d.ID)
	return DraftPage{Frame: v.frame("checklists"), Skill: d.Title, Number: d.Number, Action: at + "/source", Source: d.Source,
		Version: d.Version, Read: d.Source, Discard: at + "/discarding", Back: at}
}

func (s *Site) saveSource(v *visit) error {
	id, err := pathID[assessment.RevisionID](v, "id")
	if err != nil {
		return err
	}
	typed := v.secret("source")
	_, err = s.office.SaveDraft(v.ctx(), v.by(), office.DraftForm{Revision: id, Version: v.form("version"), Source: typed})
	if err == nil {
		return v.to("/revisions/"+string(id), "The draft is saved.")
	}
	draft, gone := s.office.Draft(v.ctx(), v.by(), id, v.secret("read"))
	if gone != nil {
		return gone
	}
	page := draftPage(v, draft)
	page.Source = typed
	if page.Changed = draft.Version != v.form("version"); page.Changed {
		page.Changes = changes(draft.Changes)
	}
	return s.sourceAgain(v, page, err)
}

// sourceAgain shows a text again with all that is wrong in it, each fault beside
// its line.
func (s *Site) sourceAgain(v *visit, page DraftPage, err error) error {
	found, more := office.SourceFaults(err)
	if len(found) == 0 {
		faults, unknown := v.wrong(err, "The checklist is not saved.", label("source", "The checklist, as text"))
		if unknown != nil {
			return unknown
		}
		page.Faults = faults
		return v.again(page)
	}
	n := len(found) + more
	page.Faults = Faults{What: "The checklist is not saved.", Why: count(n, "thing in it needs", "things in it need") + " mending.",
		Next: "Each stands below with its line; your text is still there.", Fields: []FieldFault{{"source", "The checklist, as text", "See the lines named below."}}}
	page.More = more
	lines := strings.Split(strings.ReplaceAll(page.Source, "\r\n", "\n"), "\n")
	for _, f := range found {
		line := SourceLine{Number: f.Line, Step: f.Step, Path: f.Path, Says: f.Says}
		if f.Line > 0 && f.Line <= len(lines) {
			line.Text = lines[f.Line-1]
		}
		page.Lines = append(page.Lines, line)
	}
	return v.again(page)
}

func (s *Site) discardDraft(v *visit) error {
	id, err := pathID[assessment.RevisionID](v, "id")
	if err != nil {
		return err
	}
	if err := s.office.DiscardDraft(v.ctx(), v.by(), id); err != nil {
		return err
	}
	return v.to("/checklists", "The draft is thrown away.")
}
