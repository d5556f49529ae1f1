package reports

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/knowledge"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

// Questions prints the items in use of a skill for those who read them before anybody is
// asked: the clinician who stands for them and the translator. In another language than
// English each stands beside its English, which it is held against.
func (r *Reports) Questions(ctx context.Context, by assessment.Actor, code string, in wording.Language) ([]byte, string, error) {
	v, err := r.office.ReadItems(ctx, by, code)
	if err != nil {
		return nil, "", fmt.Errorf("print the questions of a skill: %w", err)
	}
	p, err := questions(v, in)
	return r.handOut(ctx, by, office.Export{Act: assessment.ReadBank, Paper: "questions", Subject: string(v.Skill.ID)})(document(p, err, "questions", v.Skill.Code, string(in)))
}

// questions draws the bank. Its foot says of when the newest item is, and not when it was
// printed: the same bank gives the same bytes.
func questions(v office.BankReading, in wording.Language) (*paper, error) {
	named := in.Own()
	if in != wording.English {
		named += ", with the English"
	}
	p, err := newPaper(meta{Title: "Questions: " + v.Skill.Title + ", " + named, Language: "en", Agency: v.Agency.Name, Demo: v.Agency.Demo, Issued: v.Newest, Zone: v.Zone})
	if err != nil {
		return nil, err
	}
	p.meta.Stands = "Newest question: " + english.instant(v.Newest, v.Zone)
	p.byHand = []string{"read by", "day"}
	p.letterhead("Questions on " + v.Skill.Title)
	p.note(fmt.Sprintf("%d in use, in %s. This paper says what is right: keep it from whoever takes the check.", len(v.Items), named))
	p.row(label("before use"), text("Each is read by a licensed clinician, and a translation by a qualified translator, before anybody is asked it. The child’s orders, the maker’s instructions, local codes and licensed practice come first."))
	p.heading("The questions")
	for n, i := range v.Items {
		p.together(func() { p.toReview(n+1, i, in) })
	}
	p.together(func() {
		p.heading("Who read them")
		p.blanks(label("clinician"), "printed name", "licence", "day and signature")
		p.blanks(label("translator"), "printed name", "qualification", "day and signature")
		for _, left := range []string{"to change", "", ""} {
			p.blanks(label(left), "question and what is to be said instead")
		}
	})
	return p, nil
}

// toReview is one item: what it asks, what is right, what it teaches, where it comes from.
func (p *paper) toReview(place int, i office.BankItem, in wording.Language) {
	language := string(in)
	pieces := inFull(i.Item, language)
	if _, translated := i.Item.Texts[language]; !translated {
		pieces = append(pieces, strong("Not in this language yet: it is asked in English."))
	} else if in != wording.English {
		pieces = append(pieces, besideIt(i.Item))
	}
	kind := string(i.Item.Kind)
	if i.Item.Kind == knowledge.Order {
		kind += ", as it stands here"
	}
	sort := []string{i.Item.ID, fmt.Sprintf("version %d", i.Version), kind, knowledge.HowHard(i.Item.Difficulty)}
	if i.Item.Critical {
		sort = append(sort, "must be known")
	}
	pieces = append(pieces, soft(strings.Join(sort, " · ")+". Source: "+strings.TrimSuffix(i.Item.Source, ".")+"."))
	p.row(label(fmt.Sprint(place)), pieces...)
	p.gap(5)
}

// inFull is an item with everything there is to choose from.
func inFull(i knowledge.Item, language string) []words {
	t := i.In(language)
	pieces := []words{strong(t.Ask)}
	for n, o := range t.Options {
		switch {
		case i.Kind == knowledge.Order:
			pieces = append(pieces, text(fmt.Sprintf("%d. %s", n+1, o)))
		case slices.Contains(i.Right, n+1):
			pieces = append(pieces, marked(shapeTicked, o))
		default:
			pieces = append(pieces, marked(shapeBox, o))
		}
	}
	for n, l := range t.Left {
		pieces = append(pieces, text(l+" → "+t.Right[n]))
	}
	if i.Kind == knowledge.Numeric {
		right := office.Question{Item: i}.RightAnswer(language)
		pieces = append(pieces, marked(shapeTicked, strings.Join(right, " ")), soft("Units to choose from: "+strings.Join(i.Units, ", ")))
	}
	return append(pieces, text("It teaches: "+t.Teach))
}

// besideIt is the English of an item, to hold its translation against, in one paragraph.
func besideIt(i knowledge.Item) words {
	t := i.In("en")
	said := []string{t.Ask}
	for n, o := range t.Options {
		said = append(said, fmt.Sprintf("%d. %s", n+1, o))
	}
	for n, l := range t.Left {
		said = append(said, l+" → "+t.Right[n])
	}
	return soft("English: " + strings.Join(append(said, t.Teach), " / "))
}
