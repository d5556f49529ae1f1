package integration

import (
	"os"
	"strings"
	"testing"

	"wellshown/integration/ward"
)

// typedTask is what browser/typed.mjs is told to do.
type typedTask struct {
	Chromium   string `json:"chromium"`
	Base       string `json:"base"`
	JavaScript bool   `json:"javaScript"`
	Email      string `json:"email"`
	Other      string `json:"other"` // of somebody else, who signs in at the same tab
	Password   string `json:"password"`
	At         string `json:"at"`     // the page of the form
	Action     string `json:"action"` // where it goes
	Label      string `json:"label"`
	Text       string `json:"text"`
	Done       string `json:"done"`
	Shots      string `json:"shots,omitempty"`
}

// kept is a field after somebody signed in again, and what the tab still holds.
type kept struct {
	Value, Left, Secret, Focus string
	Said                       bool // that something is kept
	Text                       []string
	Same                       bool // the form is about the same thing
}

// TestWhatWasTypedOutlivesASession: a session ends while a form is filled in. Who signs in again
// finds it as they typed it, not sent; somebody else finds nothing; and into a form that is
// another by now, or about another thing, nothing is filled; what was sent before is not said
// to be lost. No password is kept (the rules of the person we build for: people lose nothing
// they typed).
func TestWhatWasTypedOutlivesASession(t *testing.T) {
	tools := browserTools(t)
	w, base := served(t, "127.0.0.1")
	task := typedTask{tools.Chromium, base, true, w.Email(w.Coordinator), w.Email(w.Admin), ward.Password, "/people/new", "/people", "Full name", "Łucja de la Peña", "Łucja de la Peña is added.", os.Getenv("WELLSHOWN_SHOTS")}
	var came struct {
		Again, Others, Changed, Apart, Before kept
		Sent, AfterSent                       string
		Faults                                []string
	}
	tools.Play(t, "typed.mjs", task, &came)
	for _, f := range came.Faults {
		t.Error(f)
	}
	if came.Again.Value != task.Text || came.Again.Left != "" || !strings.Contains(came.Again.Focus, "It has not been sent") {
		t.Errorf("after signing in again: %+v", came.Again)
	}
	if strings.Contains(came.Again.Secret, ward.Password) || !strings.Contains(came.Again.Secret, task.Text) || strings.Contains(came.Again.Secret, "csrf") {
		t.Errorf("the tab keeps %q", came.Again.Secret)
	}
	if came.Sent != "" || came.AfterSent != "" {
		t.Errorf("once it was sent the tab keeps %q, and later %q", came.Sent, came.AfterSent)
	}
	if came.Others.Value != "" || came.Others.Left != "" {
		t.Errorf("somebody else finds %+v", came.Others)
	}
	if came.Before.Said || came.Before.Left != "" {
		t.Errorf("of what was sent before something else was lost: %+v", came.Before)
	}
	if came.Changed.Value != "" || len(came.Changed.Text) != 1 || came.Changed.Text[0] != task.Text {
		t.Errorf("in another form: %+v", came.Changed)
	}
	if came.Apart.Same || came.Apart.Value != "" || came.Apart.Left != "" || len(came.Apart.Text) != 1 || came.Apart.Text[0] != task.Text {
		t.Errorf("in the form of another thing: %+v", came.Apart)
	}
}
