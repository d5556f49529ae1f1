package office

import (
	"context"
	"encoding/base64"
	"fmt"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/calendar"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// feedMark begins the secret of a calendar, so that programs which look for lost secrets
// can find it.
const feedMark = "wsfeed_"

// FeedView is a private calendar that can be read.
type FeedView struct {
	MadeAt time.Time // zero: there is none
}

// FeedsDesk is somebody's private calendars.
type FeedsDesk struct {
	Own, Whole FeedView
	MayWhole   bool // they may have one of the agency
}

// NewFeed is a calendar as it is shown once.
type NewFeed struct {
	Address string // kept nowhere
	Whole   bool
}

// Feeds lists the calendars of whoever asks.
func (o *Office) Feeds(ctx context.Context, by assessment.Actor) (FeedsDesk, error) {
	d := FeedsDesk{MayWhole: by.Reach(assessment.ReadReminders) != assessment.Nothing}
	err := o.as(ctx, by, assessment.OwnAccount, func(tx *postgres.Tx, now Moment) error {
		all, err := tx.Feeds.Of(ctx, by.Person)
		for _, f := range all {
			if f.Whole {
				d.Whole = FeedView{f.MadeAt}
			} else {
				d.Own = FeedView{f.MadeAt}
			}
		}
		return err
	})
	return d, err
}

// MakeOwnFeed makes a calendar of one's own; the one before it ends.
func (o *Office) MakeOwnFeed(ctx context.Context, by assessment.Actor) (NewFeed, error) {
	return o.makeFeed(ctx, by, assessment.OwnAccount, false)
}

// MakeAgencyFeed makes a calendar of the agency; the one that one had before it ends.
func (o *Office) MakeAgencyFeed(ctx context.Context, by assessment.Actor) (NewFeed, error) {
	return o.makeFeed(ctx, by, assessment.EditReminders, true)
}

// EndOwnFeed ends the calendar of one's own.
func (o *Office) EndOwnFeed(ctx context.Context, by assessment.Actor) error {
	return o.endFeed(ctx, by, assessment.OwnAccount, false)
}

// EndAgencyFeed ends the calendar of the agency that one has.
func (o *Office) EndAgencyFeed(ctx context.Context, by assessment.Actor) error {
	return o.endFeed(ctx, by, assessment.EditReminders, true)
}

func (o *Office) makeFeed(ctx context.Context, by assessment.Actor, act assessment.Act, whole bool) (NewFeed, error) {
	raw, err := o.bytes(32)
	if err != nil {
		return NewFeed{}, err
	}
	secret := feedMark + base64.RawURLEncoding.EncodeToString(raw)
	err = o.as(ctx, by, act, func(tx *postgres.Tx, now Moment) error {
		if _, err := tx.People.Lock(ctx, by.Person); err != nil { // two at once would both be the newest
			return err
		}
		if err := tx.Feeds.Revoke(ctx, by.Person, whole, by.Person, now.At); err != nil && !postgres.None(err) {
			return err
		}
		id, err := newID[assessment.FeedID](o, now.At)
		if err != nil {
			return err
		}
		if err := tx.Feeds.Add(ctx, postgres.Feed{ID: id, Person: by.Person, Whole: whole, MadeAt: now.At}, tokenHash(secret)); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, act, "calendar made", string(id))
	})
	if err != nil {
		return NewFeed{}, err
	}
	return NewFeed{o.opt.BaseURL + "/feeds/" + secret + ".ics", whole}, nil
}

func (o *Office) endFeed(ctx context.Context, by assessment.Actor, act assessment.Act, whole bool) error {
	return o.as(ctx, by, act, func(tx *postgres.Tx, now Moment) error {
		err := tx.Feeds.Revoke(ctx, by.Person, whole, by.Person, now.At)
		if postgres.None(err) {
			return notFound()
		}
		if err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, act, "calendar revoked", string(by.Agency))
	})
}

// endFeeds ends for good those calendars of somebody that are named: whoever had the account
// before may know an address, and one that slept while its maker was away or planned nothing
// must not wake.
func (o *Office) endFeeds(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, act assessment.Act, of assessment.PersonID, wholes ...bool) error {
	for _, whole := range wholes {
		err := tx.Feeds.Revoke(ctx, of, whole, by.Person, now.At)
		if postgres.None(err) {
			continue
		}
		if err != nil {
			return fmt.Errorf("end a calendar: %w", err)
		}
		if err := o.note(ctx, tx, now, by, act, "calendar revoked", string(of)); err != nil {
			return err
		}
	}
	return nil
}

// Feed is a private calendar as iCalendar, for whoever knows its secret. One that was
// revoked, whose maker has left or may no longer see what is in it, is not there.
func (o *Office) Feed(ctx context.Context, secret string) ([]byte, error) {
	hash := tokenHash(secret)
	agency, err := o.db.AtDoor().Feed(ctx, hash)
	if err != nil {
		return nil, feedGone(err)
	}
	var c calendar.Calendar
	err = o.reading(ctx, agency, func(tx *postgres.Tx, now Moment) error {
		f, err := tx.Feeds.Find(ctx, hash)
		if err != nil {
			return err
		}
		p, err := tx.People.Get(ctx, f.Person)
		if err != nil {
			return err
		}
		act := assessment.OwnAccount
		if f.Whole {
			act = assessment.ReadReminders
		}
		if gone(p.LeftOn, now.Today) || actorOf(agency, p).Reach(act) == assessment.Nothing {
			return notFound()
		}
		c = calendar.Calendar{Name: "Wellshown", Day: now.Today, Stamp: now.Today.In(now.Zone)}
		if f.Whole {
			c.Name += ", " + now.Agency.Name
			c.Events, err = o.agencyEvents(ctx, tx, now)
		} else {
			c.Events, err = o.ownEvents(ctx, tx, now, p)
		}
		return err
	})
	if err != nil {
		return nil, feedGone(err)
	}
	return c.Write(), nil
}

// feedGone is the one answer for what is not there, whatever the reason.
func feedGone(err error) error {
	if kind := fault.KindOf(err); kind == fault.NotFound || kind == fault.Forbidden {
		return notFound()
	}
	return err
}
