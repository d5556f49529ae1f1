package passkey

import (
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"

	"github.com/go-webauthn/webauthn/protocol"
	"github.com/go-webauthn/webauthn/webauthn"
)

// Question is what a browser is asked.
type Question struct {
	Options string // JSON for the browser's navigator.credentials
	State   string // to be kept and handed back with the answer
	Hash    []byte // of the challenge: what the question is known by
}

// longest is more than any browser answers, in bytes.
const longest = 64 << 10

// AskNew asks for a new passkey. Devices that hold one of the owner's already are
// left out.
func (p *Party) AskNew(o Owner) (Question, error) {
	u := user{o}
	var known []protocol.CredentialDescriptor
	for _, c := range u.WebAuthnCredentials() {
		known = append(known, c.Descriptor())
	}
	options, session, err := p.w.BeginRegistration(u, webauthn.WithExclusions(known))
	if err != nil {
		return Question{}, fmt.Errorf("ask for a new passkey: %w", err)
	}
	return question(options.Response, session)
}

// Ask asks an owner to use one of their passkeys.
func (p *Party) Ask(o Owner) (Question, error) {
	options, session, err := p.w.BeginLogin(user{o})
	if err != nil {
		return Question{}, fmt.Errorf("ask for a passkey: %w", err)
	}
	return question(options.Response, session)
}

// AskAnybody asks whoever is there to use any passkey of this service.
func (p *Party) AskAnybody() (Question, error) {
	options, session, err := p.w.BeginDiscoverableLogin()
	if err != nil {
		return Question{}, fmt.Errorf("ask for any passkey: %w", err)
	}
	return question(options.Response, session)
}

func question(options any, session *webauthn.SessionData) (Question, error) {
	shown, err := json.Marshal(options)
	if err != nil {
		return Question{}, fmt.Errorf("write what the browser is asked: %w", err)
	}
	state, err := json.Marshal(session)
	if err != nil {
		return Question{}, fmt.Errorf("write the state of a ceremony: %w", err)
	}
	hash, err := challengeHash(session.Challenge)
	return Question{string(shown), string(state), hash}, err
}

// challengeHash is of the bytes of a challenge and not of its text, which may be
// written in more than one way.
func challengeHash(text string) ([]byte, error) {
	raw, err := base64.RawURLEncoding.DecodeString(text)
	if err != nil {
		return nil, fmt.Errorf("read a challenge: %w", err)
	}
	hash := sha256.Sum256(raw)
	return hash[:], nil
}

// NewAnswer is a browser's answer to AskNew.
type NewAnswer struct {
	Hash []byte // of the challenge that it says it answers
	read *protocol.ParsedCredentialCreationData
}

// ReadNew reads an answer. Nothing of it is proven yet.
func ReadNew(text string) (NewAnswer, error) {
	if len(text) > longest {
		return NewAnswer{}, errors.New("the answer is too long to be one")
	}
	read, err := protocol.ParseCredentialCreationResponseBytes([]byte(text))
	if err != nil {
		return NewAnswer{}, fmt.Errorf("read the answer: %w", err)
	}
	hash, err := challengeHash(read.Response.CollectedClientData.Challenge)
	return NewAnswer{hash, read}, err
}

// New proves the answer to the question whose state it is, and gives the new key.
func (p *Party) New(o Owner, state string, a NewAnswer) (Key, error) {
	session, err := sessionOf(state)
	if err != nil {
		return Key{}, err
	}
	made, err := p.w.CreateCredential(user{o}, session, a.read)
	if err != nil {
		return Key{}, fmt.Errorf("prove a new passkey: %w", err)
	}
	return keyOf(made), nil
}

// Answer is a browser's answer to Ask or AskAnybody.
type Answer struct {
	Hash         []byte // of the challenge that it says it answers
	Handle       []byte // of the owner that it says it is of; empty where the device does not tell
	CredentialID []byte
	read         *protocol.ParsedCredentialAssertionData
}

// Read reads an answer. Nothing of it is proven yet.
func Read(text string) (Answer, error) {
	if len(text) > longest {
		return Answer{}, errors.New("the answer is too long to be one")
	}
	read, err := protocol.ParseCredentialRequestResponseBytes([]byte(text))
	if err != nil {
		return Answer{}, fmt.Errorf("read the answer: %w", err)
	}
	hash, err := challengeHash(read.Response.CollectedClientData.Challenge)
	return Answer{hash, read.Response.UserHandle, read.RawID, read}, err
}

// ErrWentBack says that all of an answer is right but for its counter, which did
// not go on from where it was: there may be a second copy of the passkey.
var ErrWentBack = errors.New("the passkey's counter went back")

// Prove proves the answer to the question whose state it is, by one of the owner's
// keys, and gives that key as it is to be kept from now on.
func (p *Party) Prove(o Owner, state string, a Answer) (Key, error) {
	session, err := sessionOf(state)
	if err != nil {
		return Key{}, err
	}
	var used *webauthn.Credential
	if len(session.UserID) > 0 {
		used, err = p.w.ValidateLogin(user{o}, session, a.read)
	} else {
		used, err = p.w.ValidateDiscoverableLogin(func(_, _ []byte) (webauthn.User, error) { return user{o}, nil }, session, a.read)
	}
	if err != nil {
		return Key{}, fmt.Errorf("prove a passkey: %w", err)
	}
	if used.Authenticator.CloneWarning {
		return keyOf(used), ErrWentBack
	}
	return keyOf(used), nil
}

// sessionOf reads a kept state. Whether its time has run out is for whoever kept
// it to say, who has the clock.
func sessionOf(state string) (webauthn.SessionData, error) {
	var s webauthn.SessionData
	if err := json.Unmarshal([]byte(state), &s); err != nil {
		return s, fmt.Errorf("read the state of a ceremony: %w", err)
	}
	if s.UserVerification != protocol.VerificationRequired {
		return s, errors.New("the ceremony does not ask whether it is its owner who uses the passkey")
	}
	return s, nil
}
