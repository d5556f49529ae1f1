package reports

import (
	"context"
	"fmt"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/phrase"
	"wellshown/assessment/wording"
)

// HomePaper prints one of the papers that go home with a child, in a language. What is not
// on record is left open to be filled in by hand.
func (r *Reports) HomePaper(ctx context.Context, by assessment.Actor, client assessment.ClientID, which assessment.HomePaper, in wording.Language) ([]byte, string, error) {
	v, err := r.office.HomePapers(ctx, by, client)
	if err != nil {
		return nil, "", fmt.Errorf("print a paper for home: %w", err)
	}
	p, err := homePaper(v, which, in)
	parts := []string{v.Code, string(in)}
	if which == assessment.PowerLetter || which == assessment.FireLetter {
		parts = parts[1:] // strangers read it: nothing on it tells whose it is
	}
	return r.handOut(ctx, by, office.Export{Act: assessment.ReadClients, Paper: string(which), Subject: string(client)})(document(p, err, string(which), parts...))
}

// homeSheet is a paper for home being written, and what it says.
type homeSheet struct {
	*paper
	office.HomeView
	words wording.Words
}

// homePaper draws a paper; v.At tells the time by the agency's clocks.
func homePaper(v office.HomeView, which assessment.HomePaper, in wording.Language) (*paper, error) {
	draw, known := map[assessment.HomePaper]func(homeSheet){
		assessment.EmergencyCard: homeSheet.card, assessment.GoBagList: homeSheet.goBag, assessment.EquipmentList: homeSheet.equipment,
		assessment.PowerLetter: homeSheet.power, assessment.FireLetter: homeSheet.fire,
	}[which]
	if !known {
		return nil, fmt.Errorf("there is no paper for home called %q", which)
	}
	words := wording.In(in)
	letter := which == assessment.PowerLetter || which == assessment.FireLetter
	p, err := newPaper(meta{Title: words.Of(which.Phrase()), Language: string(in), Stranger: letter, Agency: v.Agency.Name, Demo: v.Agency.Demo, Issued: v.At, Zone: v.At.Location()})
	if err != nil {
		return nil, err
	}
	draw(homeSheet{p, v, words})
	return p, nil
}

// Say says a sentence in the paper's language.
func (h homeSheet) Say(format string, args ...any) string { return h.words.Say(format, args...) }

// known is words in a style, or a line to fill in by hand where there are none.
func known(s style, said string) words {
	if said == "" {
		return words{style: s, rule: true}
	}
	return words{style: s, text: said}
}

// sized is a size with its unit, or a line to fill in by hand before the unit.
func sized(s style, n *assessment.Number, unit string) words {
	if n == nil {
		return words{style: s, text: unit, rule: true}
	}
	if unit == "mm" {
		return words{style: s, text: tubeSize(*n) + " mm"}
	}
	return words{style: s, text: n.String() + " " + unit}
}

// tubeSize is an inner diameter as it stands on tubes: 3.0, 3.5.
func tubeSize(n assessment.Number) string {
	size := n.String()
	if !strings.ContainsAny(size, "./") {
		size += ".0"
	}
	return size
}

// own is an agency's own words in the paper's language; nothing for none.
func (h homeSheet) own(o phrase.Own) string {
	if o.English == "" && o.Spanish == "" {
		return ""
	}
	if said, ok := o.In(string(h.words.Language())); ok {
		return said
	}
	if o.English == "" {
		return o.Spanish
	}
	return h.words.Own(o)
}

// cautions are what comes before all else on every paper for home.
func (h homeSheet) cautions() {
	h.row(label(h.say.caution), words{style: saidStyle, text: h.Say("Your child’s signed orders, the maker’s instructions and your team’s teaching come first. Where this paper differs, do what they say. In an emergency, call the local emergency number.")},
		words{style: saidStyle, text: h.Say("The team looks at this paper with you before you use it, and prints it anew when something changes.")})
}
