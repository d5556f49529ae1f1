package reports

import (
	"context"
	"encoding/json"
	"fmt"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/phrase"
	"wellshown/assessment/wording"
)

// Record prints one return demonstration: who showed what, each mark, the outcome
// with its reasons, and the signatures.
func (r *Reports) Record(ctx context.Context, by assessment.Actor, id assessment.DemonstrationID, in wording.Language) ([]byte, string, error) {
	v, err := r.office.Demonstration(ctx, by, id)
	if err != nil {
		return nil, "", fmt.Errorf("print a record: %w", err)
	}
	p, err := record(v, in)
	return r.handOut(ctx, by, office.Export{Act: assessment.ReadRecords, Paper: "record", Subject: string(id)})(document(p, err, "record", v.Code, performedOn(v).String()))
}

func record(v office.DemonstrationView, in wording.Language) (*paper, error) {
	w := wording.In(in)
	last := lastEntry(v)
	p, err := newPaper(meta{Title: w.Say("Record of a return demonstration: %s, %s", v.Learner, theirs(w, v.Title)), Language: string(in),
		Agency: v.Agency.Name, Demo: v.Agency.Demo, Issued: last, Zone: v.Zone})
	if err != nil {
		return nil, err
	}
	equipment, err := equipmentInWords(w, v)
	if err != nil {
		return nil, err
	}
	p.meta.Stands = w.Say("As recorded. Last entry: %s", w.Instant(last, p.zone))
	p.letterhead(w.Of(recordFinding(v)))
	p.row(label(w.Say("who")), head(v.Learner))
	p.row(label(w.Say("skill")), head(theirs(w, v.Title)), soft(forWhom(w, v.Client)+" · "+w.Say("checklist revision %d", v.Revision)))
	p.row(label(w.Say("shown")), text(w.Instant(v.PerformedAt, p.zone)+", "+w.Say(v.Place)+", "+w.Of(withWhom(v.RealClient))), soft(w.Say("observed by %s", v.Observer)), soft(equipment))
	p.fromPaper(v)
	p.bedside(v)
	p.drill(v)
	p.outcome(v)
	p.row(label(w.Say("counts")), text(countsInWords(w, v)))
	if v.Certificate != nil {
		p.row(label(w.Say("certificate")), text(w.Say("no. %d, check code %s", v.Certificate.Number, office.ShowCode(v.Certificate.Code))))
	}
	p.steps(v)
	p.childsValues(v)
	p.gap(10)
	if err := p.signedRecord(v); err != nil {
		return nil, err
	}
	p.note(w.Say("Record %s. What was signed has the SHA-256 %x.", string(v.ID), v.BodySHA256))
	if w.Language() != wording.English {
		p.note(w.Say("The text that was signed is in English; here its steps are said in this language where they are a starter’s."))
	}
	return p, nil
}

// fromPaper says that it was marked on paper, when it was typed in, and how many
// photos and scans of the paper are kept with it, by the beginning of their hashes.
func (p *paper) fromPaper(v office.DemonstrationView) {
	if v.Paper == nil {
		return
	}
	w := p.say.w
	pages := w.Say("no page attached")
	if n := len(v.Paper.Pages); n > 0 {
		pages = w.Count(n, "%d page attached", "%d pages attached")
	}
	var kept []string
	for _, page := range v.Paper.Pages {
		kept = append(kept, fmt.Sprintf("%d: %.16s…", page.Number, page.SHA256))
	}
	p.row(label(w.Say("from paper")), text(w.Say("Marked on paper, typed in from it on %s, %s.", w.Instant(v.Paper.TypedIn, p.zone), pages)), soft(strings.Join(kept, " · ")))
}

func performedOn(v office.DemonstrationView) civil.Date { return civil.DayOf(v.PerformedAt, v.Zone) }

// lastEntry is when something was last added to the record.
func lastEntry(v office.DemonstrationView) time.Time {
	last := v.RecordedAt
	for _, s := range v.Signatures {
		if s.SignedAt.After(last) {
			last = s.SignedAt
		}
	}
	if v.CorrectedAt != nil && v.CorrectedAt.After(last) {
		last = *v.CorrectedAt
	}
	return last
}

// recordFinding is the outcome as a sentence, never without what takes from it.
func recordFinding(v office.DemonstrationView) phrase.Phrase {
	day := performedOn(v)
	switch {
	case v.CorrectedAt != nil:
		return phrase.Of("Taken back: this record counts no more")
	case !v.Formal:
		return phrase.Of("Practice on %s: %s", day, v.Result.Outcome.Phrase())
	case !inForce(v):
		return phrase.Of("%s on %s, not fully signed", outcomeAhead(v.Result.Outcome), day)
	}
	return phrase.Of("%s on %s", outcomeAhead(v.Result.Outcome), day)
}

