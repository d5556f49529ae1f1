package handover

import (
	"crypto/sha256"
	"encoding/hex"
	"strings"

	"wellshown/assessment/phrase"
)

// Part is what does not fit of a file.
type Part string

// The parts.
const (
	TooLarge       Part = "too large"
	CutOff         Part = "cut off"
	Unreadable     Part = "unreadable"
	Another        Part = "another file"
	OtherForm      Part = "another form"
	NoteChanged    Part = "note"
	KeyBroken      Part = "key"
	SignatureWrong Part = "signature"
	SumsChanged    Part = "sums"
	AboutChanged   Part = "about"
	HeldChanged    Part = "held"
	HeadChanged    Part = "head"
	HeadUnsigned   Part = "head unsigned"
	HeadOfAnother  Part = "head of another"
	EntryChanged   Part = "entry"
	ProofWrong     Part = "proof"
	AboutUnknown   Part = "about in other words"
	HeldUnknown    Part = "held in other words"
	EntryUnknown   Part = "entry in other words"
)

// Finding is one part that does not fit.
type Finding struct {
	Part  Part
	Place int // of a byte, from 0; or number of an entry, from 1; or the form
}

// Phrase says which part does not fit and nothing of what it holds.
func (f Finding) Phrase() phrase.Phrase {
	switch f.Part {
	case TooLarge:
		return phrase.Of("It is larger than such a file can be.")
	case CutOff:
		return phrase.Of("It is cut off: it ends after %d bytes, in the middle.", f.Place)
	case Another:
		return phrase.Of("It is another kind of file, or its first words were changed.")
	case OtherForm:
		return phrase.Of("It is of form %d, which is not known here. A newer program may have made it.", f.Place)
	case NoteChanged:
		return phrase.Of("The note that stands in every such file was changed.")
	case KeyBroken:
		return phrase.Of("The key in it was changed.")
	case SignatureWrong:
		return phrase.Of("The signature does not fit what was signed.")
	case SumsChanged:
		return phrase.Of("The list that counts its parts was changed.")
	case AboutChanged:
		return phrase.Of("Changed: who it is about, which agency made it, or when.")
	case HeldChanged:
		return phrase.Of("Changed: what was held on that day.")
	case HeadChanged:
		return phrase.Of("Changed: the signed head of the agency’s ledger.")
	case HeadUnsigned:
		return phrase.Of("The head of the ledger in it was not signed by the key in it.")
	case HeadOfAnother:
		return phrase.Of("The head of the ledger in it is of another agency.")
	case EntryChanged:
		return phrase.Of("Changed: entry %d.", f.Place)
	case AboutUnknown:
		return phrase.Of("When it was made is written as no such file writes it.")
	case HeldUnknown:
		return phrase.Of("What was held on that day is written as no such file writes it.")
	case EntryUnknown:
		return phrase.Of("Entry %d is written as no such file writes it.", f.Place)
	case ProofWrong:
		return phrase.Of("Entry %d: its proof is of something else, or does not lead to the head of the ledger.", f.Place)
	}
	return phrase.Of("From byte %d on it is not written as such a file is.", f.Place)
}

// Fingerprint is what two people compare by telephone: of a public key and the agency that
// signs with it, 128 bits in eight groups. One house may keep several agencies.
func Fingerprint(public, agency string) string {
	sum := sha256.Sum256([]byte("wellshown neighbour\n" + public + "\n" + agency + "\n"))
	digits := strings.ToUpper(hex.EncodeToString(sum[:16]))
	var groups []string
	for i := 0; i < len(digits); i += 4 {
		groups = append(groups, digits[i:i+4])
	}
	return strings.Join(groups, " ")
}
