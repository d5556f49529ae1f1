package web

import (
	"errors"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/phrase"
	"wellshown/assessment/postgres"
	"wellshown/assessment/wording"
)

func (s *Site) record(v *visit) error {
	page, err := s.recordPage(v)
	if errors.Is(err, office.ErrOpen) {
		return v.to(page.At+"/marks", "")
	}
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) recordPage(v *visit) (RecordPage, error) {
	id, err := pathID[assessment.DemonstrationID](v, "id")
	if err != nil {
		return RecordPage{}, err
	}
	page := RecordPage{Frame: v.frame(""), At: demonstrationAt(id)}
	r, err := s.office.ReadRecord(v.ctx(), v.by(), id)
	if err != nil {
		return page, err
	}
	page.about(v.words(), r)
	page.result(v.words(), r)
	page.drill(v.words(), r)
	page.signatures(v, r)
	page.standing(v.words(), r)
	page.PDF, page.Proof = page.At+"/record.pdf", page.At+"/proof"
	if v.may(assessment.AskPacket) {
		page.Packet = packetFor("incident", r.LearnerID, r.Code, r.ClientID, "", isoDay(civil.DayOf(r.PerformedAt, r.Zone)))
	}
	if r.More > 0 {
		page.Next = myWaits
	}
	page.MayCorrect = r.MayTakeBack
	page.Correct.Action = page.At + "/correction"
	return page, nil
}

func (p *RecordPage) about(w wording.Words, r office.RecordReading) {
	p.Skill, p.SkillHref, p.Revision = r.Title, "/revisions/"+string(r.RevisionID), r.Revision
	p.Learner, p.LearnerAt, p.Observer, p.Client = r.Learner, "/people/"+string(r.LearnerID), r.Observer, r.Client
	p.Place, p.Performed, p.Real, p.Practice = typed(w, r.Place), performedAt(w, r.PerformedAt, r.Zone), r.RealClient, !r.Formal
	p.Stopped = r.StopReason
	if r.Stopped && r.StopReason == "" {
		p.Stopped = w.Say("Nothing was written down.")
	}
	p.paper(r)
	p.Bedside = bedsideLine(w, r.DemonstrationView)
	for _, t := range r.TakenBack {
		p.TakenBack = append(p.TakenBack, w.Of(t.Phrase(r.Zone)))
	}
	if r.CorrectedAt != nil {
		p.Corrected = w.Say("Taken back on %s by %s: %s", w.Instant(*r.CorrectedAt, r.Zone), r.CorrectedBy, sentence(r.Correction))
	}
}

// result says the outcome with its reasons, step by step.
func (p *RecordPage) result(w wording.Words, r office.RecordReading) {
	by := judged{r.Parameters, r.Words, func(step int) map[string]assessment.Quantity { return r.Entries[step].Values }}
	p.Outcome, p.Score, p.Reasons = string(r.Outcome), scoreWords(w, r.Result.Score, r.Checklist), reasons(w, r.Result, r.Checklist, by)
	failed := map[int]bool{}
	for _, why := range r.Result.Reasons {
		failed[why.Step] = true
	}
	for _, section := range r.Checklist.Sections {
		shown := RecordSection{Title: section.Title}
		for _, step := range section.Steps {
			e := r.Entries[step.No]
			line := RecordStep{Number: step.No, Text: spoken(step.Text, r.Checklist, r.Words), Critical: step.Critical, Mark: markOf(e.Mark, e.NotApplicable),
				Values: by.valuesOf(w, step, r.Checklist), Failed: failed[step.No]}
			if p.Bedside != nil {
				line.At = r.MarkedTime(step.No)
			}
			if effective := r.Effective[step.No]; effective != e.Mark {
				line.Effective = string(effective)
			}
			var words []string
			for _, text := range []string{e.Reason, e.Note} {
				if text != "" {
					words = append(words, text)
				}
			}
			line.Remark = strings.Join(words, " · ")
			shown.Steps = append(shown.Steps, line)
		}
		p.Sections = append(p.Sections, shown)
	}
}

// valuesOf is every value of a step beside what was accepted.
func (j judged) valuesOf(w wording.Words, step assessment.Step, list assessment.Checklist) Worded {
	values := j.values(step.No)
	var all phrase.Phrase
	for _, m := range step.Measures {
		q, given := values[m.Name]
		if !given {
			continue
		}
		one := phrase.Of("%s %s", phrase.Step(m.Name), q.Phrase())
		if a, missing, err := m.Accepted(j.known, values); err == nil && missing == "" && m.Judged() {
			one = phrase.Of("%s (accepted: %s)", one, a.Phrase())
		}
		if !all.IsZero() {
			one = phrase.Of("%s; %s", all, one)
		}
		all = one
	}
	return spokenIn(w, all, list, j.words)
}

