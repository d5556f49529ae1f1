package ledger

import (
	"encoding/base64"
	"fmt"
	"strconv"
	"strings"
	"time"

	"golang.org/x/mod/sumdb/note"
)

// Head is what a tree of an agency is at a moment. Signed it is a small text that
// anybody can keep: a signed note whose first three lines are the origin, the size
// and the root, as the open form for checkpoints of transparency logs has them.
type Head struct {
	Agency string // id
	Size   int64
	Root   []byte
	At     time.Time // sealed at; kept to the second
}

const origin = "wellshown.ledger/"

// text is what is signed.
func (h Head) text() string {
	return fmt.Sprintf("%s%s\n%d\n%s\nsealed %s\n", origin, h.Agency, h.Size, base64.StdEncoding.EncodeToString(h.Root), h.At.UTC().Format(time.RFC3339))
}

// Sign makes the signed text of a head.
func (h Head) Sign(key note.Signer) ([]byte, error) {
	if len(h.Root) != HashSize || h.Agency == "" || strings.ContainsAny(h.Agency, "\n ") {
		return nil, fmt.Errorf("a head of agency %q with a root of %d bytes cannot be signed", h.Agency, len(h.Root))
	}
	signed, err := note.Sign(&note.Note{Text: h.text()}, key)
	if err != nil {
		return nil, fmt.Errorf("sign the head of %d leaves: %w", h.Size, err)
	}
	return signed, nil
}

// OpenHead reads a signed head. It is an error if none of the keys has signed it.
func OpenHead(signed []byte, keys note.Verifiers) (Head, error) {
	n, err := note.Open(signed, keys)
	if err != nil {
		return Head{}, fmt.Errorf("check the signature of a head: %w", err)
	}
	for _, sig := range n.Sigs {
		// The last letter of a signature holds bits that mean nothing. Only zeros are
		// taken there, so that one signed head is one text to the last byte.
		if _, err := base64.StdEncoding.Strict().DecodeString(sig.Base64); err != nil {
			return Head{}, fmt.Errorf("check how the signature of a head is written: %w", err)
		}
	}
	return parseHead(n.Text)
}

// parseHead takes only what text writes, so that one head has one text.
func parseHead(text string) (Head, error) {
	bad := fmt.Errorf("this is signed, but not the head of a ledger")
	lines := strings.Split(text, "\n")
	if len(lines) != 5 || lines[4] != "" {
		return Head{}, bad
	}
	var h Head
	var err error
	var ok bool
	if h.Agency, ok = strings.CutPrefix(lines[0], origin); !ok {
		return Head{}, bad
	}
	if h.Size, err = strconv.ParseInt(lines[1], 10, 64); err != nil || h.Size < 0 {
		return Head{}, bad
	}
	if h.Root, err = base64.StdEncoding.DecodeString(lines[2]); err != nil || len(h.Root) != HashSize {
		return Head{}, bad
	}
	sealed, ok := strings.CutPrefix(lines[3], "sealed ")
	if h.At, err = time.Parse(time.RFC3339, sealed); err != nil || !ok {
		return Head{}, bad
	}
	if h.text() != text {
		return Head{}, bad
	}
	return h, nil
}
