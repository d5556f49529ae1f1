package office

import (
	"context"
	"fmt"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// index finds which records are shown: those of the cases that are told about, up to the
// night's end, or of a period those performed in it and those that its last day rests on.
func (b *packetBook) index(ctx context.Context, tx *postgres.Tx) error {
	marks, err := tx.Demonstrations.MarksOf(ctx, b.order)
	if err != nil {
		return fmt.Errorf("list the records: %w", err)
	}
	keys, rests := map[assessment.CaseKey]bool{}, map[assessment.PersonID]map[string]bool{}
	for _, person := range b.order {
		for _, key := range b.keysOf(person) {
			keys[key] = true
		}
		rests[person] = b.rests(person)
	}
	for _, m := range marks {
		day := civil.DayOf(m.PerformedAt, b.now.Zone)
		within := !day.After(b.Through) && (b.Kind != PacketOfPeriod || !day.Before(b.From) || rests[m.LearnerID][string(m.ID)])
		if within && !m.RecordedAt.After(b.now.At) && keys[assessment.CaseKey{Person: m.LearnerID, Skill: m.SkillID, Client: m.ClientID}] {
			b.records[m.LearnerID] = append(b.records[m.LearnerID], m)
		}
	}
	return nil
}

// total is how many records are shown.
func (b *packetBook) total() int {
	n := 0
	for _, all := range b.records {
		n += len(all)
	}
	return n
}

// person is what is told of one person.
func (o *Office) packetPerson(ctx context.Context, tx *postgres.Tx, b *packetBook, id assessment.PersonID) (PacketPerson, error) {
	p := PacketPerson{Person: b.names.people[id], LeftOn: b.people[id].LeftOn, Standings: b.told[id]}
	rests := b.rests(id)
	if err := o.packetRecords(ctx, tx, b, id, rests, &p); err != nil {
		return p, err
	}
	if err := b.happenings(ctx, tx, id, rests, &p); err != nil {
		return p, err
	}
	cards, err := b.cards(ctx, tx, id)
	if err != nil {
		return p, err
	}
	p.Cards = cards
	if p.Carried, err = b.carried(ctx, tx, id); err != nil {
		return p, err
	}
	return p, b.provePerson(ctx, tx, &p)
}

func (o *Office) packetRecords(ctx context.Context, tx *postgres.Tx, b *packetBook, id assessment.PersonID, rests map[string]bool, p *PacketPerson) error {
	shown := map[assessment.DemonstrationID]bool{}
	for _, m := range b.records[id] {
		shown[m.ID] = true
	}
	if len(shown) == 0 {
		return nil
	}
	all, err := tx.Demonstrations.All(ctx, postgres.DemonstrationFilter{Learner: id})
	if err != nil {
		return fmt.Errorf("read the records of %s: %w", id, err)
	}
	for _, d := range all {
		if !shown[d.ID] {
			continue
		}
		v, err := o.viewDemonstration(ctx, tx, b.now, d)
		if err != nil {
			return fmt.Errorf("read record %s: %w", d.ID, err)
		}
		r := b.record(v)
		r.Bears = rests[string(d.ID)]
		p.Records = append(p.Records, r)
		b.shownBy[d.RevisionID] = true
		b.saw(d.ObserverID, civil.DayOf(d.PerformedAt, b.now.Zone))
	}
	return nil
}

func (b *packetBook) saw(observer assessment.PersonID, on civil.Date) {
	if !slices.Contains(b.seen[observer], on) {
		b.seen[observer] = append(b.seen[observer], on)
	}
}

// record is a record as it was known when the packet was asked for.
func (b *packetBook) record(v DemonstrationView) PacketRecord {
	v.Signatures = slices.DeleteFunc(v.Signatures, func(s postgres.Signature) bool { return s.SignedAt.After(b.now.At) })
	if v.CorrectedAt != nil && v.CorrectedAt.After(b.now.At) {
		v.CorrectedAt, v.Correction, v.CorrectedBy = nil, "", ""
	}
	if v.Certificate != nil && v.Certificate.IssuedAt.After(b.now.At) {
		v.Certificate = nil
	}
	r := PacketRecord{DemonstrationView: v, Counts: v.effect(b.now)}
	if v.CorrectedAt != nil {
		r.Taken = b.corrected[string(v.ID)]
	}
	if v.RecordedAt.After(b.known) {
		r.Late = append(r.Late, "written down on "+b.instant(v.RecordedAt))
	}
	for _, s := range v.Signatures {
		if s.SignedAt.After(b.known) {
			r.Late = append(r.Late, "signed by "+s.PrintedName+" as "+s.Part+" on "+b.instant(s.SignedAt))
		}
	}
	if v.CorrectedAt != nil && v.CorrectedAt.After(b.known) {
		r.Late = append(r.Late, "taken back by "+v.CorrectedBy+" on "+b.instant(*v.CorrectedAt))
	}
	return r
}

// instant is a moment on the agency's clocks, in words.
func (b *packetBook) instant(at time.Time) string {
	return at.In(b.now.Zone).Format("2 January 2006, 15:04 MST")
}

// happenings are the withdrawals, waivers, teaching and practice of the cases that are
// told about: of a period those of its days and those that its last day rests on.
func (b *packetBook) happenings(ctx context.Context, tx *postgres.Tx, id assessment.PersonID, rests map[string]bool, p *PacketPerson) error {
	found, err := tx.Exceptions.Happenings(ctx, id)
	if err != nil {
		return fmt.Errorf("read what was written down about %s: %w", id, err)
	}
	keys := b.keysOf(id)
	for _, h := range found {
		day := civil.DayOf(h.At, b.now.Zone)
		within := b.Kind != PacketOfPeriod || !day.Before(b.From) && !day.After(b.Through) || rests[string(h.ID)]
		if !within || h.Signed.After(b.now.At) || !slices.Contains(keys, assessment.CaseKey{Person: id, Skill: h.Skill, Client: h.Client}) {
			continue
		}
		if h.TakenBack != nil && h.TakenBack.After(b.now.At) {
			h.TakenBack, h.Correction = nil, ""
		}
		one := PacketHappening{HappeningView: HappeningView{h, day, b.asked.skills[h.Skill].Title, b.names.clients[h.Client]}, Late: h.Signed.After(b.known)}
		if h.TakenBack != nil {
			one.Taken = b.corrected[string(h.ID)]
		}
		p.Happenings = append(p.Happenings, one)
	}
	return nil
}

// cards are the resuscitation cards on file when the packet was asked for.
func (b *packetBook) cards(ctx context.Context, tx *postgres.Tx, id assessment.PersonID) ([]PacketCard, error) {
	found, err := tx.Qualifications.CardsOnFile(ctx, []assessment.PersonID{id})
	if err != nil {
		return nil, fmt.Errorf("read the cards of %s: %w", id, err)
	}
	var cards []PacketCard
	for _, c := range found {
		if c.RecordedAt.After(b.now.At) {
			continue
		}
		c.TakenBack = b.taken(c.TakenBack)
		cards = append(cards, PacketCard{CardOnFile: c, Late: c.RecordedAt.After(b.known)})
	}
	return cards, nil
}

// taken leaves out a taking back that came after the packet was asked for.
func (b *packetBook) taken(t postgres.TakenBack) postgres.TakenBack {
	if t.CorrectedAt != nil && t.CorrectedAt.After(b.now.At) {
		return postgres.TakenBack{}
	}
	return t
}
