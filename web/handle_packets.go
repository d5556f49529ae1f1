package web

import (
	"encoding/hex"
	"fmt"
	"net/url"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
)

const packetsAt = "/packets"

func (s *Site) packets(v *visit) error {
	page, err := s.packetsPage(v)
	if err != nil {
		return err
	}
	page.Kind, page.Whose, page.Skill, page.Client, page.Shift = v.query("kind"), v.query("person"), v.query("skill"), v.query("client"), v.query("shift")
	if on := v.query("on"); on != "" {
		page.On = on
	}
	return v.show(page)
}

func (s *Site) packetsPage(v *visit) (PacketsPage, error) {
	d, err := s.office.PacketDesk(v.ctx(), v.by())
	page := PacketsPage{Frame: v.frame("papers"), On: d.Today, Today: d.Today, Through: d.Today, Whole: d.Whole, Days: office.PacketDays, IDs: map[string]string{}}
	if err != nil {
		return page, err
	}
	if v.by().Is(assessment.Surveyor) && !d.Whole {
		page.Frame = v.frame("survey")
	}
	page.From = d.Today[:8] + "01"
	page.People, page.Skills, page.Clients = []Option{{Text: "Choose the person"}}, []Option{{Text: "Choose the skill"}}, []Option{{Text: "Choose the child"}}
	for _, p := range d.People {
		page.People = append(page.People, Option{Value: string(p.ID), Text: p.Name + ", " + kindOf(p)})
	}
	for _, k := range d.Skills {
		page.Skills = append(page.Skills, Option{Value: k.Code, Text: k.Title})
	}
	for _, c := range d.Clients {
		page.Clients = append(page.Clients, Option{Value: string(c.ID), Text: clientName(c)})
	}
	for _, a := range d.Asked {
		page.Asked = append(page.Asked, v.packetLine(a))
	}
	for _, kind := range office.PacketKinds {
		if page.IDs[string(kind)], err = s.office.NewID(); err != nil {
			return page, err
		}
	}
	return page, nil
}

// packetLine is a packet in words: about whom, which night, how far it is.
func (v *visit) packetLine(p office.PacketView) PacketLine {
	l := PacketLine{Href: packetsAt + "/" + string(p.ID), Night: day(p.FromOn), Asked: "Asked for by " + p.Asker + ", " + v.instant(p.AskedAt)}
	if p.ThroughOn != p.FromOn {
		l.Night = day(p.FromOn) + " to " + day(p.ThroughOn)
	}
	l.About = "The whole agency"
	switch p.Kind {
	case string(office.PacketOfIncident):
		l.About = p.Person + " in " + p.Skill
		if p.Client != "" {
			l.About += " for " + p.Client
		}
	case string(office.PacketOfPerson):
		l.About = p.Person
	case string(office.PacketOfClient):
		l.About = p.Client
	}
	switch p.State {
	case postgres.PacketReady:
		l.State, l.Shape = "Ready, "+count(p.Pages, "page", "pages"), "met"
	case postgres.PacketRefused:
		l.State, l.Shape = "Not made: "+p.Refused, "fault"
	case postgres.PacketMaking:
		l.State, l.Shape = fmt.Sprintf("Being made: %d of %s", p.Done, count(p.Total, "record", "records")), "open"
	default:
		l.State, l.Shape = "Waits for its turn", "open"
	}
	return l
}

func (s *Site) askPacket(v *visit) error {
	f := office.PacketForm{ID: v.form("id"), Kind: v.form("kind"), Skill: v.form("skill"), Shift: assessment.ShiftID(v.form("shift")), On: v.form("on"), From: v.form("from"), Through: v.form("through")}
	var err error
	if f.Person, err = formID[assessment.PersonID](v, "person"); err != nil {
		return err
	}
	if f.Client, err = formID[assessment.ClientID](v, "client"); err != nil {
		return err
	}
	asked, refused := s.office.AskPacket(v.ctx(), v.by(), f)
	if refused == nil {
		return v.to(packetsAt+"/"+string(asked.ID), "")
	}
	page, err := s.packetsPage(v)
	if err != nil {
		return err
	}
	page.Kind, page.Whose, page.Skill, page.Client, page.Shift = f.Kind, string(f.Person), f.Skill, string(f.Client), string(f.Shift)
	if f.Kind == string(office.PacketOfPeriod) {
		page.From, page.Through = f.From, f.Through
	} else {
		page.On = f.On
	}
	if err := v.take(&page.Faults, refused, "No packet was asked for.", label("kind", "About"), label("person", "Person"), label("skill", "Skill"), label("client", "Child"),
		label("shift", "Shift"), label("on", "On the day"), label("from", "First day"), label("through", "Last day")); err != nil {
		return err
	}
	return v.again(page)
}

func (s *Site) packet(v *visit) error {
	id, err := pathID[assessment.PacketID](v, "id")
	if err != nil {
		return err
	}
	p, err := s.office.PacketState(v.ctx(), v.by(), id)
	if err != nil {
		return err
	}
	page := PacketPage{Frame: v.frame("papers"), PacketLine: v.packetLine(p), Ready: p.Ready(), Refused: p.Refused, Over: p.Over(), Done: p.Done, Total: p.Total}
	files := page.Href + "/packet."
	page.PDF, page.Data, page.Both = files+"pdf", files+"json", files+"zip"
	switch {
	case page.Ready:
		page.Pages, page.Gone, page.Sum = count(p.Pages, "page", "pages"), v.instant(p.GoneAt), hex.EncodeToString(p.DataSHA256)
	case p.State == postgres.PacketWaiting:
		page.Doing = "It waits for its turn. Others are made one after the other."
	case p.Total > 0 && p.Done == p.Total:
		page.Doing = "All records are read and proven. The paper is being drawn and kept."
	case p.Done > 0:
		page.Doing = "Records are read, held to the rules and proven, one person after the other."
	default:
		page.Doing = "Every standing is folded as it was known then, and as it is known now."
	}
	if page.Over {
		page.Again = packetFor(p.Kind, p.PersonID, p.Code, p.ClientID, p.Shift, p.FromOn.String())
	}
	return v.show(page)
}

// packetFor is the address of the page that asks for a packet, filled in.
func packetFor(kind string, person assessment.PersonID, skill string, client assessment.ClientID, shift assessment.ShiftID, on string) string {
	q := url.Values{"kind": {kind}}
	for name, value := range map[string]string{"person": string(person), "skill": skill, "client": string(client), "shift": string(shift), "on": on} {
		if value = strings.TrimSpace(value); value != "" {
			q.Set(name, value)
		}
	}
	return packetsAt + "?" + q.Encode()
}

func (s *Site) packetPDF(v *visit) error  { return s.packetFile(v, "pdf", "application/pdf") }
func (s *Site) packetJSON(v *visit) error { return s.packetFile(v, "json", "application/json") }
func (s *Site) packetZIP(v *visit) error  { return s.packetFile(v, "zip", "application/zip") }

func (s *Site) packetFile(v *visit, format, contentType string) error {
	id, err := pathID[assessment.PacketID](v, "id")
	if err != nil {
		return err
	}
	body, name, err := s.opt.Papers.PacketFile(v.ctx(), v.by(), id, format)
	if err != nil {
		return err
	}
	return file(v.c, body, name, contentType)
}
