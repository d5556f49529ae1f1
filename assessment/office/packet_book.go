package office

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// packetBook is what a packet is put together from. Everything in it is as it was known
// when the packet was asked for, so that the same question gives the same packet whenever
// it is worked out.
type packetBook struct {
	PacketQuestion
	by        assessment.Actor
	now       Moment // At is when the packet was asked for
	known     time.Time
	whole     bool
	names     names
	people    map[assessment.PersonID]postgres.Person
	asked     *casebook // all that was known when it was asked for
	then      *casebook // by known
	cleared   *casebook // asked, without what was taken back
	corrected map[string]assessment.RecordID
	needs     map[civil.Date]map[assessment.PersonID][]assessment.Need
	order     []assessment.PersonID
	begun     map[assessment.PersonID][]assessment.CaseKey // of which anything personal was known
	told      map[assessment.PersonID][]PacketStanding
	records   map[assessment.PersonID][]postgres.DemonstrationMark // that are shown, newest first
	night     *rosterBook
	head      HeadView
	seen      map[assessment.PersonID][]civil.Date // by observer
	shownBy   map[assessment.RevisionID]bool
}

func (o *Office) packetBook(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, q PacketQuestion) (*packetBook, error) {
	b := &packetBook{PacketQuestion: q, by: by, now: now, people: map[assessment.PersonID]postgres.Person{}, needs: map[civil.Date]map[assessment.PersonID][]assessment.Need{},
		told: map[assessment.PersonID][]PacketStanding{}, records: map[assessment.PersonID][]postgres.DemonstrationMark{},
		seen: map[assessment.PersonID][]civil.Date{}, shownBy: map[assessment.RevisionID]bool{}}
	var err error
	if b.names, err = o.names(ctx, tx); err != nil {
		return nil, err
	}
	people, err := tx.People.List(ctx, postgres.PeopleFilter{IncludeLeft: true})
	if err != nil {
		return nil, err
	}
	for _, p := range people {
		b.people[p.ID] = p
	}
	if b.night, err = o.nightBook(ctx, tx, now, q.From, q.From.AddDays(min(q.Through.Sub(q.From), 2))); err != nil {
		return nil, err
	}
	if err := b.settle(); err != nil {
		return nil, err
	}
	for _, day := range q.days() {
		if b.needs[day], err = o.needsOfAll(ctx, tx, day); err != nil {
			return nil, err
		}
	}
	if err := b.readPeople(ctx, tx, people); err != nil {
		return nil, err
	}
	all, err := o.casebook(ctx, tx, now, postgres.HistoryFilter{People: b.order})
	if err != nil {
		return nil, err
	}
	b.asked = all.knownAt(now.At)
	b.then, b.cleared, b.corrected = b.asked.knownAt(b.known), b.asked.withoutTakenBack(), b.asked.corrections()
	b.begun = map[assessment.PersonID][]assessment.CaseKey{}
	for _, k := range b.asked.keys() {
		b.begun[k.Person] = append(b.begun[k.Person], k)
	}
	if err := b.tell(); err != nil {
		return nil, err
	}
	return b, b.index(ctx, tx)
}

// settle says up to when something counts as known then: the end of the night's last day,
// or the beginning of the shift, and never later than the question.
func (b *packetBook) settle() error {
	b.known, b.whole = b.Through.AddDays(1).In(b.now.Zone).Add(-time.Microsecond), true
	if b.Shift != "" {
		i := slices.IndexFunc(b.night.shifts, func(s assessment.Shift) bool { return s.ID == b.Shift })
		if i < 0 {
			return notFound()
		}
		b.known, b.whole = b.night.shifts[i].Starts, false
	}
	if b.known.After(b.now.At) {
		b.known, b.whole = b.now.At, false
	}
	return nil
}

