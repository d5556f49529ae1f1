package api_test

import (
	"net/http"
	"slices"
	"strings"
	"testing"
	"time"

	"wellshown/api"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
	"wellshown/integration/ward"
)

// A refusal is said in the language that a request prefers, where it is known in it, and in
// English else (RFC 9110, section 12.5.4; RFC 9457, section 3.1.4: the detail is for people).
// So is what a passkey would sign, if it is the signer's own language.
func TestRefusalsAreSaidInTheLanguageOfTheReader(t *testing.T) {
	t.Parallel()
	d := newDesk(t)
	child := d.Client("7K", "Mira")
	rosa, owner := d.Family("Rosa Quispe", child), d.Educators[0]
	d.need(d.Office.SetLanguage(t.Context(), rosa, string(wording.Spanish)))
	key := d.Device(owner)
	var taken api.Pack
	d.get(path("/bedside/pack?device=%s", key.ID), owner).into(http.StatusOK, &taken)
	i := slices.IndexFunc(taken.Learners, func(l api.PackLearner) bool { return l.ID == string(rosa.Person) })
	if len(taken.Tongues) != 1 || taken.Tongues[0].Tag != "es" || taken.Tongues[0].Says["Sign as learner"] != wording.In(wording.Spanish).Say("Sign as learner") || i < 0 || taken.Learners[i].Language != "es" {
		t.Errorf("a device takes along %+v for %+v", taken.Tongues, taken.Learners)
	}
	sheet := d.Fill(key, rosa, "bagging", child, d.Now(), ward.Simulated)
	d.Pass(time.Hour)
	_, err := d.Office.Receive(t.Context(), owner, key.Send(sheet, d.Now()))
	d.need(err)
	at := path("/demonstrations/%s", sheet.ID)
	es := wording.In(wording.Spanish)
	for accepts, spanish := range map[string]bool{"": false, "es-MX, en;q=0.5": true, "fr": false, "%": false} {
		wrong := d.send("POST", at+"/signatures", owner, api.SignatureForm{Part: "learner", Signing: api.Signing{Password: "not hers"}}, "Accept-Language", accepts).problem(http.StatusUnprocessableEntity)
		if len(wrong.Errors) != 1 {
			t.Fatalf("%q: %+v", accepts, wrong)
		}
		told := strings.Contains(wrong.Detail+wrong.Errors[0].Detail, "contraseña")
		if told != spanish || strings.Contains(wrong.Detail+wrong.Errors[0].Detail, "password") == spanish {
			t.Errorf("who reads %q is told %q and %q", accepts, wrong.Detail, wrong.Errors[0].Detail)
		}
	}
	d.passkey(rosa)
	for accepts, want := range map[string]struct{ language, says string }{"": {"", office.MeaningLearner}, "es": {"es", es.Say(office.MeaningLearner)}, "fr": {"", office.MeaningLearner}} {
		var q api.PasskeyQuestion
		d.send("POST", at+"/passkey-question", owner, api.SignaturePart{Part: "learner"}, "Accept-Language", accepts).into(http.StatusCreated, &q)
		if q.Tongue != want.language || !strings.Contains(q.Says, want.says) {
			t.Errorf("who reads %q would sign, in %q: %q", accepts, q.Tongue, q.Says)
		}
	}
}
