package assessment

import "wellshown/assessment/phrase"

// CheckedBy is who checks a piece of equipment.
type CheckedBy string

// Who can check.
const (
	CheckedByFamily   CheckedBy = "family"
	CheckedByCarer    CheckedBy = "whoever is on shift"
	CheckedByCompany  CheckedBy = "equipment company"
	CheckedByHospital CheckedBy = "hospital team"
	CheckedByNurse    CheckedBy = "nurse"
)

// CheckedBys lists them.
var CheckedBys = []CheckedBy{CheckedByFamily, CheckedByCarer, CheckedByNurse, CheckedByCompany, CheckedByHospital}

// Phrase names who checks.
func (c CheckedBy) Phrase() phrase.Phrase {
	switch c {
	case CheckedByFamily:
		return phrase.Of("the family")
	case CheckedByCarer:
		return phrase.Of("whoever is on shift")
	case CheckedByNurse:
		return phrase.Of("the nurse")
	case CheckedByCompany:
		return phrase.Of("the equipment company")
	case CheckedByHospital:
		return phrase.Of("the hospital team")
	}
	return phrase.Phrase{}
}

// CheckedWhen is how often a piece of equipment is checked.
type CheckedWhen string

// How often it can be.
const (
	EachShift   CheckedWhen = "each shift and before every trip"
	EachDay     CheckedWhen = "each day"
	EachWeek    CheckedWhen = "each week"
	EachMonth   CheckedWhen = "each month"
	EachYear    CheckedWhen = "each year"
	AsMakerSays CheckedWhen = "as the maker says"
	BeforeUse   CheckedWhen = "before every use"
)

// CheckedWhens lists them.
var CheckedWhens = []CheckedWhen{EachShift, BeforeUse, EachDay, EachWeek, EachMonth, EachYear, AsMakerSays}

// Phrase says how often.
func (c CheckedWhen) Phrase() phrase.Phrase {
	switch c {
	case EachShift:
		return phrase.Of("each shift and before every trip")
	case EachDay:
		return phrase.Of("each day")
	case EachWeek:
		return phrase.Of("each week")
	case EachMonth:
		return phrase.Of("each month")
	case EachYear:
		return phrase.Of("each year")
	case AsMakerSays:
		return phrase.Of("as the maker says")
	case BeforeUse:
		return phrase.Of("before every use")
	}
	return phrase.Phrase{}
}

// EquipmentKind names a kind of equipment to a family: the usual ones in any language, any
// other as the agency wrote it.
func EquipmentKind(kind string) phrase.Phrase {
	switch kind {
	case "circuit":
		return phrase.Of("ventilator circuit")
	case "cough assist":
		return phrase.Of("cough assist")
	case "humidifier":
		return phrase.Of("humidifier")
	case "nebuliser":
		return phrase.Of("nebuliser")
	case "oxygen source":
		return phrase.Of("oxygen source")
	case "pulse oximeter":
		return phrase.Of("pulse oximeter")
	case "suction unit":
		return phrase.Of("suction unit")
	case "tracheostomy tube":
		return phrase.Of("tracheostomy tube")
	case "ventilator":
		return phrase.Of("ventilator")
	}
	return phrase.Of("%s", phrase.Own{English: kind})
}