// readPeople says who is told about, by name: who is asked about, who looked after the
// child, or every caregiver who was there in the period.
func (b *packetBook) readPeople(ctx context.Context, tx *postgres.Tx, people []postgres.Person) error {
	if b.Kind == PacketOfPerson || b.Kind == PacketOfIncident {
		b.order = []assessment.PersonID{b.PacketQuestion.Person}
		return nil
	}
	members, err := tx.Teams.List(ctx, postgres.TeamFilter{Client: b.PacketQuestion.Client})
	if err != nil {
		return fmt.Errorf("read teams: %w", err)
	}
	among := map[assessment.PersonID]bool{}
	for _, m := range members {
		among[m.Person] = among[m.Person] || !m.FromOn.After(b.Through) && (m.ThroughOn.IsZero() || !m.ThroughOn.Before(b.From))
	}
	for _, s := range b.shiftsOf() {
		among[s.Person] = among[s.Person] || b.Kind == PacketOfClient
	}
	for _, p := range people {
		caregiver := b.Kind == PacketOfPeriod && slices.Contains(p.Roles, assessment.Caregiver)
		if (among[p.ID] || caregiver) && !gone(p.LeftOn, b.From) && b.by.MayFor(assessment.AskPacket, p.ID, false) == nil {
			b.order = append(b.order, p.ID)
		}
	}
	return nil
}

// shiftsOf are the shifts of the night that the question is about, those that the asker
// may know of.
func (b *packetBook) shiftsOf() []assessment.Shift {
	if b.Kind == PacketOfPeriod {
		return nil
	}
	first, end := b.From.In(b.now.Zone), b.Through.AddDays(1).In(b.now.Zone)
	var some []assessment.Shift
	for _, s := range b.night.shifts {
		about := s.Client == b.PacketQuestion.Client && b.Kind == PacketOfClient || s.Person == b.PacketQuestion.Person && b.Kind != PacketOfClient
		if about && s.Starts.Before(end) && s.Ends.After(first) && mayKnowOf(b.by, s) {
			some = append(some, s)
		}
	}
	return some
}

// keysOf are the cases of a person that are told about.
func (b *packetBook) keysOf(person assessment.PersonID) []assessment.CaseKey {
	if b.Kind == PacketOfIncident {
		return []assessment.CaseKey{{Person: person, Skill: b.PacketQuestion.Skill, Client: b.PacketQuestion.Client}}
	}
	keys := []assessment.CaseKey{}
	add := func(k assessment.CaseKey) {
		other := b.Kind == PacketOfClient && k.Client != "" && k.Client != b.PacketQuestion.Client
		if other || slices.Contains(keys, k) || b.by.MayForCase(assessment.AskPacket, person, k.Client) != nil {
			return
		}
		keys = append(keys, k)
	}
	for _, k := range b.begun[person] {
		add(k)
	}
	for _, asked := range b.needs {
		for _, n := range asked[person] {
			if s, known := b.asked.byCode[n.Skill]; known {
				add(assessment.CaseKey{Person: person, Skill: s.ID, Client: n.Client})
			}
		}
	}
	slices.SortFunc(keys, func(x, y assessment.CaseKey) int {
		return cmp.Or(cmp.Compare(b.asked.skills[x.Skill].Position, b.asked.skills[y.Skill].Position), cmp.Compare(b.names.clients[x.Client].Code, b.names.clients[y.Client].Code), cmp.Compare(x.Skill, y.Skill), cmp.Compare(x.Client, y.Client))
	})
	return keys
}

// tell folds every case three times over. Of a period what nobody began and nobody asks
// for is left out.
func (b *packetBook) tell() error {
	for _, person := range b.order {
		for _, key := range b.keysOf(person) {
			all := [3]*assessment.Case{}
			for i, book := range []*casebook{b.then, b.asked, b.cleared} {
				c, err := book.caseOf(key)
				if err != nil {
					return err
				}
				all[i] = c
			}
			for _, day := range b.days() {
				s := PacketStanding{Skill: b.asked.skills[key.Skill].ref(), Client: b.names.clients[key.Client], On: day, Left: gone(b.people[person].LeftOn, day),
					Required: slices.Contains(b.needs[day][person], assessment.Need{Skill: b.asked.skills[key.Skill].Code, Client: key.Client}),
					AsOf:     assessment.AsOf{Then: all[0].On(day), Now: all[1].On(day), Cleared: all[2].On(day)}}
				if b.Kind == PacketOfPeriod {
					s.NotHeld = all[1].NotHeld(b.From, b.Through)
					if !s.Required && s.Now.Word == assessment.NotStarted {
						continue
					}
				}
				b.told[person] = append(b.told[person], s)
			}
		}
	}
	return nil
}

// rests are the entries that some standing of a person that is told rests on.
func (b *packetBook) rests(person assessment.PersonID) map[string]bool {
	on := map[string]bool{}
	for _, s := range b.told[person] {
		for _, t := range []assessment.Standing{s.Then, s.Now, s.Cleared} {
			for _, id := range t.Because {
				on[id] = true
			}
		}
	}
	return on
}
