package api

import "wellshown/assessment/office"

// InService is who took part in how much training.
type InService struct {
	On       bool               `json:"on" doc:"The agency counts the hours."`
	Asked    int                `json:"asked" doc:"Minutes in 12 months."`
	Aides    []InServiceOf      `json:"aides" doc:"Those who are short first."`
	Sessions []InServiceSession `json:"sessions" doc:"The newest first, with those taken back."`
}

// InServiceOf is how far one aide is.
type InServiceOf struct {
	Person  PersonRef `json:"person"`
	HiredOn string    `json:"hired_on,omitempty" format:"date"`
	From    string    `json:"from,omitempty" format:"date" doc:"Left out where nothing can be counted: the day of hire is not known."`
	Through string    `json:"through,omitempty" format:"date"`
	Minutes int       `json:"minutes"`
	Short   int       `json:"short" doc:"Minutes that are missing."`
	Ends    bool      `json:"ends" doc:"Short, and the 12 months end within 90 days."`
}

// InServiceSession is training that was held.
type InServiceSession struct {
	ID          string      `json:"id" format:"uuid"`
	HeldOn      string      `json:"held_on" format:"date"`
	Minutes     int         `json:"minutes"`
	Topic       string      `json:"topic"`
	Trainer     string      `json:"trainer"`
	Counts      bool        `json:"counts"`
	Orientation bool        `json:"orientation"`
	People      []PersonRef `json:"people"`
	TakenBack   bool        `json:"taken_back"`
}

// InServiceForm writes training down.
type InServiceForm struct {
	ID          string   `json:"id,omitempty" doc:"A UUID of your own, so that sending twice is harmless."`
	HeldOn      string   `json:"held_on" format:"date"`
	Hours       string   `json:"hours" maxLength:"20" doc:"Such as 1.5 or 1:30, in whole minutes."`
	Topic       string   `json:"topic" maxLength:"400"`
	Trainer     string   `json:"trainer" maxLength:"400"`
	Counts      bool     `json:"counts" doc:"Toward in-service."`
	Orientation bool     `json:"orientation"`
	People      []string `json:"people" maxItems:"500" doc:"Who took part: ids."`
}

// PlainReason says why something is taken back.
type PlainReason struct {
	Reason string `json:"reason" maxLength:"4000" doc:"What is wrong with it. It stays readable."`
}

// HiredForm says since when somebody works for the agency.
type HiredForm struct {
	On string `json:"on" format:"date"`
}

// Supervision is when each aide is assessed next with each child.
type Supervision struct {
	On      bool             `json:"on" doc:"The agency keeps it."`
	Overdue int              `json:"overdue"`
	Soon    int              `json:"soon" doc:"Due within 7 days."`
	Due     []SupervisionDue `json:"due" doc:"The first that is due first."`
	Made    []Supervised     `json:"made" doc:"The newest first, with those taken back."`
}

// SupervisionDue is one aide with one child.
type SupervisionDue struct {
	Aide    PersonRef  `json:"aide"`
	Client  *ClientRef `json:"client"`
	Skilled bool       `json:"skilled" doc:"The child gets skilled care too; where it is not known, the shorter times are taken."`
	By      string     `json:"by" format:"date" doc:"The last day on which the next assessment is on time."`
	WatchBy string     `json:"watch_by" format:"date" doc:"The last day on which the aide is watched giving care in time."`
	Late    bool       `json:"late"`
}

// Supervised is an assessment that was made.
type Supervised struct {
	ID         string     `json:"id" format:"uuid"`
	Aide       PersonRef  `json:"aide"`
	Client     *ClientRef `json:"client"`
	Supervisor PersonRef  `json:"supervisor"`
	On         string     `json:"on" format:"date"`
	How        string     `json:"how" enum:"on site,audio-video"`
	Watched    bool       `json:"watched"`
	Found      string     `json:"found,omitempty"`
	Deficient  bool       `json:"deficient"`
	TakenBack  bool       `json:"taken_back"`
}

// SupervisionForm writes an assessment down.
type SupervisionForm struct {
	ID         string `json:"id,omitempty" doc:"A UUID of your own, so that sending twice is harmless."`
	Aide       string `json:"aide" doc:"An id."`
	Client     string `json:"client" doc:"The child: an id."`
	Supervisor string `json:"supervisor" doc:"Who assessed it: an id."`
	On         string `json:"on" format:"date"`
	How        string `json:"how" enum:"on site,audio-video"`
	Watched    bool   `json:"watched,omitempty" doc:"The aide was watched giving care."`
	Why        string `json:"why,omitempty" maxLength:"4000" doc:"By audio-video: the circumstances."`
	Found      string `json:"found,omitempty" maxLength:"4000"`
	Deficient  bool   `json:"deficient,omitempty"`
}

// SkilledCareForm says from a day on whether a child gets skilled care.
type SkilledCareForm struct {
	From     string `json:"from" format:"date"`
	Skilled  bool   `json:"skilled"`
	Episodes string `json:"episodes,omitempty" format:"date" doc:"The first day of one of its 60-day episodes."`
}

func inService(v office.InServiceView) InService {
	return InService{On: v.On, Asked: v.Rule.Minutes, Aides: each(v.Lines, func(l office.InServiceLine) InServiceOf {
		of := InServiceOf{Person: personRef(l.Person), Minutes: l.Minutes, Short: l.Short, Ends: l.Ends}
		if !l.HiredOn.IsZero() {
			of.HiredOn = l.HiredOn.String()
		}
		if l.Counted {
			of.From, of.Through = l.From.String(), l.Through.String()
		}
		return of
	}), Sessions: each(v.Sessions, func(k office.InServiceSessionView) InServiceSession {
		return InServiceSession{ID: string(k.ID), HeldOn: k.HeldOn.String(), Minutes: k.Minutes, Topic: k.Topic, Trainer: k.Trainer, Counts: k.Counts, Orientation: k.Orientation, People: each(k.People, personRef), TakenBack: k.TakenBack}
	})}
}

func supervision(v office.SupervisionView) Supervision {
	return Supervision{On: v.On, Overdue: v.Overdue, Soon: v.Soon, Due: each(v.Lines, func(l office.SupervisionLine) SupervisionDue {
		return SupervisionDue{Aide: personRef(l.Aide), Client: clientRef(l.Client), Skilled: l.Skilled, By: l.By.String(), WatchBy: l.WatchBy.String(), Late: l.Late || l.Unseen}
	}), Made: each(v.Visits, func(m office.SupervisoryView) Supervised {
		return Supervised{ID: string(m.ID), Aide: personRef(m.Aide), Client: clientRef(m.Client), Supervisor: personRef(m.Supervisor), On: m.On.String(), How: string(m.How), Watched: m.Watched, Found: m.Found, Deficient: m.Deficient, TakenBack: m.TakenBack}
	})}
}
