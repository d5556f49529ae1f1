package office

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"net/url"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// Remind works out, in each agency where the hour has come, whom to remind today, once;
// and sees to letters that nobody looks after any more. It is called every so often, by
// as many programs as like. Where no mail can be sent, nothing is worked out: nobody is
// told today of what was so months ago.
func (o *Office) Remind(ctx context.Context) error {
	if o.opt.Mail == nil {
		return nil
	}
	agencies, err := o.db.AtDoor().Agencies(ctx)
	if err != nil {
		return fmt.Errorf("list agencies to remind: %w", err)
	}
	var faults []error
	for _, id := range agencies {
		if err := errors.Join(o.remind(ctx, id), o.lookAfterMail(ctx, id)); err != nil { // the others are reminded all the same
			faults = append(faults, fmt.Errorf("remind agency %s: %w", id, err))
		}
	}
	return errors.Join(faults...)
}

func (o *Office) remind(ctx context.Context, agency assessment.AgencyID) error {
	due := false
	err := o.reading(ctx, agency, func(tx *postgres.Tx, now Moment) error {
		var err error
		due, err = remindersDue(ctx, tx, now)
		return err
	})
	if err != nil || !due {
		return err
	}
	return o.in(ctx, agency, func(tx *postgres.Tx, now Moment) error {
		if err := tx.Reminders.Lock(ctx); err != nil {
			return err
		}
		if due, err := remindersDue(ctx, tx, now); err != nil || !due {
			return err
		}
		if err := tx.Reminders.Work(ctx, now.Today, now.At); err != nil {
			return err
		}
		return o.makeMail(ctx, tx, now)
	})
}

// remindersDue reports whether the hour of today's mail has come, and nobody has seen to it.
func remindersDue(ctx context.Context, tx *postgres.Tx, now Moment) (bool, error) {
	rules, _, err := reminderRules(ctx, tx)
	if err != nil || rules.Off || now.At.Before(now.Today.At(rules.At, now.Zone)) {
		return false, err
	}
	worked, err := tx.Reminders.Worked(ctx, now.Today)
	return !worked, err
}

// reminderRules are those that were set last, with who set them, or the usual ones.
func reminderRules(ctx context.Context, tx *postgres.Tx) (assessment.ReminderRules, postgres.ReminderRule, error) {
	set, err := tx.Reminders.Rule(ctx)
	if fault.KindOf(err) == fault.NotFound {
		return assessment.UsualReminders, set, nil
	}
	return set.Rules(), set, err
}

// makeMail writes today's letters: one to each person who is told anything that they were
// not told before, each with the job that sends it. Whoever has no address is told
// nothing, and so it is not noted as told.
func (o *Office) makeMail(ctx context.Context, tx *postgres.Tx, now Moment) error {
	book, err := o.reminderBook(ctx, tx, now, 0)
	if err != nil {
		return err
	}
	for _, l := range book.lettersOn(now.Today) {
		to := book.people[l.to]
		if to.Email == "" {
			continue
		}
		c := assessment.CountNotices(l.notices)
		d := postgres.Digest{PersonID: l.to, FallsOn: now.Today, Language: to.Language, Due: c.Due, Lapsed: c.Lapsed, Unplanned: c.Unplanned, Rostered: c.Rostered,
			MessageID: o.messageID(now.Agency.ID, l.to, now.Today), MadeAt: now.At}
		if d.ID, err = newID[assessment.DigestID](o, now.At); err != nil {
			return err
		}
		if err := tx.Mail.Add(ctx, d); err != nil {
			return fmt.Errorf("write a letter: %w", err)
		}
		if err := tx.Reminders.Tell(ctx, d.ID, l.notices); err != nil {
			return fmt.Errorf("note what a letter tells: %w", err)
		}
		if err := sendLater(ctx, tx, now, d.ID, now.At); err != nil {
			return err
		}
	}
	return nil
}

// messageID is the id of somebody's letter of a day: the same whoever works it out, so
// that the letter is known again however often it is sent (RFC 5322, section 3.6.4).
func (o *Office) messageID(agency assessment.AgencyID, to assessment.PersonID, on civil.Date) string {
	sum := sha256.Sum256([]byte("reminder " + string(agency) + " " + string(to) + " " + on.String()))
	host := "wellshown.invalid"
	if u, err := url.Parse(o.opt.BaseURL); err == nil && u.Hostname() != "" {
		host = u.Hostname()
	}
	return hex.EncodeToString(sum[:16]) + "@" + host
}
