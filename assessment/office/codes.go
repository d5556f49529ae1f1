package office

import (
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"maps"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
	"wellshown/assessment/sealed"
)

// CodesView is how somebody's one-time codes stand.
type CodesView struct {
	On         bool
	Since      time.Time // when On
	Left       int       // recovery codes that were not used yet
	CanBeSetUp bool      // the service has keys to seal secrets with
}

// NewCodes is what an authenticator app is set up with. It is shown once.
type NewCodes struct {
	Secret  string // to be typed
	Address string // to be read from a square
}

// settingUp is how long the first code may take.
const settingUp = 15 * time.Minute

func noCodesHere() error {
	return fault.Of(fault.Refused, "One-time codes cannot be set up here: the service has no key file to seal their secrets with. Whoever runs it can name one (WELLSHOWN_SECRET_KEYS). Your password works as before.")
}

func (o *Office) boundCodes(agency assessment.AgencyID, person assessment.PersonID) sealed.Bound {
	return sealed.Bound{Agency: string(agency), Person: string(person), Purpose: "one-time codes"}
}

// Codes tells how one's own one-time codes stand.
func (o *Office) Codes(ctx context.Context, by assessment.Actor) (CodesView, error) {
	v := CodesView{CanBeSetUp: o.opt.Secrets != nil}
	err := o.as(ctx, by, assessment.OwnAccount, func(tx *postgres.Tx, _ Moment) error {
		c, err := tx.OneTimeCodes.Of(ctx, by.Person)
		if fault.KindOf(err) == fault.NotFound || err == nil && c.ConfirmedAt == nil {
			return nil
		}
		if err != nil {
			return err
		}
		v.On, v.Since = true, *c.ConfirmedAt
		v.Left, err = tx.OneTimeCodes.RecoveryLeft(ctx, by.Person)
		return err
	})
	return v, err
}

// BeginCodes draws a secret for one's own one-time codes. They are asked for only
// once a first code has shown that the app has it.
func (o *Office) BeginCodes(ctx context.Context, by assessment.Actor, password string) (NewCodes, error) {
	if o.opt.Secrets == nil {
		return NewCodes{}, noCodesHere()
	}
	proven, err := o.ownPassword(ctx, by, password)
	if err != nil {
		return NewCodes{}, err
	}
	secret, err := o.bytes(codeSecretBytes)
	if err != nil {
		return NewCodes{}, err
	}
	kept, err := o.sealSecret(by.Agency, by.Person, secret)
	if err != nil {
		return NewCodes{}, err
	}
	var made NewCodes
	err = o.asOwner(ctx, by, proven, func(tx *postgres.Tx, now Moment) error {
		p, err := tx.People.Get(ctx, by.Person)
		if err != nil {
			return err
		}
		if err := ownForGood(ctx, tx, now, by.Person); err != nil {
			return err
		}
		made = NewCodes{codeText.EncodeToString(secret), codeAddress(secret, now.Agency.Name, p.Email)}
		err = tx.OneTimeCodes.Begin(ctx, by.Person, kept, now.At)
		if fault.KindOf(err) == fault.NotFound {
			return fault.Of(fault.Conflict, "One-time codes are on already. Turn them off first to move them to another device.")
		}
		return err
	})
	return made, err
}

func (o *Office) sealSecret(agency assessment.AgencyID, person assessment.PersonID, secret []byte) (string, error) {
	o.random.Lock()
	defer o.random.Unlock()
	kept, err := o.opt.Secrets.Seal(o.opt.Random, secret, o.boundCodes(agency, person))
	if err != nil {
		return "", fmt.Errorf("seal a secret: %w", err)
	}
	return kept, nil
}

// openSecret says in words for the person what is wrong with a key. Nobody is let in.
func (o *Office) openSecret(agency assessment.AgencyID, person assessment.PersonID, kept string) ([]byte, error) {
	if o.opt.Secrets == nil {
		return nil, keyIsMissing()
	}
	secret, err := o.opt.Secrets.Open(kept, o.boundCodes(agency, person))
	if errors.Is(err, sealed.ErrNoKey) || errors.Is(err, sealed.ErrNotThis) {
		return nil, keyIsMissing()
	}
	return secret, err
}

