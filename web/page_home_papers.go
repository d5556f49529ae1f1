package web

// HomePapersPage is where the papers that go home with a child are taken, and what they say
// is written down. GET /clients/{id}/home-papers, POST to the same.
type HomePapersPage struct {
	Frame
	Faults  Faults
	Client  string // first name
	Code    string
	Missing int // things that are left open on the emergency card
	Papers  []HomePaperLine
	Calls   []HomeCall
	Kit     string // where the emergency kit is; empty: not said
	Back    string
	Form    HomeRecordForm
}

// A HomePaperLine is one paper with what is left open on it.
type HomePaperLine struct {
	Name    string
	Open    []string
	Files   []Tongue
	Anybody bool // strangers may read it: it names no child
}

// A HomeCall is an office that is called in an emergency.
type HomeCall struct {
	Turn      int
	Office    string
	Telephone string // empty: not known
	Dial      string // what a telephone calls: figures, and a plus before them; empty: nothing that it could
}

// HomeRecordForm says what stands on the papers besides what is ordered.
type HomeRecordForm struct {
	Action                 string // empty = not for this reader
	Version                string
	Changed                []string // what others wrote down since, where it is not what was typed
	Contacts               []ContactRow
	Suppliers              []SupplierRow
	Kit                    string
	KitSpanish             string
	CheckedBy, CheckedWhen []Option // who checks, and when
}

// A ContactRow is an office in the form, with the names of its fields.
type ContactRow struct {
	Title                            string
	NameField, PhoneField, TurnField string // the last is empty for an office that is not on the card
	Name, Phone, Turn                string
}

// A SupplierRow is a kind of equipment in the form.
type SupplierRow struct {
	Kind                                      string
	NameField, PhoneField, ByField, WhenField string
	Name, Phone, By, When                     string
}
