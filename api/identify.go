package api

import (
	"net/http"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

// Identify says who sends a request, or refuses: Unauthenticated for whoever is
// not known, Forbidden for a request that its sender may not have meant to send.
type Identify func(*http.Request) (assessment.Actor, error)

// Bearer is the token that a request carries as Authorization: Bearer (RFC 6750,
// section 2.1); empty where there is none.
func Bearer(r *http.Request) string {
	scheme, token, _ := strings.Cut(r.Header.Get("Authorization"), " ")
	if !strings.EqualFold(scheme, "Bearer") {
		return ""
	}
	return strings.TrimSpace(token)
}

// ByBearer identifies whoever sends the token of a session, as POST
// /api/v1/sessions gives it, or that of a program.
func ByBearer(o *office.Office) Identify {
	return func(r *http.Request) (assessment.Actor, error) {
		token := Bearer(r)
		if token == "" {
			return assessment.Actor{}, fault.Of(fault.Unauthenticated, "Sign in first, and send the token as Authorization: Bearer.")
		}
		if strings.HasPrefix(token, office.TokenPrefix) {
			return o.Program(r.Context(), token)
		}
		s, err := o.Session(r.Context(), token)
		if err != nil {
			return assessment.Actor{}, err
		}
		return s.Actor, MayGoOn(s, r)
	}
}

// MayGoOn refuses whoever still has a password that somebody else has set. They
// may see who they are, choose another password and sign out; nothing else.
func MayGoOn(s office.SessionView, r *http.Request) error {
	if !s.MustChangePassword {
		return nil
	}
	switch r.Method + " " + r.URL.Path {
	case "GET " + Base + "/me", "PUT " + Base + "/me/password", "DELETE " + Base + "/sessions/current":
		return nil
	}
	return fault.Of(fault.Forbidden, "Your password was set by somebody else. Choose one of your own first: PUT %s/me/password.", Base)
}
