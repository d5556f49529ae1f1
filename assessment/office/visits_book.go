package office

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// What is taken for granted of an educator of whom nobody has said how their weeks are,
// and of a way of which nobody has said how long it is. Common practice, no source.
const (
	UsualPerDay  = 4
	UsualMinutes = 30
)

// UsualDaysOff are the days of the week on which such an educator makes no visits.
var UsualDaysOff = []int{6, 7}

// visitBook is what visits are planned from, read once.
type visitBook struct {
	table     *table
	until     civil.Date // the last day that is looked at
	horizon   civil.Date // the last day of any window, or until
	windows   []assessment.Window
	due       map[assessment.Window]assessment.Renewal
	helpless  []helpless
	before    map[assessment.Window]string // what comes first and is not held, by title
	educators []assessment.VisitEducator
	distances assessment.Distances
	kept      []postgres.PlannedVisit // from today on
	visits    []assessment.HomeVisit  // the same with what each meets
	faults    [][]assessment.MoveFault
	weeks     map[assessment.PersonID]postgres.Availability
	ways      []postgres.TravelTime
	facts     string // hash of all of it
}

// helpless is something due for which no visit helps, whoever goes there.
type helpless struct {
	person assessment.PersonID
	need   assessment.Need
	due    assessment.Renewal
	why    string
}

func (o *Office) visitBook(ctx context.Context, tx *postgres.Tx, now Moment, until civil.Date) (*visitBook, error) {
	t, err := o.table(ctx, tx, now.Today, nil)
	if err != nil {
		return nil, err
	}
	b := &visitBook{table: t, until: until, horizon: until, due: map[assessment.Window]assessment.Renewal{}}
	asked, err := o.visitNeeds(ctx, tx, b)
	if err != nil {
		return nil, err
	}
	if b.kept, err = tx.Visits.From(ctx, now.Today); err != nil {
		return nil, fmt.Errorf("read visits: %w", err)
	}
	for _, k := range b.kept {
		b.horizon = civil.Later(b.horizon, k.FallsOn)
	}
	panel, err := o.panel(ctx, tx, now, t)
	if err != nil {
		return nil, err
	}
	people := []assessment.PersonID{noPerson} // none would ask for everybody
	for _, a := range asked {
		people = append(people, a.person)
	}
	for _, seen := range panel.seen {
		people = append(people, seen.Observer)
	}
	slices.Sort(people)
	book, err := o.casebook(ctx, tx, now, postgres.HistoryFilter{People: slices.Compact(people)})
	if err != nil {
		return nil, err
	}
	if err := b.makeWindows(now, book, asked); err != nil {
		return nil, err
	}
	checks, err := readChecks(ctx, tx, now, whoNeeds(asked))
	if err != nil {
		return nil, err
	}
	if err := b.comesFirst(now, book, checks); err != nil {
		return nil, err
	}
	if err := o.visitWeeks(ctx, tx, now, b, panel); err != nil {
		return nil, err
	}
	if err := b.makeObservers(now, book, panel); err != nil {
		return nil, err
	}
	b.settleKept()
	b.facts = b.version(now)
	return b, nil
}

// whoNeeds are the people of some needs.
func whoNeeds(asked []visitNeed) []assessment.PersonID {
	var people []assessment.PersonID
	for _, a := range asked {
		people = append(people, a.person)
	}
	slices.Sort(people)
	return slices.Compact(people)
}

// visitNeed is something that somebody must hold, at the homes of some children.
type visitNeed struct {
	person assessment.PersonID
	need   assessment.Need
	homes  []assessment.ClientID // by code
}

// visitNeeds picks from the index what may be due: what is not held today or on the last
// day, and what is shown as due. The days are then asked of the fold. What must be held
// on the last day and not yet today is picked too.
func (o *Office) visitNeeds(ctx context.Context, tx *postgres.Tx, b *visitBook) ([]visitNeed, error) {
	t := b.table
	later, err := o.table(ctx, tx, b.until.AddDays(1), nil)
	if err != nil {
		return nil, err
	}
	var asked []visitNeed
	homes := b.homes(later)
	for _, p := range t.people {
		needs := slices.Clone(t.needs[p.ID])
		for _, n := range later.needs[p.ID] {
			if !slices.Contains(needs, n) {
				needs = append(needs, n)
			}
		}
		if len(needs) == 0 || gone(p.LeftOn, t.on) {
			continue
		}
		for _, n := range needs {
			skill := SkillRef{ID: b.skill(n.Skill).ID}
			first, last := t.one(p.ID, skill, n.Client, true), later.one(p.ID, skill, n.Client, true)
			if first.Word == assessment.Current && last.Word.Holds() {
				continue
			}
			at := homes[p.ID]
			if n.Client != "" {
				at = []assessment.ClientID{n.Client}
			}
			asked = append(asked, visitNeed{p.ID, n, at})
		}
	}
	return asked, nil
}

