package assessment

import "wellshown/assessment/phrase"

// GoBagItem is one thing that a child's go-bag holds.
type GoBagItem struct {
	Step  int // of the starter checklist of the go-bag, which names it
	Says  phrase.Phrase
	Sizes GoBagSize
}

// GoBagSize is which of a child's sizes an item must have.
type GoBagSize int

// Which size.
const (
	AnySize GoBagSize = iota
	TubeSize
	SmallTubeSize
	CatheterSize
	SmallCatheterSize
)

// GoBag lists what a go-bag holds, in the order of the starter checklist. Its contents follow
// the American Thoracic Society's guideline of 2016 (table 6) and the kit lists of SickKids
// and Gillette Children's; a child's team edits them.
func GoBag() []GoBagItem {
	item := func(step int, says phrase.Phrase) GoBagItem { return GoBagItem{Step: step, Says: says} }
	return []GoBagItem{
		{3, phrase.Of("Same-size tube, obturator in, ties on, in date"), TubeSize},
		{4, phrase.Of("Smaller tube, obturator in, ties on, in date"), SmallTubeSize},
		item(5, phrase.Of("Water-soluble gel")),
		item(6, phrase.Of("Blunt scissors and spare ties")),
		item(7, phrase.Of("Breathing bag with masks and tube connection, squeeze-tested")),
		item(8, phrase.Of("Portable suction, switched on, pressure read")),
		item(9, phrase.Of("Suction battery, charged")),
		{10, phrase.Of("Suction catheters"), CatheterSize},
		{10, phrase.Of("Suction catheters for the smaller tube"), SmallCatheterSize},
		item(11, phrase.Of("Hand suction that needs no power")),
		item(12, phrase.Of("Syringe for the cuff, if the tube has one")),
		item(13, phrase.Of("Artificial noses (HME), if ordered")),
		item(14, phrase.Of("Saline, gauze, dressing and swabs, in date")),
		item(15, phrase.Of("Towel roll")),
		item(16, phrase.Of("Oximeter, charged, and a spare probe")),
		item(17, phrase.Of("Oxygen for the trip and back, with some left over, if ordered")),
		item(18, phrase.Of("Ventilator batteries for the trip and back, and the adapter")),
		item(19, phrase.Of("Emergency card, settings card, medicines list, phone numbers")),
		item(20, phrase.Of("Spare circuit parts, and water for the humidifier on long trips")),
		item(21, phrase.Of("Gloves, hand rub and bags")),
		item(22, phrase.Of("Emergency medicines, in date, if ordered")),
	}
}
