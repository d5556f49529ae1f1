package web

import (
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

func (s *Site) client(v *visit) error {
	id, err := pathID[assessment.ClientID](v, "id")
	if err != nil {
		return err
	}
	page, err := s.clientPage(v, id)
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) clientPage(v *visit, id assessment.ClientID) (ClientPage, error) {
	d, err := s.office.ClientDesk(v.ctx(), v.by(), id)
	if err != nil {
		return ClientPage{}, err
	}
	at := "/clients/" + string(id)
	w := v.words()
	page := ClientPage{Frame: v.frame("children"), ID: string(id), Code: d.Code, Name: d.FirstName, Since: w.ShortDay(d.SinceOn), Readiness: at + "/readiness", HomePapers: at + "/home-papers", Left: d.Way.Left,
		All: d.Way.All, Ready: d.Way.Ready, Signed: d.Way.Signed, MayChange: v.may(assessment.EditClients), MaySet: v.may(assessment.SetParameters), Today: d.Today}
	for _, says := range d.Missing {
		page.Missing = append(page.Missing, shortly(says))
	}
	if page.MayChange {
		page.Edit = at + "/edit"
	}
	if v.may(assessment.AskPacket) {
		page.Packet = packetFor("child", "", "", id, "", "")
	}
	if v.may(assessment.ReadReports) {
		page.Roster = rosterAt(id)
		page.Standings = "/standings?client=" + page.ID
	}
	page.numbers(d, at, v)
	page.devices(w, d, at)
	for _, c := range d.Team {
		page.Team = append(page.Team, page.carer(c, at, v))
	}
	page.needs(w, d.Needs)
	page.Join = JoinForm{People: []Option{{Text: "Choose who joins"}}, From: d.Today}
	for _, p := range d.Others {
		page.Join.People = append(page.Join.People, Option{Value: string(p.ID), Text: p.Name + ", " + kindOf(p)})
	}
	page.Join.ID, err = s.office.NewID()
	return page, err
}

// shortly is what an ordered value is, without by whom and from where.
func shortly(says string) string {
	says, _, _ = strings.Cut(says, ",")
	return says
}

// needs lists what is required, each skill once for those who must hold it for
// the same cause.
func (p *ClientPage) needs(w wording.Words, needs []office.NeedView) {
	whose := map[Need][]assessment.CaregiverKind{}
	for _, n := range needs {
		need := Need{Skill: n.Skill.Title}
		switch {
		case n.EquipmentKind != "":
			need.Why = w.Say("by equipment: %s", word(w, equipment, n.EquipmentKind))
		case n.ForClient:
			need.Why = w.Say("for %s alone", p.Name)
		}
		if _, known := whose[need]; !known {
			p.Needs = append(p.Needs, need)
		}
		whose[need] = append(whose[need], n.Kind)
	}
	for i, need := range p.Needs {
		p.Needs[i].Who = eachOfAll(w, whose[need])
	}
}

// eachOfAll names everybody of some kinds: "each family caregiver and each nurse".
func eachOfAll(w wording.Words, kinds []assessment.CaregiverKind) string {
	if slices.Contains(kinds, "") || len(kinds) >= len(assessment.CaregiverKinds) {
		return eachOf(w, "")
	}
	var words []string
	for _, k := range assessment.CaregiverKinds {
		if slices.Contains(kinds, k) {
			words = append(words, eachOf(w, k))
		}
	}
	return w.List(words)
}

// numbers lists what is ordered, and what counts by default where nothing is.
func (p *ClientPage) numbers(d office.ClientDesk, at string, v *visit) {
	w := v.words()
	unitSaid := func(unit string) string { return w.Of(assessment.UnitPhrase(unit)) }
	for _, n := range d.Parameters {
		line := Parameter{Name: shortly(n.Says), Value: Worded{Text: n.Value}, Unit: unitSaid(n.Unit), By: n.SetBy, Since: w.ShortDay(civil.DayOf(n.SetAt, v.zone()))}
		switch {
		case n.Set && n.Value == "":
			line.Value, line.Unit = orderSaid(w, n.Name, n.Words), ""
		case !n.Set && n.Default == "":
			continue
		case !n.Set:
			value, unit, _ := strings.Cut(n.Default, " ")
			line.Value, line.Unit, line.Since = Worded{Text: value}, unitSaid(unit), ""
		}
		if p.MaySet {
			line.Change = at + "/parameters/new?parameter=" + n.Name
		}
		p.Parameters = append(p.Parameters, line)
	}
}

// orderSaid is an order in words. Whether air passes through mouth and nose is answered by
// a word that means another thing elsewhere.
func orderSaid(w wording.Words, parameter, words string) Worded {
	if parameter == "upper_airway" && w.Language() != wording.English {
		switch words {
		case "open":
			return worded(w.Say("yes: air passes"), true)
		case "none":
			return worded(w.Say("no: air cannot pass"), true)
		}
	}
	return typed(w, words)
}

func (p *ClientPage) devices(w wording.Words, d office.ClientDesk, at string) {
	for _, e := range d.Equipment {
		line := Device{Kind: word(w, equipment, e.Kind), Type: e.Type, From: w.ShortDay(e.From)}
		for _, h := range e.History {
			if h.From == e.From && h.Type == e.Type {
				continue
			}
			what := h.Type
			if what == "" {
				what = w.Say("none")
			}
			line.History = append(line.History, w.Say("%s from %s", what, w.ShortDay(h.From)))
		}
		if p.MayChange {
			line.Change = at + "/equipment/new?kind=" + queryWord(e.Kind)
		}
		p.Equipment = append(p.Equipment, line)
	}
}

func (p *ClientPage) carer(c office.CarerView, at string, v *visit) Carer {
	w := v.words()
	line := Carer{Name: c.Name, Kind: kindIn(w, office.PersonRef{Kind: c.Kind, Relation: c.Relation}), Days: w.Say("since %s", w.ShortDay(c.From)),
		Standing: string(c.Worst), Current: c.Current, Required: c.Required}
	if v.by().MayFor(assessment.ReadStandings, c.Person, false) == nil {
		line.Href = "/people/" + string(c.Person)
	} else { // how others stand is theirs and the agency's
		line.Standing, line.Current, line.Required = "", 0, 0
	}
	if !c.Here {
		line.Days = w.Say("from %s", w.ShortDay(c.From))
	}
	if !c.Through.IsZero() {
		line.Days = w.Say("%s through %s", w.ShortDay(c.From), w.ShortDay(c.Through))
	}
	if p.MayChange && c.Here && (c.Through.IsZero() || c.Through.String() > p.Today) {
		line.End = at + "/team/" + string(c.ID) + "/end"
	}
	return line
}

func (s *Site) joinTeam(v *visit) error {
	person, err := formID[assessment.PersonID](v, "person")
	if err != nil {
		return err
	}
	form := office.TeamForm{Person: person, From: v.form("from"), Through: v.form("through")}
	return s.onTeam(v, "They are on the team.", func(id assessment.ClientID) error {
		_, err := s.office.AddToTeam(v.ctx(), v.by(), id, form)
		return err
	}, func(page *ClientPage, err error) error {
		page.Join.Person, page.Join.From, page.Join.Through = string(person), form.From, form.Through
		return v.take(&page.Join.Faults, err, "Nobody joined the team.", label("person", "Person"), label("from", "From"), label("through", "Last day"))
	})
}

func (s *Site) endTeam(v *visit) error {
	stretch, err := pathID[assessment.RecordID](v, "member")
	if err != nil {
		return err
	}
	return s.onTeam(v, "Today is their last day on the team.", func(id assessment.ClientID) error {
		_, err := s.office.EndOnTeam(v.ctx(), v.by(), id, stretch, v.form("through"))
		return err
	}, func(page *ClientPage, err error) error {
		f, known := fault.As(err)
		if !known || f.Kind == fault.NotFound {
			return err
		}
		page.Faults = Faults{What: "Their last day was not set.", Why: f.Error()}
		return nil
	})
}

// onTeam changes the team of the child whom the address names. Where that is
// refused the child's page is drawn again, with the form as it was typed.
func (s *Site) onTeam(v *visit, done string, do func(assessment.ClientID) error, again func(*ClientPage, error) error) error {
	id, err := pathID[assessment.ClientID](v, "id")
	if err != nil {
		return err
	}
	refused := do(id)
	if refused == nil {
		return v.to("/clients/"+string(id), done)
	}
	page, err := s.clientPage(v, id)
	if err != nil {
		return err
	}
	if err := again(&page, refused); err != nil {
		return err
	}
	return v.again(page)
}
