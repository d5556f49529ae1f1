package office

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// How far the page of reminders looks: days ahead, and days and letters back. Common
// practice, no source.
const (
	RemindersAhead = 7
	RemindersBack  = 30
	mostLetters    = 200
)

// RemindersQuery narrows the list of letters; empty fields are no condition.
type RemindersQuery struct {
	State  string
	Person assessment.PersonID
	Back   int // days; 0: RemindersBack
}

// RemindersDesk is what was sent, what failed, and what will be sent.
type RemindersDesk struct {
	Today     civil.Date
	Zone      *time.Location
	CanSend   bool // mail can leave here
	Rules     assessment.ReminderRules
	SetBy     PersonRef // empty: nobody has set them
	SetAt     time.Time
	From      civil.Date // since when letters are listed and counted
	Counts    map[postgres.MailState]int
	Letters   []LetterView // newest first
	More      bool         // there are more than are listed
	Coming    []ComingDay  // days on which something will be sent
	NoAddress []PersonRef  // who would be told something in these days, and has no address
	People    []PersonRef  // who can be chosen: those of the letters
}

// LetterView is one letter.
type LetterView struct {
	postgres.Digest
	To PersonRef
}

// ComingDay is what will be sent on a day, as things are now.
type ComingDay struct {
	On      civil.Date
	At      time.Time
	Letters []ComingLetter // by name
}

// ComingLetter is a letter that will be sent.
type ComingLetter struct {
	To     PersonRef
	Counts assessment.NoticeCounts
}

// Reminders answers for the days to come as things are known now.
func (o *Office) Reminders(ctx context.Context, by assessment.Actor, q RemindersQuery) (RemindersDesk, error) {
	var v RemindersDesk
	err := o.as(ctx, by, assessment.ReadReminders, func(tx *postgres.Tx, now Moment) error {
		v = RemindersDesk{Today: now.Today, Zone: now.Zone, CanSend: o.opt.Mail != nil}
		if err := q.settle(); err != nil {
			return err
		}
		v.From = now.Today.AddDays(-q.Back)
		names, err := o.names(ctx, tx)
		if err != nil {
			return err
		}
		rules, set, err := reminderRules(ctx, tx)
		if err != nil {
			return err
		}
		v.Rules, v.SetBy, v.SetAt = rules, names.people[set.SetBy], set.SetAt
		if err := v.readLetters(ctx, tx, q, names); err != nil {
			return err
		}
		return o.coming(ctx, tx, now, &v, names)
	})
	return v, err
}

func (q *RemindersQuery) settle() error {
	if q.Back == 0 {
		q.Back = RemindersBack
	}
	var f form
	if q.Back < 0 || q.Back > 3660 {
		f.Add("back", "Look back from 1 through 3660 days.")
	}
	if q.State != "" && !slices.Contains(postgres.MailStates, postgres.MailState(q.State)) {
		f.Add("state", "Choose one of the states in the list.")
	}
	return f.Err()
}

func (v *RemindersDesk) readLetters(ctx context.Context, tx *postgres.Tx, q RemindersQuery, names names) error {
	var err error
	if v.Counts, err = tx.Mail.Count(ctx, v.From); err != nil {
		return fmt.Errorf("count letters: %w", err)
	}
	all, err := tx.Mail.List(ctx, postgres.MailFilter{State: postgres.MailState(q.State), Person: q.Person, From: v.From, Limit: mostLetters + 1})
	if err != nil {
		return fmt.Errorf("read letters: %w", err)
	}
	if v.More = len(all) > mostLetters; v.More {
		all = all[:mostLetters]
	}
	for _, d := range all {
		to := names.people[d.PersonID]
		v.Letters = append(v.Letters, LetterView{d, to})
		if !slices.Contains(v.People, to) {
			v.People = append(v.People, to)
		}
	}
	if chosen, known := names.people[q.Person]; known && !slices.Contains(v.People, chosen) {
		v.People = append(v.People, chosen)
	}
	slices.SortFunc(v.People, byName)
	return nil
}

func byName(a, b PersonRef) int { return cmp.Or(cmp.Compare(a.Name, b.Name), cmp.Compare(a.ID, b.ID)) }

// coming works out the letters of today, where they are not written yet, and of the days
// after it.
func (o *Office) coming(ctx context.Context, tx *postgres.Tx, now Moment, v *RemindersDesk, names names) error {
	book, err := o.reminderBook(ctx, tx, now, RemindersAhead)
	if err != nil {
		return err
	}
	worked, err := tx.Reminders.Worked(ctx, now.Today)
	if err != nil {
		return err
	}
	first := now.Today
	if worked { // what came up since is told tomorrow
		first = first.AddDays(1)
	}
	for on := first; !on.After(now.Today.AddDays(RemindersAhead)); on = on.AddDays(1) {
		day := ComingDay{On: on, At: on.At(v.Rules.At, now.Zone).In(now.Zone)}
		for _, l := range book.lettersOn(on) {
			to := names.people[l.to]
			if book.people[l.to].Email != "" {
				day.Letters = append(day.Letters, ComingLetter{to, assessment.CountNotices(l.notices)})
			} else if !slices.Contains(v.NoAddress, to) {
				v.NoAddress = append(v.NoAddress, to)
			}
		}
		if len(day.Letters) > 0 {
			slices.SortFunc(day.Letters, func(a, b ComingLetter) int { return byName(a.To, b.To) })
			v.Coming = append(v.Coming, day)
		}
	}
	slices.SortFunc(v.NoAddress, byName)
	return nil
}

// SendAgain has a letter that failed sent once more, as it is.
func (o *Office) SendAgain(ctx context.Context, by assessment.Actor, id assessment.DigestID) error {
	return o.as(ctx, by, assessment.EditReminders, func(tx *postgres.Tx, now Moment) error {
		if _, err := tx.Mail.Get(ctx, id); err != nil {
			return err
		}
		if o.opt.Mail == nil {
			return fault.Of(fault.Refused, "No mail server is set here, so nothing can be sent. Whoever runs the service sets SMTP_URL and SMTP_FROM.")
		}
		err := tx.Mail.Again(ctx, id, now.At)
		if postgres.None(err) {
			return fault.Of(fault.Conflict, "This letter is not one that failed any more. Look at the list as it is now.")
		}
		if err != nil {
			return err
		}
		if err := sendLater(ctx, tx, now, id, now.At); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.EditReminders, "letter sent again", string(id))
	})
}
