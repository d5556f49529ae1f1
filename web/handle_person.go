package web

import (
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
)

func (s *Site) person(v *visit) error {
	id, err := pathID[assessment.PersonID](v, "id")
	if err != nil {
		return err
	}
	on, err := v.day("on")
	if err != nil {
		return err
	}
	page, err := s.personPage(v, id, on)
	if err != nil {
		return err
	}
	return v.show(page)
}

// personPage is all that is known of somebody on a day; forms are offered for
// today only.
func (s *Site) personPage(v *visit, id assessment.PersonID, on civil.Date) (PersonPage, error) {
	d, err := s.office.PersonDesk(v.ctx(), v.by(), id, on)
	if err != nil {
		return PersonPage{}, err
	}
	here := "people"
	if !v.may(assessment.ReadReports) {
		here = ""
	}
	p, w := d.Person, v.words()
	page := PersonPage{Frame: v.frame(here), ID: string(id), Name: p.Name, Kind: kindIn(w, office.PersonRef{Kind: p.Kind, Relation: p.Relation}),
		Roles: rolesIn(w, p.Roles), Email: p.Email, Left: !p.LeftOn.IsZero() && !d.On.Before(p.LeftOn), LeavesOn: w.ShortDay(p.LeftOn),
		On: isoDay(d.On), Day: fullDay(w, d.On), Today: d.On == d.Today, MaySeeRules: v.may(assessment.ReadReports), Part: d.Part}
	page.Transcript = transcriptOf(id, "")
	if v.may(assessment.HandOver) {
		page.Handover = handoverAt(id)
	}
	if !page.Today {
		page.Transcript = transcriptOf(id, page.On)
	}
	if v.may(assessment.AskPacket) {
		page.Packet = packetFor("person", id, "", "", "", page.On)
	}
	page.count(d, v)
	page.papers(w, d.Qualifications, skillTitles(d))
	page.History = history(w, d, v.zone())
	for _, l := range d.Coming {
		line := coverLine(l)
		if !v.may(assessment.ReadReports) {
			line.Href = ""
		}
		page.Coming = append(page.Coming, line)
	}
	for _, e := range d.CarriedIn {
		page.CarriedIn = append(page.CarriedIn, carriedLine(e))
	}
	for _, l := range d.Hours {
		page.Hours = append(page.Hours, inServiceLine(l))
	}
	for _, l := range d.Supervised {
		page.Supervised = append(page.Supervised, supervisionLine(v.words(), l, d.Today, v.may(assessment.LogPractice)))
	}
	for _, i := range d.Incidents {
		page.Incidents = append(page.Incidents, incidentLine(v.words(), i))
	}
	if page.Today && v.may(assessment.Observe) && p.Kind != "" && !page.Left && id != v.by().Person {
		page.Drill = drillsAt + "/new?learner=" + string(id)
	}
	if page.Today && v.may(assessment.RecordIncident) && p.Kind != "" {
		page.NewIncident = incidentsAt + "/new?person=" + string(id)
	}
	if page.Today {
		page.offer(v, d)
	}
	return page, page.fresh(s, d)
}

// count fills in the standings, and counts them for the head of the page.
func (p *PersonPage) count(d office.PersonDesk, v *visit) {
	shown := evidence{d.Records, v.zone(), v.words()}
	for _, row := range worstFirst(d.Rows) {
		line := standing(v.words(), row)
		line.Evidence = shown.links(row.Because)
		line.Certificate = certificateOf(row, d)
		if p.Today && d.MayObserve(row.Skill.ID) && (row.Word.Holds() || row.Next.Demonstrations > 0) {
			line.Start = startAddress(row.Person.ID, row.Skill.Code, row.Client.ID)
		}
		p.Standings = append(p.Standings, line)
		switch {
		case row.Word == assessment.Lapsed, row.Word == assessment.Withdrawn:
			p.Lapsed++
		case row.Word == assessment.Due:
			p.Due++
			p.Current++
		case row.Word == assessment.Current:
			p.Current++
		case row.Required:
			p.NotYet++
		}
	}
}

