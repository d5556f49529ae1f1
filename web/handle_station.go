package web

import (
	"context"
	"errors"
	"strconv"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

func (s *Site) station(v *visit) error {
	id, no, err := stationOf(v)
	if err != nil {
		return err
	}
	page, err := s.stationPage(v, id, no)
	if err != nil {
		return err
	}
	return v.show(page)
}

// stationOf is the day and the number in the address.
func stationOf(v *visit) (assessment.SkillsDayID, int, error) {
	id, err := pathID[assessment.SkillsDayID](v, "id")
	if err != nil {
		return "", 0, err
	}
	no, err := strconv.Atoi(v.c.Param("station"))
	if err != nil {
		return "", 0, errNoPage
	}
	return id, no, nil
}

func (s *Site) stationPage(v *visit, id assessment.SkillsDayID, no int) (StationPage, error) {
	f, err := s.office.SkillsDayStation(v.ctx(), v.by(), id, no)
	if err != nil {
		return StationPage{}, err
	}
	page := StationPage{Frame: v.frame("today"), No: no, Skill: f.Station.Skill.Title, Client: clientName(f.Station.Client), Observer: f.Station.Observer.Name,
		Title: f.Day.Name, Day: longDay(f.Day.HeldOn), Back: skillsDayAt(id), Closed: f.Station.Closed, Own: f.Own && f.Day.Open() && v.may(assessment.Observe)}
	switch {
	case f.Day.EndedAt != nil:
		page.Wait = "This skills day has been ended. What was shown stays."
	case f.Day.HeldOn.Before(f.Day.Today):
		page.Wait = "This skills day is over. What was shown stays."
	case !f.Day.Open():
		page.Wait = "Nothing begins before " + longDay(f.Day.HeldOn) + "."
	case !page.Own:
		page.Wait = f.Station.Observer.Name + " observes here, takes learners and passes them on."
	}
	lists := []struct {
		into *[]AtStation
		of   []office.LearnerOfDay
		here bool
	}{{&page.Here, f.Here, true}, {&page.ToCome, f.ToCome, false}, {&page.Done, f.Done, false}, {&page.Vain, f.Not, false}}
	for _, list := range lists {
		for _, l := range list.of {
			line := v.atStation(f, l, page.Own)
			if list.here && page.Own {
				line.passable(f, l)
			}
			*list.into = append(*list.into, line)
		}
	}
	return page, nil
}

// atStation is a learner on a list of a station, with what the reader may do.
func (v *visit) atStation(f office.StationFloor, l office.LearnerOfDay, own bool) AtStation {
	no, at := f.Station.No, stationAt(f.Day.ID, f.Station.No)
	r := l.Visit(no)
	line := AtStation{ID: string(l.Person.ID), Name: l.Person.Name, Href: skillsDayAt(f.Day.ID) + "/learners/" + string(l.Person.ID), Kind: kindOf(l.Person), Why: why(r),
		First: afterStations(r.First), Cannot: strings.Join(r.Cannot, " "), Shown: dayShown(r.Shown), CSRF: v.session.CSRF}
	if l.At != no {
		line.Where = where(l.At)
	}
	switch {
	case !own || l.Person.ID == v.by().Person:
	case r.Open != nil && r.Open.ObserverID == v.by().Person:
		line.GoOn = demonstrationAt(r.Open.ID) + "/marks"
	case l.At == no:
		line.Begin = at + "/learners/" + line.ID
	case l.At == 0:
		line.Take = at + "/taking"
	}
	return line
}

// passable lets whoever is here be passed on; where they go next is chosen already.
func (a *AtStation) passable(f office.StationFloor, l office.LearnerOfDay) {
	a.Pass = stationAt(f.Day.ID, f.Station.No) + "/passing"
	a.Others = []Option{{Value: "0", Text: "no station: they wait"}}
	for _, k := range f.Day.Stations {
		if k.No != f.Station.No {
			a.Others = append(a.Others, Option{Value: strconv.Itoa(k.No), Text: "station " + strconv.Itoa(k.No) + ", " + k.Skill.Title})
		}
	}
	if a.To = "0"; l.Onward.Station != f.Station.No {
		a.To = strconv.Itoa(l.Onward.Station)
	}
}

func (s *Site) takeAtStation(v *visit) error {
	return s.onStation(v, "They are at this station now. Check who it is before you begin.", "Nobody was taken.", s.office.TakeAtStation)
}

func (s *Site) passOn(v *visit) error {
	return s.onStation(v, "They are passed on.", "Nobody was passed on.", s.office.PassOn)
}

type moving func(ctx context.Context, by assessment.Actor, f office.MoveForm) error

// onStation moves a learner; a refusal stands above the lists as they are now.
func (s *Site) onStation(v *visit, done, what string, do moving) error {
	id, no, err := stationOf(v)
	if err != nil {
		return err
	}
	form := office.MoveForm{Day: id, Station: no}
	if form.Learner, err = assessment.ParseID[assessment.PersonID](v.form("learner")); err != nil {
		return err
	}
	refused := error(nil)
	if text := v.form("to"); text != "" {
		if form.To, err = strconv.Atoi(text); err != nil {
			refused = fault.Of(fault.Refused, "Choose where they go.")
		}
	}
	if refused == nil {
		refused = do(v.ctx(), v.by(), form)
	}
	if refused == nil {
		return v.to(stationAt(id, no), done)
	}
	page, err := s.stationPage(v, id, no)
	if err != nil {
		return err
	}
	if err := v.take(&page.Faults, refused, what); err != nil {
		return err
	}
	return v.again(page)
}

func (s *Site) nameCheck(v *visit) error {
	page, err := s.nameCheckPage(v)
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) nameCheckPage(v *visit) (NameCheckPage, error) {
	id, no, err := stationOf(v)
	if err != nil {
		return NameCheckPage{}, err
	}
	learner, err := pathID[assessment.PersonID](v, "learner")
	if err != nil {
		return NameCheckPage{}, err
	}
	c, err := s.office.NameCheck(v.ctx(), v.by(), id, no, learner)
	if err != nil {
		return NameCheckPage{}, err
	}
	at := stationAt(id, no)
	page := NameCheckPage{Frame: v.frame("today"), ID: string(c.ID), Version: c.Version, Action: at + "/learners/" + string(learner), Back: at, Name: c.Learner.Person.Name,
		Kind: kindOf(c.Learner.Person), Cares: caresFor(c.Learner.Cares), Skill: c.Station.Skill.Title, Client: clientName(c.Station.Client), Manikin: c.Station.ManikinOnly,
		Observer: c.Station.Observer.Name, No: no, Place: c.Day.Place, Why: why(c.Visit), First: afterStations(c.Visit.First), Cannot: c.Visit.Cannot, MayNot: c.MayNot}
	if page.Manikin {
		page.Setting = "simulation"
	}
	if c.Open != nil {
		page.GoOn = demonstrationAt(c.Open.ID) + "/marks"
	}
	for _, o := range c.Others {
		page.Others = append(page.Others, o.Learner+", "+o.Title)
	}
	return page, nil
}

// beginAtStation begins the sheet of exactly who was shown.
func (s *Site) beginAtStation(v *visit) error {
	id, no, err := stationOf(v)
	if err != nil {
		return err
	}
	form := office.BeginForm{ID: v.form("id"), Day: id, Station: no, Version: v.form("version"), Real: v.form("setting") == "real", Formal: v.form("purpose") == "formal"}
	if form.Learner, err = pathID[assessment.PersonID](v, "learner"); err != nil {
		return err
	}
	refused := chosenWays(v)
	if refused == nil {
		var sheet office.SheetView
		sheet, refused = s.office.BeginAtStation(v.ctx(), v.by(), form)
		switch {
		case refused == nil:
			return v.to(demonstrationAt(sheet.ID)+"/marks", "")
		case errors.Is(refused, office.ErrRecorded):
			return v.to("/demonstrations/"+form.ID, recordedAlready)
		}
	}
	page, err := s.nameCheckPage(v)
	if err != nil {
		return err
	}
	page.Setting, page.Purpose = v.form("setting"), v.form("purpose")
	if fault.KindOf(refused) != fault.Conflict { // the same form again is the same demonstration
		page.ID = form.ID
	}
	if err := v.take(&page.Faults, refused, "Nothing has begun.", label("setting", "Shown on"), label("purpose", "It is")); err != nil {
		return err
	}
	return v.again(page)
}

// chosenWays refuses a form in which one of the two choices without a default is open.
func chosenWays(v *visit) error {
	var faults fault.Fields
	if w := v.form("setting"); w != "real" && w != "simulation" {
		faults.Add("setting", "Say on whom or what it is shown.")
	}
	if w := v.form("purpose"); w != "formal" && w != "practice" {
		faults.Add("purpose", "Say whether it counts or is practice.")
	}
	return faults.Err()
}
