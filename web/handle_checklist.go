package web

import (
	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/phrase"
	"wellshown/assessment/wording"
)

func (s *Site) starter(v *visit) error {
	code := v.c.Param("code")
	r, err := s.office.ReadStarter(v.ctx(), v.by(), code)
	if err != nil {
		return err
	}
	page := readingPage(v.frame("checklists"), r)
	page.State = "starter"
	if !r.Taken && v.may(assessment.EditChecklists) {
		page.Adopt = "/catalogue/" + code
	}
	return v.show(page)
}

func (s *Site) checklist(v *visit) error {
	id, err := pathID[assessment.RevisionID](v, "id")
	if err != nil {
		return err
	}
	page, err := s.checklistPage(v, id)
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) checklistPage(v *visit, id assessment.RevisionID) (ChecklistPage, error) {
	r, err := s.office.ReadChecklist(v.ctx(), v.by(), id)
	if err != nil {
		return ChecklistPage{}, err
	}
	page := readingPage(v.frame("checklists"), r)
	page.offer(v, r)
	return page, nil
}

// offer adds what the reader may do with a revision as it stands.
func (p *ChecklistPage) offer(v *visit, r office.ChecklistReading) {
	at := "/revisions/" + string(r.ID)
	p.Number, p.State, p.Since, p.BlankPDF = r.Number, string(r.State), sinceOf(r.RevisionView, v), at+"/blank.pdf"
	if r.Older != "" {
		p.Compare = at + "/compare"
	}
	if r.State == assessment.InForce && v.may(assessment.Observe) {
		p.Start = "/demonstrations/new?skill=" + r.Checklist.Code
	}
	if r.State == assessment.InForce && v.may(assessment.PutInForce) {
		p.Retire = at + "/retirement"
	}
	p.proposed(v, r)
	if r.State == assessment.Draft && p.Waits == "" && v.may(assessment.PutInForce) {
		p.PutFor = at + "/in-force?read=" + r.Version
	}
	if r.State == assessment.Draft && p.Waits == "" && v.may(assessment.EditChecklists) {
		p.Edit = at + "/source"
	}
	if r.Newest && !r.HasDraft && v.may(assessment.EditChecklists) {
		p.Next = "/skills/" + string(r.Skill) + "/revisions"
	}
	if r.InForceAt != nil {
		p.Reviewed = []Signature{{Name: r.InForceBy, As: v.say("reviewer"), Meaning: r.Statement, At: v.words().Instant(*r.InForceAt, r.Zone)}}
		for _, q := range r.Proposals {
			if q.Verdict == assessment.ForceAgreed {
				p.Reviewed = append(p.Reviewed, Signature{Name: q.EndedBy.Name, As: v.say("second person"), Meaning: "I have read it and seen what it changes, and agree.", At: v.words().Instant(q.EndedAt, r.Zone)})
				p.Reviewed[0].At = v.words().Instant(q.ProposedAt, r.Zone)
			}
		}
	}
}

// proposed says what waits for a second person.
func (p *ChecklistPage) proposed(v *visit, r office.ChecklistReading) {
	for _, q := range r.Proposals {
		if q.Verdict != "" {
			continue
		}
		p.Waits = v.say("%s has proposed on %s to put it in force. It is in force once another licensed educator has agreed, and nobody edits it meanwhile.", q.ProposedBy.Name, v.words().Instant(q.ProposedAt, r.Zone))
		if v.may(assessment.PutInForce) {
			p.Proposal = proposalsAt + string(q.ID)
		}
	}
}

