package api

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

type overdueQuery struct {
	OnDay
	Within int    `query:"within" minimum:"1" maximum:"3660" doc:"Also what ends within so many days; 90 unless given."`
	By     string `query:"by" enum:"caregiver,skill" doc:"How it is grouped; by caregiver unless given."`
	Client string `query:"client" doc:"Only what concerns this child: an id."`
	Kind   string `query:"kind" enum:"family,nurse,aide" doc:"Only caregivers of this kind."`
}

func (q overdueQuery) read() (office.OverdueQuery, error) {
	asked := office.OverdueQuery{Within: q.Within, BySkill: q.By == "skill", Kind: assessment.CaregiverKind(q.Kind)}
	var err error
	if asked.Client, err = maybeID[assessment.ClientID](q.Client); err != nil {
		return asked, err
	}
	asked.On, err = q.day()
	return asked, err
}

func (e *edge) overdue(ctx context.Context, by caller, in *overdueQuery) (*answer[Overdue], error) {
	q, err := in.read()
	if err != nil {
		return nil, err
	}
	v, err := e.office.Overdue(ctx, by.Actor, q)
	if err != nil {
		return nil, err
	}
	return shown(overdue(v)), nil
}

func (e *edge) overduePaper(ctx context.Context, by caller, in *overdueQuery) (*file, error) {
	q, err := in.read()
	if err != nil {
		return nil, err
	}
	body, name, err := e.papers.Overdue(ctx, by.Actor, q)
	return drawn(pdf, body, name, err)
}

func (e *edge) overdueTable(ctx context.Context, by caller, in *overdueQuery) (*file, error) {
	q, err := in.read()
	if err != nil {
		return nil, err
	}
	body, name, err := e.papers.OverdueCSV(ctx, by.Actor, q)
	return drawn(csv, body, name, err)
}

func (e *edge) overdueSheet(ctx context.Context, by caller, in *overdueQuery) (*file, error) {
	q, err := in.read()
	if err != nil {
		return nil, err
	}
	body, name, err := e.papers.OverdueXLSX(ctx, by.Actor, q)
	return drawn(xlsx, body, name, err)
}
