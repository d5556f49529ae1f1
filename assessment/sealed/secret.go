package sealed

import (
	"encoding/base64"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"strings"
)

// Bound is what a sealed secret belongs to. It is not kept with the secret: who
// opens it must know it.
type Bound struct{ Agency, Person, Purpose string }

var (
	// ErrNoKey: the key that sealed this is not in the file.
	ErrNoKey = errors.New("the key that this secret was sealed with is not in the key file")
	// ErrNotThis: the key of that name is another one, or the secret was changed or
	// belongs to somebody or something else.
	ErrNotThis = errors.New("this secret does not open: its key was swapped, or it was changed, or it belongs elsewhere")
)

var textual = base64.RawURLEncoding.Strict()

// Seal seals a secret with the last key. Random gives the nonce (96 bits, SP
// 800-38D section 8.2.2: a key seals far fewer than 2^32 secrets).
func (k *Keys) Seal(random io.Reader, secret []byte, b Bound) (string, error) {
	aead := k.byID[k.last]
	nonce := make([]byte, aead.NonceSize())
	if _, err := io.ReadFull(random, nonce); err != nil {
		return "", fmt.Errorf("draw a nonce: %w", err)
	}
	return k.last + "." + textual.EncodeToString(aead.Seal(nonce, nonce, secret, b.bytes(k.last))), nil
}

// Open gives the secret back. The errors to tell apart are ErrNoKey and ErrNotThis.
func (k *Keys) Open(kept string, b Bound) ([]byte, error) {
	id, text, _ := strings.Cut(kept, ".")
	aead := k.byID[id]
	if aead == nil {
		return nil, ErrNoKey
	}
	whole, err := textual.DecodeString(text)
	if err != nil || len(whole) < aead.NonceSize() {
		return nil, ErrNotThis
	}
	secret, err := aead.Open(nil, whole[:aead.NonceSize()], whole[aead.NonceSize():], b.bytes(id))
	if err != nil {
		return nil, ErrNotThis
	}
	return secret, nil
}

// Newest reports whether a secret is sealed with the key that seals now.
func (k *Keys) Newest(kept string) bool { return strings.HasPrefix(kept, k.last+".") }

// Has reports whether the key of a name is in the file.
func (k *Keys) Has(name string) bool { return k.byID[name] != nil }

// bytes are the associated data: each part with its length before it, so that no
// two different ones read the same.
func (b Bound) bytes(key string) []byte {
	var out []byte
	for _, part := range []string{"wellshown sealed 1", key, b.Agency, b.Person, b.Purpose} {
		out = binary.BigEndian.AppendUint32(out, uint32(len(part)))
		out = append(out, part...)
	}
	return out
}
