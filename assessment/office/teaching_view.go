package office

import (
	"context"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/postgres"
)

// TeachingView is a teaching session by the names of all that it is about.
type TeachingView struct {
	postgres.TeachingSession
	Teacher PersonRef
	Child   ClientRef
	Taught  []SkillRef
	Who     []TaughtView // by name; only oneself for a caregiver who reads their own
	Others  int          // who were taught as well and are not named to this reader
}

// TaughtView is somebody who was taught, and how.
type TaughtView struct {
	Person PersonRef
	assessment.TaughtHow
}

// TeachingDesk is one session with what it can be corrected to.
type TeachingDesk struct {
	TeachingView
	Agency   AgencyView
	Teachers []PersonRef
	People   []PersonRef
	Skills   []SkillRef
	Clients  []ClientRef
	ID       string // that the correction will have
}

// TeachingSession is one session.
func (o *Office) TeachingSession(ctx context.Context, by assessment.Actor, id assessment.RecordID) (TeachingDesk, error) {
	var v TeachingDesk
	err := o.as(ctx, by, assessment.LogCare, func(tx *postgres.Tx, now Moment) error {
		s, err := tx.Teaching.Get(ctx, id)
		if err != nil {
			return err
		}
		n, err := o.names(ctx, tx)
		if err != nil {
			return err
		}
		skills, err := tx.Checklists.Skills(ctx)
		if err != nil {
			return err
		}
		v = TeachingDesk{TeachingView: viewTeaching(s, n, skills), Agency: viewAgency(now.Agency)}
		for _, k := range skills {
			v.Skills = append(v.Skills, SkillRef{k.ID, k.Code, k.Title})
		}
		people, err := tx.People.List(ctx, postgres.PeopleFilter{IncludeLeft: true})
		if err != nil {
			return err
		}
		for _, p := range people {
			ref := n.people[p.ID]
			if slices.Contains(p.Roles, assessment.Educator) {
				v.Teachers = append(v.Teachers, ref)
			}
			if p.Kind != "" && p.ID != by.Person && !gone(p.LeftOn, s.HeldOn) {
				v.People = append(v.People, ref)
			}
		}
		for _, c := range n.clients {
			v.Clients = append(v.Clients, c)
		}
		slices.SortFunc(v.Clients, compareCodes)
		next, err := newID[assessment.RecordID](o, now.At)
		v.ID = string(next)
		return err
	})
	return v, err
}

func viewTeaching(s postgres.TeachingSession, n names, skills []postgres.Skill) TeachingView {
	v := TeachingView{TeachingSession: s, Teacher: n.people[s.Trainer], Child: n.clients[s.Client]}
	for _, k := range skills {
		if slices.Contains(s.Skills, k.ID) {
			v.Taught = append(v.Taught, SkillRef{k.ID, k.Code, k.Title})
		}
	}
	for _, l := range s.Learners() {
		v.Who = append(v.Who, TaughtView{n.people[l.Person], l.TaughtHow})
	}
	return v
}

// only leaves of a session what somebody may read who was taught in it: nothing of others,
// no child whom they do not look after, and no note where others were there.
func (v TeachingView) only(person assessment.PersonID, clients []assessment.ClientID) TeachingView {
	all := v.Who
	v.Who, v.LearnerIDs, v.Ways = nil, nil, nil
	for _, w := range all {
		if w.Person.ID == person {
			v.Who = []TaughtView{w}
		}
	}
	if v.Others = len(all) - len(v.Who); v.Others > 0 {
		v.Note, v.Why = "", ""
	}
	if !slices.Contains(clients, v.Client) {
		v.Client, v.Child = "", ClientRef{}
	}
	return v
}
