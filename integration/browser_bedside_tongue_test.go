package integration

import (
	"os"
	"slices"
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/phrase"
	"wellshown/assessment/wording"
	"wellshown/integration/ward"
)

// TestALearnerReadsWhatTheyAreHandedInTheirLanguage: a mother who reads Spanish is handed
// the device without a network to draw her name, and with one to read and sign. From being
// handed it to giving it back she reads nothing of ours in English but the words that are
// signed, marked as such (WCAG 2.2, 3.1.1 Language of Page and 3.1.2 Language of Parts);
// before and after, the page is the observer's, in English. A pack that says nothing of
// languages, and a language that the device does not know, are gone on with in English
// (common practice, no source). Each of her pages is held to what
// TestTheBedsideWithTheNetworkOff lists.
func TestALearnerReadsWhatTheyAreHandedInTheirLanguage(t *testing.T) {
	tools := browserTools(t)
	w, base := served(t, "127.0.0.1")
	rosa := w.Family("Rosa Ibarra", w.Client("7K", "Mira"))
	if err := w.Office.SetLanguage(t.Context(), rosa, string(wording.Spanish)); err != nil {
		t.Fatal(err)
	}
	w.Require("suction", assessment.Family)
	es := wording.In(wording.Spanish)
	job := struct {
		bedsideTask
		Language string `json:"language"`
		Seen     string `json:"seen"` // headings, in her language
		Sign     string `json:"sign"`
		Thanks   string `json:"thanks"`
		Kept     string `json:"kept"`
	}{bedsideTask{Chromium: tools.Chromium, Base: base, JavaScript: true, Email: w.Email(w.Educators[0]), Password: ward.Password, Now: w.Now(), Learner: rosa.Name,
		Observe: "Observe Tracheostomy suctioning, " + rosa.Name + ", for Mira, 7K", Shots: os.Getenv("WELLSHOWN_SHOTS")}, string(wording.Spanish),
		es.Say("%s, see how it went", rosa.Name), es.Say("%s, read and sign", rosa.Name), es.Say("Thank you, %s", rosa.Name), es.Say("Kept.")}
	var came struct {
		Sheets []bedsideSheet
		Read   map[string][]string
	}
	tools.Play(t, "bedside-tongue.mjs", job, &came)
	if len(came.Sheets) != 3 || slices.ContainsFunc(came.Sheets, func(s bedsideSheet) bool { return s.State != "sent" }) {
		t.Errorf("kept %+v", came.Sheets)
	}
	for name, says := range map[string][]string{
		"seen":   {es.Of(assessment.StoppedForSafety.Phrase()), "El paso 1 fue inseguro", es.Say("Clear the field"), es.Say("No network.")},
		"sign":   {es.Of(assessment.StoppedForSafety.Phrase()), "El paso 1 fue inseguro", es.Quoted(es.Say(office.MeaningLearner)), es.Say("Sign as learner"), "contraseña"},
		"thanks": {es.Say("You have signed. %s signs as well; it counts only then.", w.Educators[0].Name), es.Say("Give the device back")},
	} {
		inSpanish(t, name, came.Read[name], 8)
		all := strings.Join(came.Read[name], "\n")
		for _, text := range says {
			if !strings.Contains(all, text) {
				t.Errorf("%s does not say %q: %s", name, text, all)
			}
		}
		for _, p := range office.HandedTexts {
			if english := p.Format; es.Of(phrase.Phrase{Format: english}) != english && len(english) > 8 && !strings.Contains(english, "%") && strings.Contains(all, english) {
				t.Errorf("%s says %q", name, english)
			}
		}
	}
	signedByHer(t, w, rosa, assessment.DemonstrationID(came.Sheets[2].ID))
}

// signedByHer holds that what she signed means what everybody signs, word for word.
func signedByHer(t *testing.T, w *ward.Ward, rosa assessment.Actor, id assessment.DemonstrationID) {
	t.Helper()
	record, err := w.Office.Demonstration(t.Context(), w.Educators[0], id)
	if err != nil {
		t.Fatal(err)
	}
	if s := record.SignedBy(office.PartLearner); s == nil || s.PrintedName != rosa.Name || s.Meaning != office.MeaningLearner {
		t.Errorf("she signed %+v", s)
	}
}
