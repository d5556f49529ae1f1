package office

import (
	"context"
	"errors"
	"fmt"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/mailing"
	"wellshown/assessment/postgres"
)

// Mail is a way for mail to leave.
type Mail struct {
	Send   func(context.Context, mailing.Letter) error
	Within time.Duration // Send never takes longer
}

// holds is how long whoever sends a letter may take, noting that it was sent with it,
// before they are taken for dead and somebody else sends it.
func (m *Mail) holds() time.Duration { return 2*m.Within + time.Second }

// After a failure a letter is tried again after these times, and then no more. Common
// practice, no source; RFC 5321, section 4.5.4.1, has servers go on for days, which would
// bring a reminder of last week.
var mailPauses = []time.Duration{time.Minute, 5 * time.Minute, 30 * time.Minute, 2 * time.Hour}

// mailDeaths is after how many tries a letter is no longer taken up from somebody who was killed while sending it: what
// kills a program each time would kill it for ever. Common practice, no source.
const mailDeaths = 10

// sendDigest is the job that sends a letter. Number tells one job of a letter from the
// next: the queue takes the same job once.
type sendDigest struct {
	Agency assessment.AgencyID
	Letter assessment.DigestID
	Number int
}

// Kind names the job.
func (sendDigest) Kind() string { return "send_digest" }

// sendLater has a letter sent, not before an instant, once this transaction is kept.
func sendLater(ctx context.Context, tx *postgres.Tx, now Moment, letter assessment.DigestID, at time.Time) error {
	number, err := tx.Mail.NextJob(ctx, letter, at)
	if err != nil {
		return err
	}
	job := sendDigest{now.Agency.ID, letter, number}
	if !at.After(now.At) {
		return tx.Jobs.Add(ctx, job) // at once: what has a time waits until the queue looks at its clock
	}
	return tx.Jobs.AddAt(ctx, job, at)
}

// lookAfterMail gives another job to letters that have none any more: whoever was sending
// them, or was about to, was killed. Where the queue is only long, the second job finds
// nothing to do.
func (o *Office) lookAfterMail(ctx context.Context, agency assessment.AgencyID) error {
	lost := func(tx *postgres.Tx, now Moment) ([]postgres.LostLetter, error) {
		return tx.Mail.Lost(ctx, now.At.Add(-o.opt.Mail.holds()), now.At)
	}
	var some bool
	err := o.reading(ctx, agency, func(tx *postgres.Tx, now Moment) error {
		found, err := lost(tx, now)
		some = len(found) > 0
		return err
	})
	if err != nil || !some {
		return err
	}
	return o.in(ctx, agency, func(tx *postgres.Tx, now Moment) error {
		if err := tx.Reminders.Lock(ctx); err != nil {
			return err
		}
		found, err := lost(tx, now)
		if err != nil {
			return err
		}
		for _, l := range found {
			if err := takeUp(ctx, tx, now, l); err != nil {
				return err
			}
		}
		return nil
	})
}

// takeUp has a letter that nobody looks after sent, unless that was tried too often already.
func takeUp(ctx context.Context, tx *postgres.Tx, now Moment, l postgres.LostLetter) error {
	if l.Tries < mailDeaths {
		return sendLater(ctx, tx, now, l.ID, now.At)
	}
	err := tx.Mail.GiveUp(ctx, l.ID, now.At, fmt.Sprintf("It was tried %d times, and each time lately the program was ended while it sent this letter. Whoever runs the server finds why in its log.", l.Tries))
	if postgres.None(err) {
		return nil // somebody ended it meanwhile
	}
	return err
}

// send sends a letter: it is noted that it is being sent before, and what came of it
// after. Killed between the two, somebody else sends it again under the same id.
func (o *Office) send(ctx context.Context, job sendDigest) error {
	if o.opt.Mail == nil {
		return nil // it waits until mail can be sent, and is looked after then
	}
	d, to, err := o.holdLetter(ctx, job)
	if err != nil || d.ID == "" {
		return err
	}
	failed := o.opt.Mail.Send(ctx, mailing.Letter{To: to, Language: d.Language, ID: d.MessageID, At: d.MadeAt, Counts: d.Counts(), Link: o.opt.BaseURL + "/"})
	after, cancel := context.WithTimeout(context.WithoutCancel(ctx), o.opt.Mail.Within) // also where the program is being stopped
	defer cancel()
	err = o.in(after, job.Agency, func(tx *postgres.Tx, now Moment) error { return endLetter(after, tx, now, d, failed) })
	if err != nil {
		return fmt.Errorf("note what became of letter %s: %w", d.ID, err)
	}
	return nil
}

// holdLetter takes a letter to be sent, and where it goes. None: it is not to be sent now,
// or there is nobody to send it to any more.
func (o *Office) holdLetter(ctx context.Context, job sendDigest) (postgres.Digest, string, error) {
	var d postgres.Digest
	to := ""
	err := o.in(ctx, job.Agency, func(tx *postgres.Tx, now Moment) error {
		var err error
		d, err = tx.Mail.Hold(ctx, job.Letter, now.At, now.At.Add(o.opt.Mail.holds()))
		if fault.KindOf(err) == fault.NotFound {
			d = postgres.Digest{}
			return nil
		}
		if err != nil {
			return err
		}
		p, err := tx.People.Get(ctx, d.PersonID)
		if err != nil {
			return err
		}
		if to = p.Email; to != "" && !gone(p.LeftOn, now.Today) {
			return nil
		}
		d.State, d.EndedAt = postgres.MailDropped, &now.At
		err = tx.Mail.End(ctx, d)
		d = postgres.Digest{}
		return err
	})
	if err != nil {
		return d, "", fmt.Errorf("take letter %s to send it: %w", job.Letter, err)
	}
	return d, to, nil
}

// endLetter notes what became of a try, and has it tried again where that may help.
func endLetter(ctx context.Context, tx *postgres.Tx, now Moment, d postgres.Digest, failed error) error {
	d.State, d.EndedAt, d.Code, d.Says = postgres.MailSent, &now.At, 0, ""
	if failed != nil {
		f := &mailing.Failure{Says: "It could not be handed over."}
		errors.As(failed, &f)
		d.State, d.Code, d.Says = postgres.MailFailed, f.Code, f.Says
		if !f.Lasting && d.Tries <= len(mailPauses) {
			d.State, d.EndedAt, d.NextAt = postgres.MailWaiting, nil, now.At.Add(mailPauses[d.Tries-1])
		}
	}
	err := tx.Mail.End(ctx, d)
	if postgres.None(err) {
		return nil // it was held for too long, and somebody else has it
	}
	if err != nil || d.State != postgres.MailWaiting {
		return err
	}
	return sendLater(ctx, tx, now, d.ID, d.NextAt)
}
