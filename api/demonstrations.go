package api

import (
	"context"
	"errors"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/assessment/wording"
)

type demonstrationsQuery struct {
	Learner  string `query:"learner" doc:"Whose: an id."`
	Observer string `query:"observer" doc:"Seen by whom: an id."`
	Skill    string `query:"skill" doc:"In which skill: its id."`
	Unsigned bool   `query:"unsigned" doc:"Only those that lack a signature: first what went wrong and its observer has not signed, then the oldest first. Else the newest performance comes first."`
	From     string `query:"from" format:"date" doc:"Performed on this day (UTC) or later."`
	Paging
}

func (q demonstrationsQuery) filter() (postgres.DemonstrationFilter, error) {
	f := postgres.DemonstrationFilter{Unsigned: q.Unsigned, After: q.After, Limit: q.Limit}
	var err error
	if f.Learner, err = maybeID[assessment.PersonID](q.Learner); err != nil {
		return f, err
	}
	if f.Observer, err = maybeID[assessment.PersonID](q.Observer); err != nil {
		return f, err
	}
	if f.Skill, err = maybeID[assessment.SkillID](q.Skill); err != nil {
		return f, err
	}
	f.From, err = day(q.From)
	return f, err
}

func (e *edge) demonstrations(ctx context.Context, by caller, in *demonstrationsQuery) (*answer[List[DemonstrationHead]], error) {
	f, err := in.filter()
	if err != nil {
		return nil, err
	}
	found, err := e.office.Demonstrations(ctx, by.Actor, f)
	if err != nil {
		return nil, err
	}
	return listed(found.Items, demonstrationHead, found.Next), nil
}

func (e *edge) awaiting(ctx context.Context, by caller, in *Paging) (*answer[List[DemonstrationHead]], error) {
	found, err := e.office.AwaitingMe(ctx, by.Actor, in.After, in.Limit)
	if err != nil {
		return nil, err
	}
	return listed(found.Items, demonstrationHead, found.Next), nil
}

func (e *edge) demonstration(ctx context.Context, by caller, in *ByID) (*answer[Demonstration], error) {
	id, err := assessment.ParseID[assessment.DemonstrationID](in.ID)
	if err != nil {
		return nil, err
	}
	v, err := e.office.Demonstration(ctx, by.Actor, id)
	if err != nil {
		return nil, err
	}
	return shown(demonstration(v)), nil
}

type recordPaperQuery struct {
	ByID
	PaperLanguage
}

func (e *edge) recordPaper(ctx context.Context, by caller, in *recordPaperQuery) (*file, error) {
	id, err := assessment.ParseID[assessment.DemonstrationID](in.ID)
	if err != nil {
		return nil, err
	}
	body, name, err := e.papers.Record(ctx, by.Actor, id, wording.Of(in.Language))
	return drawn(pdf, body, name, err)
}

type signatureBody struct {
	ByID
	Body SignatureForm
}

type signaturePartBody struct {
	ByID
	Body SignaturePart
}

// askPasskey begins a signature: the office answers it with a question in place of
// what is signed.
func (e *edge) askPasskey(ctx context.Context, by caller, in *signaturePartBody) (*answer[PasskeyQuestion], error) {
	id, err := assessment.ParseID[assessment.DemonstrationID](in.ID)
	if err != nil {
		return nil, err
	}
	_, err = e.office.Sign(ctx, by.Actor, office.SignForm{Demonstration: id, Part: in.Body.Part, Proof: office.Proof{Passkey: office.AskPasskey}})
	var asked office.PasskeyAsked
	if errors.As(err, &asked) {
		return shown(passkeyQuestion(asked, by.reads)), nil
	}
	return nil, err
}

func (e *edge) sign(ctx context.Context, by caller, in *signatureBody) (*answer[Demonstration], error) {
	id, err := assessment.ParseID[assessment.DemonstrationID](in.ID)
	if err != nil {
		return nil, err
	}
	v, err := e.office.Sign(ctx, by.Actor, office.SignForm{Demonstration: id, Part: in.Body.Part, Proof: in.Body.proof()})
	if err != nil {
		return nil, err
	}
	return shown(demonstration(v)), nil
}

type signedReasonBody struct {
	ByID
	Body SignedReason
}

func (e *edge) correct(ctx context.Context, by caller, in *signedReasonBody) (*done, error) {
	id, err := assessment.ParseID[assessment.DemonstrationID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.CorrectDemonstration(ctx, by.Actor, id, in.Body.Reason, in.Body.proof())
}
