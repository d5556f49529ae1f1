package office

import (
	"context"
	"crypto/sha256"
	"fmt"
	"slices"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// CertificateFacts is everything that a certificate prints.
type CertificateFacts struct {
	Agency     string
	Language   string // of whose it is: en or es
	Demo       bool   // the agency is invented
	Zone       *time.Location
	Number     int
	Code       string // twelve characters, unbroken
	CheckURL   string
	Person     string
	Kind       string // such as "mother" or "nurse"
	Title      string
	Client     string // "Mira, 7K"; empty for general skills
	Revision   int
	Shown      []Shown // the demonstrations that made or renewed it, oldest first
	PassMark   assessment.Number
	HeldOn     civil.Date
	Through    civil.Date
	RenewFrom  civil.Date // zero: only by a demonstration after the end
	Signatures []postgres.Signature
	IssuedAt   time.Time
}

// Shown is one demonstration on a certificate.
type Shown struct {
	On    civil.Date
	Score *assessment.Number
	Real  bool
}

// certify issues a certificate where the demonstration awards or renews a
// competency that holds today. It is drawn once, in the transaction that makes
// it true, and its bytes are kept.
func (o *Office) certify(ctx context.Context, tx *postgres.Tx, now Moment, d postgres.Demonstration, known *casebook) error {
	if d.Outcome != assessment.Competent || !d.Formal || o.opt.Certificate == nil {
		return nil
	}
	key := assessment.CaseKey{Person: d.LearnerID, Skill: d.SkillID, Client: d.ClientID}
	if d.Scope == assessment.General {
		key.Client = ""
	}
	c, err := known.caseOf(key)
	if err != nil {
		return err
	}
	standing, shown, awarded := c.AwardedBy(string(d.ID), now.Today)
	if !awarded {
		return nil
	}
	standing.Because = shown
	facts, err := o.certificateFacts(ctx, tx, now, d, key, standing)
	if err != nil {
		return err
	}
	return o.issue(ctx, tx, now, d, key, shown, facts)
}

func (o *Office) issue(ctx context.Context, tx *postgres.Tx, now Moment, d postgres.Demonstration, key assessment.CaseKey, shown []string, facts CertificateFacts) error {
	pdf, err := o.opt.Certificate(facts)
	if err != nil {
		return fmt.Errorf("draw the certificate: %w", err)
	}
	id, err := newID[assessment.CertificateID](o, now.At)
	if err != nil {
		return err
	}
	err = tx.Certificates.Add(ctx, postgres.Certificate{ID: id, Number: facts.Number, Code: facts.Code, DemonstrationID: d.ID,
		PersonID: key.Person, SkillID: key.Skill, ClientID: key.Client, HeldOn: facts.HeldOn, ThroughOn: facts.Through,
		IssuedAt: now.At, PDF: pdf, RestsOn: demonstrations(shown)})
	if err != nil {
		return fmt.Errorf("file the certificate: %w", err)
	}
	return o.note(ctx, tx, now, assessment.Actor{Agency: now.Agency.ID}, assessment.SignRecord, "certificate", string(id))
}

func demonstrations(ids []string) []assessment.DemonstrationID {
	all := make([]assessment.DemonstrationID, len(ids))
	for i, id := range ids {
		all[i] = assessment.DemonstrationID(id)
	}
	return all
}

func (o *Office) certificateFacts(ctx context.Context, tx *postgres.Tx, now Moment, d postgres.Demonstration, key assessment.CaseKey, s assessment.Standing) (CertificateFacts, error) {
	f := CertificateFacts{Agency: now.Agency.Name, Demo: now.Agency.Demo, Zone: now.Zone, Person: d.Learner, Title: d.Title, Revision: d.Revision,
		HeldOn: now.Today, Through: s.Through, IssuedAt: now.At}
	if key.Client != "" {
		f.Client = d.Client
	}
	person, err := tx.People.Get(ctx, d.LearnerID)
	if err != nil {
		return f, err
	}
	f.Kind, f.Language = person.Relation, person.Language
	if f.Kind == "" {
		f.Kind = string(person.Kind)
	}
	if err := o.shown(ctx, tx, now, &f, d, s); err != nil {
		return f, err
	}
	if f.Signatures, err = tx.SignOffs.Of(ctx, d.ID); err != nil {
		return f, err
	}
	if f.Number, err = tx.Certificates.NextNumber(ctx); err != nil {
		return f, err
	}
	if f.Code, err = o.checkCode(); err != nil {
		return f, err
	}
	f.CheckURL = strings.TrimSuffix(o.opt.BaseURL, "/") + "/check/" + f.Code
	return f, nil
}

func (o *Office) shown(ctx context.Context, tx *postgres.Tx, now Moment, f *CertificateFacts, d postgres.Demonstration, s assessment.Standing) error {
	list, err := o.listFor(ctx, tx, d.RevisionID)
	if err != nil {
		return err
	}
	f.PassMark = list.Policy.Scoring.PassMark
	if days := list.Policy.Validity.RenewalDays; days > 0 {
		f.RenewFrom = s.Through.AddDays(-days)
	}
	for _, id := range s.Because {
		shown, err := tx.Demonstrations.Get(ctx, assessment.DemonstrationID(id))
		if err != nil {
			return err
		}
		one := Shown{On: civil.DayOf(shown.PerformedAt, now.Zone), Real: shown.RealClient}
		if shown.Score != nil {
			n, err := assessment.ParseNumber(*shown.Score)
			if err != nil {
				return err
			}
			one.Score = &n
		}
		f.Shown = append(f.Shown, one)
	}
	return nil
}

// Checked is what anybody who has a certificate in hand may learn: what it says
// and whether it still holds today.
type Checked struct {
	Reliance
	Agency  string
	Demo    bool // the agency is invented
	Number  int
	Code    string
	Person  string
	Title   string
	Client  bool // held for one child; which one is not told
	HeldOn  civil.Date
	Through civil.Date // as printed
	Now     civil.Date // last day as it stands today; zero where nothing holds
	SHA256  []byte     // of the bytes as issued
	Erased  civil.Date // since when what is held about its holder or its child is gone, and nothing more is told; zero: it is held
}

// Check answers for a check code, without a sign-in.
func (o *Office) Check(ctx context.Context, typed string) (Checked, error) {
	code, err := ReadCode(typed)
	if err != nil {
		return Checked{}, err
	}
	agency, err := o.db.AtDoor().Certificate(ctx, code)
	if err != nil {
		if fault.KindOf(err) == fault.NotFound {
			return Checked{}, fault.Of(fault.NotFound, "No certificate with this code was ever issued here.")
		}
		return Checked{}, err
	}
	var v Checked
	err = o.reading(ctx, agency, func(tx *postgres.Tx, now Moment) error {
		t, err := tx.Certificates.ByCode(ctx, code)
		if err != nil {
			return err
		}
		if t.AboutErasedAt != nil {
			v = Checked{Agency: now.Agency.Name, Demo: now.Agency.Demo, Number: t.Number, Code: t.Code, SHA256: t.PDFSHA256, Erased: civil.DayOf(*t.AboutErasedAt, now.Zone)}
			v.On = now.Today
			return nil
		}
		r, err := o.reliance(ctx, tx, now, t)
		if err != nil {
			return err
		}
		v = Checked{Reliance: r, Agency: now.Agency.Name, Demo: now.Agency.Demo, Number: t.Number, Code: t.Code, Person: t.Person, Title: t.Title, Client: t.ClientID != "",
			HeldOn: t.HeldOn, Through: t.ThroughOn, SHA256: t.PDFSHA256}
		if r.Holds() {
			v.Now = r.Standing.Through
		}
		return nil
	})
	return v, err
}

// Certificate is one with the bytes that were issued, checked against their hash.
func (o *Office) Certificate(ctx context.Context, by assessment.Actor, id assessment.CertificateID) (postgres.Certificate, error) {
	var t postgres.Certificate
	err := o.as(ctx, by, assessment.ReadRecords, func(tx *postgres.Tx, now Moment) error {
		var err error
		if t, err = tx.Certificates.Get(ctx, id); err != nil {
			return err
		}
		if err := by.MayForCase(assessment.ReadRecords, t.PersonID, t.ClientID); err != nil {
			return err
		}
		if t.ErasedAt != nil {
			return fault.Of(fault.Refused, "What this certificate printed was erased on %s. Its number, its days and the SHA-256 of the file are all that is left of it.", civil.DayOf(*t.ErasedAt, now.Zone))
		}
		if sum := sha256.Sum256(t.PDF); !slices.Equal(sum[:], t.PDFSHA256) {
			return fmt.Errorf("certificate %s: the kept bytes do not match their hash", id)
		}
		return nil
	})
	return t, err
}

// Certificates lists a page of the certificates of a person, or of the whole
// agency for the empty id, newest first: up to limit, 200 for 0, after the place
// that the page before gave.
func (o *Office) Certificates(ctx context.Context, by assessment.Actor, person assessment.PersonID, after string, limit int) (postgres.Page[postgres.Certificate], error) {
	var found postgres.Page[postgres.Certificate]
	err := o.as(ctx, by, assessment.ReadRecords, func(tx *postgres.Tx, now Moment) error {
		if err := by.MayFor(assessment.ReadRecords, person, false); err != nil {
			return err
		}
		var err error
		found, err = tx.Certificates.Page(ctx, person, seenClients(by, assessment.ReadRecords, person), after, limit)
		return err
	})
	return found, err
}
