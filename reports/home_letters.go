package reports

import "wellshown/assessment"

// power is the letter to the power company. It names no child and no diagnosis; the address
// is not kept here and is written by hand.
func (h homeSheet) power() {
	h.letterhead(h.Say("Somebody in this home depends on electrical breathing equipment"))
	h.addressed(assessment.PowerCompany)
	h.running(big(h.Say("Somebody who lives at the address below depends on electrical breathing equipment, day and night.")))
	h.row(label(h.Say("battery")), sized(readingStyle, h.BatteryMinutes, h.Say("minutes on its battery, by the maker")))
	h.running(big(h.Say("Please:")))
	for _, ask := range []string{h.Say("note this address as a home where breathing depends on power;"), h.Say("tell us before any planned outage, at the telephone below;"),
		h.Say("tell us how long an outage is likely to last;"), h.Say("restore power here as early as you can.")} {
		h.row(words{style: readingStyle, text: "•"}, words{style: readingStyle, text: ask})
	}
	h.byHandInLetter(true)
	h.caution(h.Say("For the family: a letter is no promise of power. Keep every battery charged, and know where you go in a long outage. Never run a generator or an engine indoors."))
}

// fire is the letter to the fire and ambulance service.
func (h homeSheet) fire() {
	h.letterhead(h.Say("Somebody in this home depends on breathing equipment"))
	h.addressed(assessment.FireService)
	h.running(big(h.Say("Somebody who lives at the address below breathes with the help of equipment and may not be able to leave without help.")))
	h.running(big(h.Say("Please note for this address:")))
	h.choices(words{}, words{style: readingStyle, shape: shapeBox, text: h.Say("oxygen is kept in the home")}, words{style: readingStyle, shape: shapeBox, text: h.Say("no oxygen is kept in the home")})
	h.row(words{style: readingStyle, text: "•"}, words{style: readingStyle, text: h.Say("The emergency bag must come along, and the ventilator and its batteries too.")})
	h.row(words{style: readingStyle, text: "•"}, words{style: readingStyle, text: h.Say("Whoever looks after them knows the equipment. Please let one of them ride along.")})
	h.byHandInLetter(false)
	h.caution(h.Say("For the family: in a fire, get out first and call from outside. Ask the fire service to look at your way out with you."))
}

// addressed says to whom the letter goes, on which day.
func (h homeSheet) addressed(role assessment.ContactRole) {
	c := h.Contact(role)
	to := []words{known(style{sansBold, 11, 16, ink}, c.Name)}
	if c.Telephone != "" {
		to = append(to, words{style: readingStyle, text: c.Telephone})
	}
	h.row(label(h.Say("to whom")), to...)
	h.blanks(label(h.Say("day")), h.Say("day on which this letter is sent"))
	h.gap(8)
}

// byHandInLetter are the lines that only hands fill: who lives where is not kept here.
func (h homeSheet) byHandInLetter(account bool) {
	h.gap(10)
	h.blanks(label(h.Say("by hand")), h.Say("name for the account or the door"), h.Say("telephone, day and night"))
	if account {
		h.blanks(label(""), h.Say("street and number, floor, town"), h.Say("number of the account or meter"))
	} else {
		h.blanks(label(""), h.Say("street and number, floor, town"))
	}
	h.blanks(label(h.Say("family")), h.Say("name and signature"), h.Say("day"))
	h.blanks(label(h.Say("clinician")), h.Say("name and licence"), h.Say("signature"), h.Say("day"))
	h.row(words{}, soft(h.Say("This letter gives no diagnosis. Please keep what it says to those who need it.")))
}

func (h homeSheet) caution(said string) {
	h.row(label(h.say.caution), words{style: saidStyle, text: said})
}
