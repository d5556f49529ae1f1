package api

import "wellshown/assessment/office"

// Signing asks the signer again who they are: one of these.
type Signing struct {
	Password string `json:"password,omitempty" maxLength:"1000" writeOnly:"true" doc:"Of who signs. A learner may sign on the observer's device."`
	PIN      string `json:"pin,omitempty" maxLength:"100" writeOnly:"true" doc:"Of who signs, in place of the password where one was given in this session not long ago."`
}

func (s Signing) proof() office.Proof { return office.Proof{Password: s.Password, PIN: s.PIN} }
