package api

import (
	"context"

	"wellshown/assessment"
)

type certificatesQuery struct {
	Person string `query:"person" doc:"Whose: an id. Left out: everybody's, for those who may read all."`
	Paging
}

func (e *edge) certificates(ctx context.Context, by caller, in *certificatesQuery) (*answer[List[Certificate]], error) {
	person, err := maybeID[assessment.PersonID](in.Person)
	if err != nil {
		return nil, err
	}
	found, err := e.office.Certificates(ctx, by.Actor, person, in.After, in.Limit)
	if err != nil {
		return nil, err
	}
	return listed(found.Items, certificate, found.Next), nil
}

func (e *edge) certificate(ctx context.Context, by caller, in *ByID) (*answer[Certificate], error) {
	id, err := assessment.ParseID[assessment.CertificateID](in.ID)
	if err != nil {
		return nil, err
	}
	c, err := e.office.Certificate(ctx, by.Actor, id)
	if err != nil {
		return nil, err
	}
	return shown(certificate(c)), nil
}

func (e *edge) certificatePaper(ctx context.Context, by caller, in *ByID) (*file, error) {
	id, err := assessment.ParseID[assessment.CertificateID](in.ID)
	if err != nil {
		return nil, err
	}
	body, name, err := e.papers.Certificate(ctx, by.Actor, id)
	return drawn(pdf, body, name, err)
}

// checkCode is asked by whoever has a certificate in hand, without a sign-in.
func (e *edge) checkCode(ctx context.Context, _ caller, in *byCode) (*answer[Checked], error) {
	c, err := e.office.Check(ctx, in.Code)
	if err != nil {
		return nil, err
	}
	return shown(checked(c)), nil
}
