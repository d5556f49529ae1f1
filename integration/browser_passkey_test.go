package integration

import (
	"os"
	"testing"

	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// TestAPasskeyInABrowser: an educator adds a passkey, signs out, signs in with it and
// signs a demonstration with it, in a real browser with its virtual authenticator
// (Chrome DevTools Protocol, domain WebAuthn). Browsers know passkeys on this
// machine under the name localhost.
func TestAPasskeyInABrowser(t *testing.T) {
	tools := browserTools(t)
	w, base := served(t, "localhost")
	mira, lan, edda := w.Client("7K", "Mira"), w.Nurse("Nguyễn Thị Lan"), w.Educators[0]
	v := w.Demonstrate(lan, "humidifier", mira, ward.Unsigned)
	job := struct {
		Chromium   string `json:"chromium"`
		Base       string `json:"base"`
		JavaScript bool   `json:"javaScript"`
		Email      string `json:"email"`
		Password   string `json:"password"`
		Record     string `json:"record"`
		Shots      string `json:"shots,omitempty"`
	}{tools.Chromium, base, true, w.Email(edda), ward.Password, "/demonstrations/" + string(v.ID), os.Getenv("WELLSHOWN_SHOTS")}
	var came struct {
		Keys, Used int
		Resident   bool
		Party      string
	}
	tools.Play(t, "passkey.mjs", job, &came)
	if came.Keys != 1 || !came.Resident || came.Party != "localhost" || came.Used < 2 {
		t.Errorf("the authenticator has %+v", came)
	}
	now, err := w.Office.Demonstration(t.Context(), edda, v.ID)
	if err != nil {
		t.Fatal(err)
	}
	if s := now.SignedBy(office.PartObserver); s == nil || s.PrintedName != edda.Name || s.Meaning != office.MeaningObserver {
		t.Errorf("signed %+v", s)
	}
	kept, err := w.Office.Passkeys(t.Context(), edda)
	if err != nil {
		t.Fatal(err)
	}
	if len(kept) != 1 || kept[0].UsedAt == nil || kept[0].Doubted != nil {
		t.Errorf("kept %+v", kept)
	}
}
