package crowd

import (
	"fmt"
	"maps"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/integration/ward"
)

// Child is one of the children.
type Child struct {
	ID        assessment.ClientID
	Code      string
	Name      string
	From      civil.Date
	Left      civil.Date // zero: still there
	Equipment []fitted   // in order of day
}

// fitted is what a child has from a day on.
type fitted struct {
	from civil.Date
	has  map[string]string
}

// on is what a child has on a day.
func (c Child) on(d civil.Date) map[string]string {
	has := c.Equipment[0].has
	for _, f := range c.Equipment {
		if !f.from.After(d) {
			has = f.has
		}
	}
	return has
}

// Caregiver is one of the many.
type Caregiver struct {
	ID    assessment.PersonID
	Name  string
	Kind  assessment.CaregiverKind
	From  civil.Date
	Left  civil.Date // zero: still there
	Cares []int      // indexes of children
}

// observer is an educator, with the licence that their signatures show.
type observer struct {
	id      assessment.PersonID
	name    string
	licence string
}

var (
	first = []string{"Ada", "Bela", "Chidi", "Dana", "Emre", "Finn", "Gül", "Hana", "Imre", "Jo", "Kofi", "Lan", "Mai", "Noor", "Ola", "Petra", "Quim", "Ruth", "Sam", "Tomasz", "Uma", "Vera", "Wim", "Ximena", "Yara", "Zofia"}
	last  = []string{"Adeyemi", "Bałut", "Castell", "Dorn", "Eide", "Farrow", "Grange", "Haddad", "Ikeda", "Jarvis", "Kovács", "Lindqvist", "Marsh", "Nwosu", "Okoro", "Prewitt", "Quist", "Rybak", "Sá", "Teague", "Ueda", "Vance", "Whitlock", "Xu", "Yilmaz", "Zander"}
)

// called is the name of the person with a number: no two have the same.
func called(n int) string {
	name := first[n%len(first)] + " " + last[n/len(first)%len(last)]
	if round := n / len(first) / len(last); round > 0 {
		name += fmt.Sprintf(" %c.", 'A'+rune(round))
	}
	return name
}

// addChildren adds the children, each with the ward's equipment; of one in ten the
// humidifier is another from some day on.
func (c *Crowd) addChildren() {
	opened := c.at(Opened)
	for i := range c.Size.Children {
		child := Child{ID: assessment.ClientID(c.id()), Code: fmt.Sprintf("K%03d", i), Name: first[i%len(first)], From: c.dayBetween(Opened.AddDays(1), Opened.AddDays(300)),
			Equipment: []fitted{{from: Opened, has: ward.Fitted}}}
		if c.one(30) {
			child.Left = c.dayBetween(child.From.AddDays(60), Now)
		}
		c.tables.add("client", c.Admin.Agency, child.ID, child.Code, child.Name, opened, day(child.Left))
		for _, kind := range slices.Sorted(maps.Keys(ward.Fitted)) {
			c.equip(child, kind, ward.Fitted[kind], Opened, opened)
		}
		if c.one(10) {
			other := maps.Clone(ward.Fitted)
			other["humidifier"] = "passive"
			from := c.dayBetween(Opened.AddDays(200), Now)
			child.Equipment = append(child.Equipment, fitted{from, other})
			c.equip(child, "humidifier", "passive", from, c.at(from))
		}
		c.Children = append(c.Children, child)
	}
}

func (c *Crowd) equip(child Child, kind, model string, from civil.Date, at time.Time) {
	c.tables.add("client_equipment", c.Admin.Agency, c.id(), child.ID, kind, model, day(from), at, c.Coordinator.Person)
}

// addObservers adds an educator for every fifty caregivers, with a licence, and those of the ward.
func (c *Crowd) addObservers() {
	opened := c.at(Opened)
	for _, e := range c.Ward.Educators {
		o := observer{e.Person, e.Name, "RN W-0001"}
		c.appoint(o, opened)
		c.observers = append(c.observers, o)
	}
	for i := range c.Size.Caregivers/50 + 1 {
		o := observer{assessment.PersonID(c.id()), "Educator " + called(i), fmt.Sprintf("RN C-%04d", i)}
		c.tables.add("person", c.Admin.Agency, o.id, o.name, "", "", "", "en", opened, nil)
		c.tables.add("person_role", c.Admin.Agency, o.id, string(assessment.Educator), opened, c.Admin.Person)
		c.tables.add("licence", c.Admin.Agency, c.id(), o.id, "RN", o.licence[3:], nil, opened, c.Admin.Person)
		c.appoint(o, opened)
		c.observers = append(c.observers, o)
	}
}

