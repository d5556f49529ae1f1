package api_test

import (
	"net/http"
	"strings"

	"github.com/descope/virtualwebauthn"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

var wardParty = virtualwebauthn.RelyingParty{ID: "ward.example", Name: "Wellshown", Origin: "https://ward.example"}

// authenticator answers as a signer's device does (descope/virtualwebauthn, another
// implementation of Web Authentication than the one that is tested).
type authenticator struct {
	auth virtualwebauthn.Authenticator
	key  virtualwebauthn.Credential
}

// passkey adds one to somebody's account. The device leaves leading zeros of a
// coordinate out, which RFC 9053, section 7.1.1, forbids: such keys are drawn anew.
func (d *desk) passkey(owner assessment.Actor) *authenticator {
	d.t.Helper()
	options, err := d.Office.BeginPasskey(d.t.Context(), owner, ward.Password)
	d.need(err)
	asked, err := virtualwebauthn.ParseAttestationOptions(options)
	d.need(err)
	a := &authenticator{auth: virtualwebauthn.NewAuthenticatorWithOptions(virtualwebauthn.AuthenticatorOptions{UserHandle: []byte(asked.UserID)})}
	for a.key = virtualwebauthn.NewCredential(virtualwebauthn.KeyTypeEC2); len(a.key.Key.AttestationData()) != 77; {
		a.key = virtualwebauthn.NewCredential(virtualwebauthn.KeyTypeEC2)
	}
	d.need(d.Office.AddPasskey(d.t.Context(), owner, "My phone", virtualwebauthn.CreateAttestationResponse(wardParty, a.auth, a.key, *asked)))
	return a
}

func (d *desk) answered(a *authenticator, q api.PasskeyQuestion) string {
	d.t.Helper()
	asked, err := virtualwebauthn.ParseAssertionOptions(q.Options)
	d.need(err)
	a.key.Counter++
	return virtualwebauthn.CreateAssertionResponse(wardParty, a.auth, a.key, *asked)
}

// signedByPasskey signs a record as its observer. What is somebody else's, or was
// answered already, or is no answer at all signs nothing.
func (d *desk) signedByPasskey(observer assessment.Actor, id string) {
	d.t.Helper()
	other := d.passkey(d.Educators[1])
	at := path("/demonstrations/%s/passkey-question", id)
	ask := func() (q api.PasskeyQuestion) {
		d.post(at, observer, api.SignaturePart{Part: "observer"}).into(http.StatusCreated, &q)
		return q
	}
	if p := d.post(at, observer, api.SignaturePart{Part: "observer"}).problem(http.StatusUnprocessableEntity); len(p.Errors) != 1 || !strings.Contains(p.Errors[0].Detail, "has no passkey here") {
		d.t.Errorf("asked of whoever has none: %+v", p)
	}
	own := d.passkey(observer)
	q := ask()
	if q.Signer != observer.Name || !strings.Contains(q.Says, office.MeaningObserver) || !q.At.Equal(d.Now()) || q.Zone != d.Zone.String() || q.Licence == "" {
		d.t.Errorf("asked: %+v", q)
	}
	sign := func(passkey string) *answer {
		return d.post(path("/demonstrations/%s/signatures", id), observer, api.SignatureForm{Part: "observer", Passkey: passkey})
	}
	if p := sign(d.answered(other, q)).problem(http.StatusUnprocessableEntity); !strings.Contains(p.Detail, "somebody else’s") {
		d.t.Errorf("signed with somebody else's: %+v", p)
	}
	for _, none := range []string{office.AskPasskey, office.NoPasskey, "{}"} {
		sign(none).problem(http.StatusUnprocessableEntity)
	}
	q = ask()
	good := d.answered(own, q)
	var r api.Demonstration
	sign(good).into(http.StatusCreated, &r)
	if len(r.Signatures) != 1 || r.Signatures[0].Person.Name != observer.Name || r.Signatures[0].Part != "observer" || r.Signatures[0].Licence != q.Licence {
		d.t.Errorf("signed: %+v", r.Signatures)
	}
	sign(good).problem(http.StatusUnprocessableEntity)
}
