package reports

import (
	"context"
	"fmt"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/phrase"
	"wellshown/assessment/postgres"
	"wellshown/assessment/wording"
)

// Transcript prints all that a caregiver holds on a day and has shown up to it. The
// zero day is today.
func (r *Reports) Transcript(ctx context.Context, by assessment.Actor, person assessment.PersonID, on civil.Date, in wording.Language) ([]byte, string, error) {
	v, err := r.office.Transcript(ctx, by, person, on)
	if err != nil {
		return nil, "", fmt.Errorf("print a transcript: %w", err)
	}
	p, err := transcript(v, in)
	return r.handOut(ctx, by, office.Export{Act: assessment.ReadRecords, Paper: "transcript", Subject: string(person)})(document(p, err, "transcript", v.Standings.On.String()))
}

func transcript(v office.Transcript, in wording.Language) (*paper, error) {
	v = upToItsDay(v)
	who := v.Standings.Person
	p, err := newPaper(meta{Title: wording.In(in).Say("Transcript: %s, %s", who.Name, v.Standings.On.String()), Language: string(in),
		Agency: v.Agency.Name, Demo: v.Agency.Demo, Issued: v.At, Zone: v.Zone})
	if err != nil {
		return nil, err
	}
	w := p.say.w
	p.letterhead(transcriptFinding(p.say, v.Standings))
	kind := kindSaid(w, office.PersonRef{Kind: who.Kind, Relation: who.Relation})
	p.row(label(w.Say("who")), head(who.Name), soft(kind), soft(leftInWords(p.say, who)))
	if v.Standings.Part {
		p.note(w.Say("This is a part: records and certificates that are about other children are left out, because whoever printed it was let in, as a surveyor, for some children only."))
	}
	p.heading(w.Say("Standing on %s", v.Standings.On))
	p.table(standingsTable(p.say, v.Standings))
	past := v.Standings.On.Before(v.Standings.Today)
	if past {
		p.heading(w.Say("Return demonstrations up to %s, newest first", v.Standings.On))
	} else {
		p.heading(w.Say("Return demonstrations, newest first"))
	}
	demonstrations, err := p.shownTable(v)
	if err != nil {
		return nil, err
	}
	if len(v.Records) > 0 {
		p.note(w.Say("A competent demonstration counts once observer and learner have both signed. Each record tells whether they have."))
	}
	p.table(demonstrations)
	if past {
		p.heading(w.Say("Certificates up to %s", v.Standings.On))
	} else {
		p.heading(w.Say("Certificates"))
	}
	if len(v.Certificates) > 0 {
		p.note(w.Say("As printed when they were issued. The check code tells whether one still holds."))
	}
	p.table(certificatesTable(p.say, v))
	if len(v.Checks) > 0 {
		p.heading(w.Say("Knowledge checks that were passed"))
		p.note(w.Say("A check shows what somebody knows. Nothing above comes of it: passing one makes nobody current, and a skill is shown to an observer."))
		p.table(checksTable(p.say, v.Checks))
	}
	if len(v.CarriedIn) > 0 {
		p.heading(w.Say("Carried in, by old papers"))
		p.note(w.Say("What others are said to have seen elsewhere, before. It was not observed here: no standing, record or certificate above comes of it, and it makes nobody current."))
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
	w := say.w
	switch {
	case required == 0:
		return w.Say("No skill is required on %s", s.On)
	case s.On.After(s.Today):
		return w.Say("Current in %s on %s, if nothing changes", heldOf(held, required), s.On)
	}
	return w.Say("Current in %s on %s", heldOf(held, required), s.On)
}

func heldOf(held, required int) phrase.Phrase {
	switch {
	case required == 1 && held == 1:
		return phrase.Of("the one required skill")
	case held == required:
		return phrase.Of("all %d required skills", required)
	}
	return phrase.Of("%d of %d required skills", held, required)
}

func leftInWords(say phrases, p office.PersonView) string {
	if p.LeftOn.IsZero() {
		return ""
	}
	return say.w.Say("with the agency until %s", p.LeftOn.AddDays(-1))
}
