package office

import (
	"context"
	"fmt"
	"maps"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// PracticeRunForm is a checklist that somebody did to practise.
type PracticeRunForm struct {
	ID       string // made by whoever sends it; empty: made here
	Person   assessment.PersonID
	Revision assessment.RevisionID // that was read out
	Client   assessment.ClientID   // empty: of no child
	DoneOn   string
	Helper   assessment.PersonID // empty: alone
	Note     string
	Marks    map[int]assessment.PracticeMark // by step; a step that was not tried has none
}

// PracticeRunView is a practice run by the names of all that it is about.
type PracticeRunView struct {
	postgres.PracticeRun
	Who    PersonRef
	What   SkillRef
	Child  ClientRef
	Beside PersonRef // who helped; empty: alone
	Number int       // of the revision
	Lines  []PracticeLine
}

// PracticeLine is one step and how it went; empty: it was not tried.
type PracticeLine struct {
	No   int
	Text string
	Went assessment.PracticeMark
}

// Count says of how many steps it went so.
func (v PracticeRunView) Count(went assessment.PracticeMark) int {
	n := 0
	for _, w := range v.Went {
		if w == went {
			n++
		}
	}
	return n
}

// BeforePractice is what is needed to practise a skill: the checklist in force, and who can
// help.
type BeforePractice struct {
	Agency  AgencyView
	Today   civil.Date
	Person  PersonRef
	List    ChecklistView
	Clients []ClientRef // of theirs
	Helpers []PersonRef // anybody but themselves
	Client  assessment.ClientID
	ID      string
}

// BeforePractice reads it for somebody and a skill. Caregivers may ask for themselves; then
// nobody can have helped.
func (o *Office) BeforePractice(ctx context.Context, by assessment.Actor, person assessment.PersonID, skill string, client assessment.ClientID) (BeforePractice, error) {
	var v BeforePractice
	err := o.as(ctx, by, assessment.NotePractice, func(tx *postgres.Tx, now Moment) error {
		if err := by.MayFor(assessment.NotePractice, person, false); err != nil {
			return err
		}
		s, err := tx.Checklists.SkillByCode(ctx, skill)
		if err != nil {
			return err
		}
		r, list, err := o.inForceAt(ctx, tx, s, now.At)
		if err != nil {
			return err
		}
		p, err := tx.People.Get(ctx, person)
		if err != nil {
			return err
		}
		v = BeforePractice{Agency: viewAgency(now.Agency), Today: now.Today, Person: PersonRef{p.ID, p.Name, p.Kind, p.Relation}, List: ChecklistView{viewRevision(r), *list, viewAgency(now.Agency), now.Zone}, Client: client}
		clients, err := tx.Clients.List(ctx, postgres.ClientFilter{TeamOf: person, On: now.Today})
		if err != nil {
			return err
		}
		for _, c := range clients {
			v.Clients = append(v.Clients, ClientRef{c.ID, c.Code, c.FirstName})
		}
		if v.Helpers, err = helpersOf(ctx, tx, by, person); err != nil {
			return err
		}
		id, err := newID[assessment.RecordID](o, now.At)
		v.ID = string(id)
		return err
	})
	return v, err
}

// helpersOf are those who can have helped somebody: anybody but themselves. Whoever writes
// down their own practice names nobody: what nobody else says was seen by nobody.
func helpersOf(ctx context.Context, tx *postgres.Tx, by assessment.Actor, person assessment.PersonID) ([]PersonRef, error) {
	if by.Person == person {
		return nil, nil
	}
	people, err := tx.People.List(ctx, postgres.PeopleFilter{})
	var all []PersonRef
	for _, h := range people {
		if h.ID != person {
			all = append(all, PersonRef{h.ID, h.Name, h.Kind, h.Relation})
		}
	}
	return all, err
}

// LogPracticeRun writes down what somebody practised. It is not signed, is no
// demonstration, and no standing knows of it. What somebody writes down of themselves was
// observed by nobody, and says so for ever: it names no helper, and is about a child of
// their own or about none.
func (o *Office) LogPracticeRun(ctx context.Context, by assessment.Actor, f PracticeRunForm) (assessment.RecordID, error) {
	var id assessment.RecordID
	err := o.as(ctx, by, assessment.NotePractice, func(tx *postgres.Tx, now Moment) error {
		r, err := o.readPractice(ctx, tx, now, by, f)
		if err != nil {
			return err
		}
		id = r.ID
		known, err := tx.PracticeRuns.Get(ctx, r.ID)
		if err == nil {
			if known.Person == r.Person && known.Revision == r.Revision && known.DoneOn == r.DoneOn && slices.Equal(known.Went, r.Went) {
				return nil
			}
			return fault.Of(fault.Conflict, "There is another record under this id.")
		}
		if fault.KindOf(err) != fault.NotFound {
			return err
		}
		if err := tx.PracticeRuns.Add(ctx, r); err != nil {
			return fmt.Errorf("keep a practice run: %w", err)
		}
		return o.note(ctx, tx, now, by, assessment.NotePractice, "practice_run", string(r.ID))
	})
	return id, err
}

func (o *Office) readPractice(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, f PracticeRunForm) (postgres.PracticeRun, error) {
	var faults form
	run := postgres.PracticeRun{Person: f.Person, Revision: f.Revision, Client: f.Client, DoneOn: faults.day("done_on", f.DoneOn), Alone: f.Helper == "", Helper: f.Helper,
		Note: faults.words("note", f.Note, 2000), WrittenBy: by.Person, WrittenAt: now.At}
	if run.DoneOn.After(now.Today) {
		faults.Add("done_on", "This day is to come. Write it down once it was done.")
	}
	if err := by.MayFor(assessment.NotePractice, f.Person, false); err != nil {
		return run, err
	}
	p, err := tx.People.Get(ctx, f.Person)
	if err != nil {
		return run, err
	}
	if run.ByMyself() && f.Helper != "" {
		faults.Add("helper", "What you write down yourself was seen by nobody. Leave out who helped, or ask them to write it down.")
	}
	if run.ByMyself() && f.Client != "" {
		if err := mayForClient(ctx, tx, now, by, assessment.NotePractice, f.Client); err != nil {
			return run, err
		}
	}
	if gone(p.LeftOn, run.DoneOn) {
		faults.Add("done_on", "%s was no longer with the agency on that day.", p.Name)
	}
	if f.Helper == f.Person {
		faults.Add("helper", "Nobody helps themselves. Choose who helped, or nobody.")
	}
	if err := f.known(ctx, tx); err != nil {
		return run, err
	}
	r, err := tx.Checklists.Revision(ctx, f.Revision)
	if err != nil {
		return run, err
	}
	if r.InForceAt == nil {
		return run, fault.Of(fault.Refused, "Revision %d of %s was never in force. Practise what is.", r.Number, r.Title)
	}
	list, err := o.listOf(ctx, tx, r)
	if err != nil {
		return run, err
	}
	run.Skill = r.SkillID
	if err := assessment.CheckPractice(list, f.Marks); err != nil {
		faults.Take("marks", err)
	}
	if err := faults.Err(); err != nil {
		return run, err
	}
	for _, no := range slices.Sorted(maps.Keys(f.Marks)) {
		run.Steps, run.Went = append(run.Steps, no), append(run.Went, f.Marks[no])
	}
	run.ID, err = idOr[assessment.RecordID](o, f.ID, now.At)
	return run, err
}

// known asks that helper and child, where there are any, are of this agency.
func (f PracticeRunForm) known(ctx context.Context, tx *postgres.Tx) error {
	if f.Helper != "" {
		if _, err := tx.People.Get(ctx, f.Helper); err != nil {
			return err
		}
	}
	if f.Client == "" {
		return nil
	}
	_, err := tx.Clients.Get(ctx, f.Client)
	return err
}