// readingPage is a checklist to read, in the language of the frame.
func readingPage(frame Frame, r office.ChecklistReading) ChecklistPage {
	list, w := r.Checklist, frame.Words()
	page := ChecklistPage{Frame: frame, Skill: list.Title, Specific: list.Scope == assessment.ClientSpecific, Intro: list.Purpose,
		Safety: list.Safety, Equipment: list.Equipment, Policy: saidAll(w, list.Policy.Phrases()), Before: skillLinks(r.Before), Related: skillLinks(r.Around), Sources: list.Sources}
	for _, p := range list.Parameters {
		says := p.Says
		if _, known := w.Theirs(says); !known {
			says = shortly(says)
		}
		page.Needs = append(page.Needs, says)
	}
	for _, section := range list.Sections {
		shown := Section{Title: section.Title}
		for _, step := range section.Steps {
			shown.Steps = append(shown.Steps, stepToRead(w, step, list))
		}
		page.Sections = append(page.Sections, shown)
	}
	return page
}

func skillLinks(named []office.NamedSkill) []Link {
	var links []Link
	for _, n := range named {
		l := Link{Text: n.Title}
		if n.Title == "" {
			l.Text = n.Code
		}
		if n.Revision != "" {
			l.Href = "/revisions/" + string(n.Revision)
		}
		links = append(links, l)
	}
	return links
}

func stepToRead(w wording.Words, s assessment.Step, list assessment.Checklist) Step {
	step := Step{Number: s.No, Text: spoken(s.Text, list, nil), Kind: string(s.Kind), Accepts: spokenIn(w, ranges(s), list, nil), Weight: s.Weight,
		Note: spokenIn(w, phrase.Of("%s", phrase.Step(s.Note)), list, nil), NotApply: spokenIn(w, phrase.Of("%s", phrase.Step(s.MayNotApply)), list, nil)}
	if s.Critical {
		step.Critical, step.Least = s.Because, string(s.Least)
	}
	return step
}

// ranges says what the values of a step must be, with the child's values by name.
func ranges(s assessment.Step) phrase.Phrase {
	var all phrase.Phrase
	either := map[string]bool{}
	for _, m := range s.Measures {
		one := phrase.Of("%s %s", phrase.Step(m.Name), m.Phrase())
		switch {
		case all.IsZero():
			all = one
		case m.Either != "" && either[m.Either]:
			all = phrase.Of("%s, or %s", all, one)
		default:
			all = phrase.Of("%s; %s", all, one)
		}
		either[m.Either] = true
	}
	return all
}

func (s *Site) compare(v *visit) error {
	id, err := pathID[assessment.RevisionID](v, "id")
	if err != nil {
		return err
	}
	var with assessment.RevisionID
	if v.query("with") != "" {
		if with, err = assessment.ParseID[assessment.RevisionID](v.query("with")); err != nil {
			return err
		}
	}
	c, err := s.office.CompareWith(v.ctx(), v.by(), id, with)
	if err != nil {
		return err
	}
	at := "/revisions/" + string(id)
	page := ComparePage{Frame: v.frame("checklists"), Skill: c.Newer.Title, Older: c.Older.Number, Newer: c.Newer.Number, Action: at + "/compare", With: string(with), Back: at}
	if with == "" {
		page.With = string(c.Older.ID)
	}
	for _, o := range c.Others {
		page.Others = append(page.Others, Option{Value: string(o.ID), Text: v.say("revision %d", o.Number) + ", " + word(v.words(), states, string(o.State))})
	}
	for _, one := range c.Changes {
		page.Changes = append(page.Changes, changeSaid(v.words(), one))
	}
	return v.show(page)
}

func changes(found []assessment.Change) []Change {
	var shown []Change
	for _, c := range found {
		shown = append(shown, change(c))
	}
	return shown
}

// change puts one difference into the words of the page.
func change(c assessment.Change) Change {
	return Change{How: string(c.How), Where: placeOf(c).String(), Before: c.Before.String(), After: c.After.String()}
}

func (s *Site) blankPDF(v *visit) error {
	id, err := pathID[assessment.RevisionID](v, "id")
	if err != nil {
		return err
	}
	body, name, err := s.opt.Papers.Blank(v.ctx(), v.by(), id)
	if err != nil {
		return err
	}
	return file(v.c, body, name, "application/pdf")
}