// LostKeys names the keys that secrets in the database are sealed with and that are
// not here: those secrets cannot be used.
func (o *Office) LostKeys(ctx context.Context) ([]string, error) {
	agencies, err := o.db.AtDoor().Agencies(ctx)
	if err != nil {
		return nil, fmt.Errorf("look which keys are used: %w", err)
	}
	lost := map[string]bool{}
	for _, agency := range agencies {
		err := o.writing(ctx, agency, func(tx *postgres.Tx) error {
			used, err := tx.OneTimeCodes.Keys(ctx)
			for _, name := range used {
				if o.opt.Secrets == nil || !o.opt.Secrets.Has(name) {
					lost[name] = true
				}
			}
			return err
		})
		if err != nil {
			return nil, fmt.Errorf("look which keys are used: %w", err)
		}
	}
	return slices.Sorted(maps.Keys(lost)), nil
}

func keyIsMissing() error {
	return fault.Of(fault.Refused, "Codes of your app cannot be checked just now: the key that seals their secret is missing here or is another one. Nothing is lost. Use one of your recovery codes, or tell whoever runs the service.")
}

// ConfirmCodes takes the first code of a new secret: from then on codes are asked
// for. It gives the recovery codes, which are shown once.
func (o *Office) ConfirmCodes(ctx context.Context, by assessment.Actor, code string) ([]string, error) {
	var codes []string
	err := o.as(ctx, by, assessment.OwnAccount, func(tx *postgres.Tx, now Moment) error {
		c, err := tx.OneTimeCodes.Of(ctx, by.Person)
		if fault.KindOf(err) == fault.NotFound || err == nil && (c.ConfirmedAt != nil || now.At.Sub(c.SetAt) > settingUp) {
			return fault.Of(fault.Refused, "There is nothing to confirm, or it took longer than 15 minutes. Set the codes up again.")
		}
		if err != nil {
			return err
		}
		if err := o.useStep(ctx, tx, now, by.Person, c, code); err != nil {
			return err
		}
		if err := tx.OneTimeCodes.Confirm(ctx, by.Person, now.At); err != nil {
			return err
		}
		if codes, err = o.newRecovery(ctx, tx, by.Person); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.OwnAccount, "one-time codes on", string(by.Person))
	})
	return codes, err
}

var errCode = faultAt("code", "This code is not right, or it was used already. Codes change every 30 seconds: take the next one. If none works, check the clock of your device.")

// useStep uses a code of the app up.
func (o *Office) useStep(ctx context.Context, tx *postgres.Tx, now Moment, person assessment.PersonID, c postgres.OneTimeCode, code string) error {
	secret, err := o.openSecret(now.Agency.ID, person, c.Sealed)
	if err != nil {
		return err
	}
	step, ok, err := stepOf(secret, plainCode(code), now.At, c.LastStep)
	if err != nil {
		return err
	}
	if !ok {
		return errCode
	}
	if err := tx.OneTimeCodes.Use(ctx, person, step); err != nil {
		if fault.KindOf(err) == fault.NotFound { // another request used it at the same time
			return errCode
		}
		return err
	}
	if o.opt.Secrets.Newest(c.Sealed) {
		return nil
	}
	kept, err := o.sealSecret(now.Agency.ID, person, secret)
	if err != nil {
		return err
	}
	return tx.OneTimeCodes.Reseal(ctx, person, kept)
}

// newRecovery puts new recovery codes in place of all before.
func (o *Office) newRecovery(ctx context.Context, tx *postgres.Tx, person assessment.PersonID) ([]string, error) {
	var codes []string
	var hashes [][]byte
	for range recoveryCodes {
		raw, err := o.bytes(13)
		if err != nil {
			return nil, err
		}
		code := recoveryCode(raw)
		codes, hashes = append(codes, code), append(hashes, recoveryHash(code))
	}
	return codes, tx.OneTimeCodes.SetRecovery(ctx, person, hashes)
}

func recoveryHash(typed string) []byte {
	hash := sha256.Sum256([]byte(plainCode(typed)))
	return hash[:]
}
