package reports

import (
	"fmt"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

// MostPacketPages is how many pages a packet has at most. The PDF library holds all of a
// document until it is finished: about 60 kB a page.
const MostPacketPages = 2000

// packetPaper draws a packet piece by piece, as the office hands it over.
type packetPaper struct {
	*paper
	head    office.Packet
	digest  func() string // SHA-256 of the data, once that is whole
	most    int           // pages
	proven  int           // entries named
	waiting int           // rows without a place in the ledger yet
}

// Begin draws the first page: the answer, what was asked, what comes.
func (d *packetPaper) Begin(v office.Packet) error {
	p, err := newPaper(meta{Title: packetTitle(v), Language: "en", Agency: v.Agency.Name, Demo: v.Agency.Demo, Issued: v.AskedAt, Zone: v.Zone,
		Stands: "As known on " + english.instant(v.AskedAt, v.Zone)})
	if err != nil {
		return err
	}
	d.paper, d.head = p, v
	p.here("answer", "The answer", 0)
	p.letterhead(strings.TrimSuffix(v.Answer.Finding, "."))
	var why []words
	for _, s := range v.Answer.Because {
		why = append(why, strong(s))
	}
	if len(why) > 0 {
		p.row(label("because"), why...)
	}
	p.row(label("asked"), text(packetQuestion(v)), soft(fmt.Sprintf("Asked by %s on %s. All of it is told as it was known then.", v.AskedBy, p.say.instant(v.AskedAt, p.zone))))
	p.row(label("known then"), text(knownInWords(p, v)), soft("A skill is called current only where it was by what was known then, still is by what is known of that day now, and would be without what was taken back since."))
	if v.Head.Size > 0 {
		p.row(label("unchanged"), text(fmt.Sprintf("Each record names its place in the agency’s ledger of %d entries, sealed on %s. The part “Ledger” tells how to check them without us.", v.Head.Size, p.say.instant(v.Head.At, p.zone))))
	}
	if v.Part {
		p.note("This is a part: what is about other children is left out, because whoever asked was let in, as a surveyor, for some only.")
	}
	d.list()
	return d.within()
}

func (d *packetPaper) list() {
	p, v := d.paper, d.head
	p.heading("What comes")
	var all []listing
	add := func(to, title string, level int) { all = append(all, listing{to, title, level}) }
	for _, i := range v.People {
		add(personPlace(i.Person.ID), d.personTitle(i.Person), 0)
		if v.Kind == office.PacketOfPeriod {
			continue
		}
		for _, r := range i.Records {
			add(recordPlace(r.ID), indexTitle(p.say, r), 1)
		}
	}
	for _, part := range d.parts() {
		add(part.name, part.title, 0)
	}
	p.contents(all)
	if v.Address == "" {
		return
	}
	p.sinkQR(v.Address, "This packet, for those who may see it", fmt.Sprintf("Sign in there to see it again within %d days after it was made.", office.PacketDays))
}

// parts are what comes after the people.
func (d *packetPaper) parts() []place {
	parts := []place{{name: "observers", title: "Who observed, and on what licence"}, {name: "checklists", title: "Checklists and policies in force then"}, {name: "ledger", title: "Ledger: how to check that nobody changed this"}}
	if d.head.Kind != office.PacketOfPeriod {
		parts = append([]place{{name: "night", title: "Shifts of that night, and the child’s equipment"}}, parts...)
	}
	return parts
}

func (d *packetPaper) personTitle(p office.PersonRef) string {
	if d.head.Kind == office.PacketOfIncident {
		return "Standing and records of " + p.Name
	}
	return p.Name
}

func personPlace(id assessment.PersonID) string        { return "person " + string(id) }
func recordPlace(id assessment.DemonstrationID) string { return "record " + string(id) }

func indexTitle(say phrases, r office.PacketIndexed) string {
	title := "Record of " + say.date(r.On) + ": " + r.Title
	if r.For.ID != "" {
		title += ", for " + child(r.For)
	}
	return title
}

// within refuses what would be too much for one document.
func (d *packetPaper) within() error {
	if len(d.pages) > d.most {
		return fault.Of(fault.Refused, "This packet would have more than %d pages. Ask for a shorter period, or for one person or one child.", d.most)
	}
	return nil
}

func knownInWords(p *paper, v office.Packet) string {
	switch {
	case v.On != nil && v.KnownAt.Equal(v.On.Starts):
		return "What had been written down and signed when the shift began, " + p.say.instant(v.KnownAt, p.zone) + "."
	case v.WholeDay:
		return "What had been written down and signed by the end of " + p.say.date(civil.DayOf(v.KnownAt, p.zone)) + "."
	}
	return "What had been written down and signed by " + p.say.instant(v.KnownAt, p.zone) + ", when this was asked."
}

func packetTitle(v office.Packet) string {
	day := english.date(v.From)
	switch v.Kind {
	case office.PacketOfIncident:
		return "Packet: " + v.Who.Name + ", " + v.What.Title + ", " + day
	case office.PacketOfPerson:
		return "Packet: " + v.Who.Name + ", " + day
	case office.PacketOfClient:
		return "Packet: " + child(v.For) + ", " + day
	}
	return "Packet: " + day + " to " + english.date(v.Through)
}

func packetQuestion(v office.Packet) string {
	on := "on " + english.date(v.From)
	if v.On != nil {
		on = "on the shift from " + english.instant(v.On.Starts, v.Zone) + " to " + english.instant(v.On.Ends, v.Zone)
	}
	switch v.Kind {
	case office.PacketOfIncident:
		what := v.What.Title
		if v.For.ID != "" {
			what += " for " + child(v.For)
		}
		return "Was " + v.Who.Name + " current in " + what + " " + on + "?"
	case office.PacketOfPerson:
		return "What was " + v.Who.Name + " current in " + on + "?"
	case office.PacketOfClient:
		return "Who looked after " + child(v.For) + " " + on + ", and what were they current in?"
	}
	return "Who was current in what, and what was shown, from " + english.date(v.From) + " through " + english.date(v.Through) + "?"
}
