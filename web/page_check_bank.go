package web

// CheckBankPage is the check of one skill for those who keep it: rule, results and items.
// GET /checks/{code}, POST /checks/{code}/rule, POST /checks/{code}/items.
type CheckBankPage struct {
	Frame
	Title   string
	At      string // address of this page
	Asked   string // the rule in words
	By      string // who set it and when; empty = nobody
	Starter int    // starter items that can be taken in
	May     bool   // the reader may change it
	People  []CheckPerson
	Items   []CheckItemLine
	Retired []CheckItemLine
	New     string   // where an item is written; empty = not for this reader
	Print   []Tongue // the questions on paper, by language; empty = none to print
	Few     int      // below so many answers a share says little
	Rule    CheckRuleForm
	Bank    BankForm
}

// A CheckPerson is where somebody stands with the check.
type CheckPerson struct {
	Name  string
	Href  string
	Shape string
	Says  string
	Tries []Link
}

// A CheckItemLine is an item with how it was answered.
type CheckItemLine struct {
	ID     string
	Href   string
	Ask    string
	Sort   string // "single, critical, hard"
	Source string
	Says   string // "Asked 24 times, 75 % right"
	Also   []string
	By     string
	Retire string // where POST takes it out, or back in; empty = not for this reader
	Gone   bool
	CSRF   string
}

// CheckRuleForm sets the rule. POST /checks/{code}/rule.
type CheckRuleForm struct {
	Faults    Faults
	Asked     string
	Ways      []Option
	Length    string
	PassMark  string
	Months    string
	WaitHours string
	Tries     string
	OpenFor   string // minutes
}

// BankForm takes items in as YAML. POST /checks/{code}/items.
type BankForm struct {
	Faults Faults
	Text   string
}

// Refused is the form of the page that was refused.
func (p CheckBankPage) Refused() Link {
	return refusedIn(p.Rule.Faults.In("rule"), p.Bank.Faults.In("bank"))
}
