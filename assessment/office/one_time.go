package office

import (
	"crypto/subtle"
	"encoding/base32"
	"fmt"
	"net/url"
	"strings"
	"time"

	"github.com/pquerna/otp"
	"github.com/pquerna/otp/hotp"
)

// One-time codes are those of RFC 6238 as every authenticator app knows them:
// SHA-1, six digits, steps of 30 seconds, and one step off either way (section 5.2).
const (
	codeStep = 30 * time.Second
	codeSkew = 1
)

// codeSecretBytes is the length that RFC 4226, section 4, recommends (R6).
const codeSecretBytes = 20

var codeText = base32.StdEncoding.WithPadding(base32.NoPadding)

// codeAt is the code of one step.
func codeAt(secret []byte, step int64) (string, error) {
	code, err := hotp.GenerateCodeCustom(codeText.EncodeToString(secret), uint64(step), hotp.ValidateOpts{Digits: otp.DigitsSix, Algorithm: otp.AlgorithmSHA1})
	if err != nil {
		return "", fmt.Errorf("make a one-time code: %w", err)
	}
	return code, nil
}

// stepOf finds the step whose code this is, near an instant and after the last one
// that was used: no code is accepted twice (section 5.2). It always looks at all
// of them, so that time does not tell which one was near.
func stepOf(secret []byte, code string, at time.Time, last int64) (int64, bool, error) {
	now, step, found := at.Unix()/int64(codeStep/time.Second), int64(0), false
	for s := now - codeSkew; s <= now+codeSkew; s++ {
		want, err := codeAt(secret, s)
		if err != nil {
			return 0, false, err
		}
		if subtle.ConstantTimeCompare([]byte(want), []byte(code)) == 1 && s > last {
			step, found = s, true
		}
	}
	return step, found, nil
}

// plainCode leaves out what people put between digits and letters.
func plainCode(typed string) string {
	return strings.ToUpper(strings.NewReplacer(" ", "", "-", "").Replace(strings.TrimSpace(typed)))
}

// codeAddress is what an authenticator app reads from a square: the key URI format
// that the apps share (common practice; there is no standard).
func codeAddress(secret []byte, agency, account string) string {
	issuer := strings.ReplaceAll("Wellshown "+agency, ":", " ")
	return "otpauth://totp/" + url.PathEscape(issuer+":"+account) + "?secret=" + codeText.EncodeToString(secret) +
		"&issuer=" + url.PathEscape(issuer) + "&algorithm=SHA1&digits=6&period=30"
}

// recoveryCodes is how many recovery codes somebody has, and how long one is: 20
// letters and digits of base32 are 100 bits, which nobody guesses.
const recoveryCodes, recoveryLetters = 10, 20

// recoveryCode writes random bytes as people read them.
func recoveryCode(random []byte) string {
	text := strings.ToLower(codeText.EncodeToString(random))[:recoveryLetters]
	return text[:5] + "-" + text[5:10] + "-" + text[10:15] + "-" + text[15:]
}
