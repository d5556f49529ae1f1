package web

func packetSamples() map[string]Page {
	frame := coordinatorFrame("papers")
	people := append([]Option{{Text: "Choose the person"}}, optionsOf("Ruth Adeyemi", "Maximiliana-Konstantina Papadopoulou-Wolfeschlegelsteinhausen")...)
	skills := append([]Option{{Text: "Choose the skill"}}, optionsOf("Tracheostomy suctioning")...)
	clients := append([]Option{{Text: "Choose the child"}}, optionsOf("Mira, 7K", "Theo, 4B")...)
	ids := map[string]string{"incident": "a", "person": "b", "child": "c", "period": "d"}
	ready := PacketLine{About: "Ruth Adeyemi in Tracheostomy suctioning for Mira, 7K", Night: "3 Mar 2026", Href: "/packets/k1", Asked: "Asked for by Dana Whitcomb, 25 November 2026, 10:02 MST", State: "Ready, 12 pages", Shape: "met"}
	making := PacketLine{About: "The whole agency", Night: "1 Jan 2026 to 30 Jun 2026", Href: "/packets/k2", Asked: ready.Asked, State: "Being made: 212 of 1804 records", Shape: "open"}
	refused := PacketLine{About: "Maximiliana-Konstantina Papadopoulou-Wolfeschlegelsteinhausen", Night: "3 Mar 2026", Href: "/packets/k3", Asked: ready.Asked, State: "Not made: This packet would have more than 2000 pages.", Shape: "fault"}
	page := PacketsPage{Frame: frame, People: people, Skills: skills, Clients: clients, On: "2026-11-25", Today: "2026-11-25", From: "2026-11-01", Through: "2026-11-25", Whole: true, IDs: ids, Days: 7, Asked: []PacketLine{ready, making, refused}}
	none, shift, wrong := page, page, page
	none.Asked, none.Whole = nil, false
	shift.Kind, shift.Person, shift.Shift = "incident", "ruth-adeyemi", "s1"
	wrong.Kind = "incident"
	wrong.Faults = Faults{What: "No packet was asked for.", Why: "One thing needs mending.", Next: "Look below.", Fields: []FieldFault{{"client", "Child", "This skill is held for each child by itself. Say for which child."}}}
	return map[string]Page{"packets": page, "packets-none": none, "packets-shift": shift, "packets-fault": wrong,
		"packet-ready": PacketPage{Frame: frame, PacketLine: ready, Ready: true, Over: true, Pages: "12 pages", Gone: "2 December 2026, 10:02 MST", Sum: "e05215e649bd1f45fcf13947d0bf8b335a12d10683b2471d810227a8e96bf503",
			PDF: "/packets/k1/packet.pdf", Data: "/packets/k1/packet.json", Both: "/packets/k1/packet.zip", Again: "/packets?kind=incident"},
		"packet-making":  PacketPage{Frame: frame, PacketLine: making, Doing: "Records are read, held to the rules and proven, one person after the other.", Done: 212, Total: 1804},
		"packet-waiting": PacketPage{Frame: frame, PacketLine: making, Doing: "It waits for its turn. Others are made one after the other."},
		"packet-refused": PacketPage{Frame: frame, PacketLine: refused, Over: true, Refused: "This packet would have more than 2000 pages. Ask for a shorter period, or for one person or one child.", Again: "/packets?kind=person"}}
}
