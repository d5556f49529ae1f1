package office

import (
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// PacketDrawer takes a packet in and draws it: as a PDF, and as data.
type PacketDrawer interface {
	PacketWriter
	// Finish gives both files and how many pages the PDF has.
	Finish() (pdf, data []byte, pages int, err error)
}

// How long one try at a packet may take; after how long without a word from it another
// program takes over; and when that is looked at.
const (
	packetWithin  = 15 * time.Minute
	packetSilent  = 90 * time.Second
	packetLookSo  = 2 * time.Minute
	packetPiece   = 1 << 20 // bytes
	packetTries   = 6
	packetTellAll = time.Second
)

// packetJob is a packet to be made. Look tells apart the first try from later looks, which
// take over where a program was killed.
type packetJob struct {
	Agency assessment.AgencyID
	Packet assessment.PacketID
	Look   int
}

// Kind is its name in the queue.
func (packetJob) Kind() string { return "packet" }

// TakesLong has it wait for no short job, and none for it.
func (packetJob) TakesLong() {}

// putPacketOff has a packet made now, and looked at later by whoever still works then.
func putPacketOff(ctx context.Context, tx *postgres.Tx, now Moment, agency assessment.AgencyID, id assessment.PacketID, look int) error {
	if look == 1 {
		if err := tx.Jobs.Add(ctx, packetJob{agency, id, look}); err != nil {
			return err
		}
	}
	return tx.Jobs.AddAt(ctx, packetJob{agency, id, look + 1}, now.At.Add(packetLookSo))
}

// errTakenOver is for a try that another one has overtaken: what it made is thrown away.
var errTakenOver = errors.New("another program works at this packet now")

// makePacket makes a packet that waits, or that nobody works at any more. Of two that make
// it at once only the newer one's files are kept.
func (o *Office) makePacket(ctx context.Context, job packetJob) error {
	k, by, err := o.claimPacket(ctx, job)
	if fault.KindOf(err) == fault.NotFound {
		return nil // finished, deleted, or somebody is at it
	}
	if err != nil {
		return err
	}
	err = o.workOut(ctx, k, by)
	if err == nil || errors.Is(err, errTakenOver) {
		return nil
	}
	if f, refusal := fault.As(err); refusal {
		return o.in(ctx, job.Agency, func(tx *postgres.Tx, _ Moment) error {
			return tx.Packets.Refuse(ctx, k.ID, k.Attempt, f.Error())
		})
	}
	return fmt.Errorf("make packet %s: %w", k.ID, err)
}

// claimPacket takes the packet over, with the rights that its asker has now.
func (o *Office) claimPacket(ctx context.Context, job packetJob) (k postgres.Packet, by assessment.Actor, err error) {
	err = o.in(ctx, job.Agency, func(tx *postgres.Tx, now Moment) error {
		if k, err = tx.Packets.Get(ctx, job.Packet); err != nil {
			return err
		}
		if k.State == postgres.PacketReady || k.State == postgres.PacketRefused {
			return notFound()
		}
		if job.Look > 1 { // once more later, should this program be killed as well
			if err := putPacketOff(ctx, tx, now, job.Agency, job.Packet, job.Look); err != nil {
				return err
			}
		}
		attempt, err := tx.Packets.Claim(ctx, job.Packet, now.At, now.At.Add(-packetSilent))
		if fault.KindOf(err) == fault.NotFound {
			k.Attempt = 0 // somebody is at it: this transaction keeps the later look all the same
			return nil
		}
		if err != nil {
			return err
		}
		k.Attempt = attempt
		asker, err := tx.People.Get(ctx, k.AskedBy)
		if err != nil {
			return err
		}
		by = actorOf(job.Agency, asker)
		if gone(asker.LeftOn, now.Today) {
			by.Roles = nil
		}
		by.Survey, err = surveyOf(ctx, tx, now, asker)
		return err
	})
	if err == nil && k.Attempt == 0 {
		return k, by, notFound()
	}
	return k, by, err
}

// workOut makes the files of an attempt and keeps them.
func (o *Office) workOut(ctx context.Context, k postgres.Packet, by assessment.Actor) error {
	if k.Attempt > packetTries {
		return fault.Of(fault.Refused, "This packet was begun %d times and never finished. Whoever runs the server finds why in its log. Ask for a shorter period meanwhile.", packetTries)
	}
	if err := by.May(assessment.AskPacket); err != nil { // first: what comes next asks what a surveyor was let in for
		return err
	}
	if err := mayHavePacket(by, k); err != nil {
		return err
	}
	if o.opt.Packet == nil {
		return errors.New("this program draws no packets")
	}
	size, err := o.packetHeadSize(ctx, k, by)
	if err != nil {
		return err
	}
	drawer := o.opt.Packet()
	err = o.WritePacket(ctx, by, formOf(k), PacketMoment{ID: k.ID, At: k.AskedAt, Size: size}, drawer, o.telling(ctx, k, by))
	if err != nil {
		return err
	}
	pdf, data, pages, err := drawer.Finish()
	if err != nil {
		return err
	}
	return o.keepPacket(ctx, k, by, pdf, data, pages)
}

// packetHeadSize says which head all proofs are under: the newest when the packet was first
// worked at, so that each try gives the same.
func (o *Office) packetHeadSize(ctx context.Context, k postgres.Packet, by assessment.Actor) (int64, error) {
	if k.HeadSize > 0 {
		return k.HeadSize, nil
	}
	if o.opt.Ledger == nil {
		return 0, nil
	}
	if _, err := o.Seal(ctx, by.Agency); err != nil {
		return 0, fmt.Errorf("seal what waits before a packet: %w", err)
	}
	var size int64
	err := o.in(ctx, by.Agency, func(tx *postgres.Tx, now Moment) error {
		head, err := o.headOf(ctx, tx, now, 0)
		if err != nil || head.Size == 0 {
			return err
		}
		if err := tx.Packets.Under(ctx, k.ID, head.Size); err != nil {
			return err
		}
		kept, err := tx.Packets.Get(ctx, k.ID)
		size = kept.HeadSize
		return err
	})
	return size, err
}

// telling notes how far an attempt is, at most once a second.
func (o *Office) telling(ctx context.Context, k postgres.Packet, by assessment.Actor) func(done, total int) error {
	var last time.Time
	return func(done, total int) error {
		if at := o.now(); done > 0 && done < total && at.Sub(last) < packetTellAll {
			return nil
		}
		last = o.now()
		return overtaken(o.in(ctx, by.Agency, func(tx *postgres.Tx, now Moment) error {
			return tx.Packets.Beat(ctx, k.ID, k.Attempt, done, total, now.At)
		}))
	}
}

func overtaken(err error) error {
	if fault.KindOf(err) == fault.NotFound {
		return errTakenOver
	}
	return err
}

func (o *Office) keepPacket(ctx context.Context, k postgres.Packet, by assessment.Actor, pdf, data []byte, pages int) error {
	sum := sha256.Sum256(data)
	return overtaken(o.in(ctx, by.Agency, func(tx *postgres.Tx, now Moment) error {
		for file, body := range map[string][]byte{"pdf": pdf, "json": data} {
			for n := 0; len(body) > 0; n++ {
				piece := body[:min(len(body), packetPiece)]
				body = body[len(piece):]
				if err := tx.Packets.AddPiece(ctx, k.ID, k.Attempt, file, n, piece); err != nil {
					return err
				}
			}
		}
		return tx.Packets.Finish(ctx, k.ID, k.Attempt, pages, sum[:], now.At)
	}))
}

// formOf is the question of a packet as it was asked.
func formOf(k postgres.Packet) PacketForm {
	f := PacketForm{Kind: k.Kind, Person: k.PersonID, Skill: k.Code, Client: k.ClientID, Shift: k.Shift, On: k.FromOn.String()}
	if k.Kind == string(PacketOfPeriod) {
		f.On, f.From, f.Through = "", k.FromOn.String(), k.ThroughOn.String()
	}
	return f
}
