package api

import (
	"context"
	"strconv"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
)

func (e *edge) listSkillsDays(ctx context.Context, by caller, _ *struct{}) (*answer[List[SkillsDaySummary]], error) {
	v, err := e.office.SkillsDays(ctx, by.Actor)
	if err != nil {
		return nil, err
	}
	return listed(v.Days, func(d postgres.SkillsDay) SkillsDaySummary { return skillsDaySummary(d) }, ""), nil
}

type skillsDayBody struct{ Body NewSkillsDay }

func (e *edge) planSkillsDay(ctx context.Context, by caller, in *skillsDayBody) (*made[SkillsDay], error) {
	f, err := in.Body.read()
	if err != nil {
		return nil, err
	}
	f.ID = in.Body.ID
	v, err := e.office.PlanSkillsDay(ctx, by.Actor, f)
	if err != nil {
		return nil, err
	}
	return added(skillsDay(v), "skills-days", string(v.ID)), nil
}

func (e *edge) skillsDay(ctx context.Context, by caller, in *ByID) (*answer[SkillsDay], error) {
	id, err := assessment.ParseID[assessment.SkillsDayID](in.ID)
	if err != nil {
		return nil, err
	}
	v, err := e.office.SkillsDay(ctx, by.Actor, id)
	if err != nil {
		return nil, err
	}
	return shown(skillsDay(v)), nil
}

type changedSkillsDayBody struct {
	ByID
	Body ChangedSkillsDay
}

func (e *edge) changeSkillsDay(ctx context.Context, by caller, in *changedSkillsDayBody) (*answer[SkillsDay], error) {
	id, err := assessment.ParseID[assessment.SkillsDayID](in.ID)
	if err != nil {
		return nil, err
	}
	f, err := in.Body.read()
	if err != nil {
		return nil, err
	}
	f.Version = in.Body.Version
	v, err := e.office.ChangeSkillsDay(ctx, by.Actor, id, f)
	if err != nil {
		return nil, err
	}
	return shown(skillsDay(v)), nil
}

func (e *edge) endSkillsDay(ctx context.Context, by caller, in *ByID) (*done, error) {
	id, err := assessment.ParseID[assessment.SkillsDayID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.EndSkillsDay(ctx, by.Actor, id)
}

func (e *edge) skillsDayCards(ctx context.Context, by caller, in *ByID) (*file, error) {
	id, err := assessment.ParseID[assessment.SkillsDayID](in.ID)
	if err != nil {
		return nil, err
	}
	body, name, err := e.papers.SkillsDayCards(ctx, by.Actor, id)
	return drawn(pdf, body, name, err)
}

type skillsDayLearnerQuery struct {
	ByID
	Learner string `path:"learner" doc:"The id of one of its learners."`
}

func (e *edge) skillsDayCard(ctx context.Context, by caller, in *skillsDayLearnerQuery) (*answer[SkillsDayLearner], error) {
	id, err := assessment.ParseID[assessment.SkillsDayID](in.ID)
	if err != nil {
		return nil, err
	}
	learner, err := assessment.ParseID[assessment.PersonID](in.Learner)
	if err != nil {
		return nil, err
	}
	v, err := e.office.SkillsDayCard(ctx, by.Actor, id, learner)
	if err != nil {
		return nil, err
	}
	return shown(skillsDayLearner(v.Learner)), nil
}

type skillsDayStationQuery struct {
	ByID
	Station string `path:"station" doc:"Its number."`
}

func (e *edge) skillsDayStation(ctx context.Context, by caller, in *skillsDayStationQuery) (*answer[StationFloor], error) {
	id, err := assessment.ParseID[assessment.SkillsDayID](in.ID)
	if err != nil {
		return nil, err
	}
	no, err := strconv.Atoi(in.Station)
	if err != nil {
		return nil, fault.Of(fault.NotFound, "There is no such record.")
	}
	v, err := e.office.SkillsDayStation(ctx, by.Actor, id, no)
	if err != nil {
		return nil, err
	}
	return shown(StationFloor{Station: skillsDayStation(v.Station), ToCome: each(v.ToCome, learnerRef), Here: each(v.Here, learnerRef),
		Done: each(v.Done, learnerRef), InVain: each(v.Not, learnerRef)}), nil
}

func learnerRef(l office.LearnerOfDay) PersonRef { return personRef(l.Person) }

func (e *edge) ownSkillsDays(ctx context.Context, by caller, in *OnDay) (*answer[List[SkillsDay]], error) {
	on, err := in.day()
	if err != nil {
		return nil, err
	}
	all, err := e.office.SkillsDaysOn(ctx, by.Actor, on)
	if err != nil {
		return nil, err
	}
	return listed(all, skillsDay, ""), nil
}
