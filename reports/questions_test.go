package reports

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/knowledge"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

// starterQuestions is the starter bank of a skill as an agency took it in.
func starterQuestions(t testing.TB, code string) office.BankReading {
	t.Helper()
	bank, err := catalog.Items(code)
	if err != nil {
		t.Fatal(err)
	}
	at := time.Date(2026, 11, 18, 16, 4, 0, 0, time.UTC)
	v := office.BankReading{Agency: office.AgencyView{Name: "Larkmoor Home Nursing"}, Skill: office.SkillRef{ID: "k", Code: code, Title: starter(t, code).Title}, Newest: at, Zone: denver(t)}
	for _, i := range bank.Items {
		v.Items = append(v.Items, office.BankItem{ID: assessment.RecordID(i.ID), Item: i, Version: 1, By: "Noor Haddadin", At: at})
	}
	return v
}

// The questions of a skill on paper say, in both languages, all there is to review: what is
// asked, each option, what it teaches, whether it must be known and the source; beside
// another language the English it is held against (common practice, no source).
func TestQuestionsOnPaper(t *testing.T) {
	v := starterQuestions(t, "suction")
	for _, in := range wording.Languages {
		called := "questions-" + string(in)
		path := drawn(t, called, func() (*paper, error) { return questions(v, in) })
		golden(t, called, path)
		for _, i := range v.Items {
			for _, language := range []string{string(in), "en"} {
				own := i.Item.In(language)
				says(t, path, slices.Concat([]string{own.Ask, own.Teach}, own.Options, own.Left, own.Right)...)
			}
			says(t, path, i.Item.ID, strings.TrimSuffix(i.Item.Source, "."))
			if i.Item.Kind == knowledge.Order {
				says(t, path, i.Item.ID+" · version 1 · order, as it stands here")
			}
		}
	}
}

// No bank of the twelve overflows a page or lacks a letter in either language.
func TestEveryBankCanBePrinted(t *testing.T) {
	for _, code := range catalog.Codes() {
		for _, in := range wording.Languages {
			p, err := questions(starterQuestions(t, code), in)
			if err == nil {
				_, err = p.bytes()
			}
			if err != nil {
				t.Errorf("%s in %s: %v", code, in, err)
			}
		}
	}
}

// Of each kind of item what is right is ticked, put in order, paired or given as a range,
// and nothing else is ticked.
func TestWhatIsRightIsTicked(t *testing.T) {
	seen := map[knowledge.Kind]bool{}
	for _, code := range catalog.Codes() {
		for _, b := range starterQuestions(t, code).Items {
			i := b.Item
			seen[i.Kind] = true
			var ticked, said []string
			for _, w := range inFull(i, "en") {
				if said = append(said, w.text); w.shape == shapeTicked {
					ticked = append(ticked, w.text)
				}
			}
			var want []string
			for _, r := range i.Right {
				want = append(want, i.In("en").Options[r-1])
			}
			if i.Kind == knowledge.Numeric {
				want = office.Question{Item: i}.RightAnswer("en")
			}
			slices.Sort(want)
			if slices.Sort(ticked); !slices.Equal(ticked, want) {
				t.Errorf("%s: ticked %q, right %q", i.ID, ticked, want)
			}
			for n, o := range i.In("en").Options {
				if i.Kind == knowledge.Order && !slices.Contains(said, fmt.Sprintf("%d. %s", n+1, o)) {
					t.Errorf("%s: no place for %q in %q", i.ID, o, said)
				}
			}
		}
	}
	if len(seen) != len(knowledge.Kinds) {
		t.Errorf("only %v were tried", seen)
	}
}

// An item that has no words of a language says so, rather than look translated.
func TestAQuestionWithoutItsTranslation(t *testing.T) {
	v := starterQuestions(t, "suction")
	v.Items = v.Items[:1]
	v.Items[0].Item.Texts = map[string]knowledge.Text{"en": v.Items[0].Item.Texts["en"]}
	path := drawn(t, "questions-untranslated", func() (*paper, error) { return questions(v, wording.Spanish) })
	says(t, path, "Not in this language yet", v.Items[0].Item.In("en").Ask)
}
