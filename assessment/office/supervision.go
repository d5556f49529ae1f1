package office

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// SupervisionForm writes down an assessment of an aide's services with a child.
type SupervisionForm struct {
	ID         string // made by whoever sends it, so that sending twice adds one; empty: made here
	Client     assessment.ClientID
	Aide       assessment.PersonID
	Supervisor assessment.PersonID
	On         string
	How        string
	Watched    bool // the aide was watched giving care
	Why        string
	Found      string
	Deficient  bool
}

// SkilledCareForm says from a day on whether a child gets skilled care.
type SkilledCareForm struct {
	From     string
	Skilled  bool
	Episodes string // the first day of one of its 60-day episodes; empty: not known
}

// SupervisionView is when each aide is assessed next with each child, and when watched.
type SupervisionView struct {
	Today       civil.Date
	On          bool // the agency keeps it
	Lines       []SupervisionLine
	Overdue     int // of them, assessed or watched too late
	Soon        int // not overdue, and due within 7 days
	Visits      []SupervisoryView
	Care        []CareView // each child that is here
	Aides       []PersonRef
	Supervisors []PersonRef // who has a licence that holds today
}

// SupervisionSoon is how many days before it is due an assessment is told as due soon. Common
// practice, no source.
const SupervisionSoon = 7

// SupervisionLine is one aide with one child.
type SupervisionLine struct {
	Aide    PersonRef
	Client  ClientRef
	Skilled bool
	Known   bool       // whether the child gets skilled care is known; else the shorter times are taken
	Last    civil.Date // assessed; zero: not yet
	By      civil.Date // the last day on which the next one is on time
	Watched civil.Date // zero: not yet
	WatchBy civil.Date
	Late    bool // the assessment is
	Unseen  bool // the watching is late
}

func (l SupervisionLine) first() civil.Date { return civil.Earlier(l.By, l.WatchBy) }

// SupervisoryView is one assessment by names.
type SupervisoryView struct {
	ID         assessment.RecordID
	Client     ClientRef
	Aide       PersonRef
	Supervisor PersonRef
	On         civil.Date
	How        assessment.SupervisionHow
	Watched    bool
	Why        string
	Found      string
	Deficient  bool
	TakenBack  bool
}

// CareView is whether a child gets skilled care today.
type CareView struct {
	Client   ClientRef
	Known    bool
	Skilled  bool
	From     civil.Date
	Episodes civil.Date
}

// Supervision answers for today. A person or a child narrows it; empty: all.
func (o *Office) Supervision(ctx context.Context, by assessment.Actor, aide assessment.PersonID, client assessment.ClientID) (SupervisionView, error) {
	var v SupervisionView
	err := o.as(ctx, by, assessment.ReadReports, func(tx *postgres.Tx, now Moment) (err error) {
		v, err = o.supervision(ctx, tx, now, aide, client)
		return err
	})
	return v, err
}

func (o *Office) supervision(ctx context.Context, tx *postgres.Tx, now Moment, aide assessment.PersonID, client assessment.ClientID) (SupervisionView, error) {
	v := SupervisionView{Today: now.Today}
	rules, err := practice(ctx, tx)
	if err != nil {
		return v, err
	}
	b, err := o.supervisionBook(ctx, tx, now)
	if err != nil {
		return v, err
	}
	v.On, v.Aides, v.Supervisors = rules.Supervision, b.aides, b.supervisors
	for _, l := range b.lines(now.Today) {
		if aide != "" && l.Aide.ID != aide || client != "" && l.Client.ID != client {
			continue
		}
		v.Lines = append(v.Lines, l)
		switch {
		case l.Late || l.Unseen:
			v.Overdue++
		case l.first().Sub(now.Today) <= SupervisionSoon:
			v.Soon++
		}
	}
	for _, k := range b.visits {
		if aide != "" && k.Aide != aide || client != "" && k.Client != client {
			continue
		}
		v.Visits = append(v.Visits, SupervisoryView{ID: k.ID, Client: b.names.clients[k.Client], Aide: b.names.people[k.Aide], Supervisor: b.names.people[k.Supervisor], On: k.MadeOn, How: k.How,
			Watched: k.Watched, Why: k.Why, Found: k.Found, Deficient: k.Deficient, TakenBack: k.TakenBackAt != nil})
	}
	for _, c := range b.clients {
		care, known := assessment.CareOn(b.care[c.ID], now.Today)
		one := CareView{Client: ClientRef{c.ID, c.Code, c.FirstName}, Known: known}
		if known {
			one.Skilled, one.From, one.Episodes = care.Skilled, care.From, care.Episodes
		}
		v.Care = append(v.Care, one)
	}
	return v, nil
}
