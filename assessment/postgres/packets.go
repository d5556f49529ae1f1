package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// Packets keeps what surveyors ask for, how far it is, and the files while they last.
type Packets struct{ scope }

// Packet is a question and how far its answer is.
type Packet struct {
	ID         assessment.PacketID
	Kind       string
	PersonID   assessment.PersonID
	Person     string // name
	SkillID    assessment.SkillID
	Code       string // of the skill
	ClientID   assessment.ClientID
	Client     string // first name and code
	Shift      assessment.ShiftID
	FromOn     civil.Date
	ThroughOn  civil.Date
	AskedBy    assessment.PersonID
	Asker      string // name
	AskedAt    time.Time
	Reach      string // a hash of what a surveyor was let in for; empty: the whole agency
	HeadSize   int64
	State      string
	Attempt    int
	BeatAt     *time.Time
	Done       int
	Total      int
	Refused    string // why it cannot be made
	MadeAt     *time.Time
	Pages      int
	DataSHA256 []byte
}

// The states of a packet.
const (
	PacketWaiting = "waiting"
	PacketMaking  = "making"
	PacketReady   = "ready"
	PacketRefused = "refused"
)

const packetQuery = `
	select x.id, x.kind, coalesce(x.person_id::text, '') as person_id, coalesce(p.name, '') as person, coalesce(x.skill_id::text, '') as skill_id,
		coalesce(s.code, '') as code, coalesce(x.client_id::text, '') as client_id, coalesce(c.first_name || ', ' || c.code, '') as client,
		x.shift, x.from_on, x.through_on, x.asked_by, a.name as asker, x.asked_at, x.reach, x.head_size, x.state, x.attempt, x.beat_at, x.done, x.total,
		x.refused, x.made_at, x.pages, x.data_sha256
	from packet x
	join person a on a.agency_id = x.agency_id and a.id = x.asked_by
	left join person p on p.agency_id = x.agency_id and p.id = x.person_id
	left join skill s on s.agency_id = x.agency_id and s.id = x.skill_id
	left join client c on c.agency_id = x.agency_id and c.id = x.client_id`

// Get is the packet with this id.
func (p Packets) Get(ctx context.Context, id assessment.PacketID) (Packet, error) {
	return get[Packet](ctx, p.scope, packetQuery+` where x.id = $1`, id)
}

// Lately lists packets, the newest first: those of one asker, or all for the empty id.
func (p Packets) Lately(ctx context.Context, asker assessment.PersonID, most int) ([]Packet, error) {
	return list[Packet](ctx, p.scope, packetQuery+`
		where ($1 = '' or x.asked_by = nullif($1, '')::uuid)
		order by x.asked_at desc, x.id desc
		limit $2`, string(asker), most)
}

// Waiting is how many of somebody's packets are not made yet.
func (p Packets) Waiting(ctx context.Context, asker assessment.PersonID) (int, error) {
	n, err := get[struct{ N int }](ctx, p.scope, `select count(*)::int as n from packet where asked_by = $1 and state in ('waiting', 'making')`, asker)
	return n.N, err
}

// Add asks.
func (p Packets) Add(ctx context.Context, n Packet) error {
	return p.exec(ctx, `
		insert into packet (agency_id, id, kind, person_id, skill_id, client_id, shift, from_on, through_on, asked_by, asked_at, reach, state)
		values ($1, $2, $3, nullif($4, '')::uuid, nullif($5, '')::uuid, nullif($6, '')::uuid, $7, $8, $9, $10, $11, $12, 'waiting')`,
		p.agency, n.ID, n.Kind, string(n.PersonID), string(n.SkillID), string(n.ClientID), n.Shift, n.FromOn, n.ThroughOn, n.AskedBy, n.AskedAt, n.Reach)
}

// Claim takes a packet over, unless it is finished or somebody worked at it since an
// instant. It answers which attempt this is; "not found" where there is nothing to do.
func (p Packets) Claim(ctx context.Context, id assessment.PacketID, at, since time.Time) (int, error) {
	n, err := get[struct{ Attempt int }](ctx, p.scope, `
		update packet set attempt = attempt + 1, state = 'making', beat_at = $2
		where id = $1 and (state = 'waiting' or state = 'making' and beat_at < $3)
		returning attempt`, id, at, since)
	return n.Attempt, err
}

// Under says which head all proofs of a packet are under, unless that was said already.
func (p Packets) Under(ctx context.Context, id assessment.PacketID, size int64) error {
	return p.exec(ctx, `update packet set head_size = $2 where id = $1 and head_size = 0`, id, size)
}

// Beat says how far an attempt is; "not found" where another has taken over.
func (p Packets) Beat(ctx context.Context, id assessment.PacketID, attempt, done, total int, at time.Time) error {
	return p.change(ctx, `update packet set done = $3, total = $4, beat_at = $5 where id = $1 and attempt = $2 and state = 'making'`, id, attempt, done, total, at)
}

// AddPiece keeps a piece of a file that an attempt made.
func (p Packets) AddPiece(ctx context.Context, id assessment.PacketID, attempt int, file string, number int, content []byte) error {
	return p.exec(ctx, `
		insert into packet_piece (agency_id, packet_id, attempt, file, number, content)
		values ($1, $2, $3, $4, $5, $6)`, p.agency, id, attempt, file, number, content)
}

// Finish says that an attempt's files are the packet; "not found" where another has taken
// over. What other attempts left goes.
func (p Packets) Finish(ctx context.Context, id assessment.PacketID, attempt, pages int, sum []byte, at time.Time) error {
	err := p.change(ctx, `
		update packet set state = 'ready', made_at = $5, pages = $3, data_sha256 = $4, done = total, beat_at = $5
		where id = $1 and attempt = $2 and state = 'making'`, id, attempt, pages, sum, at)
	if err != nil {
		return err
	}
	return p.exec(ctx, `delete from packet_piece where packet_id = $1 and attempt <> $2`, id, attempt)
}

// Refuse says why a packet cannot be made.
func (p Packets) Refuse(ctx context.Context, id assessment.PacketID, attempt int, why string) error {
	return p.change(ctx, `update packet set state = 'refused', refused = $3 where id = $1 and attempt = $2 and state = 'making'`, id, attempt, why)
}

// File is one of the files of a packet that is ready.
func (p Packets) File(ctx context.Context, k Packet, file string) ([]byte, error) {
	pieces, err := list[struct{ Content []byte }](ctx, p.scope, `
		select content from packet_piece where packet_id = $1 and attempt = $2 and file = $3 order by number`, k.ID, k.Attempt, file)
	var whole []byte
	for _, piece := range pieces {
		whole = append(whole, piece.Content...)
	}
	return whole, err
}

// Forget deletes the packets that were asked for, or made, before an instant.
func (p Packets) Forget(ctx context.Context, before time.Time) error {
	return p.exec(ctx, `delete from packet where coalesce(made_at, asked_at) < $1`, before)
}