// homes are the children whose team each person is on today or on the last day, by code.
func (b *visitBook) homes(later *table) map[assessment.PersonID][]assessment.ClientID {
	homes := map[assessment.PersonID][]assessment.ClientID{}
	for _, members := range [][]postgres.Member{b.table.demands.members, later.demands.members} {
		for _, m := range members {
			if !slices.Contains(homes[m.Person], m.Client) {
				homes[m.Person] = append(homes[m.Person], m.Client)
			}
		}
	}
	for _, of := range homes {
		slices.SortFunc(of, func(x, y assessment.ClientID) int {
			return cmp.Compare(b.table.names.clients[x].Code, b.table.names.clients[y].Code)
		})
	}
	return homes
}

func (b *visitBook) skill(code string) postgres.Skill {
	i := slices.IndexFunc(b.table.skills, func(s postgres.Skill) bool { return s.Code == code })
	if i < 0 {
		return postgres.Skill{Code: code, Title: code}
	}
	return b.table.skills[i]
}

// makeWindows asks the fold for the days of each need. What is held for every child can be
// shown at each home, and comes after the others.
func (b *visitBook) makeWindows(now Moment, book *casebook, asked []visitNeed) error {
	at := map[assessment.PersonID]map[assessment.ClientID]int{}
	for _, general := range []bool{false, true} {
		for _, a := range asked {
			if (a.need.Client == "") != general {
				continue
			}
			r, home, err := b.renewal(now, book, a, at[a.person])
			if err != nil {
				return err
			}
			if home == "" {
				continue
			}
			w := assessment.Window{Person: a.person, Need: a.need, Home: home, Opens: r.Opens, Through: r.Through}
			b.windows, b.due[w] = append(b.windows, w), r
			b.horizon = civil.Later(b.horizon, w.Through)
			if at[a.person] == nil {
				at[a.person] = map[assessment.ClientID]int{}
			}
			at[a.person][home]++
		}
	}
	return nil
}

// renewal is one need with the home where it is shown: the one where most else of that
// person is due. No home: nothing is due, or no visit helps, which is kept.
func (b *visitBook) renewal(now Moment, book *casebook, a visitNeed, busy map[assessment.ClientID]int) (assessment.Renewal, assessment.ClientID, error) {
	skill := b.skill(a.need.Skill)
	c, err := book.caseOf(assessment.CaseKey{Person: a.person, Skill: skill.ID, Client: a.need.Client})
	if err != nil {
		return assessment.Renewal{}, "", err
	}
	r, due := c.Renewal(now.Today, b.until)
	left := b.left(a.person)
	switch {
	case !due, r.Lapses && gone(left, r.Through.AddDays(1)), gone(left, r.Opens):
		return r, "", nil
	case r.Why != "":
		b.helpless = append(b.helpless, helpless{a.person, a.need, r, string(r.Why)})
		return r, "", nil
	case skill.InForce == 0:
		b.helpless = append(b.helpless, helpless{a.person, a.need, r, "no checklist for it is in force"})
		return r, "", nil
	case len(a.homes) == 0:
		b.helpless = append(b.helpless, helpless{a.person, a.need, r, "they are on no child's team"})
		return r, "", nil
	}
	if !left.IsZero() {
		r.Through = civil.Earlier(r.Through, left.AddDays(-1))
	}
	home := a.homes[0]
	for _, h := range a.homes {
		if busy[h] > busy[home] {
			home = h
		}
	}
	return r, home, nil
}

func (b *visitBook) left(person assessment.PersonID) civil.Date {
	for _, p := range b.table.people {
		if p.ID == person {
			return p.LeftOn
		}
	}
	return civil.Date{}
}
