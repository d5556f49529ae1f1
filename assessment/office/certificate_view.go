package office

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// CertificateView is a certificate with what it rests on and whether that still
// holds.
type CertificateView struct {
	postgres.Certificate
	Reliance
	Zone       *time.Location
	Revision   int
	RenewFrom  civil.Date    // as printed; zero: only by a demonstration after the end
	Shown      []ShownRecord // oldest first
	Signatures []postgres.Signature
	CheckURL   string
}

// ShownRecord is one demonstration that a certificate rests on.
type ShownRecord struct {
	ID assessment.DemonstrationID
	Shown
}

// ViewCertificate is one certificate to read, without its bytes.
func (o *Office) ViewCertificate(ctx context.Context, by assessment.Actor, id assessment.CertificateID) (CertificateView, error) {
	var v CertificateView
	err := o.as(ctx, by, assessment.ReadRecords, func(tx *postgres.Tx, now Moment) error {
		t, err := tx.Certificates.Get(ctx, id)
		if err != nil {
			return err
		}
		if err := by.MayForCase(assessment.ReadRecords, t.PersonID, t.ClientID); err != nil {
			return err
		}
		t.PDF = nil
		r, err := o.reliance(ctx, tx, now, t)
		if err != nil {
			return err
		}
		d, err := tx.Demonstrations.Get(ctx, t.DemonstrationID)
		if err != nil {
			return err
		}
		v = CertificateView{Certificate: t, Reliance: r, Zone: now.Zone, Revision: d.Revision, CheckURL: "/check/" + t.Code}
		if v.Signatures, err = tx.SignOffs.Of(ctx, d.ID); err != nil {
			return err
		}
		return o.restsOn(ctx, tx, now, d, &v)
	})
	return v, err
}

// restsOn fills in what was shown.
func (o *Office) restsOn(ctx context.Context, tx *postgres.Tx, now Moment, d postgres.Demonstration, v *CertificateView) error {
	standing := assessment.Standing{Through: v.ThroughOn}
	for _, id := range v.Certificate.RestsOn {
		standing.Because = append(standing.Because, string(id))
	}
	var f CertificateFacts
	if err := o.shown(ctx, tx, now, &f, d, standing); err != nil {
		return err
	}
	v.RenewFrom = f.RenewFrom
	for i, s := range f.Shown {
		v.Shown = append(v.Shown, ShownRecord{v.Certificate.RestsOn[i], s})
	}
	return nil
}
