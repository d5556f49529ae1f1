package reports

import (
	"fmt"
	"strings"

	"wellshown/assessment/office"
)

// record draws one demonstration whole: what it did to the answer first, then each mark,
// the signatures and its places in the ledger.
func (d *packetPaper) record(r office.PacketRecord) error {
	p, v := d.paper, r.DemonstrationView
	title := "Record of " + p.say.date(performedOn(v)) + ": " + v.Title
	if v.Client != "" {
		title += ", for " + v.Client
	}
	p.here(recordPlace(v.ID), title, 1)
	p.heading(title)
	p.row(label("bears"), d.bearing(r)...)
	p.row(label("shown"), text(p.say.instant(v.PerformedAt, p.zone)+", "+v.Place+", "+withWhom(v.RealClient).String()+", "+formally(v)), soft(fmt.Sprintf("by %s, observed by %s · checklist revision %d", v.Learner, v.Observer, v.Revision)))
	if equipment, err := equipmentInWords(english.w, v); err != nil {
		return err
	} else if equipment != "" {
		p.row(label("with"), text(equipment))
	}
	p.fromPaper(v)
	p.bedside(v)
	p.row(label("outcome"), strong(capital(string(v.Result.Outcome))))
	p.outcome(v)
	p.row(label("counts"), text(countsInWords(p.say.w, v)))
	if v.Certificate != nil {
		p.row(label("certificate"), text(fmt.Sprintf("no. %d, check code %s", v.Certificate.Number, office.ShowCode(v.Certificate.Code))))
	}
	p.steps(v)
	p.childsValues(v)
	p.gap(10)
	if err := p.signedRecord(v); err != nil {
		return err
	}
	p.note(fmt.Sprintf("Record %s. What was signed has the SHA-256 %x. %s", v.ID, v.BodySHA256, d.places1(r.Proofs)))
	return nil
}

func formally(v office.DemonstrationView) string {
	if v.Formal {
		return "formal"
	}
	return "practice"
}

// bearing says what the record did to the answer.
func (d *packetPaper) bearing(r office.PacketRecord) []words {
	var all []words
	if r.Bears {
		all = append(all, strong("The standing above rests on it, among others where several are named."))
	} else {
		all = append(all, text("The standing above does not rest on it."))
	}
	for _, late := range r.Late {
		all = append(all, strong("Not known on that night: "+late+"."))
	}
	return all
}

// briefly is a record in a few lines, for packets of many people: each step stands in the
// data that goes with the paper.
func (d *packetPaper) briefly(all []office.PacketRecord) table {
	t := table{columns: []column{{"day", 1.1, toLeft}, {"record", 4.4, toLeft}, {"outcome", 1.4, toLeft}, {"score", 0.8, toRight}}}
	for _, r := range all {
		v := r.DemonstrationView
		about := fmt.Sprintf("revision %d, %s, %s, observed by %s", v.Revision, withWhom(v.RealClient), formally(v), v.Observer)
		if v.Client != "" {
			about = "for " + v.Client + " · " + about
		}
		shown := []words{text(v.Title), soft(about)}
		signed, err := signaturesOf(d.say.w, v.Signatures, v.Zone, "learner")
		if err != nil {
			d.fail(err)
		}
		for _, s := range signed {
			shown = append(shown, soft(d.signedLine(s)))
		}
		if len(signed) == 0 {
			shown = append(shown, soft("not signed"))
		}
		if r.CorrectedAt != nil {
			shown = append(shown, strong(countsInWords(d.say.w, v)))
		}
		shown = append(shown, soft("Record "+string(v.ID)+". "+d.placesOf(r.Proofs)))
		outcome := []words{text(string(v.Result.Outcome))}
		for _, why := range v.Result.Reasons {
			outcome = append(outcome, soft(string(why.Rule)))
		}
		score := "—"
		if v.Result.Score != nil {
			score = v.Result.Score.Percent() + " %"
		}
		t.rows = append(t.rows, tableRow{cells: [][]words{cell(text(d.say.shortDate(performedOn(v)))), shown, outcome, cell(text(score))}})
	}
	return t
}

// places1 is placesOf, counted.
func (d *packetPaper) places1(all []office.PacketProof) string {
	d.count(all)
	return d.placesOf(all)
}

func (d *packetPaper) count(all []office.PacketProof) {
	for _, proof := range all {
		d.proven += len(proof.Entries)
		if len(proof.Entries) == 0 {
			d.waiting++
		}
	}
}

// placesOf names where rows stand in the ledger: entry 812 (demonstration), 813 (signature).
func (d *packetPaper) placesOf(all []office.PacketProof) string {
	var parts []string
	for _, proof := range all {
		var at []string
		for _, e := range proof.Entries {
			at = append(at, fmt.Sprint(e.Position))
		}
		if len(at) == 0 {
			at = []string{"no place yet"}
		}
		parts = append(parts, strings.Join(at, " and ")+" ("+strings.ReplaceAll(proof.Kind, "_", " ")+")")
	}
	if len(parts) == 0 {
		return ""
	}
	return "In the ledger: " + strings.Join(parts, ", ") + "."
}
