package office

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// mostPacketsWaiting is how many packets one person can have asked for that are not made
// yet; packetsListed how many the list shows. Common practice, no source.
const (
	mostPacketsWaiting = 5
	packetsListed      = 50
)

// PacketView is a packet that was asked for, and how far it is.
type PacketView struct {
	postgres.Packet
	Agency AgencyView
	Zone   *time.Location
	Skill  string    // title
	GoneAt time.Time // when it is deleted; zero: it is not made yet
	Now    time.Time
}

// Ready reports whether its files are there.
func (v PacketView) Ready() bool { return v.State == postgres.PacketReady }

// Over reports whether nothing more becomes of it.
func (v PacketView) Over() bool {
	return v.State == postgres.PacketReady || v.State == postgres.PacketRefused
}

// PacketDesk is the page of packets: those that were asked for, and what can be chosen.
type PacketDesk struct {
	Zone    *time.Location
	Today   string // YYYY-MM-DD
	Asked   []PacketView
	People  []PersonRef // also those who left
	Clients []ClientRef // also those who left
	Skills  []SkillRef
	Whole   bool // may ask for the whole agency
}

// AskPacket asks for a packet. It is worked out beside, as all was known at this moment;
// asked for again under the same id there is still one.
func (o *Office) AskPacket(ctx context.Context, by assessment.Actor, f PacketForm) (PacketView, error) {
	var v PacketView
	err := o.as(ctx, by, assessment.AskPacket, func(tx *postgres.Tx, now Moment) error {
		q, err := o.readPacket(ctx, tx, now, by, f)
		if err != nil {
			return err
		}
		id, err := idOr[assessment.PacketID](o, f.ID, now.At)
		if err != nil {
			return err
		}
		if kept, err := tx.Packets.Get(ctx, id); err == nil && kept.AskedBy == by.Person {
			v, err = viewPacket(ctx, tx, now, kept)
			return err
		}
		waiting, err := tx.Packets.Waiting(ctx, by.Person)
		if err != nil {
			return err
		}
		if waiting >= mostPacketsWaiting {
			return fault.Of(fault.Refused, "%d packets that you asked for are not made yet. Wait until one of them is.", waiting)
		}
		n := postgres.Packet{ID: id, Kind: string(q.Kind), PersonID: q.Person, SkillID: q.Skill, ClientID: q.Client, Shift: q.Shift, FromOn: q.From, ThroughOn: q.Through,
			AskedBy: by.Person, AskedAt: now.At, Reach: reachMark(by)}
		if err := tx.Packets.Add(ctx, n); err != nil {
			return fmt.Errorf("ask for a packet: %w", err)
		}
		if err := putPacketOff(ctx, tx, now, by.Agency, id, 1); err != nil {
			return err
		}
		kept, err := tx.Packets.Get(ctx, id)
		if err != nil {
			return err
		}
		if v, err = viewPacket(ctx, tx, now, kept); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.AskPacket, "packet", string(id))
	})
	return v, err
}

// reachMark is a hash of what a surveyor was let in for; empty for the whole agency. Who
// was let in for something else since does not get what was made under it.
func reachMark(by assessment.Actor) string {
	if by.Reach(assessment.AskPacket) == assessment.Everything {
		return ""
	}
	s := *by.Survey
	var all []string
	for _, id := range s.People {
		all = append(all, "person "+string(id))
	}
	for _, id := range s.Clients {
		all = append(all, "child "+string(id))
	}
	for _, id := range s.Team {
		all = append(all, "team "+string(id))
	}
	slices.Sort(all)
	sum := sha256.Sum256([]byte(strings.Join(slices.Compact(all), "\n")))
	return hex.EncodeToString(sum[:])
}

// mayHavePacket refuses packets that are not the asker's to see: those of others, to whoever
// was let in for some only, and those made under another reach than they have now.
func mayHavePacket(by assessment.Actor, k postgres.Packet) error {
	switch {
	case by.Reach(assessment.AskPacket) == assessment.Everything:
		return nil
	case k.AskedBy != by.Person:
		return notFound()
	case k.Reach != reachMark(by):
		return fault.Of(fault.Refused, "What you may look at has changed since you asked for this packet. Ask again.")
	}
	return nil
}

