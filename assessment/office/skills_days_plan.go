package office

import (
	"context"
	"fmt"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// SkillsDayForm is a skills day as somebody plans or changes it.
type SkillsDayForm struct {
	ID       string // made by whoever sends it, so that sending twice plans one day; empty: made here
	Version  string // only when changing: of the plan as it was read
	On       string // YYYY-MM-DD, today or later
	Name     string
	Place    string
	Stations []StationForm // at most MostStations
	Learners []assessment.PersonID
}

// StationForm is one station. Its number stays with it.
type StationForm struct {
	No       int
	Skill    string // code
	Observer assessment.PersonID
	Client   assessment.ClientID // whose values it is judged by; empty: none
}

// What one day holds at most: common practice, no source.
const (
	MostStations = 24
	MostLearners = 200
)

// PlanSkillsDay plans a day.
func (o *Office) PlanSkillsDay(ctx context.Context, by assessment.Actor, f SkillsDayForm) (SkillsDayView, error) {
	return o.planning(ctx, by, func(tx *postgres.Tx, now Moment) (assessment.SkillsDayID, error) {
		p, err := o.readForm(ctx, tx, now, f)
		if err != nil {
			return "", err
		}
		if p.day.ID, err = idOr[assessment.SkillsDayID](o, f.ID, now.At); err != nil {
			return "", err
		}
		if known, err := readPlan(ctx, tx, p.day.ID, tx.SkillsDays.Lock); err == nil {
			if known.version() != p.version() {
				return "", fault.Of(fault.Conflict, "This skills day has been planned already, and not like this. Look at it, and change it there.")
			}
			return p.day.ID, nil
		} else if fault.KindOf(err) != fault.NotFound {
			return "", err
		}
		p.day.PlannedBy, p.day.PlannedAt = by.Person, now.At
		if err := tx.SkillsDays.Add(ctx, p.day); err != nil {
			return "", err
		}
		return p.day.ID, keepPlan(ctx, tx, &plan{day: p.day}, p)
	})
}

// ChangeSkillsDay changes a day that has not been ended and is not over. Whoever has
// read what no longer stands changes nothing.
func (o *Office) ChangeSkillsDay(ctx context.Context, by assessment.Actor, id assessment.SkillsDayID, f SkillsDayForm) (SkillsDayView, error) {
	return o.planning(ctx, by, func(tx *postgres.Tx, now Moment) (assessment.SkillsDayID, error) {
		known, err := readPlan(ctx, tx, id, tx.SkillsDays.Lock)
		if err != nil {
			return "", err
		}
		switch {
		case known.day.EndedAt != nil:
			return "", fault.Of(fault.Conflict, "This skills day has been ended by %s. Plan another one.", known.day.Ender)
		case known.day.HeldOn.Before(now.Today):
			return "", fault.Of(fault.Conflict, "This skills day was on %s and is over. Plan another one.", known.day.HeldOn)
		case known.version() != f.Version:
			return "", fault.Of(fault.Conflict, "Somebody has changed this skills day since you read it. Look at what it is now, then change that.")
		}
		p, err := o.readForm(ctx, tx, now, f)
		if err != nil {
			return "", err
		}
		p.day.ID = id
		if err := tx.SkillsDays.Save(ctx, p.day); err != nil {
			return "", err
		}
		return id, keepPlan(ctx, tx, known, p)
	})
}

// planning writes a plan and gives it back as it is then.
func (o *Office) planning(ctx context.Context, by assessment.Actor, do func(*postgres.Tx, Moment) (assessment.SkillsDayID, error)) (SkillsDayView, error) {
	var v SkillsDayView
	err := o.as(ctx, by, assessment.PlanSkillsDays, func(tx *postgres.Tx, now Moment) error {
		id, err := do(tx, now)
		if err != nil {
			return err
		}
		if err := o.note(ctx, tx, now, by, assessment.PlanSkillsDays, "skills day", string(id)); err != nil {
			return err
		}
		v, err = o.viewSkillsDay(ctx, tx, now, id)
		return err
	})
	return v, err
}

// readForm checks a plan against what the agency has.
func (o *Office) readForm(ctx context.Context, tx *postgres.Tx, now Moment, f SkillsDayForm) (*plan, error) {
	var faults form
	p := &plan{day: postgres.SkillsDay{HeldOn: faults.day("on", f.On), Name: faults.line("name", f.Name, 200, "Give it a name, such as: Autumn skills day."),
		Place: faults.line("place", f.Place, 200, "Say where it is, such as: skills room.")}}
	if !p.day.HeldOn.IsZero() && p.day.HeldOn.Before(now.Today) {
		faults.Add("on", "This day is over. Plan it for today or later.")
	}
	if len(f.Stations) > MostStations {
		faults.Add("stations", "A skills day has at most %d stations. Plan two.", MostStations)
	}
	if f.Learners = distinct(f.Learners); len(f.Learners) > MostLearners {
		faults.Add("learners", "A skills day has at most %d learners. Plan two.", MostLearners)
	}
	if err := faults.Err(); err != nil {
		return nil, err
	}
	if err := o.readStations(ctx, tx, now, p, f.Stations, &faults); err != nil {
		return nil, err
	}
	for _, id := range f.Learners {
		who, err := tx.People.Get(ctx, id)
		switch {
		case err != nil:
			return nil, err
		case who.Kind == "":
			faults.Add("learners", "%s is no caregiver here and has nothing to show.", who.Name)
		case gone(who.LeftOn, p.day.HeldOn):
			faults.Add("learners", "%s is no longer with the agency on %s.", who.Name, p.day.HeldOn)
		}
		p.learners = append(p.learners, postgres.DayLearner{PersonID: id})
	}
	return p, faults.Err()
}

func (o *Office) readStations(ctx context.Context, tx *postgres.Tx, now Moment, p *plan, stations []StationForm, faults *form) error {
	taken := map[int]bool{}
	for _, s := range stations {
		bad := func(says string, args ...any) {
			faults.Add("stations", "Station %d: %s", s.No, fmt.Sprintf(says, args...))
		}
		if s.No < 1 || s.No > MostStations || taken[s.No] {
			bad("number the stations from 1 to %d, each once.", MostStations)
			continue
		}
		taken[s.No] = true
		if s.Skill == "" || s.Observer == "" {
			bad("choose the skill and who observes it, or leave the whole line empty.")
			continue
		}
		kept, why, err := o.readStation(ctx, tx, now, p.day.HeldOn, s)
		if err != nil {
			return err
		}
		if why != "" {
			bad("%s", why)
		}
		p.stations = append(p.stations, kept)
	}
	slices.SortFunc(p.stations, func(a, b postgres.Station) int { return a.No - b.No })
	return nil
}

// readStation checks one station, and says why it cannot be as it is asked for.
func (o *Office) readStation(ctx context.Context, tx *postgres.Tx, now Moment, on civil.Date, s StationForm) (postgres.Station, string, error) {
	skill, err := tx.Checklists.SkillByCode(ctx, s.Skill)
	if err != nil {
		return postgres.Station{}, "", err
	}
	kept := postgres.Station{No: s.No, SkillID: skill.ID, Code: skill.Code, ObserverID: s.Observer, ClientID: s.Client}
	observer, err := tx.People.Get(ctx, s.Observer)
	if err != nil {
		return kept, "", err
	}
	switch {
	case skill.InForce == 0:
		return kept, fmt.Sprintf("no checklist for %s is in force. A licensed clinician must put one in force first.", skill.Title), nil
	case skill.Scope == assessment.ClientSpecific && s.Client == "":
		return kept, fmt.Sprintf("%s is held for one child and that child's equipment. Choose the child.", skill.Title), nil
	case gone(observer.LeftOn, on):
		return kept, fmt.Sprintf("%s is no longer with the agency on %s.", observer.Name, on), nil
	case !slices.Contains(observer.Roles, assessment.Educator):
		return kept, observer.Name + " is no educator here and observes nothing.", nil
	}
	err = clientIsHere(ctx, tx, s.Client, on)
	if err == nil {
		err = o.mayObserve(ctx, tx, now, s.Observer, "", skill.ID, on)
	}
	if f, refused := fault.As(err); refused && f.Kind == fault.Refused {
		return kept, f.Message, nil
	}
	return kept, "", err
}

// keepPlan writes what a plan has otherwise than the one before.
func keepPlan(ctx context.Context, tx *postgres.Tx, was, is *plan) error {
	id := is.day.ID
	for _, s := range was.stations {
		if _, err := is.station(s.No); err != nil {
			if err := tx.SkillsDays.RemoveStation(ctx, id, s.No); err != nil {
				return fmt.Errorf("remove a station: %w", err)
			}
		}
	}
	for _, s := range is.stations {
		if before, err := was.station(s.No); err == nil && before == s {
			continue
		}
		if err := tx.SkillsDays.SaveStation(ctx, id, s); err != nil {
			return fmt.Errorf("save a station: %w", err)
		}
	}
	for _, l := range was.learners {
		if _, err := is.learner(l.PersonID); err != nil {
			if err := tx.SkillsDays.RemoveLearner(ctx, id, l.PersonID); err != nil {
				return fmt.Errorf("take a learner off the list: %w", err)
			}
		}
	}
	for _, l := range is.learners {
		if _, err := was.learner(l.PersonID); err == nil {
			continue
		}
		if err := tx.SkillsDays.AddLearner(ctx, id, l.PersonID); err != nil {
			return fmt.Errorf("put a learner on the list: %w", err)
		}
	}
	return nil
}
