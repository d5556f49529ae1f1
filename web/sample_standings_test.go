package web

var skillNames = []string{"Circuit change", "Circuit self-test", "Stoma care and ties", "Tube change", "Suctioning", "Tube out", "Tube blocked",
	"Bag ventilation", "Alarms and power", "Humidifier", "Emergency bag", "Resuscitation"}

// row writes a row of the grid: one letter a skill. c current, d due,
// l lapsed, w withdrawn, g learning, v waived, n not started, . not needed,
// C current though not needed.
func gridRow(name, kind, letters string) StandingRow {
	words := map[rune]string{'c': "current", 'C': "current", 'd': "due", 'l': "lapsed", 'w': "withdrawn", 'g': "learning", 'v': "waived", 'n': "not started"}
	r := StandingRow{Name: name, Href: "/people/p1", Kind: kind}
	for i, letter := range letters {
		cell := StandingCell{Href: "/people/p1?on=2026-12-15#skill-suction", Needed: letter != '.' && letter != 'C', Standing: words[letter], Skill: skillNames[i]}
		if letter == 'd' {
			cell.DaysLeft, cell.Through = 6+i, "9 Dec 2026"
		}
		r.Cells = append(r.Cells, cell)
	}
	return r
}

func standingSamples() map[string]Page {
	frame := coordinatorFrame("standings")
	any := func(text string, more ...string) []Option {
		return append([]Option{{Text: text}}, optionsOf(more...)...)
	}
	page := StandingsPage{Frame: frame, On: "2026-12-15", Day: "Tuesday 15 December 2026", Client: "mira,-7k", Clients: any("any child", "Mira, 7K"), Kinds: any("everybody", "nurse", "family"),
		Skills: any("every skill", skillNames...), Filtered: true, Columns: linksTo("/standings", skillNames...), Lapsed: 3, Due: 5, Current: 110, Needed: 124, People: 112, Observers: any("anybody", "Rolf Teague"), Standing: "due", Standings: any("any", "due", "lapsed"),
		Earlier: "/standings?on=2026-11-15", Later: "/standings?on=2027-01-14", CSV: "/standings.csv", XLSX: "/standings.xlsx", Pager: Pager{Shown: "13 to 24 of 112 people", First: "/standings", Next: "/standings?after=p9"},
		Slider: Slider{Today: "2026-11-25", From: -400, To: 400, At: 20, Beginning: "21 October 2025", End: "30 December 2027"},
		Rows: []StandingRow{
			gridRow("Ruth Adeyemi", "nurse", "cccccccccccc"), gridRow("Zofia Bałut", "nurse", "cccccdcccccc"), gridRow("Amal Haddad", "nurse", "ccgccccccwcc"),
			gridRow("Imre Kovács", "nurse", "ccc.ccccccdc"), gridRow("Jo Lindqvist", "aide", "..c.n..n.ccc"), gridRow("Nguyễn Thị Lan", "mother", "ccccccccccgd"),
			gridRow("Tomasz Rybak", "father", "gccggccccccc"), gridRow("Dana Orlova", "nurse", "cccclccccccc"), gridRow("Chidi Okoro", "nurse", "cccccccccvcc"),
			gridRow("Sam Whitlock", "nurse", "lccccccccccc"), gridRow("Ольга Мартин", "nurse", "ccdccccdcccc"), gridRow("Beatriz Sá", "aide", "..cCc..ccccc")}}
	over := OverdueGroup{Title: "Dana Orlova", Href: "/people/p1", Kind: "nurse", Rows: []OverdueRow{
		{"lapsed", "Tracheostomy suctioning", "Mira, 7K", "20 Nov 2026", 5, "One competent demonstration.", Link{"Open record", "/people/p1"}},
		{"due", "Emergency bag check", "", "7 Dec 2026", 12, "One competent demonstration.", Link{"Open record", "/people/p1"}}}}
	withdrawn := OverdueGroup{Title: "Amal Haddad", Href: "/people/p3", Kind: "nurse", Rows: []OverdueRow{{"withdrawn", "Humidifier", "", "2 Feb 2027", 0, "Show the new unit.", Link{}}}}
	return map[string]Page{
		"standings":       page,
		"standings-empty": StandingsPage{Frame: frame, On: "2026-12-15", Day: "Tuesday 15 December 2026"},
		"standings-fault": StandingsPage{Frame: frame, On: "2026-02-30", Day: "today", Today: true, Faults: Faults{What: "That day does not exist.", Next: "Choose a day; today is shown meanwhile.", Fields: []FieldFault{{"on", "On the day", "There is no 30 February 2026."}}}},
		"overdue":         OverduePage{Frame: coordinatorFrame("today"), On: "2026-11-25", Day: "Wednesday 25 November 2026", Within: "30", Group: "caregiver", Lapsed: 2, Due: 1, Groups: []OverdueGroup{over, withdrawn}, PDF: "/overdue.pdf", CSV: "/overdue.csv", XLSX: "/overdue.xlsx", Standings: "/standings"},
	}
}