func viewPacket(ctx context.Context, tx *postgres.Tx, now Moment, k postgres.Packet) (PacketView, error) {
	v := PacketView{Packet: k, Agency: viewAgency(now.Agency), Zone: now.Zone, Now: now.At}
	if k.MadeAt != nil {
		v.GoneAt = k.MadeAt.AddDate(0, 0, PacketDays)
	}
	if k.SkillID == "" {
		return v, nil
	}
	s, err := tx.Checklists.Skill(ctx, k.SkillID)
	v.Skill = s.Title
	return v, err
}

// lookingAt runs what only reads packets, for whoever may ask for them.
func (o *Office) lookingAt(ctx context.Context, by assessment.Actor, fn func(*postgres.Tx, Moment) error) error {
	if err := by.May(assessment.AskPacket); err != nil {
		return err
	}
	if err := o.reading(ctx, by.Agency, fn); err != nil {
		return fmt.Errorf("look at packets: %w", err)
	}
	return nil
}

// PacketState tells how far a packet is.
func (o *Office) PacketState(ctx context.Context, by assessment.Actor, id assessment.PacketID) (PacketView, error) {
	var v PacketView
	err := o.lookingAt(ctx, by, func(tx *postgres.Tx, now Moment) error {
		k, err := tx.Packets.Get(ctx, id)
		if err != nil {
			return err
		}
		if err := mayHavePacket(by, k); err != nil {
			return err
		}
		v, err = viewPacket(ctx, tx, now, k)
		return err
	})
	return v, err
}

// PacketFiles are the files of a packet that is ready: the paper and its data.
func (o *Office) PacketFiles(ctx context.Context, by assessment.Actor, id assessment.PacketID) (v PacketView, pdf, data []byte, err error) {
	err = o.lookingAt(ctx, by, func(tx *postgres.Tx, now Moment) error {
		k, err := tx.Packets.Get(ctx, id)
		if err != nil {
			return err
		}
		if err := mayHavePacket(by, k); err != nil {
			return err
		}
		if k.State != postgres.PacketReady {
			return fault.Of(fault.Conflict, "This packet is not made yet. Look again in a moment.")
		}
		if v, err = viewPacket(ctx, tx, now, k); err != nil {
			return err
		}
		if pdf, err = tx.Packets.File(ctx, k, "pdf"); err != nil {
			return err
		}
		data, err = tx.Packets.File(ctx, k, "json")
		return err
	})
	return v, pdf, data, err
}

// PacketDesk lists packets and what can be asked about: for a surveyor who was let in for
// some, their own and those alone.
func (o *Office) PacketDesk(ctx context.Context, by assessment.Actor) (PacketDesk, error) {
	var d PacketDesk
	err := o.lookingAt(ctx, by, func(tx *postgres.Tx, now Moment) error {
		d = PacketDesk{Zone: now.Zone, Today: now.Today.String(), Whole: by.Reach(assessment.AskPacket) == assessment.Everything}
		asker := by.Person
		if d.Whole {
			asker = ""
		}
		asked, err := tx.Packets.Lately(ctx, asker, packetsListed)
		if err != nil {
			return err
		}
		for _, k := range asked {
			v, err := viewPacket(ctx, tx, now, k)
			if err != nil {
				return err
			}
			d.Asked = append(d.Asked, v)
		}
		return d.choices(ctx, tx, by)
	})
	return d, err
}

func (d *PacketDesk) choices(ctx context.Context, tx *postgres.Tx, by assessment.Actor) error {
	people, err := tx.People.List(ctx, postgres.PeopleFilter{IncludeLeft: true})
	if err != nil {
		return err
	}
	for _, p := range people {
		if slices.Contains(p.Roles, assessment.Caregiver) && (d.Whole || by.Survey.MayMeet(p.ID)) {
			d.People = append(d.People, PersonRef{p.ID, p.Name, p.Kind, p.Relation})
		}
	}
	clients, err := tx.Clients.List(ctx, postgres.ClientFilter{IncludeLeft: true})
	if err != nil {
		return err
	}
	for _, c := range clients {
		if d.Whole || by.Survey.MaySee(c.ID) {
			d.Clients = append(d.Clients, ClientRef{c.ID, c.Code, c.FirstName})
		}
	}
	skills, err := tx.Checklists.Skills(ctx)
	for _, s := range skills {
		d.Skills = append(d.Skills, SkillRef{s.ID, s.Code, s.Title})
	}
	return err
}
