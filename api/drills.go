package api

import (
	"context"
	"strconv"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

func (e *edge) drills(ctx context.Context, by caller, _ *struct{}) (*answer[Drills], error) {
	v, err := e.office.Drills(ctx, by.Actor)
	if err != nil {
		return nil, err
	}
	return shown(drills(v)), nil
}

type drillBody struct {
	ByID
	Body DrillForm
}

func (e *edge) beginDrill(ctx context.Context, by caller, in *drillBody) (*answer[Drill], error) {
	id, err := assessment.ParseID[assessment.DemonstrationID](in.ID)
	if err != nil {
		return nil, err
	}
	learner, err := maybeID[assessment.PersonID](in.Body.Learner)
	if err != nil {
		return nil, err
	}
	client, err := maybeID[assessment.ClientID](in.Body.Client)
	if err != nil {
		return nil, err
	}
	b := in.Body
	v, err := e.office.BeginDrill(ctx, by.Actor, office.DrillForm{ID: string(id), Learner: learner, Skill: b.Skill, Client: client, Place: b.Place, Formal: b.Formal, Scenario: b.Scenario})
	if err != nil {
		return nil, err
	}
	return shown(drill(v)), nil
}

func (e *edge) drill(ctx context.Context, by caller, in *ByID) (*answer[Drill], error) {
	id, err := assessment.ParseID[assessment.DemonstrationID](in.ID)
	if err != nil {
		return nil, err
	}
	v, err := e.office.Drill(ctx, by.Actor, id)
	if err != nil {
		return nil, err
	}
	return shown(drill(v)), nil
}

type momentsBody struct {
	ByID
	Body DrillMoments
}

func (e *edge) timeDrill(ctx context.Context, by caller, in *momentsBody) (*answer[Drill], error) {
	id, err := assessment.ParseID[assessment.DemonstrationID](in.ID)
	if err != nil {
		return nil, err
	}
	f := office.DrillTimesForm{Recognised: typed(in.Body.Recognised), Acted: typed(in.Body.Acted), Called: typed(in.Body.Called)}
	for _, b := range in.Body.TakenBack {
		f.TakenBack = append(f.TakenBack, assessment.DrillTap{Moment: assessment.DrillMoment(b.Moment), Seconds: b.Seconds})
	}
	v, err := e.office.TimeDrill(ctx, by.Actor, id, f)
	if err != nil {
		return nil, err
	}
	return shown(drill(v)), nil
}

// typed are seconds as a person would have typed them.
func typed(n *int) string {
	if n == nil {
		return ""
	}
	return strconv.Itoa(*n)
}

func (e *edge) scenario(ctx context.Context, by caller, in *byCode) (*answer[Scenario], error) {
	v, err := e.office.Scenario(ctx, by.Actor, in.Code)
	if err != nil {
		return nil, err
	}
	return shown(scenario(v.DrillScenario)), nil
}

func (f ScenarioForm) form(code, skill string) office.ScenarioForm {
	after := ""
	if f.ThenAfter > 0 {
		after = strconv.Itoa(f.ThenAfter)
	}
	return office.ScenarioForm{Code: code, Skill: skill, Version: f.Version, Source: f.Source, ThenAfter: after,
		Texts: map[string]assessment.ScenarioText{"en": assessment.ScenarioText(f.English), "es": assessment.ScenarioText(f.Spanish)}}
}

type newScenarioBody struct {
	Body NewScenario
}

func (e *edge) addScenario(ctx context.Context, by caller, in *newScenarioBody) (*made[ScenarioCode], error) {
	code, err := e.office.SaveScenario(ctx, by.Actor, in.Body.form("", in.Body.Skill))
	if err != nil {
		return nil, err
	}
	return added(ScenarioCode{code}, "scenarios", code), nil
}

type scenarioBody struct {
	Code string `path:"code" doc:"The code." example:"decannulation-01"`
	Body ScenarioForm
}

func (e *edge) saveScenario(ctx context.Context, by caller, in *scenarioBody) (*done, error) {
	_, err := e.office.SaveScenario(ctx, by.Actor, in.Body.form(in.Code, ""))
	return nil, err
}

type scenarioRetirementBody struct {
	Code string `path:"code" doc:"The code." example:"decannulation-01"`
	Body ScenarioRetirement
}

func (e *edge) retireScenario(ctx context.Context, by caller, in *scenarioRetirementBody) (*done, error) {
	return nil, e.office.RetireScenario(ctx, by.Actor, in.Code, in.Body.Retired)
}