// signatureOf shows a signature with all that it was given with: printed name,
// licence, meaning, and the instant on the clocks of that time (21 CFR 11.50).
func signatureOf(w wording.Words, g postgres.Signature, zone *time.Location) Signature {
	s := Signature{Name: g.PrintedName, As: g.Part, Meaning: g.Meaning}
	if g.Licence != "" {
		s.Name += ", " + g.Licence
	}
	if there, err := time.LoadLocation(g.Zone); err == nil && g.Zone != "" {
		zone = there
	}
	s.At = w.Instant(g.SignedAt, zone)
	return s
}

// signatures shows those that were given, and a form for each that is missing and
// that the reader, or the person beside them, can give here.
func (p *RecordPage) signatures(v *visit, r office.RecordReading) {
	for _, g := range r.Signatures {
		p.Signed = append(p.Signed, signatureOf(v.words(), g, r.Zone))
	}
	if r.CorrectedAt != nil {
		return
	}
	me := v.by().Person
	missing := func(part, name, meaning string, hand bool) {
		if r.SignedBy(part) == nil {
			as := SignForm{Action: p.At + "/signature", As: part, Name: name, Meaning: meaning, Hand: hand, What: p.whatIsSigned(v.words(), r), Now: v.words().Instant(r.Now, r.Zone)}
			if part == office.PartObserver {
				as.Licence = r.Licence
			} else if w := wording.In(wording.Of(r.Speaks)); w.Language() != v.words().Language() {
				as.Tongue = &SignTongue{string(w.Language()), w.Dir(), p.whatIsSigned(w, r), w.Quoted(w.Say(meaning)), w.Say("Your own. With it you sign the words above.")}
			}
			p.Sign = append(p.Sign, as)
		}
	}
	if me == r.ObserverID {
		missing(office.PartObserver, r.Observer, office.MeaningObserver, false)
	}
	if me == r.ObserverID || me == r.LearnerID {
		missing(office.PartLearner, r.Learner, office.MeaningLearner, me != r.LearnerID)
	}
	for _, waits := range []struct {
		part, name string
	}{{office.PartObserver, r.Observer}, {office.PartLearner, r.Learner}} {
		if r.SignedBy(waits.part) == nil {
			p.Waits = append(p.Waits, waits.name)
		}
	}
}

// whatIsSigned names the record in one line, for whoever is handed the device.
func (p *RecordPage) whatIsSigned(w wording.Words, r office.RecordReading) string {
	shown := performedAt(w, r.PerformedAt, r.Zone)
	if p.Client != "" {
		return w.Say("%s, shown by %s for %s on %s: %s.", p.Skill, p.Learner, p.Client, shown, r.Outcome)
	}
	return w.Say("%s, shown by %s on %s: %s.", p.Skill, p.Learner, shown, r.Outcome)
}

// standing says since when the record counts, and where the learner stands now.
func (p *RecordPage) standing(w wording.Words, r office.RecordReading) {
	p.Counts = !r.Effect.IsZero()
	if p.Counts {
		p.Acts = w.Say("It counts from %s.", w.ShortDay(r.Effect))
	}
	if r.Certificate != nil {
		p.Certificate = "/certificates/" + string(r.Certificate.ID)
	}
	switch s := r.Standing; {
	case r.CorrectedAt != nil || p.Practice:
	case s.Word.Holds():
		p.Now = w.Say("Today %s is current in it through %s.", r.Learner, w.ShortDay(s.Through))
	default:
		p.Now = w.Say("Today %s is %s in it.", r.Learner, s.Word)
		if next := s.Next.Phrase(); !next.IsZero() {
			p.Now += " " + w.Say("Needed: %s.", next)
		}
	}
}

func (s *Site) recordPDF(v *visit) error {
	id, err := pathID[assessment.DemonstrationID](v, "id")
	if err != nil {
		return err
	}
	body, name, err := s.opt.Papers.Record(v.ctx(), v.by(), id, v.paperLanguage())
	if err != nil {
		return err
	}
	return file(v.c, body, name, "application/pdf")
}

// performedAt is when something was shown, with its weekday.
func performedAt(w wording.Words, at time.Time, zone *time.Location) string {
	if w.Language() == wording.English {
		return at.In(zone).Format("Mon " + instantForm)
	}
	return fullDay(w, civil.DayOf(at, zone)) + ", " + w.Clock(at, zone)
}
