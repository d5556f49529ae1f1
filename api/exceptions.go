package api

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

type withdrawalBody struct{ Body WithdrawalForm }

func (e *edge) withdraw(ctx context.Context, by caller, in *withdrawalBody) (*done, error) {
	person, client, err := whose(in.Body.Person, in.Body.Client)
	if err != nil {
		return nil, err
	}
	form := office.ExceptionForm{ID: in.Body.ID, Person: person, Skill: in.Body.Skill, Client: client, Reason: in.Body.Reason, Proof: in.Body.proof()}
	return nil, e.office.Withdraw(ctx, by.Actor, form, assessment.Until(in.Body.Until), in.Body.Related)
}

// whose reads the ids of the person and, where one is given, the child.
func whose(person, client string) (assessment.PersonID, assessment.ClientID, error) {
	p, err := assessment.ParseID[assessment.PersonID](person)
	if err != nil {
		return "", "", err
	}
	c, err := maybeID[assessment.ClientID](client)
	return p, c, err
}

func (e *edge) reinstate(ctx context.Context, by caller, in *signedReasonBody) (*done, error) {
	id, err := assessment.ParseID[assessment.RecordID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.Reinstate(ctx, by.Actor, id, in.Body.Reason, in.Body.proof())
}

type takenBackBody struct {
	Kind string `path:"kind" doc:"What it is." enum:"practice,teaching,waiver,withdrawal,reinstatement"`
	ByID
	Body SignedReason
}

type paperBody struct {
	Kind string `path:"kind" doc:"What it is." enum:"card,licence"`
	ByID
	Body SignedReason
}

func (e *edge) takeBack(ctx context.Context, by caller, in *takenBackBody) (*done, error) {
	form, err := takingBack(in.Kind, in.ID, in.Body)
	if err != nil {
		return nil, err
	}
	return nil, e.office.TakeBack(ctx, by.Actor, form)
}

func (e *edge) takeBackPaper(ctx context.Context, by caller, in *paperBody) (*done, error) {
	form, err := takingBack(in.Kind, in.ID, in.Body)
	if err != nil {
		return nil, err
	}
	return nil, e.office.TakeBack(ctx, by.Actor, form)
}

func takingBack(kind, of string, why SignedReason) (office.TakeBackForm, error) {
	id, err := assessment.ParseID[assessment.RecordID](of)
	return office.TakeBackForm{Kind: assessment.EntryKind(kind), ID: id, Reason: why.Reason, Proof: why.proof()}, err
}

type waiverBody struct{ Body WaiverForm }

func (e *edge) waive(ctx context.Context, by caller, in *waiverBody) (*done, error) {
	person, client, err := whose(in.Body.Person, in.Body.Client)
	if err != nil {
		return nil, err
	}
	form := office.ExceptionForm{ID: in.Body.ID, Person: person, Skill: in.Body.Skill, Client: client, Reason: in.Body.Reason, Proof: in.Body.proof()}
	return nil, e.office.Waive(ctx, by.Actor, form, in.Body.From, in.Body.Through)
}

type logBody struct{ Body LogForm }

func (e *edge) log(ctx context.Context, by caller, in *logBody) (*done, error) {
	person, client, err := whose(in.Body.Person, in.Body.Client)
	if err != nil {
		return nil, err
	}
	return nil, e.office.Log(ctx, by.Actor, office.LogForm{Person: person, Skill: in.Body.Skill, Client: client,
		Kind: assessment.EntryKind(in.Body.Kind), On: in.Body.On, Note: in.Body.Note})
}
