package api

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

type coverageQuery struct {
	From    string `query:"from" format:"date" doc:"The first day; today unless given."`
	Through string `query:"through" format:"date" doc:"The last one; 13 days later unless given, 92 at most."`
	Client  string `query:"client" doc:"Only shifts of this child: an id."`
	Person  string `query:"person" doc:"Only shifts of this person: an id."`
	State   string `query:"state" enum:"trouble,breaks,open,clash,covered" doc:"Only such; trouble: all but what is covered without a clash."`
}

func (q coverageQuery) read() (office.CoverageQuery, error) {
	asked := office.CoverageQuery{State: q.State}
	var faults fault.Fields
	for _, d := range []struct {
		name, text string
		at         *civil.Date
	}{{"from", q.From, &asked.From}, {"through", q.Through, &asked.Through}} {
		if d.text != "" {
			var err error
			*d.at, err = civil.Parse(d.text)
			faults.Take(d.name, err)
		}
	}
	if err := faults.Err(); err != nil {
		return asked, err
	}
	var err error
	if asked.Client, err = maybeID[assessment.ClientID](q.Client); err != nil {
		return asked, err
	}
	asked.Person, err = maybeID[assessment.PersonID](q.Person)
	return asked, err
}

func (e *edge) coverage(ctx context.Context, by caller, in *coverageQuery) (*answer[Coverage], error) {
	q, err := in.read()
	if err != nil {
		return nil, err
	}
	v, err := e.office.Coverage(ctx, by.Actor, q)
	if err != nil {
		return nil, err
	}
	return shown(coverage(v)), nil
}

func (e *edge) coveragePaper(ctx context.Context, by caller, in *coverageQuery) (*file, error) {
	q, err := in.read()
	if err != nil {
		return nil, err
	}
	body, name, err := e.papers.Coverage(ctx, by.Actor, q)
	return drawn(pdf, body, name, err)
}

func (e *edge) coverageTable(ctx context.Context, by caller, in *coverageQuery) (*file, error) {
	q, err := in.read()
	if err != nil {
		return nil, err
	}
	body, name, err := e.papers.CoverageCSV(ctx, by.Actor, q)
	return drawn(csv, body, name, err)
}

func (e *edge) coverageSheet(ctx context.Context, by caller, in *coverageQuery) (*file, error) {
	q, err := in.read()
	if err != nil {
		return nil, err
	}
	body, name, err := e.papers.CoverageXLSX(ctx, by.Actor, q)
	return drawn(xlsx, body, name, err)
}

// ByShift names a shift in a path.
type ByShift struct {
	Shift string `path:"shift" doc:"The id of a shift, as coverage tells it."`
}

func (e *edge) coverShift(ctx context.Context, by caller, in *ByShift) (*answer[CoverShift], error) {
	v, err := e.office.ShiftDesk(ctx, by.Actor, assessment.ShiftID(in.Shift))
	if err != nil {
		return nil, err
	}
	return shown(coverShift(v)), nil
}

type giveShiftBody struct {
	ByShift
	Body GiveShift
}

func (e *edge) giveShift(ctx context.Context, by caller, in *giveShiftBody) (*done, error) {
	f, err := in.Body.read(in.Shift)
	if err != nil {
		return nil, err
	}
	return nil, e.office.GiveShift(ctx, by.Actor, f)
}

func (g GiveShift) read(shift string) (office.GiveForm, error) {
	f := office.GiveForm{Shift: assessment.ShiftID(shift), Version: g.Version, ShortRest: g.ShortRest}
	var err error
	f.Person, err = maybeID[assessment.PersonID](g.Person)
	return f, err
}

type sharingQuery struct {
	Shifts []string `query:"shifts" maxItems:"50" doc:"Ids of shifts, with commas between them."`
}

func (e *edge) shareOut(ctx context.Context, by caller, in *sharingQuery) (*answer[Sharing], error) {
	var ids []assessment.ShiftID
	for _, id := range in.Shifts {
		ids = append(ids, assessment.ShiftID(id))
	}
	v, err := e.office.ShareOut(ctx, by.Actor, ids)
	if err != nil {
		return nil, err
	}
	return shown(Sharing{each(v.Takes, func(t office.SharedShift) SharedShift {
		return SharedShift{coverLine(t.CoverLine), t.Version, personRef(t.Takes)}
	}), each(v.None, coverLine)}), nil
}

type giveShiftsBody struct{ Body GivenShifts }

func (e *edge) giveShifts(ctx context.Context, by caller, in *giveShiftsBody) (*done, error) {
	var all []office.GiveForm
	for _, g := range in.Body.Shifts {
		f, err := g.read(g.Shift)
		if err != nil {
			return nil, err
		}
		all = append(all, f)
	}
	return nil, e.office.GiveShifts(ctx, by.Actor, all)
}

type restBody struct{ Body RestForm }

func (e *edge) setRest(ctx context.Context, by caller, in *restBody) (*done, error) {
	return nil, e.office.SetRest(ctx, by.Actor, in.Body.Hours)
}
