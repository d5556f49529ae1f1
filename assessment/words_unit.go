package assessment

import "wellshown/assessment/phrase"

// UnitInWords shows a unit in English as people write it: "°C" for degC, "per minute"
// for 1/min. Most units stand for themselves.
func UnitInWords(unit string) string { return UnitPhrase(unit).String() }

// UnitPhrase is a unit for the person who reads it: units of measurement are the same in
// every language (SI Brochure, 9th edition, 5.2), what is counted is not. No unit says nothing.
func UnitPhrase(unit string) phrase.Phrase {
	switch unit {
	case "":
		return phrase.Phrase{}
	case "degC":
		return phrase.Text("°C")
	case "1/min":
		return phrase.Of("per minute")
	}
	if _, si := scales[unit]; si || unit == "Fr" || unit == "%" {
		return phrase.Text(unit)
	}
	return phrase.Of("%s", phrase.Step(unit))
}

// InWords is the quantity in English as people write it: "36.5 °C", "24 per minute".
func (q Quantity) InWords() string { return q.Phrase().String() }

// Phrase is the quantity for the person who reads it.
func (q Quantity) Phrase() phrase.Phrase {
	return joined(phrase.Text(q.Value.String()), UnitPhrase(q.Unit), false)
}
