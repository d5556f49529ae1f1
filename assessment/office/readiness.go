package office

import (
	"context"
	"fmt"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// ReadinessView is whether a child can go home, with what it was judged by.
type ReadinessView struct {
	assessment.Readiness
	Client ClientView // a short one
	Agency AgencyView
	At     time.Time // the instant asked about, on the agency's clocks
	Family []string  // names of the family caregivers on the team that day
	Shifts []ShiftView
	Titles map[string]string // of skills, by code
	Days   PlanDays

	Version string      // of the plan with all that it rests on: what a clinician signs
	Signed  *PlanSigned // nil: nobody has signed it
	body    string
}

// Readiness answers for a child at an instant; the zero one is now. Caregivers may
// ask for their own children.
func (o *Office) Readiness(ctx context.Context, by assessment.Actor, client assessment.ClientID, at time.Time) (ReadinessView, error) {
	var v ReadinessView
	err := o.as(ctx, by, assessment.ReadReadiness, func(tx *postgres.Tx, now Moment) error {
		if err := mayForClient(ctx, tx, now, by, assessment.ReadReadiness, client); err != nil {
			return err
		}
		asked := at
		if asked.IsZero() {
			asked = now.At
		}
		p, err := o.planned(ctx, tx, now, client, civil.DayOf(asked, now.Zone))
		if err != nil {
			return err
		}
		v, err = p.answer(now, asked)
		return err
	})
	return v, err
}

// planned is all that readiness is judged by, read once.
type planned struct {
	client   postgres.Client
	on       civil.Date
	criteria []assessment.Criterion
	evidence []assessment.Evidence
	shifts   []postgres.Shift
	family   []postgres.Member
	cards    map[assessment.PersonID]civil.Date // last day of the longest-lasting
	demands  *demands
	book     *casebook
	titles   map[string]string
	cases    map[assessment.CaseKey]*assessment.Case
	days     PlanDays

	signature *postgres.PlanSignature // the newest; nil: there is none, or it was not asked for
}

func newPlanned(on civil.Date) *planned {
	return &planned{on: on, cards: map[assessment.PersonID]civil.Date{}, titles: map[string]string{}, cases: map[assessment.CaseKey]*assessment.Case{}}
}

func (o *Office) planned(ctx context.Context, tx *postgres.Tx, now Moment, client assessment.ClientID, on civil.Date) (*planned, error) {
	p := newPlanned(on)
	var err error
	if p.client, err = tx.Clients.Get(ctx, client); err != nil {
		return nil, err
	}
	if err := readPlans(ctx, tx, now, p); err != nil {
		return nil, err
	}
	if err := readSignatures(ctx, tx, now, p); err != nil {
		return nil, err
	}
	if err := readCards(ctx, tx, now, on, p.cards); err != nil {
		return nil, err
	}
	if p.demands, err = o.demands(ctx, tx, on, postgres.TeamFilter{Client: client}); err != nil {
		return nil, err
	}
	people := append(p.gatherFamily(), noPerson) // none asks for everybody
	book, err := o.casebook(ctx, tx, now, postgres.HistoryFilter{People: people})
	if err != nil {
		return nil, err
	}
	p.open(book)
	return p, nil
}

// gatherFamily finds the family on the team, and lists whose histories are looked at.
func (p *planned) gatherFamily() []assessment.PersonID {
	var people []assessment.PersonID
	for _, m := range p.demands.members {
		if m.Client == p.client.ID && m.Kind == assessment.Family {
			p.family, people = append(p.family, m), append(people, m.Person)
		}
	}
	for _, s := range p.shifts {
		people = append(people, s.Person)
	}
	return people
}

// open takes a casebook to answer from.
func (p *planned) open(book *casebook) {
	p.book = book
	for code, s := range book.byCode {
		p.titles[code] = s.Title
	}
}

// noPerson is nobody's id.
const noPerson = "00000000-0000-0000-0000-000000000000"

// readPlans reads what some children's plans ask, what was said of it and their
// early shifts, each kind in one go.
func readPlans(ctx context.Context, tx *postgres.Tx, now Moment, plans ...*planned) error {
	of, clients := map[assessment.ClientID]*planned{}, []assessment.ClientID{}
	for _, p := range plans {
		of[p.client.ID], clients = p, append(clients, p.client.ID)
	}
	criteria, err := tx.Plans.Criteria(ctx, clients...)
	if err != nil {
		return fmt.Errorf("read the plan: %w", err)
	}
	for _, c := range criteria {
		of[c.Client].criteria = append(of[c.Client].criteria, c.Rule())
	}
	said, err := tx.Plans.Evidence(ctx, clients...)
	if err != nil {
		return fmt.Errorf("read the evidence: %w", err)
	}
	for _, e := range said {
		of[e.Client].evidence = append(of[e.Client].evidence, e.Said())
	}
	shifts, err := tx.Plans.Shifts(ctx, clients...)
	if err != nil {
		return fmt.Errorf("read the early shifts: %w", err)
	}
	for _, s := range shifts {
		of[s.Client].shifts = append(of[s.Client].shifts, s)
	}
	days, err := tx.Plans.Days(ctx, now.At, clients...)
	if err != nil {
		return fmt.Errorf("read the days of going home: %w", err)
	}
	for _, d := range days {
		of[d.Client].days = PlanDays{d.MeetingOn, d.HomeOn}
	}
	return nil
}

// readSignatures reads the newest signature under each of some plans, in one go.
func readSignatures(ctx context.Context, tx *postgres.Tx, now Moment, plans ...*planned) error {
	of, clients := map[assessment.ClientID]*planned{}, []assessment.ClientID{}
	for _, p := range plans {
		of[p.client.ID], clients = p, append(clients, p.client.ID)
	}
	signed, err := tx.Plans.Signatures(ctx, now.At, clients...)
	if err != nil {
		return fmt.Errorf("read who signed the plan: %w", err)
	}
	for i, s := range signed {
		of[s.Client].signature = &signed[i]
	}
	return nil
}

// readCards finds the last day of everybody's longest-lasting card, of those that
// were on file by a day.
func readCards(ctx context.Context, tx *postgres.Tx, now Moment, on civil.Date, ends map[assessment.PersonID]civil.Date) error {
	cards, err := tx.Qualifications.Cards(ctx, "")
	if err != nil {
		return fmt.Errorf("read the cards: %w", err)
	}
	for _, c := range cards {
		if civil.DayOf(c.RecordedAt, now.Zone).After(on) {
			continue
		}
		ends[c.Person] = civil.Later(ends[c.Person], c.ThroughOn)
	}
	return nil
}

// standing is that of a person in a skill, with this client where it is held per
// client. There is none in a skill that the agency does not have.
func (p *planned) standing(person assessment.PersonID, code string, on civil.Date) (assessment.Standing, error) {
	skill, ok := p.book.byCode[code]
	if !ok {
		return assessment.Standing{On: on, Word: assessment.NotStarted}, nil
	}
	key := assessment.CaseKey{Person: person, Skill: skill.ID, Client: p.client.ID}
	c, ok := p.cases[key]
	if !ok {
		var err error
		if c, err = p.book.caseOf(key); err != nil {
			return assessment.Standing{}, err
		}
		p.cases[key] = c
	}
	return c.On(on), nil
}

// answer puts together what the core asks for and hands it over.
func (p *planned) answer(now Moment, at time.Time) (ReadinessView, error) {
	v := ReadinessView{Client: shortClient(p.client), Agency: viewAgency(now.Agency), At: at.In(now.Zone), Titles: p.titles, Days: p.days}
	criteria := p.asked()
	facts := assessment.Facts{At: at, Known: now.At, Zone: now.Zone, Evidence: p.evidence, Titles: p.titles, Going: p.days.By()}
	for _, m := range p.family {
		r := assessment.Relative{Name: m.Name, Standings: map[string]assessment.Standing{}, CardEnds: p.cards[m.Person]}
		for _, code := range skillsOf(criteria, assessment.FamilyCurrent, assessment.EmergencyDrills) {
			s, err := p.standing(m.Person, code, p.on)
			if err != nil {
				return v, err
			}
			r.Standings[code] = s
		}
		facts.Family, v.Family = append(facts.Family, r), append(v.Family, m.Name)
	}
	early := p.skills(assessment.EarlyShifts)
	for _, s := range p.shifts {
		shift := viewShift(s, now.Zone)
		lacks, err := p.lacking(s, shift, early)
		if err != nil {
			return v, err
		}
		facts.Shifts, v.Shifts = append(facts.Shifts, assessment.ShiftFact{Label: shift.label(), Lacks: lacks}), append(v.Shifts, shift)
	}
	v.Readiness = assessment.Assess(criteria, facts)
	var err error
	if v.body, err = p.body(now.Agency.Code, v.Readiness, facts); err != nil {
		return v, err
	}
	v.Version, v.Signed = bodyVersion(v.body), p.signedNow(v, now)
	return v, nil
}
