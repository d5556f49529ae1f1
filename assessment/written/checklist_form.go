package written

import (
	"bytes"
	"encoding/json"
)

// The written form of a checklist: the names and the order of what stands in a
// file, in YAML and in JSON alike. `need:"value"` marks what must be written;
// `need:"key"` what must be written, if only as null, because leaving it out by
// oversight would loosen a rule.
type listForm struct {
	Code          string          `json:"code" yaml:"code" need:"value"`
	Title         string          `json:"title" yaml:"title" need:"value"`
	Scope         string          `json:"scope" yaml:"scope" need:"value"`
	ManikinOnly   bool            `json:"manikin_only,omitempty" yaml:"manikin_only,omitempty"`
	CardNeeded    bool            `json:"card_needed,omitempty" yaml:"card_needed,omitempty"`
	Purpose       string          `json:"purpose,omitempty" yaml:"purpose,omitempty"`
	Safety        []string        `json:"safety,omitempty" yaml:"safety,omitempty" need:"value"`
	Equipment     []string        `json:"equipment,omitempty" yaml:"equipment,omitempty"`
	Fitted        []string        `json:"fitted,omitempty" yaml:"fitted,omitempty"`
	Prerequisites []string        `json:"prerequisites,omitempty" yaml:"prerequisites,omitempty"`
	Related       []string        `json:"related,omitempty" yaml:"related,omitempty"`
	Parameters    []parameterForm `json:"parameters,omitempty" yaml:"parameters,omitempty"`
	Sources       []string        `json:"sources,omitempty" yaml:"sources,omitempty"`
	Policy        policyForm      `json:"policy" yaml:"policy" need:"value"`
	Sections      []sectionForm   `json:"sections" yaml:"sections" need:"value"`
}

type parameterForm struct {
	Name    string      `json:"name" yaml:"name" need:"value"`
	Says    string      `json:"says,omitempty" yaml:"says,omitempty" need:"value"`
	Unit    string      `json:"unit,omitempty" yaml:"unit,omitempty"`
	Default *numberForm `json:"default,omitempty" yaml:"default,omitempty"`
}

type policyForm struct {
	Credits  *creditsForm `json:"credits,omitempty" yaml:"credits,omitempty"`
	PassMark numberForm   `json:"pass_mark" yaml:"pass_mark" need:"value"`
	CueLimit *int         `json:"cue_limit" yaml:"cue_limit" need:"key"`
	Award    awardForm    `json:"award" yaml:"award" need:"value"`
	Validity validityForm `json:"validity" yaml:"validity" need:"value"`
}

// A credit that is left out is 0.
type creditsForm struct {
	Independent numberForm `json:"independent" yaml:"independent"`
	Cued        numberForm `json:"cued" yaml:"cued"`
	Assisted    numberForm `json:"assisted" yaml:"assisted"`
	NotMet      numberForm `json:"not met" yaml:"not met"`
	Unsafe      numberForm `json:"unsafe" yaml:"unsafe"`
}

type awardForm struct {
	Count       int   `json:"count" yaml:"count" need:"value"`
	Days        int   `json:"days" yaml:"days" need:"value"`
	Observers   *int  `json:"observers" yaml:"observers"`
	Real        int   `json:"real" yaml:"real"`
	SpanDays    int   `json:"span_days" yaml:"span_days" need:"value"`
	Consecutive *bool `json:"consecutive" yaml:"consecutive"`
}

type validityForm struct {
	Months      int    `json:"months" yaml:"months" need:"value"`
	Anchor      string `json:"anchor" yaml:"anchor" need:"value"`
	RenewalDays int    `json:"renewal_days" yaml:"renewal_days" need:"value"`
	NoticeDays  int    `json:"notice_days" yaml:"notice_days" need:"value"`
	LapseMonths *int   `json:"lapse_months" yaml:"lapse_months" need:"key"`
	AbsenceDays int    `json:"absence_days" yaml:"absence_days"`
}

type sectionForm struct {
	Title string     `json:"title" yaml:"title" need:"value"`
	Steps []stepForm `json:"steps" yaml:"steps" need:"value"`
}

// Critical is the reason why a step is critical; a step without one is not.
type stepForm struct {
	No          int           `json:"no" yaml:"no" need:"value"`
	Text        string        `json:"text" yaml:"text" need:"value"`
	Kind        string        `json:"kind" yaml:"kind" need:"value"`
	Critical    *string       `json:"critical,omitempty" yaml:"critical,omitempty"`
	Weight      *int          `json:"weight,omitempty" yaml:"weight,omitempty"`
	Least       *string       `json:"least,omitempty" yaml:"least,omitempty"`
	MayNotApply string        `json:"may_not_apply,omitempty" yaml:"may_not_apply,omitempty"`
	Note        string        `json:"note,omitempty" yaml:"note,omitempty"`
	Measures    []measureForm `json:"measures,omitempty" yaml:"measures,omitempty"`
}

// RecordOnly says that a value has no range on purpose.
type measureForm struct {
	Name       string     `json:"name" yaml:"name" need:"value"`
	Unit       string     `json:"unit,omitempty" yaml:"unit,omitempty"`
	Low        *boundForm `json:"low,omitempty" yaml:"low,omitempty"`
	High       *boundForm `json:"high,omitempty" yaml:"high,omitempty"`
	RecordOnly bool       `json:"record_only,omitempty" yaml:"record_only,omitempty"`
	Exclusive  bool       `json:"exclusive,omitempty" yaml:"exclusive,omitempty"`
	Magnitude  bool       `json:"magnitude,omitempty" yaml:"magnitude,omitempty"`
	Either     string     `json:"either,omitempty" yaml:"either,omitempty"`
}

// boundForm is a bare number, or a group that says where the number comes from.
type boundForm struct {
	Value     numberForm  `json:"value,omitempty" yaml:"value,omitempty"`
	Parameter string      `json:"parameter,omitempty" yaml:"parameter,omitempty"`
	Measure   string      `json:"measure,omitempty" yaml:"measure,omitempty"`
	Times     *numberForm `json:"times,omitempty" yaml:"times,omitempty"`
	Plus      string      `json:"plus,omitempty" yaml:"plus,omitempty"`
	Minus     string      `json:"minus,omitempty" yaml:"minus,omitempty"`

	unread bool // what is written could not be read
}

// boundGroup is boundForm without its own ways to be written.
type boundGroup boundForm

func (b boundForm) bare() bool {
	return b.Parameter+b.Measure+b.Plus+b.Minus == "" && b.Times == nil
}

// MarshalJSON writes a bare number as one.
func (b boundForm) MarshalJSON() ([]byte, error) {
	if b.bare() {
		return compact(b.Value)
	}
	return compact(boundGroup(b))
}

// MarshalYAML writes a bare number as one.
func (b boundForm) MarshalYAML() (any, error) {
	if b.bare() {
		return b.Value, nil
	}
	return boundGroup(b), nil
}

// compact is v as JSON on one line, with < and & as they are.
func compact(v any) ([]byte, error) {
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return nil, err
	}
	return bytes.TrimRight(out.Bytes(), "\n"), nil
}
