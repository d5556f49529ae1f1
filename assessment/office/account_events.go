package office

import (
	"context"
	"slices"
	"strconv"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/phrase"
	"wellshown/assessment/postgres"
)

// AccountEvent is something that happened to an account.
type AccountEvent struct {
	At   time.Time
	Kind string        // as the journal has it
	What string        // in words
	Says phrase.Phrase // the same, to be said in any language
	By   string        // name; empty: nobody who was signed in
	Own  bool          // done by whose account it is, as far as that can be told
	New  bool          // among the news that are not put away
}

// Kinds of the journal that are put together or looked for.
const (
	signedInKind = "sign-in"
	failedTries  = "failed tries "
	roleGiven    = "role "
	roleEnded    = "role ended "
	linkMade     = " link made"
	linkUsed     = " link used"
	vouched      = "vouched for"

	linkGivenBack = "link given back"

	pinShut        = "pin shut"
	passkeyRefused = "passkey refused"
	passkeyDoubted = "passkey doubted"
	secondFounder  = "second founder"
	nameChanged    = "name changed"
	addressChanged = "address changed"

	languageChanged = "language changed"
)

var accountWords = map[string]phrase.Phrase{
	signedInKind:             phrase.Of("Signed in"),
	"password":               phrase.Of("Password changed"),
	"pin":                    phrase.Of("PIN for signing set"),
	"pin ended":              phrase.Of("PIN for signing taken away"),
	pinShut:                  phrase.Of("PIN for signing shut after too many wrong tries"),
	"invitation link made":   phrase.Of("Invitation made: a link to choose the first password"),
	"reset link made":        phrase.Of("Link made to set a new password"),
	"invitation link used":   phrase.Of("First password chosen by the invitation"),
	"reset link used":        phrase.Of("New password set by a link"),
	linkGivenBack:            phrase.Of("Link ended by somebody who opened it and said that it was not for them"),
	vouched:                  phrase.Of("Vouched for: somebody has seen that it is you"),
	secondFounder:            phrase.Of("Let in as a second founder by whoever runs the service"),
	"one-time codes on":      phrase.Of("One-time codes turned on"),
	"one-time codes off":     phrase.Of("One-time codes turned off"),
	"recovery codes renewed": phrase.Of("New recovery codes made"),
	"recovery code used":     phrase.Of("A recovery code used"),
	"code refused":           phrase.Of("A wrong one-time code given after the right password"),
	"passkey added":          phrase.Of("Passkey added"),
	"passkey removed":        phrase.Of("Passkey removed"),
	passkeyRefused:           phrase.Of("An answer of a passkey refused"),
	passkeyDoubted:           phrase.Of("A passkey no longer accepted: its counter went back"),
	deviceEnrolled:           phrase.Of("A device enrolled, to fill in sheets at the bedside"),
	deviceRevoked:            phrase.Of("A device revoked: it fills in no sheets for the bedside any more"),
	"calendar made":          phrase.Of("Private calendar made: whoever has its address can read it"),
	"calendar revoked":       phrase.Of("Private calendar ended: its address answers nobody any more"),
	"session ended":          phrase.Of("One session ended"),
	"other sessions ended":   phrase.Of("All other sessions ended"),
	exportMade:               phrase.Of("Download made of all that is held about you"),
	tokensEnded:              phrase.Of("Tokens of programs that you had made ended for good, because your roles changed or you left"),
	"news put away":          phrase.Of("Notice about the account put away"),
	"person":                 phrase.Of("Name, address or language written down or changed"),
	nameChanged:              phrase.Of("Your name changed, as it is printed under what you sign"),
	addressChanged:           phrase.Of("The e-mail address that you sign in with changed"),
	languageChanged:          phrase.Of("Language of your pages and letters changed"),
	"employment":             phrase.Of("Day of hire written down or changed"),
	"leaving":                phrase.Of("Last day at the agency written down"),
}

// inWords says what a line of the journal means for the account. What has no words
// here is shown as it is: nothing is held back.
func inWords(kind string) phrase.Phrase {
	if words, known := accountWords[kind]; known {
		return words
	}
	if failed, is := strings.CutPrefix(kind, failedTries); is {
		if n, err := strconv.Atoi(failed); err == nil {
			return phrase.Count(n, "%d failed try to prove who you are", "%d failed tries to prove who you are")
		}
	}
	if role, is := strings.CutPrefix(kind, roleEnded); is {
		return phrase.Of("Role ended: %s", assessment.Role(role))
	}
	if role, is := strings.CutPrefix(kind, roleGiven); is {
		return phrase.Of("Role given: %s", assessment.Role(role))
	}
	return phrase.Text(strings.ToUpper(kind[:min(1, len(kind))]) + kind[min(1, len(kind)):])
}

// onAccounts are the acts of others that change somebody's account.
var onAccounts = []assessment.Act{assessment.GiveRoles, assessment.VouchFor, assessment.EditPeople}

// byAnybody are kinds of what whoever holds a device can do on which its owner is
// signed in, or who got hold of a passkey: none of it shows that it was them.
var byAnybody = []string{pinShut, passkeyRefused, passkeyDoubted}

func accountEvents(ctx context.Context, tx *postgres.Tx, person assessment.PersonID) ([]AccountEvent, error) {
	rows, err := tx.Journal.OfAccount(ctx, person, onAccounts, mostEvents)
	var all []AccountEvent
	for _, r := range rows {
		e := AccountEvent{At: r.At, Kind: r.Kind, What: inWords(r.Kind).String(), Says: inWords(r.Kind), By: r.Name, Own: r.Actor == person}
		if e.Own && slices.Contains(byAnybody, r.Kind) {
			e.By, e.Own = "somebody signed in as you", false
		}
		all = append(all, e)
	}
	return all, err
}

// news counts what happened to an account since its owner last signed in and was
// not done by them. To whoever signs in for the first time all is new.
func (o *Office) news(ctx context.Context, tx *postgres.Tx, now Moment, agency assessment.AgencyID, person assessment.PersonID) (int, error) {
	last, err := tx.Journal.LastOf(ctx, person, signedInKind)
	if err != nil {
		return 0, err
	}
	if err := o.tellFailures(ctx, tx, now, agency, person); err != nil || last.IsZero() {
		return 0, err
	}
	return tx.Journal.Unseen(ctx, person, onAccounts, byAnybody, last)
}

// tellFailures writes down how many tries to prove who somebody is have failed
// since they last signed in. It comes before those tries are forgotten.
func (o *Office) tellFailures(ctx context.Context, tx *postgres.Tx, now Moment, agency assessment.AgencyID, person assessment.PersonID) error {
	last, err := tx.Journal.LastOf(ctx, person, signedInKind)
	if err != nil {
		return err
	}
	failed, err := tx.Sessions.FailuresSince(ctx, person, last)
	if err != nil || failed == 0 {
		return err
	}
	return o.note(ctx, tx, now, assessment.Actor{Agency: agency}, assessment.OwnAccount, failedTries+strconv.Itoa(failed), string(person))
}
