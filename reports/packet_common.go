package reports

import (
	"fmt"
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
)

// End draws what several people and records have in common.
func (d *packetPaper) End(t office.PacketTail) error {
	for _, part := range d.parts() {
		d.here(part.name, part.title, 0)
		d.heading(part.title)
		switch part.name {
		case "night":
			d.night(t)
		case "observers":
			d.observers(t)
		case "checklists":
			d.checklists(t)
		case "ledger":
			d.ledger()
		}
	}
	return d.within()
}

func (d *packetPaper) night(t office.PacketTail) {
	shifts := table{columns: []column{{"shift", 2.6, toLeft}, {"child", 1.2, toLeft}, {"on it", 1.6, toLeft}}, empty: "The roster has no shift of that night here."}
	for _, s := range t.Shifts {
		who := "nobody"
		switch {
		case s.Person.ID != "":
			who = s.Person.Name
		case s.Other:
			who = "somebody else"
		}
		shifts.rows = append(shifts.rows, tableRow{cells: cells(text(d.say.instant(s.Starts, d.zone)+" to "+d.say.instant(s.Ends, d.zone)), text(child(s.Client)), text(who))})
	}
	d.note("Shifts as the roster stood when this was asked. A roster may be changed after the shift; the ledger keeps that it was.")
	d.table(shifts)
	has := table{columns: []column{{"child", 1.2, toLeft}, {"kind", 1.4, toLeft}, {"type", 2, toLeft}, {"since", 1.1, toLeft}, {"written down", 1.5, toLeft}}, empty: "No equipment is on record here."}
	for _, e := range t.Equipment {
		kind := e.Type
		if kind == "" {
			kind = "none any more"
		}
		written := []words{text(d.say.instant(e.RecordedAt, d.zone))}
		if e.Late {
			written = append(written, strong("later: not known on that night"))
		}
		written = append(written, soft(d.places1(e.Proofs)))
		has.rows = append(has.rows, tableRow{cells: [][]words{cell(text(child(e.Client))), cell(text(e.Kind)), cell(text(kind)), cell(text(d.say.shortDate(e.FromOn))), written}})
	}
	d.table(has)
}

func (d *packetPaper) observers(t office.PacketTail) {
	if len(t.Observers) == 0 {
		d.note("Nobody observed anything that is shown here.")
	}
	for _, o := range t.Observers {
		pieces := []words{text(o.Person.Name), soft("observed what is shown here on " + daysSeen(d.say, o.Seen))}
		for _, l := range o.Licences {
			pieces = append(pieces, d.licence(l, o.Seen)...)
		}
		if len(o.Licences) == 0 {
			pieces = append(pieces, strong("No licence is on file."))
		}
		for _, a := range o.Appointments {
			pieces = append(pieces, text(d.appointment(a)), soft(d.places1(a.Proofs)))
		}
		d.row(label("observer"), pieces...)
		d.cards("Resuscitation cards of "+o.Person.Name, o.Cards)
	}
}

// daysSeen names a few days, and of many the first, the last and how many.
func daysSeen(say phrases, days []civil.Date) string {
	if len(days) > 8 {
		return fmt.Sprintf("%d days from %s to %s", len(days), say.date(days[0]), say.date(days[len(days)-1]))
	}
	return datesInWords(say, days)
}

func (d *packetPaper) licence(l office.PacketLicence, seen []civil.Date) []words {
	said := "Licence " + l.Kind + " " + l.Number + ", without an end"
	if !l.ThroughOn.IsZero() {
		said = "Licence " + l.Kind + " " + l.Number + ", through " + d.say.date(l.ThroughOn)
	}
	all := []words{text(said + ", put on file " + d.say.instant(l.RecordedAt, d.zone) + " by " + l.Recorder)}
	after := slices.ContainsFunc(seen, func(day civil.Date) bool { return !l.ThroughOn.IsZero() && day.After(l.ThroughOn) })
	if after {
		all = append(all, strong("It had ended on some of those days."))
	}
	if l.CorrectedAt != nil {
		all = append(all, strong("Taken back on "+d.say.instant(*l.CorrectedAt, d.zone)+" by "+l.CorrectedBy+": "+ended(l.Correction)))
	}
	return append(all, soft(d.places1(l.Proofs)))
}