func certificateSamples() map[string]Page {
	certificate := CertificatePage{Frame: coordinatorFrame("papers"), Number: "LARK-2026-0041", Code: "4H7K-9QXM-2TBT", Who: "Nguyễn Thị Lan", WhoHref: "/people/p4", Skill: "Tracheostomy suctioning", Client: "Mira, 7K", Revision: 4,
		Shown: "3 return demonstrations, all competent, on 3 days: 9, 12 and 18 November 2026", Scores: "each critical step independent · scores 97, 100, 100 of 100, pass mark 95",
		From: "18 November 2026", Through: "30 November 2027", Renew: "1 October 2027", Holds: true, Today: "25 November 2026", PDF: "/certificates/x.pdf", SHA256: "9f2c4be1d07a5c33e8a6b1f00d4e7782c6c5b9a1e3f4d2b8a7960c1d2e3f4a5b", Check: "/check/4H7K-9QXM-2TBT",
		Signed:  []Signature{{"Noor Haddadin, RN", "observer", "I observed and judged this.", "18 Nov 2026, 15:42 MST"}, {"Nguyễn Thị Lan", "learner", "I showed this and we talked it over.", "18 Nov 2026, 15:44 MST"}},
		Records: linksTo("/demonstrations/d1", "9 Nov", "12 Nov", "18 Nov")}
	ended := certificate
	ended.Holds, ended.Why, ended.Since = false, "Withdrawn", "2 December 2026"
	public := Frame{Demo: true}
	holds := CheckPage{Frame: public, Typed: "4H7K-9QXM-2TBT", Answer: "holds", Today: "25 November 2026", Issuer: "Larkmoor Home Nursing", Who: "Nguyễn Thị Lan", Skill: "Tracheostomy suctioning", ForChild: true, From: "18 November 2026", Through: "30 November 2027", SHA256: certificate.SHA256}
	over := holds
	over.Answer, over.Why, over.Since = "ended", "Lapsed", "1 December 2027"
	return map[string]Page{
		"certificate": certificate, "certificate-ended": ended,
		"check": CheckPage{Frame: public}, "check-holds": holds, "check-ended": over,
		"check-no-file": CheckPage{Frame: public, FileFaults: Faults{What: "The file was not checked.", Why: "Nothing was sent. Choose the file first."}},
		"check-erased":  CheckPage{Frame: public, Typed: "4H7K-9QXM-2TBT", Answer: "erased", Today: "25 November 2036", Issuer: "Larkmoor Home Nursing", Number: "12", Since: "3 October 2036", SHA256: certificate.SHA256},
		"check-unknown": CheckPage{Frame: public, Typed: "4H7K-9QXM-2TC6", Answer: "unknown"},
		"check-fault":   CheckPage{Frame: public, Typed: "4H7K", Faults: Faults{What: "That is not a whole code.", Fields: []FieldFault{{"code", "Check code", "It has 4 characters; a code has 12."}}}},
	}
}
