package assessment

// UnitInWords shows a unit as people write it: "°C" for degC, "per minute" for
// 1/min. Most units stand for themselves.
func UnitInWords(unit string) string { return unitInWords(unit) }

// InWords is the quantity as people write it: "36.5 °C", "24 per minute".
func (q Quantity) InWords() string { return joined(q.Value.String(), unitInWords(q.Unit), false) }
