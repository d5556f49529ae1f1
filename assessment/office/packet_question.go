package office

import (
	"context"
	"slices"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// PacketForm is a question as it is asked.
type PacketForm struct {
	ID      string // made by whoever asks, so that asking twice makes one packet; empty: made here
	Kind    string
	Person  assessment.PersonID
	Skill   string // code
	Client  assessment.ClientID
	Shift   assessment.ShiftID
	On      string // YYYY-MM-DD: the night; empty: today, or the shift's
	From    string // period
	Through string // period
}

// read makes a question of what was filled in. What there is not is not found, as is what
// lies outside the asker's reach.
func (o *Office) readPacket(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, f PacketForm) (PacketQuestion, error) {
	q := PacketQuestion{Kind: PacketKind(f.Kind)}
	var faults form
	switch q.Kind {
	case PacketOfPeriod:
		q.From, q.Through = faults.day("from", f.From), faults.day("through", f.Through)
		checkPeriod(&faults, q, now.Today)
	case PacketOfPerson, PacketOfClient, PacketOfIncident:
		q.From = now.Today
		if strings.TrimSpace(f.On) != "" {
			q.From = faults.day("on", f.On)
		}
		q.Through = q.From
		if q.From.After(now.Today) {
			faults.Add("on", "This day is still to come. A packet tells what was.")
		}
	default:
		faults.Add("kind", "Choose what the packet is about: an incident, a person, a child, or a period.")
	}
	if q.Kind == PacketOfPerson || q.Kind == PacketOfIncident {
		if q.Person = f.Person; q.Person == "" {
			faults.Add("person", "Say about whom.")
		}
	}
	if q.Kind == PacketOfClient {
		if q.Client = f.Client; q.Client == "" {
			faults.Add("client", "Say about which child.")
		}
	}
	if q.Kind == PacketOfIncident && strings.TrimSpace(f.Skill) == "" {
		faults.Add("skill", "Say about which skill.")
	}
	if err := faults.Err(); err != nil {
		return q, err
	}
	if q.Kind == PacketOfIncident {
		if err := o.readIncident(ctx, tx, now, by, f, &q); err != nil {
			return q, err
		}
	}
	if err := mayAskPacket(by, q); err != nil {
		return q, err
	}
	return q, q.areThere(ctx, tx)
}

func checkPeriod(f *form, q PacketQuestion, today civil.Date) {
	switch {
	case q.From.IsZero() || q.Through.IsZero():
	case q.Through.Before(q.From):
		f.Add("through", "The last day is before the first.")
	case q.Through.After(today):
		f.Add("through", "This day is still to come. A packet tells what was.")
	case q.Through.Sub(q.From)+1 > MostPacketDays:
		f.Add("through", "This is more than %d days. Ask for a shorter period.", MostPacketDays)
	}
}

// readIncident finds the skill, and the shift with its days and its child.
func (o *Office) readIncident(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, f PacketForm, q *PacketQuestion) error {
	skill, err := tx.Checklists.SkillByCode(ctx, strings.TrimSpace(f.Skill))
	if fault.KindOf(err) == fault.NotFound {
		return faultAt("skill", "There is no such skill here.")
	}
	if err != nil {
		return err
	}
	q.Skill, q.Client = skill.ID, f.Client
	if f.Shift != "" {
		s, err := o.packetShift(ctx, tx, now, f.Shift)
		switch {
		case err != nil:
			return err
		case !mayKnowOf(by, s):
			return notFound()
		case s.Starts.After(now.At):
			return faultAt("shift", "This shift is still to come. A packet tells what was.")
		}
		q.Shift, q.From, q.Through = s.ID, civil.DayOf(s.Starts, now.Zone), civil.DayOf(s.Ends.Add(-time.Nanosecond), now.Zone)
		if q.Client == "" {
			q.Client = s.Client
		}
	}
	switch {
	case skill.Scope == assessment.General:
		q.Client = ""
	case q.Client == "":
		return faultAt("client", "This skill is held for each child by itself. Say for which child.")
	}
	return nil
}

// mayKnowOf reports whether the asker may be told of a shift: one of a child or of somebody
// whom they were let in for.
func mayKnowOf(by assessment.Actor, s assessment.Shift) bool {
	return by.MayForCase(assessment.AskPacket, s.Person, s.Client) == nil || by.Survey.MaySee(s.Client)
}

func (o *Office) packetShift(ctx context.Context, tx *postgres.Tx, now Moment, id assessment.ShiftID) (assessment.Shift, error) {
	on, err := dayOfShift(ctx, tx, now, id)
	if err != nil {
		return assessment.Shift{}, err
	}
	b, err := o.nightBook(ctx, tx, now, on, on)
	if err != nil {
		return assessment.Shift{}, err
	}
	i := slices.IndexFunc(b.shifts, func(s assessment.Shift) bool { return s.ID == id })
	if i < 0 {
		return assessment.Shift{}, notFound()
	}
	return b.shifts[i], nil
}

// nightBook is the roster from a day through another, as it stands now.
func (o *Office) nightBook(ctx context.Context, tx *postgres.Tx, now Moment, from, through civil.Date) (*rosterBook, error) {
	clients, err := tx.Clients.List(ctx, postgres.ClientFilter{IncludeLeft: true})
	if err != nil {
		return nil, err
	}
	known := map[assessment.ClientID]postgres.Client{}
	for _, c := range clients {
		known[c.ID] = c
	}
	return o.rosterBook(ctx, tx, now, from.AddDays(-1), through, postgres.RosterFilter{}, known)
}

// mayAskPacket refuses questions beyond the asker's reach, each as what was never there.
func mayAskPacket(by assessment.Actor, q PacketQuestion) error {
	const act = assessment.AskPacket
	if err := by.May(act); err != nil {
		return err
	}
	if by.Reach(act) == assessment.Everything {
		return nil
	}
	switch q.Kind {
	case PacketOfPerson:
		return by.MayFor(act, q.Person, false)
	case PacketOfIncident:
		return by.MayForCase(act, q.Person, q.Client)
	case PacketOfClient:
		if !by.Survey.MaySee(q.Client) {
			return notFound()
		}
		return nil
	}
	return by.Survey.Refuse()
}

func (q PacketQuestion) areThere(ctx context.Context, tx *postgres.Tx) error {
	if q.Person != "" {
		if _, err := tx.People.Get(ctx, q.Person); err != nil {
			return err
		}
	}
	if q.Client != "" {
		if _, err := tx.Clients.Get(ctx, q.Client); err != nil {
			return err
		}
	}
	return nil
}

// days are those on which standings are told: the civil days of a night, the last one of
// a period.
func (q PacketQuestion) days() []civil.Date {
	if q.Kind == PacketOfPeriod {
		return []civil.Date{q.Through}
	}
	var all []civil.Date
	for d := q.From; !d.After(q.Through); d = d.AddDays(1) {
		all = append(all, d)
	}
	return all
}
