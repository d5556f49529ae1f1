package api

import (
	"time"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// SheetSent is a sheet that was finished on a device, as it was signed there.
type SheetSent struct {
	Device    string    `json:"device" maxLength:"100" doc:"The device whose key signed it: an id."`
	Sheet     string    `json:"sheet" maxLength:"400000" doc:"The exact text that was signed."`
	Signature string    `json:"signature" maxLength:"200" doc:"ECDSA on P-256 with SHA-256 over the UTF-8 of the text: r and s, 32 bytes each, as base64url."`
	SentAt    time.Time `json:"sent_at" doc:"Now, by the clock of the device."`
}

// SheetReceived is what became of it.
type SheetReceived struct {
	Demonstration ReceivedDemonstration `json:"demonstration"`
	ReceivedAt    time.Time             `json:"received_at" doc:"When it was taken in first."`
	ClockGap      int64                 `json:"clock_gap_s" doc:"By how many seconds the clock of the device was behind; less than nothing: ahead."`
	DeviceOutcome string                `json:"device_outcome" enum:"competent,not yet competent,stopped for safety"`
	Differs       bool                  `json:"differs" doc:"The device made something else of the marks, another score or other reasons. What the office says stands."`
}

// ReceivedDemonstration is the record that a sheet has become, in short.
type ReceivedDemonstration struct {
	ID          string           `json:"id" format:"uuid"`
	Outcome     string           `json:"outcome" enum:"competent,not yet competent,stopped for safety"`
	Score       *Score           `json:"score,omitempty" doc:"Left out where no step was applicable."`
	Reasons     []ReceivedReason `json:"reasons"`
	PerformedAt time.Time        `json:"performed_at" doc:"The instant that counts: by the clock of the device, put right where that was wrong by more than five minutes."`
	SignedBy    []string         `json:"signed_by" enum:"observer,learner" doc:"Who has signed it by now; both must, and the drawn signature is none."`
	SHA256      string           `json:"sha256" doc:"Of the record as it is kept, which every signature names."`
}

// ReceivedReason is one rule that failed, or one value out of its range.
type ReceivedReason struct {
	Rule  string `json:"rule" enum:"unsafe,critical,value,cues,score,nothing shown"`
	Step  int    `json:"step,omitempty"`
	Of    string `json:"of,omitempty"`
	Words string `json:"words"`
}

func received(v office.DemonstrationView) SheetReceived {
	head := demonstrationHead(v.Demonstration)
	r := SheetReceived{Demonstration: ReceivedDemonstration{ID: head.ID, Outcome: head.Outcome, Score: head.Score, PerformedAt: head.PerformedAt, SHA256: head.SHA256, SignedBy: []string{}}}
	r.Demonstration.Reasons = each(v.Result.Reasons, func(why assessment.Reason) ReceivedReason {
		return ReceivedReason{string(why.Rule), why.Step, why.Of, why.InWords(v.Checklist)}
	})
	for _, s := range v.Signatures {
		r.Demonstration.SignedBy = append(r.Demonstration.SignedBy, s.Part)
	}
	if d := v.Bedside; d != nil {
		r.ReceivedAt, r.ClockGap, r.DeviceOutcome, r.Differs = d.Clocks.Received.UTC(), int64(d.Gap/time.Second), string(d.Outcome), d.Differs
	}
	return r
}

// Bedside is the device that a record was filled in on, without a network. All of it is
// part of what was signed.
type Bedside struct {
	Device      Named     `json:"device"`
	SHA256      string    `json:"sheet_sha256" doc:"Of the text that the device signed."`
	Claimed     time.Time `json:"claimed_performed_at" doc:"By the clock of the device."`
	Finished    time.Time `json:"claimed_finished_at" doc:"By the clock of the device."`
	SentAt      time.Time `json:"sent_at" doc:"By the clock of the device."`
	ReceivedAt  time.Time `json:"received_at"`
	ClockGap    int64     `json:"clock_gap_s" doc:"By how many seconds the clock of the device was behind; less than nothing: ahead."`
	Outcome     string    `json:"outcome" enum:"competent,not yet competent,stopped for safety" doc:"What the device made of the marks. The record's own stands."`
	Score       string    `json:"score,omitempty" doc:"A fraction, by the device."`
	Differs     bool      `json:"differs"`
	NameChecked string    `json:"name_checked_at,omitempty" format:"date-time" doc:"When the learner's name was checked, by the clock of the device."`
	LookedOver  string    `json:"looked_over_at,omitempty" format:"date-time" doc:"Where the device had lost the sheet and had it back from a second copy: when its observer looked at each mark, by the clock of the device."`
	TalkedOver  string    `json:"talked_over,omitempty"`
	Practise    string    `json:"practise,omitempty" doc:"What to practise next."`
	Drawn       [][]int   `json:"drawn,omitempty" doc:"What the learner drew as a signature: strokes of x, y, from 0 to 1000. It is no signature that counts."`
	Pace        []string  `json:"pace" doc:"Marks that were made in one go, in words."`
}

func bedside(v office.DemonstrationView) *Bedside {
	d := v.Bedside
	if d == nil {
		return nil
	}
	w := Bedside{Device: Named{string(d.ID), d.Name}, SHA256: d.SHA256, Claimed: d.Clocks.Performed.UTC(), Finished: d.Clocks.Finished.UTC(), SentAt: d.Clocks.Sent.UTC(),
		ReceivedAt: d.Clocks.Received.UTC(), ClockGap: int64(d.Gap / time.Second), Outcome: string(d.Outcome), Differs: d.Differs, TalkedOver: d.TalkedOver, Practise: d.Practise, Drawn: d.Drawn}
	if d.Score != nil {
		w.Score = *d.Score
	}
	if !d.NameChecked.IsZero() {
		w.NameChecked = d.NameChecked.UTC().Format(time.RFC3339Nano)
	}
	if !d.LookedOver.IsZero() {
		w.LookedOver = d.LookedOver.UTC().Format(time.RFC3339Nano)
	}
	w.Pace = each(d.Bursts, func(b assessment.Burst) string { return b.Words(v.Zone) })
	return &w
}
