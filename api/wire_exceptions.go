package api

// WithdrawalForm takes a competency away at once.
type WithdrawalForm struct {
	ID      string `json:"id,omitempty" doc:"A UUID of your own, so that sending twice is harmless."`
	Person  string `json:"person" doc:"An id."`
	Skill   string `json:"skill" maxLength:"200" doc:"The code."`
	Client  string `json:"client,omitempty" doc:"The child: an id. Needed where the skill is held for each child."`
	Until   string `json:"until" enum:"redemonstrated,reinstated" doc:"What lifts it: a competent demonstration on a later day, or a reinstatement."`
	Related bool   `json:"related,omitempty" doc:"Takes the related skills that they hold as well."`
	Reason  string `json:"reason" maxLength:"4000" doc:"Why. It stays with the record."`
	Signing
}

// WaiverForm excuses somebody from holding a skill for some days.
type WaiverForm struct {
	ID      string `json:"id,omitempty" doc:"A UUID of your own, so that sending twice is harmless."`
	Person  string `json:"person" doc:"An id."`
	Skill   string `json:"skill" maxLength:"200" doc:"The code."`
	Client  string `json:"client,omitempty" doc:"The child: an id. Needed where the skill is held for each child."`
	From    string `json:"from" format:"date"`
	Through string `json:"through" format:"date"`
	Reason  string `json:"reason" maxLength:"4000" doc:"Why. It stays with the record."`
	Signing
}

// LogForm says that a skill was taught, or used at work.
type LogForm struct {
	Person string `json:"person" doc:"An id."`
	Skill  string `json:"skill" maxLength:"200" doc:"The code."`
	Client string `json:"client,omitempty" doc:"The child: an id. Needed where the skill is held for each child."`
	Kind   string `json:"kind" enum:"teaching,practice"`
	On     string `json:"on" format:"date"`
	Note   string `json:"note,omitempty" maxLength:"4000"`
}
