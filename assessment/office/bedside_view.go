package office

import (
	"encoding/hex"
	"fmt"
	"math"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/phrase"
	"wellshown/assessment/postgres"
)

// bodyDevice is what a record has of the device it was filled in on. All of it is hashed
// and signed with the record.
type bodyDevice struct {
	ID          assessment.DeviceID `json:"id"`
	Name        string              `json:"name"`
	SHA256      string              `json:"sheet_sha256"`
	Claimed     string              `json:"claimed_performed_at"`
	Finished    string              `json:"claimed_finished_at"`
	Sent        string              `json:"sent_at"`
	Received    string              `json:"received_at"`
	Gap         int64               `json:"clock_gap_s"`
	Outcome     assessment.Outcome  `json:"outcome"`
	Score       *string             `json:"score"`
	Differs     bool                `json:"differs"`
	Packed      string              `json:"pack_made_at,omitempty"` // by the office's clock, where that shows that the device's was wrong
	NameChecked string              `json:"name_checked_at,omitempty"`
	LookedOver  string              `json:"looked_over_at,omitempty"`
	TalkedOver  *bodyTalk           `json:"talked_over,omitempty"`
	Drawn       *bodyDrawn          `json:"drawn,omitempty"`
}

type bodyTalk struct {
	Note     string `json:"note,omitempty"`
	Practise string `json:"practise,omitempty"`
}

type bodyDrawn struct {
	Learner [][]int `json:"learner,omitempty"`
}

func bodyOfDevice(in incoming, d postgres.Device, differs bool) bodyDevice {
	at := func(t time.Time) string { return t.UTC().Format(instantForm) }
	c := in.clocks
	b := bodyDevice{ID: d.ID, Name: d.Name, SHA256: hex.EncodeToString(in.sha256[:]), Claimed: at(c.Performed), Finished: at(c.Finished), Sent: at(c.Sent),
		Received: at(c.Received), Gap: int64(math.Round(c.Gap().Seconds())), Outcome: in.outcome, Score: in.text.Outcome.Score, Differs: differs}
	if c.SetRight() {
		b.Packed = at(c.Packed)
	}
	if n := in.text.NameChecked; n != nil {
		b.NameChecked = at(*n)
	}
	if l := in.text.LookedOver; l != nil {
		b.LookedOver = at(*l)
	}
	if t := in.text.TalkedOver; t.Note != "" || t.Practise != "" {
		b.TalkedOver = &bodyTalk{t.Note, t.Practise}
	}
	if drawn := in.text.Drawn.Learner; len(drawn) > 0 {
		b.Drawn = &bodyDrawn{drawn}
	}
	return b
}

// BedsideView is the device that a record was filled in on, without a network.
type BedsideView struct {
	ID          assessment.DeviceID
	Name        string
	SHA256      string // of the text that the device signed, in hexadecimal
	Clocks      assessment.Clocks
	Gap         time.Duration // by which its clock was behind; less than nothing: ahead
	Outcome     assessment.Outcome
	Score       *string
	Differs     bool      // the office made something else of the marks
	NameChecked time.Time // by its clock; zero: it was not
	LookedOver  time.Time // by its clock, each mark by the observer, for the sheet came back from a second copy; zero: it never did
	TalkedOver  string
	Practise    string
	Drawn       [][]int            // the learner's hand: strokes of x, y, from 0 to 1000; no signature that counts
	Bursts      []assessment.Burst // marks that were made in one go
}

// ShownGap reports whether the clocks differ by more than is let pass in silence.
func (v BedsideView) ShownGap() bool { return v.Clocks.Shown() || v.Clocks.SetRight() }

// GapWords is GapPhrase in English.
func (v BedsideView) GapWords() string { return v.GapPhrase().String() }

// GapPhrase says by how much the clock of the device was wrong; nothing where that is let
// pass.
func (v BedsideView) GapPhrase() phrase.Phrase {
	switch {
	case v.Clocks.SetRight():
		return phrase.Of("The clock of the device was behind when this was begun, and was set in between: it showed a time before the pack was made that this was begun from. When it was performed is not known.")
	case !v.Clocks.Shown():
		return phrase.Phrase{}
	case v.Gap < 0:
		return phrase.Of("The clock of the device was %s ahead when it sent this.", lasting(-v.Gap))
	}
	return phrase.Of("The clock of the device was %s behind when it sent this.", lasting(v.Gap))
}

// lasting is a span in the largest unit that tells it.
func lasting(d time.Duration) phrase.Phrase {
	switch {
	case d >= 48*time.Hour:
		return phrase.Count(int(d/(24*time.Hour)), "%d day", "%d days")
	case d >= 2*time.Hour:
		return phrase.Count(int(d/time.Hour), "%d hour", "%d hours")
	}
	return phrase.Count(int(d/time.Minute), "%d minute", "%d minutes")
}

// OutcomesWords is OutcomesPhrase in English.
func (v BedsideView) OutcomesWords(office assessment.Outcome) string {
	return v.OutcomesPhrase(office).String()
}

// OutcomesPhrase says both outcomes where they differ; nothing where they do not.
func (v BedsideView) OutcomesPhrase(office assessment.Outcome) phrase.Phrase {
	switch {
	case !v.Differs:
		return phrase.Phrase{}
	case v.Outcome == office:
		return phrase.Of("The device also said %s, by another score or for other reasons. What the office says stands.", v.Outcome.Phrase())
	}
	return phrase.Of("The device said %s. The office says %s, and that stands.", v.Outcome.Phrase(), office.Phrase())
}

// view reads back what a record has of its device, with when each mark was made.
func (b *bodyDevice) view(marks []bodyMark) (*BedsideView, error) {
	if b == nil {
		return nil, nil
	}
	v := &BedsideView{ID: b.ID, Name: b.Name, SHA256: b.SHA256, Gap: time.Duration(b.Gap) * time.Second, Outcome: b.Outcome, Score: b.Score, Differs: b.Differs}
	for _, read := range []struct {
		text string
		at   *time.Time
	}{{b.Claimed, &v.Clocks.Performed}, {b.Finished, &v.Clocks.Finished}, {b.Sent, &v.Clocks.Sent}, {b.Received, &v.Clocks.Received}, {b.Packed, &v.Clocks.Packed}, {b.NameChecked, &v.NameChecked}, {b.LookedOver, &v.LookedOver}} {
		if read.text == "" {
			continue
		}
		at, err := time.Parse(instantForm, read.text)
		if err != nil {
			return nil, fmt.Errorf("read an instant of a device: %w", err)
		}
		*read.at = at
	}
	if b.TalkedOver != nil {
		v.TalkedOver, v.Practise = b.TalkedOver.Note, b.TalkedOver.Practise
	}
	if b.Drawn != nil {
		v.Drawn = b.Drawn.Learner
	}
	var made []time.Time
	for _, m := range marks {
		if at, err := time.Parse(instantForm, m.MarkedAt); err == nil && (m.Mark != "" || m.NotApplicable) {
			made = append(made, at)
		}
	}
	v.Bursts = assessment.Bursts(made)
	return v, nil
}

// MarkedTime is when a step was marked, to the second on the agency's clocks; empty where
// it was not.
func (v DemonstrationView) MarkedTime(step int) string {
	at, err := time.Parse(instantForm, v.MarkedAt[step])
	if err != nil {
		return ""
	}
	return at.In(v.Zone).Format("15:04:05")
}
