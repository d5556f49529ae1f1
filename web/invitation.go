package web

import (
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

// invitationSheet is the sheet for a link, in the language of whom it is for: what the
// square is, what to do with it, and until when.
func invitationSheet(made office.NewLink, zone *time.Location) (InvitationSheet, error) {
	w := wording.In(wording.Of(made.Language))
	square, err := newSquare(made.URL)
	if err != nil {
		return InvitationSheet{}, err
	}
	sheet := InvitationSheet{Language: string(w.Language()), Dir: w.Dir(), Square: square, Title: w.Say("Welcome, %s", made.Person.Name),
		Lead: w.Say("%s invites you to see what you learn, what is done and what is left.", made.Agency.Name)}
	choose := w.Say("Choose a password that only you know. You sign in with %s.", made.Email)
	if made.Purpose != assessment.Invitation {
		sheet.Title = w.Say("A new password for %s", made.Person.Name)
		sheet.Lead = w.Say("%s has made a way for you to choose a new password.", made.Agency.Name)
	}
	sheet.Steps = []string{
		w.Say("Point the camera of your phone at the square, or type the address below it."),
		choose,
		w.Say("Sign in, and put the page on your phone’s screen."),
	}
	sheet.Cautions = []string{
		w.Say("It works once, until %s at %s.", civil.DayOf(made.ExpiresAt, zone), made.ExpiresAt.In(zone).Format("15:04")),
		w.Say("This paper is for you alone: whoever opens it first chooses the password. If you have lost it, tell the agency at once."),
		w.Say("In an emergency, call the local emergency number first."),
	}
	return sheet, nil
}
