package office

import (
	"context"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// How many weeks a plan of visits looks ahead: unless told otherwise, and at most. Common
// practice, no source.
const (
	VisitWeeks     = 8
	MostVisitWeeks = 26
)

// VisitQuery asks for visits. Zero fields are no condition.
type VisitQuery struct {
	Weeks    int // 0: VisitWeeks
	Educator assessment.PersonID
}

// VisitsView is the visits that are planned, those that are proposed besides, and what no
// visit meets.
type VisitsView struct {
	Agency    AgencyView
	At        time.Time
	Today     civil.Date
	Until     civil.Date
	Version   string // of all that the proposal was made of
	Kept      []HomeVisitView
	Proposed  []HomeVisitView
	Unmet     []UnmetVisit // by deadline
	Renewals  int          // met at these visits before they lapse
	Gaps      int          // met at them, and not held today
	Proven    bool         // no plan meets more, nor as much with fewer visits
	Minutes   int          // of travel for the proposed ones
	Educators []VisitWeeksView
	Clients   []ClientRef
	Bases     []BaseView
	Ways      []WayView
	Together  []TogetherView // what many need that could show it on one skills day
}

// TogetherView is a skill that many people could show on one day, whoever looks after which
// child: any day from From through Through suits all of them.
type TogetherView struct {
	Skill   SkillRef
	From    civil.Date
	Through civil.Date
	People  []PersonRef // by deadline
}

// LeastTogether is from how many people on a skills day is proposed. Common practice, no
// source.
const LeastTogether = 5

// HomeVisitView is an educator at a home on a day. A proposed one has no id, and a key.
type HomeVisitView struct {
	ID       assessment.VisitID
	Key      string
	Version  string
	UID      string // that names it in calendars; empty for a proposed one
	On       civil.Date
	Client   ClientRef
	Educator PersonRef
	Sees     []DueVisit // by deadline; none: nothing is due there any more
	Faults   []string   // why it cannot be made as it is planned
}

// DueVisit is what somebody has to show.
type DueVisit struct {
	Person  PersonRef
	Skill   SkillRef
	With    ClientRef // the child it is held for
	Word    assessment.StandingWord
	Opens   civil.Date
	Through civil.Date
	Lapses  bool // held, and over after Through
	Needs   string
	Before  string // what comes first and is not held yet; it is due as well
}

// UnmetVisit is something due that no visit meets, with why.
type UnmetVisit struct {
	DueVisit
	Home     ClientRef
	Why      string
	Card     bool // a resuscitation card is what is missing
	Observer bool // somebody would have to be appointed
	Room     bool // somebody would have to make room
}

// Visits answers what is planned and proposes what else there should be. Nothing is
// changed by it.
func (o *Office) Visits(ctx context.Context, by assessment.Actor, q VisitQuery) (VisitsView, error) {
	var v VisitsView
	err := o.as(ctx, by, assessment.ReadReports, func(tx *postgres.Tx, now Moment) error {
		until, err := q.until(now.Today)
		if err != nil {
			return err
		}
		b, err := o.visitBook(ctx, tx, now, until)
		if err != nil {
			return err
		}
		v = o.viewVisits(b, now, q)
		return b.viewWeeks(ctx, tx, now, &v)
	})
	return v, err
}

func (q VisitQuery) until(today civil.Date) (civil.Date, error) {
	switch {
	case q.Weeks == 0:
		q.Weeks = VisitWeeks
	case q.Weeks < 1 || q.Weeks > MostVisitWeeks:
		var f form
		f.Add("weeks", "Plan from 1 through %d weeks.", MostVisitWeeks)
		return civil.Date{}, f.Err()
	}
	return today.AddDays(7*q.Weeks - 1), nil
}

func (o *Office) viewVisits(b *visitBook, now Moment, q VisitQuery) VisitsView {
	plan := b.plan()
	v := VisitsView{Agency: viewAgency(now.Agency), At: now.At.In(now.Zone), Today: now.Today, Until: b.until, Version: b.facts, Proven: plan.Proven, Minutes: plan.Minutes}
	for i, k := range b.kept {
		visit := b.visitView(b.visits[i])
		visit.ID, visit.Version, visit.UID = k.ID, visitVersion(k), o.uid("visit", string(k.ID))
		visit.Faults = faultWords(b.faults[i])
		v.Kept = append(v.Kept, visit)
	}
	for _, p := range plan.Visits {
		v.Proposed = append(v.Proposed, b.visitView(p))
	}
	v.narrow(q)
	for _, visit := range slices.Concat(v.Kept, v.Proposed) {
		for _, s := range visit.Sees {
			if s.Lapses {
				v.Renewals++
			} else {
				v.Gaps++
			}
		}
	}
	for _, u := range plan.Unmet {
		v.Unmet = append(v.Unmet, UnmetVisit{DueVisit: b.dueVisit(u.Window), Home: b.table.names.clients[u.Window.Home], Why: unmetWords(u), Observer: u.Why == assessment.NobodyObserves, Room: u.Why == assessment.OffOrFull})
	}
	for _, h := range b.helpless {
		w := assessment.Window{Person: h.person, Need: h.need, Home: h.need.Client, Opens: h.due.Opens, Through: h.due.Through}
		v.Unmet = append(v.Unmet, UnmetVisit{DueVisit: b.dueOf(w, h.due), Home: b.table.names.clients[w.Home], Why: h.why, Card: h.due.Why == assessment.AwaitsCard})
	}
	slices.SortStableFunc(v.Unmet, func(x, y UnmetVisit) int { return x.Through.Compare(y.Through) })
	v.Together = b.together()
	return v
}

// together are the skills that many could show on one day. What is held for one child is shown
// with that child.
func (b *visitBook) together() []TogetherView {
	general := slices.DeleteFunc(slices.Clone(b.windows), func(w assessment.Window) bool { return w.Need.Client != "" })
	var all []TogetherView
	for _, p := range assessment.ProposeSkillsDays(general, b.table.on, LeastTogether) {
		skill := b.skill(p.Need.Skill)
		t := TogetherView{Skill: SkillRef{skill.ID, skill.Code, skill.Title}, From: p.From, Through: p.Through}
		for _, w := range p.Windows {
			t.People = append(t.People, b.table.names.people[w.Person])
		}
		all = append(all, t)
	}
	return all
}

// narrow leaves the visits of one educator.
func (v *VisitsView) narrow(q VisitQuery) {
	if q.Educator == "" {
		return
	}
	other := func(x HomeVisitView) bool { return x.Educator.ID != q.Educator }
	v.Kept, v.Proposed = slices.DeleteFunc(v.Kept, other), slices.DeleteFunc(v.Proposed, other)
}

func (b *visitBook) visitView(h assessment.HomeVisit) HomeVisitView {
	v := HomeVisitView{Key: visitKey(h), On: h.On, Client: b.table.names.clients[h.Home], Educator: b.table.names.people[h.Educator]}
	for _, w := range h.Windows {
		v.Sees = append(v.Sees, b.dueVisit(w))
	}
	return v
}

// visitKey names a proposed visit.
func visitKey(h assessment.HomeVisit) string {
	return string(h.Home) + "." + string(h.Educator) + "." + h.On.String()
}

func (b *visitBook) dueVisit(w assessment.Window) DueVisit {
	d := b.dueOf(w, b.due[w])
	d.Before = b.before[w]
	return d
}

func (b *visitBook) dueOf(w assessment.Window, r assessment.Renewal) DueVisit {
	s := b.skill(w.Need.Skill)
	return DueVisit{Person: b.table.names.people[w.Person], Skill: SkillRef{s.ID, s.Code, s.Title}, With: b.table.names.clients[w.Need.Client], Word: r.Word, Opens: w.Opens, Through: w.Through, Lapses: r.Lapses, Needs: r.Next.InWords()}
}

func faultWords(faults []assessment.MoveFault) []string {
	var words []string
	for _, f := range faults {
		words = append(words, string(f))
	}
	return words
}

func visitVersion(k postgres.PlannedVisit) string { return hashed(k.ID, k.Client, k.Person, k.FallsOn) }

func visitGone() error {
	return fault.Of(fault.Conflict, "Something that this rests on has changed since you read it. Look at the plan as it is now, then decide.")
}
