package reports

import (
	"fmt"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
)

// standingsTable lists what is required first, then what is held or begun besides.
func standingsTable(say phrases, s office.PersonStandings) table {
	w := say.w
	t := table{columns: []column{{w.Say("skill"), 3.2, toLeft}, {w.Say("child"), 1, toLeft}, {w.Say("since"), 1.2, toLeft}, {w.Say("last day"), 1.2, toLeft}},
		empty: w.Say("Nothing is required, and nothing has been shown yet.")}
	for _, part := range []struct {
		required bool
		title    string
	}{{true, w.Say("Required")}, {false, w.Say("Besides")}} {
		opened := false
		for _, r := range s.Rows {
			if r.Required != part.required {
				continue
			}
			if !opened {
				t.rows = append(t.rows, tableRow{section: []words{group(part.title)}})
				opened = true
			}
			t.rows = append(t.rows, standingRow(say, r))
		}
	}
	return t
}

func standingRow(say phrases, r office.StandingView) tableRow {
	skill := []words{text(theirs(say.w, r.Skill.Title))}
	if needed := r.Next.Phrase(); !needed.IsZero() {
		skill = append(skill, soft(say.w.Say("needed: %s", needed)))
	}
	whose, last := say.w.Say("any"), "—"
	if r.Client.ID != "" {
		whose = child(r.Client)
	}
	if r.Word != assessment.Withdrawn && !r.Through.IsZero() {
		last = say.shortDate(r.Through)
	}
	since := "—"
	if !r.Since.IsZero() {
		since = say.shortDate(r.Since)
	}
	return tableRow{left: standingSaid(say.w, r.Word), cells: [][]words{skill, cell(text(whose)), cell(text(since)), cell(text(last))}}
}

func (p *paper) shownTable(v office.Transcript) (table, error) {
	w := p.say.w
	t := table{columns: []column{{w.Say("day"), 1.1, toLeft}, {w.Say("skill"), 2.6, toLeft}, {w.Say("outcome"), 1.5, toLeft}, {w.Say("score"), 0.7, toRight}, {w.Say("observer"), 1.5, toLeft}},
		empty: w.Say("None has been recorded yet.")}
	for _, d := range v.Records {
		row, err := p.shownRow(d, v.Signatures[d.ID], v.Standings.On)
		if err != nil {
			return t, err
		}
		t.rows = append(t.rows, row)
	}
	return t, nil
}

func (p *paper) shownRow(d postgres.Demonstration, by []postgres.Signature, on civil.Date) (tableRow, error) {
	score := "—"
	if d.Score != nil {
		n, err := assessment.ParseNumber(*d.Score)
		if err != nil {
			return tableRow{}, fmt.Errorf("read the score of record %s: %w", d.ID, err)
		}
		score = n.Percent() + " %"
	}
	w := p.say.w
	outcome := []words{text(w.Of(d.Outcome.Phrase()))}
	switch {
	case d.CorrectedAt != nil:
		outcome = append(outcome, soft(w.Say("taken back: counts no more")))
	case !d.Formal:
		outcome = append(outcome, soft(w.Say("practice: does not count")))
	}
	about := w.Say("revision %d, %s", d.Revision, withWhom(d.RealClient))
	if d.Client != "" {
		about = w.Say("for %s", d.Client) + " · " + about
	}
	shown := cell(text(theirs(w, d.Title)), soft(about))
	drill, err := office.DrillOf(d)
	if err != nil {
		return tableRow{}, fmt.Errorf("read the drill of record %s: %w", d.ID, err)
	}
	if drill != nil {
		shown = append(shown, soft(w.Say("Emergency drill in simulation: %s", drillTimes(w, *drill))))
	}
	signed, err := signaturesOf(w, until(by, p.zone, on), p.zone, "")
	if err != nil {
		return tableRow{}, err
	}
	for _, s := range signed {
		shown = append(shown, soft(p.signedLine(s)))
	}
	if len(signed) == 0 {
		shown = append(shown, soft(w.Say("not signed")))
	}
	day := p.say.shortDate(civil.DayOf(d.PerformedAt, p.zone))
	return tableRow{cells: [][]words{cell(text(day)), shown, outcome, cell(text(score)), cell(text(d.Observer))}}, nil
}

