package reports

import (
	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/phrase"
	"wellshown/assessment/wording"
)

// The words of the readiness report are for a parent who has slept little: short
// sentences, no terms of the trade. What a line of the plan lacks comes from the core.

// readinessAbout says what the page is for.
func readinessAbout(v office.ReadinessView, w wording.Words) string {
	switch {
	case len(v.Lines) == 0:
		return w.Say("Nobody has written down yet what is needed before %s can go home. Ask the team to make the plan with you.", v.Client.FirstName)
	case v.SignatureStands():
		return w.Say("On this day everything that was planned for %[1]s is in place. The team looks at %[1]s again on the day of going home.", v.Client.FirstName)
	case v.Ready:
		return w.Say("On this day everything that was planned for %[1]s is in place. What comes next: a licensed clinician of the agency reads this plan and signs it. Ask your educator who and when. The team looks at %[1]s again on the day of going home.", v.Client.FirstName)
	}
	return w.Say("This page says what is left before %s can go home, and what to do next. You do not have to do it all at once, and not alone. Ask about anything that is not clear. Bring this page to the next talk about going home.", v.Client.FirstName)
}

// actOf is what somebody of the family can do about a line of a kind.
func actOf(kind assessment.CriterionKind) phrase.Phrase {
	switch kind {
	case assessment.FamilyCurrent:
		return phrase.Of("ask the nurse or therapist for a time to practise, and to show it.")
	case assessment.EmergencyDrills:
		return phrase.Of("ask for time to practise emergencies on the manikin, as often as you need.")
	case assessment.CardsOnFile:
		return phrase.Of("ask where the next resuscitation course is. Bring the card when you have it.")
	case assessment.IndependentStay:
		return phrase.Of("plan the days with the ward. You do all the care, and help is close by.")
	case assessment.EquipmentTrial:
		return phrase.Of("ask the team when the home equipment will be tried.")
	case assessment.EquipmentHome:
		return phrase.Of("call the agency about what has not come. Somebody checks each thing with you.")
	case assessment.EarlyShifts:
		return phrase.Of("ask the agency who will come. Finding them is the agency’s work, not yours.")
	case assessment.Attested:
		return phrase.Of("ask the team who looks at this, and when.")
	}
	return phrase.Phrase{}
}