// outcomeAhead is an outcome at the beginning of a sentence.
func outcomeAhead(o assessment.Outcome) phrase.Phrase {
	switch o {
	case assessment.Competent:
		return phrase.Of("Competent")
	case assessment.NotYetCompetent:
		return phrase.Of("Not yet competent")
	}
	return phrase.Of("Stopped for safety")
}

// inForce reports whether the record has the signatures that make it count: a
// competent one both, any other the observer's.
func inForce(v office.DemonstrationView) bool {
	return signedBy(v.Signatures, office.PartObserver) &&
		(v.Result.Outcome != assessment.Competent || signedBy(v.Signatures, office.PartLearner))
}

// countsInWords says whether the record counts toward competence, since when, or why not.
func countsInWords(w wording.Words, v office.DemonstrationView) string {
	switch {
	case v.CorrectedAt != nil:
		return w.Say("No. It was taken back on %s by %s: %s", w.Instant(*v.CorrectedAt, v.Zone), v.CorrectedBy, ended(v.Correction))
	case !v.Formal:
		return w.Say("No. It was practice.")
	case !inForce(v) && v.Result.Outcome == assessment.Competent:
		return w.Say("Not yet. A competent demonstration counts once observer and learner have both signed.")
	case !inForce(v):
		return w.Say("Not yet. It counts once the observer has signed.")
	case v.Result.Outcome == assessment.Competent:
		return w.Say("Yes, from %s, the day of the last signature.", bothSince(v))
	}
	return w.Say("Yes, from %s. An outcome that is not competent counts from the day it was shown.", performedOn(v))
}

// bothSince is the day of the later signature, never before the performance.
func bothSince(v office.DemonstrationView) civil.Date {
	day := performedOn(v)
	for _, s := range v.Signatures {
		day = civil.Later(day, civil.DayOf(s.SignedAt, v.Zone))
	}
	return day
}

func withWhom(real bool) phrase.Phrase {
	if real {
		return phrase.Of("with the child")
	}
	return phrase.Of("in simulation")
}

// equipmentInWords names the types of equipment on which this skill depends, as
// the child had them that day.
func equipmentInWords(w wording.Words, v office.DemonstrationView) (string, error) {
	var fitted assessment.Fitted
	if len(v.Checklist.Fitted) == 0 || v.Equipment == "" {
		return "", nil
	}
	if err := json.Unmarshal([]byte(v.Equipment), &fitted); err != nil {
		return "", fmt.Errorf("read the equipment of record %s: %w", v.ID, err)
	}
	var parts []string
	for _, kind := range v.Checklist.Fitted {
		if fitted[kind] != "" {
			parts = append(parts, theirs(w, kind)+": "+fitted[kind])
		}
	}
	return strings.Join(parts, " · "), nil
}

// outcome prints what the rules made of the marks, with every reason.
func (p *paper) outcome(v office.DemonstrationView) {
	var pieces []words
	w := p.say.w
	if v.Stopped {
		pieces = append(pieces, strong(w.Say("Stopped for safety: %s", ended(v.StopReason))))
	}
	if v.Result.Outcome == assessment.Competent {
		pieces = append(pieces, strong(w.Say("Every rule was met.")))
	}
	for _, r := range v.Result.Reasons {
		pieces = append(pieces, text(ended(w.Of(r.Phrase(v.Checklist)))))
	}
	for _, t := range v.TakenBack {
		pieces = append(pieces, text(w.Say("Before it was recorded: %s", t.Phrase(v.Zone))))
	}
	score := w.Say("No score: no step was marked.")
	if s := v.Result.Score; s != nil {
		score = w.Say("Score %s %%, pass mark %s %%.", s.Percent(), v.Checklist.Policy.Scoring.PassMark.Percent())
	}
	p.row(label(w.Say("why")), append(pieces, soft(score))...)
}

// signedRecord prints the signatures there are and names those that are missing.
// There is no room to sign by hand: a signature on paper would not count.
func (p *paper) signedRecord(v office.DemonstrationView) error {
	signed, err := signaturesOf(p.say.w, v.Signatures, v.Zone, p.say.w.Say("learner"))
	if err != nil {
		return err
	}
	if len(signed) > 0 {
		p.signatures(label(p.say.w.Say("signed")), signed...)
		p.gap(6)
	}
	w := p.say.w
	if !signedBy(v.Signatures, office.PartObserver) {
		p.row(label(w.Say("not signed")), text(w.Say("%s, the observer, has not signed this.", v.Observer)))
	}
	if !signedBy(v.Signatures, office.PartLearner) {
		p.row(label(w.Say("not signed")), text(w.Say("%s, the learner, has not signed this.", v.Learner)))
	}
	return nil
}
