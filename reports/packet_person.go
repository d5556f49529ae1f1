package reports

import (
	"wellshown/assessment"
	"wellshown/assessment/office"
)

// Person draws one person: standings, what else bears on them, records.
func (d *packetPaper) Person(v office.PacketPerson) error {
	p := d.paper
	p.here(personPlace(v.Person.ID), d.personTitle(v.Person), 0)
	p.heading(d.personTitle(v.Person))
	p.row(label("who"), text(v.Person.Name), soft(kindInWords(v.Person)), soft(leftInWords(p.say, office.PersonView{LeftOn: v.LeftOn})))
	p.table(d.standings(v))
	d.happenings(v)
	d.cards("Resuscitation cards on file", v.Cards)
	d.carried(v.Carried)
	if len(v.Records) == 0 {
		p.note("No return demonstration is on record here.")
	}
	if d.head.Kind == office.PacketOfPeriod && len(v.Records) > 0 {
		p.table(d.briefly(v.Records))
		for _, r := range v.Records {
			d.count(r.Proofs)
		}
		return d.within()
	}
	for _, r := range v.Records {
		if err := d.record(r); err != nil {
			return err
		}
	}
	return d.within()
}

// standings is each skill on each day, told as it was known then and as it is now.
func (d *packetPaper) standings(v office.PacketPerson) table {
	t := table{columns: []column{{"skill", 2.6, toLeft}, {"day", 1.05, toLeft}, {"known then", 1.15, toLeft}, {"known now", 1.3, toLeft}, {"last day then", 1.05, toLeft}},
		empty: "Nothing was required, and nothing had been shown."}
	for _, s := range v.Standings {
		about := "any child"
		if s.Client.ID != "" {
			about = "for " + child(s.Client)
		}
		if s.Required {
			about += " · required"
		}
		skill := []words{text(s.Skill.Title), soft(about)}
		for _, n := range s.NotHeld {
			skill = append(skill, soft("not held "+stretchInWords(d.say, n)))
		}
		now := []words{text(string(s.Now.Word))}
		switch {
		case s.Now.Word.Holds() && !s.Cleared.Word.Holds():
			now = append(now, strong(string(s.Cleared.Word)+" without what was taken back"))
		case s.Differs():
			now = append(now, strong("differs"))
		}
		then := []words{text(string(s.Then.Word))}
		if needed := s.Then.Next.InWords(); needed != "" && !s.Then.Word.Holds() {
			skill = append(skill, soft("needed then: "+needed))
		}
		if s.Left {
			then = append(then, strong("had left"))
		}
		last := "—"
		if !s.Then.Through.IsZero() && s.Then.Word != assessment.Withdrawn {
			last = d.say.shortDate(s.Then.Through)
		}
		t.rows = append(t.rows, tableRow{left: standing(heldWord(s)), cells: [][]words{skill, cell(text(d.say.shortDate(s.On))), then, now, cell(text(last))}})
	}
	return t
}

// heldWord is the standing that counts: where one telling withholds, that one.
func heldWord(s office.PacketStanding) assessment.StandingWord {
	if s.Left && s.AsOf.Held() {
		return assessment.Lapsed
	}
	return s.Word()
}

func stretchInWords(say phrases, r assessment.HeldRun) string {
	if r.From == r.Through {
		return "on " + say.shortDate(r.From)
	}
	return say.shortDate(r.From) + " to " + say.shortDate(r.Through)
}

// happenings is what else was written down: withdrawals, waivers, teaching, practice.
func (d *packetPaper) happenings(v office.PacketPerson) {
	if len(v.Happenings) == 0 {
		return
	}
	t := table{columns: []column{{"written down", 1.3, toLeft}, {"what", 3, toLeft}, {"by", 1.2, toLeft}}}
	for _, h := range v.Happenings {
		what := []words{text(capital(string(h.Kind)) + ": " + h.Title)}
		if h.HappeningView.Client.ID != "" {
			what = append(what, soft("for "+child(h.HappeningView.Client)))
		}
		if h.Kind == assessment.WaiverEntry {
			what = append(what, soft("from "+d.say.date(h.FromOn)+" through "+d.say.date(h.ThroughOn)))
		} else if !h.FromOn.IsZero() {
			what = append(what, soft("on "+d.say.date(h.FromOn)))
		}
		if h.Reason != "" {
			what = append(what, soft(ended(h.Reason)))
		}
		if h.Late {
			what = append(what, strong("Written down later: not known on that night."))
		}
		if h.TakenBack != nil {
			what = append(what, strong("Taken back on "+d.say.instant(*h.TakenBack, d.zone)+": "+ended(h.Correction)))
		}
		what = append(what, soft(d.places1(h.Proofs)))
		t.rows = append(t.rows, tableRow{cells: [][]words{cell(text(d.say.instant(h.At, d.zone))), what, cell(text(h.By))}})
	}
	d.heading("Withdrawals, waivers, teaching and practice")
	d.table(t)
}

func (d *packetPaper) cards(title string, all []office.PacketCard) {
	if len(all) == 0 {
		return
	}
	t := table{columns: []column{{"card", 2.4, toLeft}, {"last day", 1.2, toLeft}, {"put on file", 1.6, toLeft}}}
	for _, c := range all {
		what := []words{text(c.Issuer)}
		if c.Late {
			what = append(what, strong("Put on file later: not known on that night."))
		}
		if c.CorrectedAt != nil {
			what = append(what, strong("Taken back on "+d.say.instant(*c.CorrectedAt, d.zone)+" by "+c.CorrectedBy+": "+ended(c.Correction)))
		}
		what = append(what, soft(d.places1(c.Proofs)))
		t.rows = append(t.rows, tableRow{cells: [][]words{what, cell(text(d.say.shortDate(c.ThroughOn))), cell(text(d.say.instant(c.RecordedAt, d.zone)), soft(c.Recorder))}})
	}
	d.heading(title)
	d.table(t)
}

// carried is what somebody is said to have shown elsewhere.
func (d *packetPaper) carried(all []office.PacketCarried) {
	if len(all) == 0 {
		return
	}
	t := table{columns: []column{{"carried in", 2.6, toLeft}, {"shown on", 1.1, toLeft}, {"by the paper", 1.9, toLeft}, {"brought in", 1.6, toLeft}}}
	for _, c := range all {
		what := []words{text(c.Skill.Title)}
		if c.Client.ID != "" {
			what = append(what, soft("for "+child(c.Client)))
		}
		if c.Late {
			what = append(what, strong("Brought in later: not known on that night."))
		}
		what = append(what, soft(d.places1(c.Proofs)))
		paper := []words{text("signed by " + c.Signer), soft(c.Place)}
		if !c.ThroughOn.IsZero() {
			paper = append(paper, soft("through "+d.say.date(c.ThroughOn)))
		}
		t.rows = append(t.rows, tableRow{cells: [][]words{what, cell(text(d.say.shortDate(c.ObservedOn))), paper, cell(text(d.say.instant(c.BroughtAt, d.zone)), soft(c.BroughtBy))}})
	}
	d.heading("Carried in: shown elsewhere, by old papers")
	d.note("Nobody observed this here, and no standing rests on it.")
	d.table(t)
}
