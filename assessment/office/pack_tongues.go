package office

import (
	"crypto/sha256"
	"encoding/hex"
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/phrase"
	"wellshown/assessment/wording"
)

// PackTongue is another language than English in which learners of a pack read: what a
// device says in it while it is in their hands.
type PackTongue struct {
	Language wording.Language
	Dir      string            // how it runs, as HTML has it
	Edition  string            // of HandedTexts: a device that says others says none of it
	Says     map[string]string // HandedTexts, by their English
	Theirs   map[string]string // what checklists of the pack say, by their English, as far as it is known
}

// HandedTexts are all that a device says of its own to a learner to whom it is handed. Each
// is a sentence of the catalogues; the modules in web/static/bedside say them by name.
var HandedTexts = []phrase.Phrase{
	phrase.Of("Go to the content"), phrase.Of("Demo."), phrase.Of("All people and records are invented."),
	phrase.Of("No network."), phrase.Of("Online."), phrase.Of("Looking for the office…"), phrase.Of("Signed out: give the device back first."),
	// What was seen, and what came of it.
	phrase.Of("for %s"), phrase.Of("in simulation"), phrase.Of("practice"), phrase.Of("Result:"), phrase.Of("Result for now:"),
	phrase.Of("The office works it out again, and its answer stands."),
	phrase.Of("competent"), phrase.Of("not yet competent"), phrase.Of("stopped for safety"),
	phrase.Of("Why"), phrase.Of("Worth talking over"), phrase.Of("What happened"), phrase.Of("Every rule of the checklist is met."),
	phrase.Of("Step %d was unsafe: %s"), phrase.Of("Critical step %d was not shown well enough: %s"), phrase.Of("Step %d: %s is outside its accepted range."),
	phrase.Of("More steps were cued than the %d allowed."), phrase.Of("The score is below the pass mark of %s %%."), phrase.Of("No step was shown in full."),
	phrase.Of("Talked over"), phrase.Of("Said and heard"), phrase.Of("To practise next"),
	// What an observer taps instead of typing.
	phrase.Of("Step %d: %s"), phrase.Of("Saturation fell under the child’s limit"), phrase.Of("The tube moved or came out"), phrase.Of("The child was in distress"),
	phrase.Of("No breaths were going in"), phrase.Of("Equipment failed"), phrase.Of("I took over and bagged"), phrase.Of("The child is settled again"),
	phrase.Of("Went through each step that was not independent"), phrase.Of("Showed the step once more"), phrase.Of("Asked how it felt; heard the answer"), phrase.Of("Agreed on a day to go on"),
	// Drawing a name.
	phrase.Of("%s, see how it went"), phrase.Of("Draw your name"),
	phrase.Of("Drawing here shows that it was talked over. It is not the signature that counts: for that one you are asked later, with your own password or passkey."),
	phrase.Of("Nothing is signed in practice. Drawing here shows that it was talked over."),
	phrase.Of("Field to draw in: %s"), phrase.Of("Clear the field"), phrase.Of("Kept."), phrase.Of("The device did not keep your drawing. Give it back and say so."),
	phrase.Of("Give the device back"),
	// Reading and signing.
	phrase.Of("%s, read and sign"), phrase.Of("Your password is yours alone: type it yourself. Where something here is not as it was, do not sign; say so and give the device back."),
	phrase.Of("Give it back without signing"), phrase.Of("%s, shown by %s on %s: %s."), phrase.Of("%s, shown by %s for %s on %s: %s."), phrase.Of(MeaningLearner), phrase.Of("“%s”"),
	phrase.Of("These words are signed and kept, in English:"), phrase.Of("learner"), phrase.Of("Password of %s"), phrase.Of("Sign as learner"), phrase.Of("Signed as learner."),
	phrase.Of("Sign with a passkey"), phrase.Of("%s, sign with a passkey"), phrase.Of("Sign with my passkey"), phrase.Of("Go back without signing"),
	phrase.Of("The passkey was not used, and nothing was signed. This device may have none of %s, or could not tell that it was them. Try again, or go back and use the password."),
	phrase.Of("There is no network, so nothing was signed. It waits under your name."), phrase.Of("The office answered %d."),
	phrase.Of("Thank you, %s"), phrase.Of("You have signed. %s signs as well; it counts only then."),
}

// HandedEdition names HandedTexts: whoever says others has another one.
func HandedEdition() string {
	formats := make([]string, len(HandedTexts))
	for i, p := range HandedTexts {
		formats[i] = p.Format
	}
	slices.Sort(formats)
	sum := sha256.Sum256([]byte(strings.Join(formats, "\x00")))
	return hex.EncodeToString(sum[:])[:12]
}

// packTongues are the languages of a pack's learners that are not English.
func packTongues(v PackView) []PackTongue {
	var all []PackTongue
	for _, l := range wording.Languages[1:] {
		if slices.ContainsFunc(v.Learners, func(p PackLearner) bool { return p.Language == l }) {
			all = append(all, packTongue(l, v.Skills))
		}
	}
	return all
}

func packTongue(l wording.Language, skills []PackSkill) PackTongue {
	t := PackTongue{Language: l, Dir: wording.In(l).Dir(), Edition: HandedEdition(), Says: map[string]string{}, Theirs: map[string]string{}}
	for _, p := range HandedTexts {
		if _, said, ok := wording.Known(l, p.Format); ok {
			t.Says[p.Format] = said
		}
	}
	for _, s := range skills {
		for _, text := range append(HandedTextsOf(s.Checklist), s.Title) {
			if said, ok := wording.In(l).Theirs(text); ok {
				t.Theirs[text] = said
			}
		}
	}
	return t
}

// HandedTextsOf are the texts of a checklist that a learner may read: steps, what they measure, and
// what a child's values are called where none is ordered.
func HandedTextsOf(c *assessment.Checklist) []string {
	var all []string
	for _, step := range c.Steps() {
		all = append(all, step.Text)
		for _, m := range step.Measures {
			all = append(all, m.Name)
		}
	}
	for _, p := range c.Parameters {
		short, _, _ := strings.Cut(p.Says, ",")
		all = append(all, short)
	}
	return all
}
