package ward

import (
	"bytes"
	"encoding/json"
	"maps"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
)

// OfflineSheet is a sheet as a device writes it: the order of its fields is that of
// the format.
type OfflineSheet struct {
	Version     int                         `json:"version"`
	ID          string                      `json:"id"`
	Agency      string                      `json:"agency"`
	Learner     string                      `json:"learner"`
	Skill       string                      `json:"skill"`
	Revision    string                      `json:"revision"`
	Client      string                      `json:"client,omitempty"`
	Place       string                      `json:"place"`
	Real        bool                        `json:"real"`
	Formal      bool                        `json:"formal"`
	PerformedAt string                      `json:"performed_at"`
	FinishedAt  string                      `json:"finished_at"`
	Pack        string                      `json:"pack"`
	Parameters  map[string]postgres.Reading `json:"parameters"`
	Stopped     bool                        `json:"stopped"`
	StopReason  string                      `json:"stop_reason,omitempty"`
	Marks       []OfflineMark               `json:"marks"`
	TakenBack   []OfflineTakenBack          `json:"taken_back"`
	TalkedOver  map[string]string           `json:"talked_over"`
	NameChecked string                      `json:"name_checked_at"`
	Drawn       map[string][][]int          `json:"drawn"`
	Outcome     OfflineOutcome              `json:"outcome"`
}

// OfflineMark is what stands at a step.
type OfflineMark struct {
	Step     int                         `json:"step"`
	Mark     string                      `json:"mark,omitempty"`
	Readings map[string]postgres.Reading `json:"readings,omitempty"`
	Note     string                      `json:"note,omitempty"`
	MarkedAt string                      `json:"marked_at"`
}

// OfflineTakenBack is what stood and was taken back; no step: the stop.
type OfflineTakenBack struct {
	At     string `json:"at"`
	Step   int    `json:"step,omitempty"`
	Reason string `json:"reason,omitempty"`
}

// OfflineOutcome is what the device made of it.
type OfflineOutcome struct {
	Outcome string          `json:"outcome"`
	Score   *string         `json:"score"`
	Reasons []OfflineReason `json:"reasons"`
}

// OfflineReason is one rule that failed.
type OfflineReason struct {
	Rule string `json:"rule"`
	Step int    `json:"step,omitempty"`
	Of   string `json:"of,omitempty"`
}

// ByDevice writes an instant as a device does: RFC 3339 in UTC, with milliseconds.
func ByDevice(at time.Time) string { return at.UTC().Format("2006-01-02T15:04:05.000Z07:00") }

// Text is the sheet as it is signed: compact JSON.
func (s OfflineSheet) Text() string {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(s); err != nil {
		panic(err)
	}
	return string(bytes.TrimSpace(b.Bytes()))
}

// Fill fills a sheet in on a device, from a new pack: begun at an instant of the
// device's clock, a step every ten seconds, and finished after the last one. It is
// judged as the device would.
func (w *Ward) Fill(d Device, learner assessment.Actor, skill string, child assessment.ClientID, begun time.Time, ways ...Way) OfflineSheet {
	w.tb.Helper()
	s := &showing{formal: true, marks: map[int]assessment.Mark{}}
	for _, way := range ways {
		way(s)
	}
	pack := must(w.Office.Pack(w.tb.Context(), d.Owner, d.ID))(w.tb)
	i := slices.IndexFunc(pack.Skills, func(k office.PackSkill) bool { return k.Code == skill })
	if i < 0 {
		w.tb.Fatalf("the pack has no %s: %s", skill, pack.MayNot)
	}
	list, known := *pack.Skills[i].Checklist, assessment.Parameters{}
	for _, p := range list.Parameters {
		if p.Default != nil {
			known[p.Name] = *p.Default
		}
	}
	for _, c := range pack.Clients {
		if c.ID == child {
			maps.Copy(known, c.Parameters)
		}
	}
	sheet := OfflineSheet{Version: 1, ID: NewID(begun), Agency: pack.Agency.Code, Learner: string(learner.Person), Skill: skill, Revision: string(pack.Skills[i].RevisionID),
		Client: string(child), Place: "at home", Real: !s.simulated && !manikinOnly[skill], Formal: s.formal, PerformedAt: ByDevice(begun), Pack: pack.ID, Parameters: map[string]postgres.Reading{},
		Stopped: s.stopped, Marks: []OfflineMark{}, TakenBack: []OfflineTakenBack{}, TalkedOver: map[string]string{}, NameChecked: ByDevice(begun), Drawn: map[string][][]int{}}
	for name, q := range known {
		sheet.Parameters[name] = postgres.Reading{Value: q.Value.String(), Unit: q.Unit}
	}
	if s.stopped {
		sheet.StopReason = "The child was at risk."
		sheet.FinishedAt = ByDevice(begun)
		return w.Judge(sheet, list, known)
	}
	at := begun
	for _, step := range list.Steps() {
		m := assessment.Independent
		if other, ok := s.marks[step.No]; ok {
			m = other
		}
		at = at.Add(10 * time.Second)
		f := Form(w.tb, step, known, m)
		sheet.Marks = append(sheet.Marks, OfflineMark{Step: step.No, Mark: f.Mark, Readings: f.Readings, MarkedAt: ByDevice(at)})
	}
	sheet.FinishedAt = ByDevice(at)
	return w.Judge(sheet, list, known)
}

// Judge puts down what the rules say of a sheet by some values of the child.
func (w *Ward) Judge(s OfflineSheet, list assessment.Checklist, known assessment.Parameters) OfflineSheet {
	w.tb.Helper()
	sheet := assessment.Sheet{Stopped: s.Stopped}
	for _, m := range s.Marks {
		e := assessment.SheetEntry{No: m.Step, Mark: assessment.Mark(m.Mark), Values: map[string]assessment.Quantity{}}
		for name, r := range m.Readings {
			e.Values[name] = assessment.Quantity{Value: assessment.MustNumber(r.Value), Unit: r.Unit}
		}
		sheet.Entries = append(sheet.Entries, e)
	}
	result, open, err := assessment.Score(list, known, sheet)
	if err != nil || len(open) > 0 {
		w.tb.Fatalf("the device cannot judge: %v, open: %v", err, open)
	}
	s.Outcome = OfflineOutcome{Outcome: string(result.Outcome), Reasons: []OfflineReason{}}
	if result.Score != nil {
		score := result.Score.Fraction()
		s.Outcome.Score = &score
	}
	for _, r := range result.Reasons {
		s.Outcome.Reasons = append(s.Outcome.Reasons, OfflineReason{string(r.Rule), r.Step, r.Of})
	}
	return s
}

// Send is a sheet as a device sends it at an instant of its own clock.
func (d Device) Send(s OfflineSheet, at time.Time) office.ReceiveForm {
	text := s.Text()
	return office.ReceiveForm{ID: assessment.DemonstrationID(s.ID), Device: d.ID, Sheet: text, Signature: d.Sign(text), SentAt: at}
}