func (d *packetPaper) appointment(a office.PacketAppointment) string {
	said := "Appointed to observe " + strings.Join(a.Skills, ", ") + " from " + d.say.date(a.From) + " through " + d.say.date(a.Through)
	if a.Founding {
		said += ", as one of the first observers"
	}
	if a.AgreedBy == "" {
		return said + ", proposed by " + a.ProposedBy + "; nobody agreed."
	}
	said += ", proposed by " + a.ProposedBy + " and agreed by " + a.AgreedBy + " on " + d.say.date(a.AgreedOn)
	if !a.EndedOn.IsZero() {
		said += "; ended on " + d.say.date(a.EndedOn)
	}
	return said + "."
}

// checklists prints each checklist with its steps and its policy.
func (d *packetPaper) checklists(t office.PacketTail) {
	for _, r := range t.Revisions {
		title := fmt.Sprintf("%s, revision %d", r.Title, r.Number)
		d.here("revision "+string(r.ID), title, 1)
		d.heading(title)
		said := "It was in force then."
		switch {
		case r.InForce:
		case r.RetiredAt != nil && !r.RetiredAt.After(d.head.KnownAt):
			said = "It was not in force any more: taken out of force on " + d.say.instant(*r.RetiredAt, d.zone) + "."
		default:
			said = "It was not the newest in force then; what is shown here was shown by it."
		}
		in := ""
		if r.InForceAt != nil {
			in = "Put in force on " + d.say.instant(*r.InForceAt, d.zone) + " by " + r.InForceBy + ": " + d.say.quoted(r.Statement)
		}
		d.row(label("in force"), text(said), soft(in), soft(fmt.Sprintf("Its text has the SHA-256 %x. %s", r.SHA256, d.places1(r.Proofs))))
		d.two(r.Two)
		var policy []words
		for _, rule := range r.Checklist.Policy.InWords() {
			policy = append(policy, text(rule))
		}
		d.row(label("policy"), policy...)
		steps := table{columns: []column{{"step", 4, toLeft}, {"accepted", 1.7, toLeft}}, empty: "The checklist has no steps."}
		for _, s := range r.Checklist.Sections {
			steps.rows = append(steps.rows, tableRow{section: []words{group(s.Title)}})
			for _, step := range s.Steps {
				steps.rows = append(steps.rows, checklistStep(step))
			}
		}
		d.table(steps)
	}
}

// two names those who put it in force: one proposed it, another agreed.
func (d *packetPaper) two(t *office.PacketTwo) {
	if t == nil {
		return
	}
	d.row(label("agreed"), text(fmt.Sprintf("Proposed by %s on %s, and agreed to by %s on %s.", t.Proposed.Name, d.say.instant(t.ProposedAt, d.zone), t.Agreed.Name, d.say.instant(t.AgreedAt, d.zone))), soft(d.places1(t.Proofs)))
}

func checklistStep(s assessment.Step) tableRow {
	step := []words{text(s.Text)}
	if s.Critical {
		step = append(step, soft("Critical: "+ended(s.Because)))
	}
	var ranges []words
	for _, m := range s.Measures {
		ranges = append(ranges, text(m.Name+": "+m.RangeInWords()))
	}
	return tableRow{left: label(fmt.Sprint(s.No)), cells: [][]words{step, ranges}}
}

// ledger prints the signed head and how to check the proofs without us.
func (d *packetPaper) ledger() {
	if d.head.Head.Size == 0 {
		d.paragraph("Nothing of this agency was sealed when this was asked, so nothing can be proven yet.")
		return
	}
	d.paragraph(fmt.Sprintf("This packet names %s of the ledger. Each is proven, in the file packet.json that goes with this paper, to stand under the head below (RFC 6962), which the agency’s key has signed (Ed25519). Whoever kept an earlier head can have it shown that nothing before it was changed.", counted(d.proven, "entry", "entries")))
	if d.waiting > 0 {
		d.paragraph(counted(d.waiting, "row was", "rows were") + " written so shortly before that there was no place for them under this head yet. Ask again for their proofs.")
	}
	var head []words
	for _, l := range strings.Split(strings.TrimSpace(d.head.Head.Signed), "\n") {
		if l = strings.TrimSpace(l); l != "" {
			head = append(head, soft(l))
		}
	}
	d.row(label("signed head"), head...)
	for _, key := range d.head.Head.Keys {
		d.row(label("public key"), soft(key))
	}
	d.row(label("check"), text("wellshown receipt --key PUBLIC-KEY packet.json"), soft("It asks no database. Have the key from the agency by another way than this packet: on paper, or from a head that was kept before."))
	if d.digest != nil {
		sum := d.digest()
		d.code = "data " + sum[:16]
		d.row(label("data"), text("The file packet.json that goes with this paper has the SHA-256 "+sum+", of which every page shows the beginning."))
	}
}