// offer opens the forms that this reader may send about this person.
func (p *PersonPage) offer(v *visit, d office.PersonDesk) {
	self := d.Person.ID == v.by().Person
	p.May = PersonActs{Withdraw: v.may(assessment.Withdraw), Waive: v.may(assessment.Waive) && !self, Reinstate: v.may(assessment.Reinstate) && !self,
		Papers: v.may(assessment.EditPeople) && !self, Log: v.may(assessment.LogCare) && !self, Correct: v.may(assessment.Correct) && !self, Leave: v.may(assessment.EditPeople),
		Link: d.Identity.MayLink}
	p.Vouch = VouchForm{May: d.Identity.MayVouch, Waits: d.Identity.Waits, Links: linkLines(v.words(), d.Identity.Links, v.zone())}
	p.NoLink, p.CannotSign = d.Identity.NoLink, cannotSign(v.words(), d.Identity, self)
	p.NoRole = v.noRole(d.Person.Roles)
	p.Devices = deviceLines(v.words(), d.Devices, v.zone(), func(id string) string { return "/people/" + p.ID + "/devices/" + id + "/revocation" })
	p.Invites, p.Codes.May = d.Identity.Invited, d.Identity.MayEndCodes
	if v.may(assessment.EditPeople) {
		p.Edit = "/people/" + p.ID + "/edit"
	}
	for _, row := range d.Rows {
		o := caseOption(row.Skill, row.Client)
		if row.Word != assessment.NotStarted {
			p.Withdraw.Skills = append(p.Withdraw.Skills, o)
		}
		if row.Required {
			p.Waive.Skills = append(p.Waive.Skills, o)
		}
	}
	for _, k := range d.Skills {
		p.Log.Skills = append(p.Log.Skills, caseOption(k.Skill, k.Client))
	}
	if p.May.Reinstate {
		for _, w := range d.Withdrawals {
			o := caseOption(office.SkillRef{Title: w.Title}, w.Client)
			p.Reinstate.Withdrawals = append(p.Reinstate.Withdrawals, Option{Value: string(w.ID), Text: o.Text + ", " + day(w.On)})
		}
	}
	p.takenBackPapers(d.Qualifications)
	p.takenBackHappenings(d)
	p.May.Withdraw = p.May.Withdraw && len(p.Withdraw.Skills) > 0
	p.May.Waive = p.May.Waive && len(p.Waive.Skills) > 0
	p.May.Log = p.May.Log && len(p.Log.Skills) > 0
	// Nothing is chosen beforehand: what is signed in haste must not be the first of a list.
	for _, list := range []*[]Option{&p.Withdraw.Skills, &p.Waive.Skills, &p.Log.Skills} {
		*list = append([]Option{{Text: "Choose the skill"}}, *list...)
	}
	if len(p.Reinstate.Withdrawals) > 0 {
		p.Reinstate.Withdrawals = append([]Option{{Text: "Choose the withdrawal"}}, p.Reinstate.Withdrawals...)
	}
	p.Waive.From, p.Log.On, p.Log.Kind = p.On, p.On, string(assessment.TeachingEntry)
}

// fresh gives the forms the ids of what they will make.
func (p *PersonPage) fresh(s *Site, d office.PersonDesk) error {
	var err error
	for _, id := range []*string{&p.Withdraw.ID, &p.Waive.ID, &p.Reinstate.ID} {
		if *id, err = s.office.NewID(); err != nil {
			return err
		}
	}
	return nil
}

// sentCase reads what caseOption has written.
func (v *visit) sentCase() (string, assessment.ClientID, error) {
	code, client, specific := strings.Cut(v.form("skill"), " ")
	if !specific {
		return code, "", nil
	}
	id, err := assessment.ParseID[assessment.ClientID](client)
	return code, id, err
}

// noRole says to those who keep people that somebody cannot sign in, and who changes it.
func (v *visit) noRole(roles []assessment.Role) string {
	switch {
	case len(roles) > 0 || !v.may(assessment.EditPeople):
		return ""
	case v.may(assessment.GiveRoles):
		return "no role yet: cannot sign in"
	}
	return "no role yet: cannot sign in before an administrator gives one and invites them"
}
