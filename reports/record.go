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
)

// Record prints one return demonstration: who showed what, each mark, the outcome
// with its reasons, and the signatures.
func (r *Reports) Record(ctx context.Context, by assessment.Actor, id assessment.DemonstrationID) ([]byte, string, error) {
	v, err := r.office.Demonstration(ctx, by, id)
	if err != nil {
		return nil, "", fmt.Errorf("print a record: %w", err)
	}
	p, err := record(v)
	return r.handOut(ctx, by, office.Export{Act: assessment.ReadRecords, Paper: "record", Subject: string(id)})(document(p, err, "record", v.Code, performedOn(v).String()))
}

func record(v office.DemonstrationView) (*paper, error) {
	last := lastEntry(v)
	p, err := newPaper(meta{Title: "Record of a return demonstration: " + v.Learner + ", " + v.Title, Language: "en",
		Agency: v.Agency.Name, Demo: v.Agency.Demo, Issued: last, Zone: v.Zone})
	if err != nil {
		return nil, err
	}
	equipment, err := equipmentInWords(v)
	if err != nil {
		return nil, err
	}
	p.meta.Stands = "As recorded. Last entry: " + p.say.instant(last, p.zone)
	p.letterhead(recordFinding(p.say, v))
	p.row(label("who"), head(v.Learner))
	p.row(label("skill"), head(v.Title), soft(forWhom(v.Client)+fmt.Sprintf(" · checklist revision %d", v.Revision)))
	p.row(label("shown"), text(p.say.instant(v.PerformedAt, p.zone)+", "+v.Place+", "+withWhom(v.RealClient)), soft("observed by "+v.Observer), soft(equipment))
	p.fromPaper(v)
	p.bedside(v)
	p.outcome(v)
	p.row(label("counts"), text(countsInWords(p.say, v)))
	if v.Certificate != nil {
		p.row(label("certificate"), text(fmt.Sprintf("no. %d, check code %s", v.Certificate.Number, office.ShowCode(v.Certificate.Code))))
	}
	p.steps(v)
	p.childsValues(v)
	p.gap(10)
	if err := p.signedRecord(v); err != nil {
		return nil, err
	}
	p.note(fmt.Sprintf("Record %s. What was signed has the SHA-256 %x.", v.ID, v.BodySHA256))
	return p, nil
}

// fromPaper says that it was marked on paper, when it was typed in, and how many
// photos and scans of the paper are kept with it, by the beginning of their hashes.
func (p *paper) fromPaper(v office.DemonstrationView) {
	if v.Paper == nil {
		return
	}
	pages := fmt.Sprintf("%d pages", len(v.Paper.Pages))
	switch len(v.Paper.Pages) {
	case 0:
		pages = "no page"
	case 1:
		pages = "1 page"
	}
	var kept []string
	for _, page := range v.Paper.Pages {
		kept = append(kept, fmt.Sprintf("%d: %.16s…", page.Number, page.SHA256))
	}
	p.row(label("from paper"), text("Marked on paper, typed in from it on "+p.say.instant(v.Paper.TypedIn, p.zone)+", "+pages+" attached."), soft(strings.Join(kept, " · ")))
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
func recordFinding(say phrases, v office.DemonstrationView) string {
	day := say.date(performedOn(v))
	switch {
	case v.CorrectedAt != nil:
		return "Taken back: this record counts no more"
	case !v.Formal:
		return "Practice on " + day + ": " + string(v.Result.Outcome)
	case !inForce(v):
		return capital(string(v.Result.Outcome)) + " on " + day + ", not fully signed"
	}
	return capital(string(v.Result.Outcome)) + " on " + day
}

// inForce reports whether the record has the signatures that make it count: a
// competent one both, any other the observer's.
func inForce(v office.DemonstrationView) bool {
	return signedBy(v.Signatures, office.PartObserver) &&
		(v.Result.Outcome != assessment.Competent || signedBy(v.Signatures, office.PartLearner))
}

// countsInWords says whether the record counts toward competence, since when, or why not.
func countsInWords(say phrases, v office.DemonstrationView) string {
	switch {
	case v.CorrectedAt != nil:
		return fmt.Sprintf("No. It was taken back on %s by %s: %s", say.instant(*v.CorrectedAt, v.Zone), v.CorrectedBy, ended(v.Correction))
	case !v.Formal:
		return "No. It was practice."
	case !inForce(v) && v.Result.Outcome == assessment.Competent:
		return "Not yet. A competent demonstration counts once observer and learner have both signed."
	case !inForce(v):
		return "Not yet. It counts once the observer has signed."
	case v.Result.Outcome == assessment.Competent:
		return "Yes, from " + say.date(bothSince(v)) + ", the day of the last signature."
	}
	return "Yes, from " + say.date(performedOn(v)) + ". An outcome that is not competent counts from the day it was shown."
}

// bothSince is the day of the later signature, never before the performance.
func bothSince(v office.DemonstrationView) civil.Date {
	day := performedOn(v)
	for _, s := range v.Signatures {
		day = civil.Later(day, civil.DayOf(s.SignedAt, v.Zone))
	}
	return day
}

func withWhom(real bool) string {
	if real {
		return "with the child"
	}
	return "in simulation"
}

// equipmentInWords names the types of equipment on which this skill depends, as
// the child had them that day.
func equipmentInWords(v office.DemonstrationView) (string, error) {
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
			parts = append(parts, kind+": "+fitted[kind])
		}
	}
	return strings.Join(parts, " · "), nil
}

// outcome prints what the rules made of the marks, with every reason.
func (p *paper) outcome(v office.DemonstrationView) {
	var pieces []words
	if v.Stopped {
		pieces = append(pieces, strong("Stopped for safety: "+ended(v.StopReason)))
	}
	if v.Result.Outcome == assessment.Competent {
		pieces = append(pieces, strong("Every rule was met."))
	}
	for _, r := range v.Result.Reasons {
		pieces = append(pieces, text(ended(r.InWords(v.Checklist))))
	}
	for _, t := range v.TakenBack {
		pieces = append(pieces, text("Before it was recorded: "+t.Words(v.Zone)))
	}
	score := "No score: no step was marked."
	if s := v.Result.Score; s != nil {
		score = "Score " + s.Percent() + " %, pass mark " + v.Checklist.Policy.Scoring.PassMark.Percent() + " %."
	}
	p.row(label("why"), append(pieces, soft(score))...)
}

// signedRecord prints the signatures there are and names those that are missing.
// There is no room to sign by hand: a signature on paper would not count.
func (p *paper) signedRecord(v office.DemonstrationView) error {
	signed, err := signaturesOf(v.Signatures, v.Zone, "learner")
	if err != nil {
		return err
	}
	if len(signed) > 0 {
		p.signatures(label("signed"), signed...)
		p.gap(6)
	}
	for _, part := range []struct{ part, name, as string }{
		{office.PartObserver, v.Observer, "the observer"}, {office.PartLearner, v.Learner, "the learner"}} {
		if !signedBy(v.Signatures, part.part) {
			p.row(label("not signed"), text(part.name+", "+part.as+", has not signed this."))
		}
	}
	return nil
}
