package assessment

import (
	"cmp"
	"slices"
	"strings"

	"wellshown/assessment/fault"
	"wellshown/assessment/phrase"
)

// HomePaper is one of the papers that go home with a child. It is also its name in addresses.
type HomePaper string

// The papers.
const (
	EmergencyCard HomePaper = "emergency-card"
	GoBagList     HomePaper = "go-bag-list"
	EquipmentList HomePaper = "equipment-list"
	PowerLetter   HomePaper = "power-letter"
	FireLetter    HomePaper = "fire-letter"
)

// HomePapers lists them, what is needed first at the head.
var HomePapers = []HomePaper{EmergencyCard, GoBagList, EquipmentList, PowerLetter, FireLetter}

// ParseHomePaper reads the name of a paper.
func ParseHomePaper(s string) (HomePaper, error) {
	if p := HomePaper(s); slices.Contains(HomePapers, p) {
		return p, nil
	}
	return "", fault.Of(fault.NotFound, "There is no such paper.")
}

// Phrase is what the paper is called.
func (p HomePaper) Phrase() phrase.Phrase {
	switch p {
	case EmergencyCard:
		return phrase.Of("Emergency card")
	case GoBagList:
		return phrase.Of("Go-bag list")
	case EquipmentList:
		return phrase.Of("Equipment list")
	case PowerLetter:
		return phrase.Of("Letter to the power company")
	}
	return phrase.Of("Letter to the fire and ambulance service")
}

// ContactRole is which office a family calls.
type ContactRole string

// The offices.
const (
	EmergencyNumber  ContactRole = "emergency number"
	EquipmentCompany ContactRole = "equipment company"
	HospitalTeam     ContactRole = "hospital team"
	HomeCareAgency   ContactRole = "home-care agency"
	PowerCompany     ContactRole = "power company"
	FireService      ContactRole = "fire service"
)

// ContactRoles lists them; the first four stand on the emergency card.
var ContactRoles = []ContactRole{EmergencyNumber, HospitalTeam, EquipmentCompany, HomeCareAgency, PowerCompany, FireService}

// OnTheCard reports whether the office stands on the emergency card.
func (r ContactRole) OnTheCard() bool { return r != PowerCompany && r != FireService }

// Phrase names the office to a family.
func (r ContactRole) Phrase() phrase.Phrase {
	switch r {
	case EmergencyNumber:
		return phrase.Of("Local emergency number")
	case EquipmentCompany:
		return phrase.Of("Equipment company, 24 hours")
	case HospitalTeam:
		return phrase.Of("Hospital team")
	case HomeCareAgency:
		return phrase.Of("Home-care agency")
	case PowerCompany:
		return phrase.Of("Power company")
	}
	return phrase.Of("Fire and ambulance service")
}

// HomeContact is an office with its telephone.
type HomeContact struct {
	Role      ContactRole
	Name      string // of the office; may be empty
	Telephone string // empty: not known
	Place     int    // in which turn it is called in an emergency, from 1; 0: not said
}

// CallRule is when help is called, by a child's plan. Family guides differ, so that only the
// plan can say it.
type CallRule string

// The rules.
const (
	CallAtOnce    CallRule = "at once"
	CallAfterOne  CallRule = "after one failed attempt"
	CallOtherwise CallRule = "otherwise" // the plan says it in words of its own
	CallNotSaid   CallRule = ""
)

// CallRuleOf reads what a child's plan says.
func CallRuleOf(words string) CallRule {
	said := strings.ToLower(strings.Trim(strings.TrimSpace(words), ". "))
	switch {
	case !Says(said):
		return CallNotSaid
	case said == string(CallAtOnce), said == "call at once":
		return CallAtOnce
	case said == string(CallAfterOne), said == "call after one failed attempt":
		return CallAfterOne
	}
	return CallOtherwise
}

// AirWay is whether air can pass through a child's mouth and nose.
type AirWay string

// What is ordered of it.
const (
	AirOpen      AirWay = "open"
	AirNone      AirWay = "none"
	AirNotSaid   AirWay = ""
	AirOtherwise AirWay = "otherwise"
)

// AirWayOf reads what is ordered.
func AirWayOf(words string) AirWay {
	said := strings.ToLower(strings.Trim(strings.TrimSpace(words), ". "))
	switch {
	case !Says(said):
		return AirNotSaid
	case said == string(AirOpen):
		return AirOpen
	case said == string(AirNone), said == "no upper airway":
		return AirNone
	}
	return AirOtherwise
}

// HomeEquipment is a kind of equipment that a child has, with who supplies and checks it.
type HomeEquipment struct {
	Kind, Type, Supplier, Telephone string
	CheckedBy                       CheckedBy
	CheckedWhen                     CheckedWhen
}

// HomeRecord is all that the papers say of a child. A size that is nil, or a text that is
// empty, is not known, and never guessed.
type HomeRecord struct {
	FirstName, Code         string
	Tube, SmallTube         *Number // inner diameters in mm
	Catheter, SmallCatheter *Number // in French
	NoSmallerPlan           string
	Call                    CallRule
	CallWords               string // as the plan has it
	Air                     AirWay
	AirWords                string
	KitPlace                phrase.Own
	Contacts                []HomeContact
	Equipment               []HomeEquipment
	BatteryMinutes          *Number // how long the ventilator runs without power, by its maker
}

// Contact is the office of a role; one without telephone where it is not known.
func (r HomeRecord) Contact(role ContactRole) HomeContact {
	i := slices.IndexFunc(r.Contacts, func(c HomeContact) bool { return c.Role == role })
	if i < 0 {
		return HomeContact{Role: role}
	}
	return r.Contacts[i]
}

// Calls are the offices of the emergency card in the order in which they are called. The
// emergency number that is not known stands first, as it is called first where nobody said
// otherwise; others of which no turn is said come last.
func (r HomeRecord) Calls() []HomeContact {
	var all []HomeContact
	for _, role := range ContactRoles {
		if role.OnTheCard() {
			all = append(all, r.Contact(role))
		}
	}
	turn := func(c HomeContact) int {
		switch {
		case c.Place > 0:
			return c.Place
		case c.Role == EmergencyNumber:
			return 0
		}
		return 10
	}
	slices.SortStableFunc(all, func(a, b HomeContact) int { return cmp.Compare(turn(a), turn(b)) })
	return all
}

// Tubes is the kit as it is ordered: a spare of the same size, and the smaller one.
func (r HomeRecord) Tubes() TubeKit {
	k := TubeKit{Plan: r.NoSmallerPlan}
	if r.Tube != nil {
		k.Worn, k.Spares = *r.Tube, []Number{*r.Tube}
	}
	if r.SmallTube != nil {
		k.Spares = append(k.Spares, *r.SmallTube)
	}
	return k
}

// Smaller is the size of the smaller tube, where one smaller than the child's is ordered.
func (r HomeRecord) Smaller() (Number, bool) {
	if r.SmallTube == nil || r.SmallTube.Sign() <= 0 || r.Tube != nil && r.SmallTube.Cmp(*r.Tube) >= 0 {
		return Number{}, false
	}
	return *r.SmallTube, true
}

// Smallest reports that the child wears the smallest tube made, and has none smaller.
func (r HomeRecord) Smallest() bool {
	_, has := r.Smaller()
	return !has && r.Tube != nil && r.Tube.Cmp(SmallestTube) <= 0
}
