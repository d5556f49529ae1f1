package office

import (
	"context"
	"slices"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// Desk is who acts in commands run on the server itself, by whoever may run them:
// somebody who reads everything of one agency and changes nothing.
func (o *Office) Desk(ctx context.Context, agencyCode string) (assessment.Actor, error) {
	id, err := o.db.AtDoor().Agency(ctx, agencyCode)
	if err != nil {
		return assessment.Actor{}, err
	}
	return assessment.Actor{Agency: id, Name: "the server's desk", Roles: []assessment.Role{assessment.Surveyor}, Survey: &assessment.Survey{Whole: true}}, nil
}

// ClientByCode is the child with this short code.
func (o *Office) ClientByCode(ctx context.Context, by assessment.Actor, code string) (assessment.ClientID, error) {
	var id assessment.ClientID
	err := o.as(ctx, by, assessment.ReadReports, func(tx *postgres.Tx, now Moment) error {
		clients, err := tx.Clients.List(ctx, postgres.ClientFilter{IncludeLeft: true})
		if err != nil {
			return err
		}
		i := slices.IndexFunc(clients, func(c postgres.Client) bool { return c.Code == code })
		if i < 0 {
			return fault.Of(fault.NotFound, "There is no child with this code.")
		}
		id = clients[i].ID
		return nil
	})
	return id, err
}

// PersonNamed is the one person with this name or e-mail address. Several of one
// name are refused, never guessed at.
func (o *Office) PersonNamed(ctx context.Context, by assessment.Actor, name string) (assessment.PersonID, error) {
	var id assessment.PersonID
	err := o.as(ctx, by, assessment.ReadReports, func(tx *postgres.Tx, now Moment) error {
		people, err := tx.People.List(ctx, postgres.PeopleFilter{IncludeLeft: true})
		if err != nil {
			return err
		}
		var found []postgres.Person
		for _, p := range people {
			if strings.EqualFold(p.Name, name) || p.Email != "" && strings.EqualFold(p.Email, name) {
				found = append(found, p)
			}
		}
		switch len(found) {
		case 0:
			return fault.Of(fault.NotFound, "There is nobody of this name or e-mail address.")
		case 1:
			id = found[0].ID
			return nil
		}
		return fault.Of(fault.Conflict, "There are %d people of this name. Give the e-mail address.", len(found))
	})
	return id, err
}

// CertificateByCode is the agency's certificate with this check code.
func (o *Office) CertificateByCode(ctx context.Context, by assessment.Actor, typed string) (assessment.CertificateID, error) {
	code, err := ReadCode(typed)
	if err != nil {
		return "", err
	}
	var id assessment.CertificateID
	err = o.as(ctx, by, assessment.ReadRecords, func(tx *postgres.Tx, now Moment) error {
		t, err := tx.Certificates.ByCode(ctx, code)
		if err != nil {
			return err
		}
		id = t.ID
		return by.MayForCase(assessment.ReadRecords, t.PersonID, t.ClientID)
	})
	return id, err
}

// EndOfDay is the last instant of a civil day in the agency's zone.
func (o *Office) EndOfDay(ctx context.Context, by assessment.Actor, on civil.Date) (time.Time, error) {
	var at time.Time
	err := o.as(ctx, by, assessment.ReadReports, func(tx *postgres.Tx, now Moment) error {
		at = on.AddDays(1).In(now.Zone).Add(-time.Microsecond)
		return nil
	})
	return at, err
}

// Healthy reports whether the database answers.
func (o *Office) Healthy(ctx context.Context) error { return o.db.Ping(ctx) }
