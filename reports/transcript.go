package reports

import (
	"context"
	"fmt"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
)

// Transcript prints all that a caregiver holds on a day and has shown up to it. The
// zero day is today.
func (r *Reports) Transcript(ctx context.Context, by assessment.Actor, person assessment.PersonID, on civil.Date) ([]byte, string, error) {
	v, err := r.office.Transcript(ctx, by, person, on)
	if err != nil {
		return nil, "", fmt.Errorf("print a transcript: %w", err)
	}
	p, err := transcript(v)
	return r.handOut(ctx, by, office.Export{Act: assessment.ReadRecords, Paper: "transcript", Subject: string(person)})(document(p, err, "transcript", v.Standings.On.String()))
}

func transcript(v office.Transcript) (*paper, error) {
	v = upToItsDay(v)
	who := v.Standings.Person
	p, err := newPaper(meta{Title: "Transcript: " + who.Name + ", " + v.Standings.On.String(), Language: "en",
		Agency: v.Agency.Name, Demo: v.Agency.Demo, Issued: v.At, Zone: v.Zone})
	if err != nil {
		return nil, err
	}
	p.letterhead(transcriptFinding(p.say, v.Standings))
	kind := kindInWords(office.PersonRef{Kind: who.Kind, Relation: who.Relation})
	p.row(label("who"), head(who.Name), soft(kind), soft(leftInWords(p.say, who)))
	if v.Standings.Part {
		p.note("This is a part: records and certificates that are about other children are left out, because whoever printed it was let in, as a surveyor, for some children only.")
	}
	p.heading("Standing on " + p.say.date(v.Standings.On))
	p.table(standingsTable(p.say, v.Standings))
	until := ""
	if v.Standings.On.Before(v.Standings.Today) {
		until = " up to " + p.say.date(v.Standings.On)
	}
	p.heading("Return demonstrations" + until + ", newest first")
	demonstrations, err := p.shownTable(v)
	if err != nil {
		return nil, err
	}
	if len(v.Records) > 0 {
		p.note("A competent demonstration counts once observer and learner have both signed. Each record tells whether they have.")
	}
	p.table(demonstrations)
	p.heading("Certificates" + until)
	if len(v.Certificates) > 0 {
		p.note("As printed when they were issued. The check code tells whether one still holds.")
	}
	p.table(certificatesTable(p.say, v))
	if len(v.CarriedIn) > 0 {
		p.heading("Carried in, by old papers")
		p.note("What others are said to have seen elsewhere, before. It was not observed here: no standing, record or certificate above comes of it, and it makes nobody current.")
		p.table(carriedTable(p.say, v.CarriedIn))
	}
	return p, nil
}

// upToItsDay leaves out what was shown or issued after the day that the transcript
// is of: beside the standings of that day it would seem to bear on them.
func upToItsDay(v office.Transcript) office.Transcript {
	later := func(at time.Time) bool { return civil.DayOf(at, v.Zone).After(v.Standings.On) }
	v.Records = slices.DeleteFunc(slices.Clone(v.Records), func(d postgres.Demonstration) bool { return later(d.PerformedAt) })
	v.Certificates = slices.DeleteFunc(slices.Clone(v.Certificates), func(c postgres.Certificate) bool { return later(c.IssuedAt) })
	v.CarriedIn = slices.DeleteFunc(slices.Clone(v.CarriedIn), func(e office.CarriedEntry) bool { return e.ObservedOn.After(v.Standings.On) })
	return v
}

// transcriptFinding counts what is required and held.
func transcriptFinding(say phrases, s office.PersonStandings) string {
	required, held := 0, 0
	for _, r := range s.Rows {
		if r.Required {
			required++
			if r.Word.Holds() {
				held++
			}
		}
	}
	said := "Current in " + heldOf(held, required) + " on " + say.date(s.On)
	switch {
	case required == 0:
		return "No skill is required on " + say.date(s.On)
	case s.On.After(s.Today):
		return said + ", if nothing changes"
	}
	return said
}

func heldOf(held, required int) string {
	switch {
	case required == 1 && held == 1:
		return "the one required skill"
	case held == required:
		return fmt.Sprintf("all %d required skills", required)
	}
	return fmt.Sprintf("%d of %d required skills", held, required)
}

func leftInWords(say phrases, p office.PersonView) string {
	if p.LeftOn.IsZero() {
		return ""
	}
	return "with the agency until " + say.date(p.LeftOn.AddDays(-1))
}
