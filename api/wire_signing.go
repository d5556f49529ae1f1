package api

import (
	"time"

	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

// Signing asks the signer again who they are: one of these.
type Signing struct {
	Password string `json:"password,omitempty" maxLength:"1000" writeOnly:"true" doc:"Of who signs. A learner may sign on the observer's device."`
	PIN      string `json:"pin,omitempty" maxLength:"100" writeOnly:"true" doc:"Of who signs, in place of the password where one was given in this session not long ago."`
}

func (s Signing) proof() office.Proof { return office.Proof{Password: s.Password, PIN: s.PIN} }

// PasskeyQuestion is what a signer's passkey is asked, and what it would sign.
type PasskeyQuestion struct {
	Options string    `json:"options" doc:"JSON: the publicKey of what navigator.credentials.get is given (W3C Web Authentication)."`
	Signer  string    `json:"signer" doc:"Whose passkey is asked for."`
	Licence string    `json:"licence,omitempty" doc:"That the signature would stand with."`
	Says    string    `json:"says" doc:"What is signed, to be shown to the signer."`
	Tongue  string    `json:"language,omitempty" doc:"BCP 47: of says, where it is not English. It is that of the signer, if the request prefers it by Accept-Language." example:"es"`
	At      time.Time `json:"at" doc:"The office's clock now."`
	Zone    string    `json:"zone" doc:"Of the agency's clocks." example:"America/Denver"`
}

func passkeyQuestion(q office.PasskeyAsked, reads wording.Language) PasskeyQuestion {
	asked := PasskeyQuestion{Options: q.Options, Signer: q.Signer, Licence: q.Licence, Says: q.Says, At: q.At.UTC(), Zone: q.Zone.String()}
	if reads != wording.English && reads == wording.Of(q.Speaks) && !q.Phrase.IsZero() {
		asked.Says, asked.Tongue = wording.In(reads).Of(q.Phrase), string(reads)
	}
	return asked
}
