// Package passkey is the ceremony of passkeys (W3C Web Authentication, Level 3):
// what a browser is asked, and whether what it answers is genuine. It keeps
// nothing; whoever calls it keeps the state of a ceremony and lets it be answered
// once.
package passkey

import (
	"fmt"
	"net"
	"net/url"

	"github.com/go-webauthn/webauthn/protocol"
	"github.com/go-webauthn/webauthn/webauthn"
)

// Party is the service as passkeys know it: a name of the internet, and the
// origin of its pages.
type Party struct{ w *webauthn.WebAuthn }

// NoName refuses passkeys where a service is reached at a number.
type NoName struct{ Host string }

func (n NoName) Error() string {
	return "browsers know passkeys for a name, and the service is reached at the number " + n.Host
}

// NotSealed refuses passkeys where a service is reached without TLS.
type NotSealed struct{ At string }

func (n NotSealed) Error() string {
	return "browsers know passkeys over TLS only, and the service is reached at " + n.At
}

// NewParty makes the party of the service at an address, such as
// https://shown.example. Browsers have passkeys for names only, and only where
// nobody can listen: over TLS, or on the machine itself as localhost. The error
// says so where the address is another.
func NewParty(address string) (*Party, error) {
	u, err := url.Parse(address)
	if err != nil {
		return nil, fmt.Errorf("read the address: %w", err)
	}
	host := u.Hostname()
	switch {
	case host == "":
		return nil, fmt.Errorf("the service has no address of its own")
	case net.ParseIP(host) != nil:
		return nil, NoName{host}
	case u.Scheme != "https" && host != "localhost":
		return nil, NotSealed{u.Scheme + "://" + u.Host}
	}
	w, err := webauthn.New(&webauthn.Config{RPID: host, RPDisplayName: "Wellshown", RPOrigins: []string{u.Scheme + "://" + u.Host},
		AttestationPreference: protocol.PreferNoAttestation,
		AuthenticatorSelection: protocol.AuthenticatorSelection{RequireResidentKey: protocol.ResidentKeyRequired(),
			ResidentKey: protocol.ResidentKeyRequirementRequired, UserVerification: protocol.VerificationRequired}})
	if err != nil {
		return nil, fmt.Errorf("set passkeys up for %s: %w", host, err)
	}
	return &Party{w}, nil
}

// Owner is a person with their passkeys. The handle is random and stands for them
// inside their passkeys; the names are shown by their device.
type Owner struct {
	Handle      []byte
	Name, Shown string
	Keys        []Key
}

// Key is the public half of a passkey with what must be kept of it: a flag that is
// not kept makes the next sign-in fail.
type Key struct {
	CredentialID, PublicKey, AAGUID        []byte
	SignCount                              uint32
	UserVerified, BackupEligible, BackedUp bool
	Transports                             []string
	Format, Attestation                    string
}

// user is an owner as the library asks for one.
type user struct{ Owner }

func (u user) WebAuthnID() []byte          { return u.Handle }
func (u user) WebAuthnName() string        { return u.Name }
func (u user) WebAuthnDisplayName() string { return u.Shown }

func (u user) WebAuthnCredentials() []webauthn.Credential {
	var all []webauthn.Credential
	for _, k := range u.Keys {
		all = append(all, k.credential())
	}
	return all
}

func (k Key) credential() webauthn.Credential {
	c := webauthn.Credential{ID: k.CredentialID, PublicKey: k.PublicKey, AttestationType: k.Attestation, AttestationFormat: k.Format,
		Flags:         webauthn.CredentialFlags{UserPresent: true, UserVerified: k.UserVerified, BackupEligible: k.BackupEligible, BackupState: k.BackedUp},
		Authenticator: webauthn.Authenticator{AAGUID: k.AAGUID, SignCount: k.SignCount}}
	for _, t := range k.Transports {
		c.Transport = append(c.Transport, protocol.AuthenticatorTransport(t))
	}
	return c
}

func keyOf(c *webauthn.Credential) Key {
	k := Key{CredentialID: c.ID, PublicKey: c.PublicKey, AAGUID: c.Authenticator.AAGUID, SignCount: c.Authenticator.SignCount,
		UserVerified: c.Flags.UserVerified, BackupEligible: c.Flags.BackupEligible, BackedUp: c.Flags.BackupState,
		Format: c.AttestationFormat, Attestation: c.AttestationType}
	for _, t := range c.Transport {
		k.Transports = append(k.Transports, string(t))
	}
	return k
}
