package written

import (
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

type awardShape struct {
	Count       int  `json:"count"`
	Days        int  `json:"days"`
	Observers   int  `json:"observers"`
	Real        int  `json:"real"`
	SpanDays    int  `json:"span_days"`
	Consecutive bool `json:"consecutive"`
}

type validityShape struct {
	Months      int               `json:"months"`
	Anchor      assessment.Anchor `json:"anchor"`
	RenewalDays int               `json:"renewal_days"`
	NoticeDays  int               `json:"notice_days"`
	LapseMonths *int              `json:"lapse_months"`
	AbsenceDays int               `json:"absence_days"`
}

type termsShape struct {
	Award    awardShape    `json:"award"`
	Validity validityShape `json:"validity"`
}

// MarshalJSON writes the case as DecodeStandingCase reads it, so that a history
// kept elsewhere can be handed to anyone to check.
func (c StandingCase) MarshalJSON() ([]byte, error) {
	a, v := c.Terms.Award, c.Terms.Validity
	shape := struct {
		Zone    string           `json:"zone"`
		Policy  termsShape       `json:"policy"`
		History []map[string]any `json:"history"`
		On      []civil.Date     `json:"on"`
	}{
		Zone: c.Zone.String(),
		Policy: termsShape{
			awardShape{a.Count, a.Days, a.Observers, a.Real, a.SpanDays, a.Consecutive},
			validityShape{v.Months, v.Anchor, v.RenewalDays, v.NoticeDays, v.LapseMonths, v.AbsenceDays},
		},
		History: []map[string]any{},
		On:      append([]civil.Date{}, c.On...),
	}
	for _, e := range c.History {
		shape.History = append(shape.History, entryShape(e))
	}
	return caseJSON(shape)
}

// entryShape is one entry with the fields of its kind.
func entryShape(e assessment.Entry) map[string]any {
	m := map[string]any{"kind": e.Kind, "id": e.ID}
	switch e.Kind {
	case assessment.DemonstrationEntry:
		m["performed_at"], m["outcome"], m["observer"] = e.At, e.Outcome, e.Observer
		m["real"], m["formal"], m["revision"] = e.Real, e.Formal, e.Revision
		m["observer_signed_at"], m["learner_signed_at"] = instantOrNull(e.ObserverSigned), instantOrNull(e.LearnerSigned)
	case assessment.WithdrawalEntry:
		m["at"], m["until"] = e.At, e.Until
	case assessment.ReinstatementEntry, assessment.CorrectionEntry:
		m["at"], m["of"] = e.At, e.Of
	case assessment.WaiverEntry:
		m["from"], m["through"] = e.On, e.Through
	case assessment.RecheckEntry:
		m["revision"], m["by"], m["at"] = e.Revision, e.By, e.At
	case assessment.PracticeEntry, assessment.TeachingEntry:
		m["on"] = e.On
	}
	return m
}

func instantOrNull(at time.Time) *time.Time {
	if at.IsZero() {
		return nil
	}
	return &at
}

type quantityShape struct {
	Value string `json:"value"`
	Unit  string `json:"unit"`
}

type measureShape struct {
	Name      string `json:"name"`
	Unit      string `json:"unit"`
	Low       any    `json:"low,omitempty"`
	High      any    `json:"high,omitempty"`
	Exclusive bool   `json:"exclusive,omitempty"`
	Magnitude bool   `json:"magnitude,omitempty"`
}

type stepShape struct {
	No          int             `json:"no"`
	Weight      int             `json:"weight"`
	Critical    bool            `json:"critical"`
	Least       assessment.Mark `json:"least"`
	Measures    []measureShape  `json:"measures,omitempty"`
	MayNotApply bool            `json:"may_not_apply"`
}

type markShape struct {
	No            int                      `json:"no"`
	Mark          assessment.Mark          `json:"mark,omitempty"`
	NotApplicable *string                  `json:"not_applicable,omitempty"`
	Values        map[string]quantityShape `json:"values,omitempty"`
}

type scoringShape struct {
	Credits  map[assessment.Mark]string `json:"credits"`
	PassMark string                     `json:"pass_mark"`
	CueLimit *int                       `json:"cue_limit"`
}

type sheetShape struct {
	Stopped bool        `json:"stopped"`
	Marks   []markShape `json:"marks"`
}

// MarshalJSON writes the case as DecodeScoreCase reads it. Of the checklist only
// what a case file holds is written: bounds that follow another value of their
// step, or a parameter times or plus something, have no form here.
func (c ScoreCase) MarshalJSON() ([]byte, error) {
	shape := struct {
		Policy     scoringShape             `json:"policy"`
		Parameters map[string]quantityShape `json:"parameters"`
		Steps      []stepShape              `json:"steps"`
		Sheet      sheetShape               `json:"sheet"`
	}{
		Policy:     scoringShapeOf(c.Checklist.Policy.Scoring),
		Parameters: quantityShapes(c.Parameters),
		Steps:      []stepShape{},
		Sheet:      sheetShape{c.Sheet.Stopped, []markShape{}},
	}
	for _, s := range c.Checklist.Steps() {
		shape.Steps = append(shape.Steps, stepShape{s.No, s.Weight, s.Critical, s.Least, measureShapes(s), s.MayNotApply != ""})
	}
	for _, e := range c.Sheet.Entries {
		m := markShape{No: e.No, Mark: e.Mark, Values: quantityShapes(e.Values)}
		if e.NotApplicable {
			m.NotApplicable = &e.Reason
		}
		shape.Sheet.Marks = append(shape.Sheet.Marks, m)
	}
	return caseJSON(shape)
}

func scoringShapeOf(s assessment.Scoring) scoringShape {
	shape := scoringShape{map[assessment.Mark]string{}, s.PassMark.String(), s.CueLimit}
	for _, m := range creditWords {
		shape.Credits[m] = s.Credits[m].String()
	}
	return shape
}

func quantityShapes(all map[string]assessment.Quantity) map[string]quantityShape {
	shapes := map[string]quantityShape{}
	for name, q := range all {
		shapes[name] = quantityShape{q.Value.String(), q.Unit}
	}
	return shapes
}

func measureShapes(s assessment.Step) []measureShape {
	var all []measureShape
	for _, m := range s.Measures {
		all = append(all, measureShape{m.Name, m.Unit, boundShape(m.Low), boundShape(m.High), m.Exclusive, m.Magnitude})
	}
	return all
}

func boundShape(b *assessment.Bound) any {
	switch {
	case b == nil:
		return nil
	case b.Parameter != "":
		return map[string]string{"parameter": b.Parameter}
	}
	return b.Value.String()
}