// until leaves out what was signed after a day: it did not stand on it.
func until(all []postgres.Signature, zone *time.Location, on civil.Date) []postgres.Signature {
	return slices.DeleteFunc(slices.Clone(all), func(s postgres.Signature) bool { return civil.DayOf(s.SignedAt, zone).After(on) })
}

func certificatesTable(say phrases, v office.Transcript) table {
	w := say.w
	t := table{columns: []column{{w.Say("no."), 0.5, toRight}, {w.Say("skill"), 2.4, toLeft}, {w.Say("held from"), 1.2, toLeft}, {w.Say("last day"), 1.2, toLeft}, {w.Say("check code"), 1.4, toLeft}},
		empty: w.Say("None has been issued yet.")}
	for _, c := range v.Certificates {
		skill := []words{text(theirs(w, c.Title))}
		if c.Client != "" {
			skill = append(skill, soft(w.Say("for %s", c.Client)))
		}
		t.rows = append(t.rows, tableRow{cells: [][]words{cell(text(fmt.Sprint(c.Number))), skill, cell(text(say.shortDate(c.HeldOn))),
			cell(text(say.shortDate(c.ThroughOn))), cell(text(office.ShowCode(c.Code)))}})
	}
	return t
}

// carriedTable lists what old papers say, in words that no standing is told in.
func carriedTable(say phrases, entries []office.CarriedEntry) table {
	w := say.w
	t := table{columns: []column{{w.Say("shown on"), 1.1, toLeft}, {w.Say("skill"), 2.6, toLeft}, {w.Say("signed by"), 1.7, toLeft}, {w.Say("by the paper through"), 1.4, toLeft}}}
	for _, e := range entries {
		skill := cell(text(theirs(w, e.Skill.Title)))
		if e.Client.ID != "" {
			skill = append(skill, soft(w.Say("for %s", child(e.Client))))
		}
		papers := w.Say("no paper attached")
		if n := len(e.Papers); n > 0 {
			papers = w.Count(n, "1 paper attached", "%d papers attached")
		}
		through := "—"
		if !e.ThroughOn.IsZero() {
			through = say.shortDate(e.ThroughOn)
		}
		t.rows = append(t.rows, tableRow{cells: [][]words{cell(text(say.shortDate(e.ObservedOn))), append(skill, soft(papers)), cell(text(e.Signer), soft(e.Place)), cell(text(through))}})
	}
	return t
}

// checksTable lists passes of knowledge checks, in words that no standing is told in.
func checksTable(say phrases, checks []office.PassedCheck) table {
	w := say.w
	t := table{columns: []column{{w.Say("passed on"), 1.2, toLeft}, {w.Say("skill"), 3, toLeft}, {w.Say("right"), 1, toLeft}, {w.Say("the check is good through"), 1.8, toLeft}}}
	for _, c := range checks {
		through := []words{text(w.Say("without an end"))}
		if !c.Through.IsZero() {
			through = []words{text(say.shortDate(c.Through))}
		}
		switch {
		case c.Waits():
			through = []words{text(w.Say("it does not count yet"))}
		case !c.Holds:
			through = append(through, soft(w.Say("over: it is to be taken again")))
		}
		called := cell(text(c.Called.In(string(w.Language()))))
		if c.Reader {
			called = append(called, soft(w.Of(c.ReadItems())))
		}
		t.rows = append(t.rows, tableRow{cells: [][]words{cell(text(say.shortDate(c.On))), called, cell(text(w.Say("%d of %d", c.Right, c.Of))), through}})
	}
	return t
}
