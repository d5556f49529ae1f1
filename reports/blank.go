package reports

import (
	"context"
	"fmt"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
)

// Blank prints a checklist to be filled in by hand: the child's values to be
// taken from the orders, every step with a box for each mark, room to sign.
func (r *Reports) Blank(ctx context.Context, by assessment.Actor, id assessment.RevisionID) ([]byte, string, error) {
	v, err := r.office.Checklist(ctx, by, id)
	if err != nil {
		return nil, "", fmt.Errorf("print a blank checklist: %w", err)
	}
	p, err := blank(v)
	return r.handOut(ctx, by, office.Export{Act: assessment.ReadChecklists, Paper: "blank checklist", Subject: string(id)})(document(p, err, "checklist", v.Checklist.Code, "revision", fmt.Sprint(v.Number)))
}

func blank(v office.ChecklistView) (*paper, error) {
	p, err := newPaper(meta{Title: fmt.Sprintf("Checklist: %s, revision %d", v.Checklist.Title, v.Number), Language: "en",
		Agency: v.Agency.Name, Demo: v.Agency.Demo, Issued: stateSince(v), Zone: v.Zone})
	if err != nil {
		return nil, err
	}
	state := stateInWords(p.say, v)
	p.meta.Stands = fmt.Sprintf("Checklist revision %d, %s", v.Number, state)
	p.byHand = []string{"caregiver", "day"}
	p.letterhead(v.Checklist.Title)
	p.note(fmt.Sprintf("Checklist to fill in by hand · revision %d, %s", v.Number, state))
	if v.Version != "" {
		p.code = "text " + office.TextMark(v.Version)
		p.note(fmt.Sprintf("Revision %s. Its text has the SHA-256 %s, of which every page shows the beginning.", v.ID, v.Version))
	}
	if v.State != assessment.InForce {
		p.row(label("not in force"), strong("A demonstration on this revision does not count."))
	}
	p.before(v.Checklist)
	keys := letters(v.Checklist.Parameters)
	p.orders(v.Checklist, keys)
	p.tickSteps(v.Checklist, keys)
	p.after(v.Checklist)
	return p, nil
}

// stateSince is when the revision came to be what it is.
func stateSince(v office.ChecklistView) time.Time {
	switch {
	case v.State == assessment.Retired && v.RetiredAt != nil:
		return *v.RetiredAt
	case v.State != assessment.Draft && v.InForceAt != nil:
		return *v.InForceAt
	}
	return v.DraftedAt
}

func stateInWords(say phrases, v office.ChecklistView) string {
	zone := v.Zone
	if zone == nil {
		zone = time.UTC
	}
	day := say.date(civil.DayOf(stateSince(v), zone))
	switch v.State {
	case assessment.InForce:
		return "in force since " + day
	case assessment.Retired:
		return "retired on " + day
	}
	return "draft of " + day
}

// before is what comes first: what it is for, the cautions, who, and what to lay out.
func (p *paper) before(c assessment.Checklist) {
	if c.Purpose != "" {
		p.row(label("purpose"), text(c.Purpose))
	}
	for i, s := range c.Safety {
		name := "safety"
		if i > 0 {
			name = ""
		}
		p.row(label(name), text(s))
	}
	p.gap(4)
	who := []string{"caregiver, printed name"}
	if c.Scope == assessment.ClientSpecific {
		who = append(who, "child, first name and code")
	}
	p.blanks(label("who"), who...)
	p.blanks(label("observer"), "printed name", "licence")
	p.blanks(label("shown"), "day", "time", "place")
	p.gap(6)
	p.choices(label("how"), p.ways(c)...)
	if len(c.Equipment) == 0 {
		return
	}
	p.heading("Lay out")
	p.choices(label(""), boxes(c.Equipment...)...)
}

func (p *paper) ways(c assessment.Checklist) []words {
	if c.ManikinOnly {
		return append([]words{text("on a manikin, never on a child:")}, boxes("formal", "practice")...)
	}
	return boxes("with the child", "in simulation", "formal", "practice")
}

func boxes(said ...string) []words {
	all := make([]words, len(said))
	for i, s := range said {
		all[i] = marked(shapeBox, s)
	}
	return all
}

// orders is the child's values, each with the letter that stands for it below.
func (p *paper) orders(c assessment.Checklist, keys map[string]string) {
	if len(c.Parameters) == 0 {
		return
	}
	p.heading("From the child’s signed orders")
	p.note("Fill these in before you begin. The letters stand for them in the steps.")
	t := table{columns: []column{{"what is ordered", 4, toLeft}, {"value", 1.4, toLeft}}}
	for _, q := range c.Parameters {
		said := []words{text(capital(q.Says))}
		if q.Default != nil {
			said = append(said, soft("Where nothing is ordered: "+q.Default.InWords()+"."))
		}
		t.rows = append(t.rows, tableRow{left: label(keys[q.Name]), cells: [][]words{said, cell(handIn(q.Unit))}})
	}
	p.table(t)
}

// handIn is a rule to write on, high enough for a pen.
func handIn(unit string) words {
	w := hand(assessment.UnitInWords(unit))
	w.style.lead = penLead
	return w
}

const penLead = 19 // of lines that are written on by hand

// after is what comes last: what was unsafe, how it ended, how it is judged, the
// signatures.
func (p *paper) after(c assessment.Checklist) {
	p.gap(8)
	p.together(func() {
		p.blanks(label("unsafe"), "at step", "what was seen", "what was done at once")
		p.choices(label("ended"), boxes("shown to the end", "stopped for safety")...)
		p.blanks(words{}, "stopped at step", "at what time", "because")
		p.blanks(label("talked over"), "what is to be practised next")
	})
	p.together(func() {
		p.gap(10)
		p.signatures(label("signed"),
			signature{Name: "Observer", Meaning: office.MeaningObserver}, signature{Name: "Caregiver", Meaning: office.MeaningLearner})
		p.gap(4)
		p.note("It counts once it has been entered as a record and signed there, not by this paper alone. Enter it as marked on paper, with a photo or scan of every page, and keep the paper.")
	})
	p.heading("How it is judged")
	for _, rule := range c.Policy.InWords() {
		p.note(rule)
	}
}
