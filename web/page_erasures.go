package web

// ErasuresPage says how long records are kept, and what was erased or is to be. GET
// and POST /erasures.
type ErasuresPage struct {
	Frame
	Keep      string // "for 7 years"; "for ever" where there is no limit
	Limited   bool   // there is a limit, so that something can be erased at all
	Set       string // by whom and when; empty: never
	Why       string
	Open      []ErasureLine
	Ended     []ErasureLine
	About     []Option // who may be erased today
	Later     string   // "Of 12 others who left the time still runs, for the first through 3 May 2031"; empty: none
	Ask       ErasureAsking
	Retention RetentionTyped
}

// ErasureAsking is the form that asks, as typed.
type ErasureAsking struct {
	Faults Faults
	About  string
	Reason string
}

// RetentionTyped is the form of the setting, as typed.
type RetentionTyped struct {
	Faults Faults
	Years  string
	Reason string
}

// ErasureLine is one erasure.
type ErasureLine struct {
	ID     string
	Who    string
	Reason string
	Asked  string // by whom and when
	Ended  string // "Carried out by Bodil Krane, 3 May 2031, 10:00 MDT: 412 rows."; empty: open
	Done   bool   // carried out
	Carry  string // where the form goes; empty: not for who looks
	Drop   string // the same
	Mine   bool   // who looks has asked for it
	Faults Faults
	PIN    bool
	CSRF   string // set by WithCSRF
}

// WithCSRF gives the forms the page's token, and whether a PIN is enough.
func (l ErasureLine) WithCSRF(token string, pin bool) ErasureLine {
	l.CSRF, l.PIN = token, pin
	return l
}
