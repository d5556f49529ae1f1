package office

import (
	"context"
	"crypto/subtle"
	"encoding/base64"
	"fmt"
	"strings"
	"unicode/utf8"

	"golang.org/x/crypto/argon2"

	"wellshown/assessment/fault"
)

// PasswordCost is what it takes to hash a password once with argon2id (RFC 9106).
type PasswordCost struct {
	Memory  uint32 // KiB
	Passes  uint32
	Threads uint8
}

// fullCost is the second recommended option of RFC 9106, section 4 (64 MiB and
// three passes, for where memory is scarce), on two threads.
var fullCost = PasswordCost{Memory: 64 * 1024, Passes: 3, Threads: 2}

const saltBytes, keyBytes = 16, 32

func (o *Office) cost() PasswordCost {
	if o.opt.PasswordCost == (PasswordCost{}) {
		return fullCost
	}
	return o.opt.PasswordCost
}

func derive(ctx context.Context, t turns, password string, salt []byte, c PasswordCost, length int) ([]byte, error) {
	done, err := t.take(ctx)
	if err != nil {
		return nil, err
	}
	defer done()
	return argon2.IDKey([]byte(password), salt, c.Passes, c.Memory, c.Threads, uint32(length)), nil
}

// hash hashes a new password with a salt of its own. Only who is signed in, or
// the house itself, chooses one.
func (o *Office) hash(ctx context.Context, password string) (string, error) {
	salt, err := o.bytes(saltBytes)
	if err != nil {
		return "", err
	}
	key, err := derive(ctx, o.confirming, password, salt, o.cost(), keyBytes)
	return phc{o.cost(), salt, key}.String(), err
}

// matches reports whether a password is that of a kept hash. Without a hash it
// works as long and says no, so that time does not tell who has a password.
func (o *Office) matches(ctx context.Context, t turns, kept, password string) (bool, error) {
	h, known := phc{o.cost(), make([]byte, saltBytes), make([]byte, keyBytes)}, kept != ""
	if known {
		var err error
		if h, err = parsePHC(kept); err != nil {
			return false, fmt.Errorf("read a kept password hash: %w", err)
		}
	}
	key, err := derive(ctx, t, password, h.salt, h.cost, len(h.key))
	return known && subtle.ConstantTimeCompare(key, h.key) == 1, err
}

// phc is a hash as it is kept: what it cost, salt and key. The form is that of the
// password hashing competition's string format.
type phc struct {
	cost      PasswordCost
	salt, key []byte
}

var unpadded = base64.RawStdEncoding.Strict()

func (h phc) String() string {
	return fmt.Sprintf("$argon2id$v=%d$m=%d,t=%d,p=%d$%s$%s", argon2.Version,
		h.cost.Memory, h.cost.Passes, h.cost.Threads, unpadded.EncodeToString(h.salt), unpadded.EncodeToString(h.key))
}

// parsePHC reads what String writes, and refuses costs that no server should pay.
func parsePHC(s string) (phc, error) {
	var h phc
	var version int
	parts := strings.Split(s, "$")
	if len(parts) != 6 || parts[0] != "" || parts[1] != "argon2id" {
		return h, fmt.Errorf("it is not an argon2id hash")
	}
	if _, err := fmt.Sscanf(parts[2], "v=%d", &version); err != nil || version != argon2.Version {
		return h, fmt.Errorf("its version is not %d", argon2.Version)
	}
	if _, err := fmt.Sscanf(parts[3], "m=%d,t=%d,p=%d", &h.cost.Memory, &h.cost.Passes, &h.cost.Threads); err != nil {
		return h, fmt.Errorf("read its cost: %w", err)
	}
	var err error
	if h.salt, err = unpadded.DecodeString(parts[4]); err != nil {
		return h, fmt.Errorf("read its salt: %w", err)
	}
	if h.key, err = unpadded.DecodeString(parts[5]); err != nil {
		return h, fmt.Errorf("read its key: %w", err)
	}
	if !h.cost.bearable() || len(h.salt) < 8 || len(h.salt) > 64 || len(h.key) < 16 || len(h.key) > 64 || h.String() != s {
		return h, fmt.Errorf("its numbers are out of bounds")
	}
	return h, nil
}

// bearable: RFC 9106 asks for at least 8 KiB a thread; the rest is ours.
func (c PasswordCost) bearable() bool {
	return c.Threads >= 1 && c.Threads <= 16 && c.Passes >= 1 && c.Passes <= 16 &&
		c.Memory >= 8*uint32(c.Threads) && c.Memory <= 1<<20
}

// LeastPassword is how many characters a password has at least. Length is what
// counts: no rule asks for digits or signs (NIST SP 800-63B, section 5.1.1.2, from
// memory).
const LeastPassword = 12

// mostPassword bounds the work of hashing, in characters.
const mostPassword = 128

// checkPassword refuses a password that is too short or that everybody would try first.
func checkPassword(password, name, email string) error {
	length := utf8.RuneCountInString(password)
	switch {
	case !utf8.ValidString(password):
		return fault.Of(fault.Invalid, "This holds characters that cannot be read. Type it again.")
	case length < LeastPassword:
		return fault.Of(fault.Invalid, "A password has at least %d characters. Three or four unrelated words are easy to remember.", LeastPassword)
	case length > mostPassword:
		return fault.Of(fault.Invalid, "A password has at most %d characters.", mostPassword)
	case repeats([]rune(folded(password))):
		return fault.Of(fault.Invalid, "This is one thing over and over. Choose another password.")
	case isCommon(password):
		return fault.Of(fault.Invalid, "This is among the first that anybody would try. Choose another password: three or four unrelated words.")
	case isAbout(password, name, email):
		return fault.Of(fault.Invalid, "This is made of the person's own name or e-mail address. Choose another password.")
	}
	return nil
}

func isAbout(password, name, email string) bool {
	p := folded(password)
	local, _, _ := strings.Cut(email, "@")
	for _, own := range []string{name, email, local} {
		own = folded(own)
		if own != "" && (p == own || utf8.RuneCountInString(own) >= 6 && strings.Contains(p, own)) {
			return true
		}
	}
	return false
}

// folded leaves out case, spaces and the signs that join names.
func folded(s string) string {
	return strings.NewReplacer(" ", "", ".", "", "-", "", "_", "").Replace(strings.ToLower(s))
}
