package office

import (
	"context"
	"errors"
	"fmt"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// PacketMoment fixes what a packet is worked out from: with the same one it comes out the
// same, whenever that is.
type PacketMoment struct {
	ID   assessment.PacketID
	At   time.Time // all is told as it was known then; zero: now
	Size int64     // of the head that all proofs are under; 0: the newest
}

// errBegunAgain is for a database that asks to read everything anew: what was written
// already cannot be taken back.
var errBegunAgain = errors.New("the database asked to begin anew, and a part of the packet was written already")

// WritePacket works a packet out and hands it over piece by piece. All of it sees one
// moment. told hears how many of the records are done; nil: nobody.
func (o *Office) WritePacket(ctx context.Context, by assessment.Actor, f PacketForm, m PacketMoment, out PacketWriter, told func(done, total int) error) error {
	begun := false
	if told == nil {
		told = func(int, int) error { return nil }
	}
	return o.as(ctx, by, assessment.ReadRecords, func(tx *postgres.Tx, now Moment) error {
		if begun {
			return errBegunAgain
		}
		begun = true
		if !m.At.IsZero() {
			now.At, now.Today = m.At, civil.DayOf(m.At, now.Zone)
		}
		q, err := o.readPacket(ctx, tx, now, by, f)
		if err != nil {
			return err
		}
		b, err := o.packetBook(ctx, tx, now, by, q)
		if err != nil {
			return fmt.Errorf("gather a packet: %w", err)
		}
		if b.head, err = o.headOf(ctx, tx, now, m.Size); err != nil {
			return err
		}
		return o.writePacket(ctx, tx, b, m.ID, out, told)
	})
}

func (o *Office) writePacket(ctx context.Context, tx *postgres.Tx, b *packetBook, id assessment.PacketID, out PacketWriter, told func(done, total int) error) error {
	done, total := 0, b.total()
	if err := told(done, total); err != nil {
		return err
	}
	first, err := o.packetHead(ctx, tx, b, id)
	if err != nil {
		return err
	}
	if err := out.Begin(first); err != nil {
		return err
	}
	for _, person := range b.order {
		p, err := o.packetPerson(ctx, tx, b, person)
		if err != nil {
			return err
		}
		if err := out.Person(p); err != nil {
			return err
		}
		done += len(p.Records)
		if err := told(done, total); err != nil {
			return err
		}
	}
	tail, err := o.packetTail(ctx, tx, b)
	if err != nil {
		return err
	}
	return out.End(tail)
}

// packetHead is the first page.
func (o *Office) packetHead(ctx context.Context, tx *postgres.Tx, b *packetBook, id assessment.PacketID) (Packet, error) {
	p := Packet{PacketQuestion: b.PacketQuestion, ID: id, Agency: viewAgency(b.now.Agency), Zone: b.now.Zone, AskedAt: b.now.At.In(b.now.Zone), AskedBy: b.by.Name,
		KnownAt: b.known.In(b.now.Zone), WholeDay: b.whole, Who: b.names.people[b.PacketQuestion.Person], For: b.names.clients[b.PacketQuestion.Client],
		Part: b.by.Reach(assessment.AskPacket) != assessment.Everything, Head: b.head}
	if s := b.asked.skills[b.PacketQuestion.Skill]; s != nil {
		p.What = s.ref()
	}
	for _, s := range b.night.shifts {
		if s.ID == b.Shift && b.Shift != "" {
			on := b.shift(s)
			p.On = &on
		}
	}
	for _, person := range b.order {
		i := PacketIndex{Person: b.names.people[person]}
		for _, m := range b.records[person] {
			i.Records = append(i.Records, PacketIndexed{ID: m.ID, Title: m.Title, For: b.names.clients[m.ClientID], On: civil.DayOf(m.PerformedAt, b.now.Zone)})
		}
		p.People = append(p.People, i)
	}
	if id != "" && o.opt.BaseURL != "" {
		p.Address = o.opt.BaseURL + "/packets/" + string(id)
	}
	var err error
	p.Answer, err = o.packetAnswer(ctx, tx, b)
	return p, err
}
