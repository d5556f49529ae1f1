package office

import (
	"context"
	"fmt"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// dayBook is what a skills day is worked out from, read once for everybody.
type dayBook struct {
	on      civil.Date
	book    *casebook
	names   names
	people  map[assessment.PersonID]postgres.Person
	needs   map[assessment.PersonID][]assessment.Need
	cares   map[assessment.PersonID][]ClientRef
	shown   []postgres.Shown
	sheets  []postgres.Sheet // open ones of the day
	seen    map[assessment.PersonID]assessment.Observation
	planned *plan
	checks  checkBook
}

func (o *Office) readDay(ctx context.Context, tx *postgres.Tx, now Moment, p *plan) (*dayBook, error) {
	d := &dayBook{on: p.day.HeldOn, planned: p, people: map[assessment.PersonID]postgres.Person{}, cares: map[assessment.PersonID][]ClientRef{},
		seen: map[assessment.PersonID]assessment.Observation{}}
	who := append(p.comes(), p.day.PlannedBy) // never nobody: that would be everybody
	for _, s := range p.stations {
		who = append(who, s.ObserverID)
	}
	who = distinct(who)
	var err error
	if d.book, err = o.casebook(ctx, tx, now, postgres.HistoryFilter{People: who}); err != nil {
		return nil, err
	}
	if d.names, err = o.names(ctx, tx); err != nil {
		return nil, err
	}
	people, err := tx.People.List(ctx, postgres.PeopleFilter{Among: who, IncludeLeft: true})
	if err != nil {
		return nil, err
	}
	for _, person := range people {
		d.people[person.ID] = person
	}
	asked, err := o.demands(ctx, tx, d.on, postgres.TeamFilter{})
	if err != nil {
		return nil, err
	}
	d.needs = asked.byPerson()
	for _, m := range asked.members {
		d.cares[m.Person] = append(d.cares[m.Person], ClientRef{m.Client, m.Code, m.FirstName})
	}
	if d.checks, err = readChecks(ctx, tx, now, p.comes()); err != nil {
		return nil, err
	}
	if d.on.After(now.Today) {
		d.checks.at = d.on.In(now.Zone)
	}
	return d, d.readShown(ctx, tx, now)
}

// readShown reads what was shown on the day, and what is being marked.
func (d *dayBook) readShown(ctx context.Context, tx *postgres.Tx, now Moment) error {
	var err error
	if d.shown, err = tx.SkillsDays.Shown(ctx, d.planned.comes(), d.on.In(now.Zone), d.on.AddDays(1).In(now.Zone)); err != nil {
		return fmt.Errorf("read what was shown on a skills day: %w", err)
	}
	open, err := tx.Sheets.List(ctx, "")
	if err != nil {
		return fmt.Errorf("read open sheets: %w", err)
	}
	for _, s := range open {
		if civil.DayOf(s.PerformedAt, now.Zone) == d.on {
			d.sheets = append(d.sheets, s)
		}
	}
	return nil
}

// need is a skill with the child that it is held for.
func (d *dayBook) need(skill *skillbook, client assessment.ClientID) assessment.Need {
	n := assessment.Need{Skill: skill.Code}
	if skill.Scope == assessment.ClientSpecific {
		n.Client = client
	}
	return n
}

// mayObserve asks the core whether a station's observer may observe there on the day.
func (d *dayBook) mayObserve(ctx context.Context, tx *postgres.Tx, o *Office, now Moment, skill *skillbook, s postgres.Station) error {
	seen, read := d.seen[s.ObserverID]
	var err error
	if !read {
		if seen, err = o.loadObservation(ctx, tx, now, s.ObserverID, ""); err != nil {
			return err
		}
		d.seen[s.ObserverID] = seen
	}
	seen.Skill, seen.Title = skill.Code, skill.Title
	if seen.Standing, err = d.book.ownStanding(s.ObserverID, skill.ID, d.on); err != nil {
		return err
	}
	return seen.MayObserve(d.on)
}

// learner is one of those who come, with the way through the stations.
func (d *dayBook) learner(l postgres.DayLearner, stations []assessment.Station) (LearnerOfDay, error) {
	v := LearnerOfDay{Person: PersonRef{l.PersonID, l.Name, l.Kind, l.Relation}, Cares: d.cares[l.PersonID], At: l.Station, Since: l.MovedAt}
	who := assessment.Comer{Person: l.PersonID, Stands: map[assessment.Need]assessment.Stand{}}
	if gone(l.LeftOn, d.on) {
		who.Gone = fmt.Sprintf("%s left the agency on %s.", l.Name, l.LeftOn)
	}
	for _, s := range stations {
		for _, need := range append([]assessment.Need{s.Skill}, s.First...) {
			if _, known := who.Stands[need]; known {
				continue
			}
			stand, err := d.stand(l.PersonID, need, stations)
			if err != nil {
				return v, err
			}
			who.Stands[need] = stand
		}
	}
	passed, tried := map[int]bool{}, map[int]bool{}
	round := assessment.Round(who, stations)
	for _, visit := range round {
		r := d.visit(l.PersonID, visit)
		v.Round = append(v.Round, r)
		passed[visit.Station.No], tried[visit.Station.No] = r.Passed(), r.Tried()
	}
	v.Onward = assessment.GoOn(round, passed, tried)
	return v, nil
}

// stand is how a learner stands in a skill on the day, by the fold.
func (d *dayBook) stand(who assessment.PersonID, need assessment.Need, stations []assessment.Station) (assessment.Stand, error) {
	skill := d.book.byCode[need.Skill]
	c, err := d.book.caseOf(assessment.CaseKey{Person: who, Skill: skill.ID, Client: need.Client})
	if err != nil {
		return assessment.Stand{}, err
	}
	var observers []assessment.PersonID
	first := false // whether anything asks for it: trying costs more than all the rest
	for _, s := range stations {
		first = first || slices.Contains(s.First, need)
		if s.Skill == need && s.Closed == "" && s.Observer != who {
			observers = append(observers, s.Observer)
		}
	}
	return assessment.Stand{Standing: c.On(d.on), Title: skill.Title, Required: slices.Contains(d.needs[who], need), Can: first && c.CanHold(d.on, observers),
		Check: d.checks.why(who, skill.ID, skill.Title)}, nil
}

// visit adds what somebody showed of a station's skill on the day.
func (d *dayBook) visit(who assessment.PersonID, visit assessment.Visit) VisitView {
	v := VisitView{Visit: visit}
	skill := d.book.byCode[visit.Station.Skill.Skill]
	same := func(learner assessment.PersonID, of assessment.SkillID, client assessment.ClientID) bool {
		return learner == who && of == skill.ID && d.need(skill, client) == visit.Station.Skill
	}
	for _, s := range d.shown {
		if same(s.LearnerID, s.SkillID, s.ClientID) {
			v.Shown = append(v.Shown, s)
		}
	}
	for i, s := range d.sheets {
		if v.Open == nil && same(s.LearnerID, s.SkillID, s.ClientID) {
			v.Open = &d.sheets[i]
		}
	}
	return v
}
