package api

import (
	"context"
	"fmt"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/intake"
	"wellshown/assessment/office"
)

type listBody struct {
	Kind    string `query:"kind" required:"true" enum:"people,clients,shifts,carried-in" doc:"What the list is of."`
	Name    string `query:"name" maxLength:"200" doc:"Of the file, to know it again."`
	RawBody []byte `contentType:"application/octet-stream"`
}

func (e *edge) sendList(ctx context.Context, by caller, in *listBody) (*made[ListSent], error) {
	id, err := e.office.SendList(ctx, by.Actor, intake.Kind(in.Kind), in.Name, in.RawBody)
	if err != nil {
		return nil, err
	}
	return added(ListSent{string(id)}, "imports", string(id)), nil
}

func (e *edge) listImports(ctx context.Context, by caller, _ *struct{}) (*answer[[]WaitingList], error) {
	d, err := e.office.Imports(ctx, by.Actor)
	if err != nil {
		return nil, err
	}
	all := []WaitingList{}
	for _, n := range d.Drafts {
		all = append(all, WaitingList{string(n.ID), string(n.Kind), n.FileName, n.At})
	}
	return shown(all), nil
}

func (e *edge) showImport(ctx context.Context, by caller, in *ByID) (*answer[Import], error) {
	v, err := e.office.Import(ctx, by.Actor, assessment.RecordID(in.ID), nil)
	if err != nil {
		return nil, err
	}
	return shown(importOf(v)), nil
}

type importBody struct {
	ByID
	Body ImportForm
}

func (e *edge) carryOutImport(ctx context.Context, by caller, in *importBody) (*answer[Imported], error) {
	f := office.ImportForm{ID: assessment.RecordID(in.ID), Version: in.Body.Version, LettersRight: in.Body.LettersRight, Answers: map[int]string{}}
	for _, a := range in.Body.Answers {
		if f.Answers[a.Row] = a.Person; a.Another {
			f.Answers[a.Row] = office.AnotherPerson
		}
	}
	done, v, err := e.office.CarryOutImport(ctx, by.Actor, f)
	if err != nil {
		return nil, withFaults(err, v)
	}
	return shown(Imported{string(done.Kind), done.New, done.There}), nil
}

// withFaults says in a refusal what the first faults are, which come of the answers too.
func withFaults(err error, v office.ImportView) error {
	f, is := fault.As(err)
	if !is || len(v.Faults) == 0 || f.Kind != fault.Refused {
		return err
	}
	var first []string
	for _, one := range v.Faults[:min(len(v.Faults), 3)] {
		first = append(first, strings.TrimSuffix(fmt.Sprintf("row %d, %s", one.Row, one.Column), ", ")+": "+one.Says)
	}
	return fault.Of(fault.Refused, "%s First: %s", f.Message, strings.Join(first, " "))
}

func (e *edge) dropList(ctx context.Context, by caller, in *ByID) (*done, error) {
	return nil, e.office.DropList(ctx, by.Actor, assessment.RecordID(in.ID))
}

func (e *edge) carriedIn(ctx context.Context, by caller, in *ByID) (*answer[CarriedIn], error) {
	id, err := assessment.ParseID[assessment.PersonID](in.ID)
	if err != nil {
		return nil, err
	}
	v, err := e.office.CarriedIn(ctx, by.Actor, id)
	if err != nil {
		return nil, err
	}
	return shown(carriedIn(v)), nil
}
