package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// Mail keeps the letters of each day and what became of them.
type Mail struct{ scope }

// MailState is what became of a letter.
type MailState string

// The states.
const (
	MailWaiting MailState = "waiting" // to be sent, perhaps again
	MailSending MailState = "sending" // somebody is at it, or died of it
	MailSent    MailState = "sent"    // a mail server has taken it
	MailFailed  MailState = "failed"
	MailDropped MailState = "dropped" // there was nobody to send it to any more
)

// MailStates lists them.
var MailStates = []MailState{MailWaiting, MailSending, MailSent, MailFailed, MailDropped}

// Digest is the letter of one day to one person.
type Digest struct {
	ID        assessment.DigestID
	PersonID  assessment.PersonID
	FallsOn   civil.Date
	Language  string
	Due       int
	Lapsed    int
	Unplanned int
	Rostered  int
	MessageID string
	MadeAt    time.Time
	State     MailState
	Tries     int
	Job       int
	NextAt    time.Time
	EndedAt   *time.Time
	Code      int
	Says      string
}

// Counts is how much it tells.
func (d Digest) Counts() assessment.NoticeCounts {
	return assessment.NoticeCounts{Due: d.Due, Lapsed: d.Lapsed, Unplanned: d.Unplanned, Rostered: d.Rostered}
}

const digestColumns = ` id, person_id, falls_on, language, due::int, lapsed::int, unplanned::int, rostered::int, message_id, made_at, state, tries::int, job, next_at, ended_at, code::int, says `

// Add keeps a letter that waits.
func (m Mail) Add(ctx context.Context, d Digest) error {
	return m.exec(ctx, `
		insert into mail_digest (agency_id, id, person_id, falls_on, language, due, lapsed, unplanned, rostered, message_id, made_at, state, tries, job, next_at, code, says)
		values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, 'waiting', 0, 0, $11, 0, '')`,
		m.agency, d.ID, d.PersonID, d.FallsOn, d.Language, d.Due, d.Lapsed, d.Unplanned, d.Rostered, d.MessageID, d.MadeAt)
}

// Get is the letter with this id.
func (m Mail) Get(ctx context.Context, id assessment.DigestID) (Digest, error) {
	return get[Digest](ctx, m.scope, `select`+digestColumns+`from mail_digest where id = $1`, id)
}

// Hold takes a letter to send it, until an instant after which whoever holds it is taken
// for dead. One that is not to be sent now, or that somebody else holds, is not found.
func (m Mail) Hold(ctx context.Context, id assessment.DigestID, now, until time.Time) (Digest, error) {
	return get[Digest](ctx, m.scope, `
		update mail_digest set state = 'sending', tries = tries + 1, held_until = $3
		where id = $1 and state = 'waiting' and next_at <= $2
		returning`+digestColumns, id, now, until)
}

// End says what became of a try; what became of an earlier one changes nothing, and is
// not found.
func (m Mail) End(ctx context.Context, d Digest) error {
	return m.change(ctx, `
		update mail_digest set state = $3, next_at = $4, held_until = null, ended_at = $5, code = $6, says = $7
		where id = $1 and state = 'sending' and tries = $2`, d.ID, d.Tries, d.State, d.NextAt, d.EndedAt, d.Code, d.Says)
}

// Again has a letter that failed wait to be sent.
func (m Mail) Again(ctx context.Context, id assessment.DigestID, now time.Time) error {
	return m.change(ctx, `
		update mail_digest set state = 'waiting', tries = 0, next_at = $2, ended_at = null where id = $1 and state = 'failed'`, id, now)
}

// LostLetter is a letter that nobody looks after.
type LostLetter struct {
	ID    assessment.DigestID
	Tries int
}

// Lost lists the letters that have waited since before an instant, and those that somebody died of.
func (m Mail) Lost(ctx context.Context, before, now time.Time) ([]LostLetter, error) {
	return list[LostLetter](ctx, m.scope, `
		select id, tries::int from mail_digest
		where state = 'waiting' and next_at < $1 or state = 'sending' and held_until < $2
		order by next_at, id limit 1000`, before, now)
}

// GiveUp ends a letter that is under way as failed, and says why.
func (m Mail) GiveUp(ctx context.Context, id assessment.DigestID, at time.Time, why string) error {
	return m.change(ctx, `
		update mail_digest set state = 'failed', held_until = null, ended_at = $2, code = 0, says = $3
		where id = $1 and state in ('waiting', 'sending')`, id, at, why)
}

// NextJob counts one more job that is to send a letter, not before an instant. Whoever
// was sending it is taken for dead.
func (m Mail) NextJob(ctx context.Context, id assessment.DigestID, at time.Time) (int, error) {
	v, err := get[struct{ Job int }](ctx, m.scope, `
		update mail_digest set job = job + 1, state = 'waiting', held_until = null, next_at = $2
		where id = $1 and state in ('waiting', 'sending') returning job`, id, at)
	return v.Job, err
}

// MailFilter narrows a list of letters; empty fields are no condition.
type MailFilter struct {
	State  MailState
	Person assessment.PersonID
	From   civil.Date
	Limit  int
}

// List lists letters, the newest day first, by name of whom they are for.
func (m Mail) List(ctx context.Context, f MailFilter) ([]Digest, error) {
	return list[Digest](ctx, m.scope, `
		select`+digestColumns+`from mail_digest d
		where ($1 = '' or state = $1) and ($2 = '' or person_id = nullif($2, '')::uuid) and falls_on >= $3
		order by falls_on desc, (select lower(p.name) from person p where p.agency_id = d.agency_id and p.id = d.person_id), id
		limit nullif($4, 0)`, string(f.State), string(f.Person), f.From, f.Limit)
}

// Count counts letters since a day by what became of them.
func (m Mail) Count(ctx context.Context, from civil.Date) (map[MailState]int, error) {
	type row struct {
		State MailState
		N     int
	}
	found, err := list[row](ctx, m.scope, `select state, count(*)::int as n from mail_digest where falls_on >= $1 group by state`, from)
	n := map[MailState]int{}
	for _, r := range found {
		n[r.State] = r.N
	}
	return n, err
}