// appoint gives an educator an appointment for all skills that still goes on, agreed by
// one of the ward's whom it is not about.
func (c *Crowd) appoint(o observer, at time.Time) {
	id, second := c.id(), c.Ward.Educators[0].Person
	if o.id == second {
		second = c.Ward.Educators[1].Person
	}
	c.tables.add("appointment", c.Admin.Agency, id, o.id, c.codes(), day(Opened), day(Now.AddDays(200)), true, "Judged these at a teaching hospital.", c.Admin.Person, at)
	c.tables.add("appointment_agreement", c.Admin.Agency, id, second, at)
}

// addCaregivers adds the many: where they work, until when, and all they ever showed.
func (c *Crowd) addCaregivers() {
	for i := range c.Size.Caregivers {
		p := Caregiver{ID: assessment.PersonID(c.id()), Name: called(i), From: c.dayBetween(Opened.AddDays(1), Now.AddDays(-30)), Kind: assessment.Nurse}
		switch relation := ""; i % 20 {
		case 3, 8, 13, 18:
			p.Kind = assessment.Aide
			c.caregiver(&p, relation)
		case 5, 15:
			p.Kind = assessment.Family
			c.caregiver(&p, []string{"mother", "father", "aunt"}[i%3])
		default:
			c.caregiver(&p, relation)
		}
		c.Caregivers = append(c.Caregivers, p)
	}
}

func (c *Crowd) caregiver(p *Caregiver, relation string) {
	if c.one(30) {
		p.Left = c.dayBetween(p.From.AddDays(20), Now.AddDays(60))
	}
	added := c.at(p.From)
	c.tables.add("person", c.Admin.Agency, p.ID, p.Name, string(p.Kind), relation, "", "en", added, day(p.Left))
	c.tables.add("person_role", c.Admin.Agency, p.ID, string(assessment.Caregiver), added, c.Admin.Person)
	for range c.between(1, 3) {
		if child := c.random.IntN(len(c.Children)); !slices.Contains(p.Cares, child) {
			p.Cares = append(p.Cares, child)
			c.join(p, child)
		}
	}
	for issued := c.dayBetween(p.From.AddDays(-300), p.From.AddDays(20)); issued.Before(Now); issued = issued.AddDays(c.between(650, 800)) {
		c.tables.add("resuscitation_card", c.Admin.Agency, c.id(), p.ID, "Lifeline Courses", day(issued), day(issued.AddMonths(24).MonthEnd()), c.at(latest(issued, p.From)), c.Admin.Person)
	}
	c.histories(p)
}

// join puts a caregiver on a team: until further notice, or until some day.
func (c *Crowd) join(p *Caregiver, child int) {
	from, through := latest(p.From, c.Children[child].From), civil.Date{}
	if c.one(15) {
		through = c.dayBetween(from, Now.AddDays(90))
	}
	c.tables.add("care_team", c.Admin.Agency, c.id(), c.Children[child].ID, p.ID, day(from), day(through), c.at(p.From), c.Coordinator.Person)
}

func latest(a, b civil.Date) civil.Date {
	if a.Before(b) {
		return b
	}
	return a
}

// require demands all of nurses, two of three of aides, and of families; one skill of
// whoever cares for a child with a humidifier, one of one child's team; one demand has
// ended and one begins later.
func (c *Crowd) require() {
	from := Opened.AddDays(1)
	for i, s := range c.Skills {
		c.demand(s, requirement{kind: assessment.Nurse, from: from})
		if i%3 != 2 {
			c.demand(s, requirement{kind: assessment.Aide, from: from})
		}
		if i%3 != 1 {
			c.demand(s, requirement{kind: assessment.Family, from: from.AddDays(i)})
		}
	}
	c.demand(c.Skills[2], requirement{equipment: "humidifier", from: from.AddDays(100)})
	c.demand(c.Skills[1], requirement{child: c.Children[0].ID, from: from})
	c.demand(c.Skills[4], requirement{kind: assessment.Family, from: from, through: Now.AddDays(-200)})
	c.demand(c.Skills[5], requirement{kind: assessment.Aide, from: Now.AddDays(75)})
}

type requirement struct {
	kind          assessment.CaregiverKind
	child         assessment.ClientID
	equipment     string
	from, through civil.Date
}

func (c *Crowd) demand(s Skill, r requirement) {
	c.tables.add("requirement", c.Admin.Agency, c.id(), s.ID, string(r.kind), orNull(r.child), r.equipment, day(r.from), day(r.through), c.at(Opened), c.Coordinator.Person)
}
