package office

import (
	"context"
	"encoding/base64"
	"encoding/hex"
	"fmt"
	"hash/crc32"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// TokenPrefix begins every token of a program, so that whatever looks through text
// for secrets can find one: the prefix, 32 random bytes and their CRC-32 (IEEE), in
// hexadecimal of lower case.
const TokenPrefix = "wellshown_"

// tokenSecret writes out a token of 32 random bytes.
func tokenSecret(raw []byte) string {
	return fmt.Sprintf("%s%s%08x", TokenPrefix, hex.EncodeToString(raw), crc32.ChecksumIEEE(raw))
}

// wellFormed reports whether a text can be a token at all.
func wellFormed(secret string) bool {
	text, found := strings.CutPrefix(secret, TokenPrefix)
	raw, err := hex.DecodeString(text)
	return found && err == nil && len(raw) == 36 && tokenSecret(raw[:32]) == secret
}

// sessionSecret is how many bytes the token of a session stands for.
const sessionSecret = 32

// LooksLikeToken reports whether a text can be the token of a program or of a session
// at all. One that does not opens nothing, which is told without looking for it.
func LooksLikeToken(text string) bool {
	if strings.HasPrefix(text, TokenPrefix) {
		return wellFormed(text)
	}
	raw, err := base64.RawURLEncoding.Strict().DecodeString(text)
	return err == nil && len(raw) == sessionSecret
}

// Program tells who acts by a token: what it allows now, which is never more than
// its maker may do. All tokens that do not work look alike.
func (o *Office) Program(ctx context.Context, secret string) (assessment.Actor, error) {
	dead := fault.Of(fault.Unauthenticated, "This token does not work. Ask an administrator of the agency for another one.")
	if !wellFormed(secret) {
		return assessment.Actor{}, dead
	}
	agency, err := o.db.AtDoor().Token(ctx, tokenHash(secret))
	if fault.KindOf(err) == fault.NotFound {
		return assessment.Actor{}, dead
	}
	if err != nil {
		return assessment.Actor{}, err
	}
	var by assessment.Actor
	err = o.in(ctx, agency, func(tx *postgres.Tx, now Moment) error {
		t, err := tx.Tokens.Find(ctx, tokenHash(secret))
		if err != nil {
			return err
		}
		maker, err := tx.People.Get(ctx, t.MadeBy)
		if err != nil {
			return err
		}
		as := actorOf(agency, maker)
		if t.Dead(now.At, as, gone(maker.LeftOn, now.Today)) != "" {
			return dead
		}
		by = assessment.Actor{Agency: agency, Person: t.MadeBy, Name: t.Name + ", a program of " + maker.Name,
			Program: &assessment.Program{Token: t.ID, Name: t.Name, Acts: t.Allows(as)}}
		if minute := now.At.Truncate(time.Minute); t.UsedAt == nil || t.UsedAt.Before(minute) {
			return tx.Tokens.Touch(ctx, t.ID, minute)
		}
		return nil
	})
	if err != nil {
		return assessment.Actor{}, err
	}
	return by, nil
}
