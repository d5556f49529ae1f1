package office

import "wellshown/assessment"

// emergencies are the starter skills that are drills for emergencies.
var emergencies = map[string]bool{"decannulation": true, "blocked-tube": true, "bagging": true, "alarms-power": true, "cpr-trach": true}

// StandardPlan is what a child's plan for going home begins with, for the skills
// that the family must hold. It follows the American Thoracic Society's 2016
// guideline on chronic home invasive ventilation in children (Sterni et al., Am J
// Respir Crit Care Med 2016), and each plan is edited for its child:
//
//   - two specifically trained family caregivers: table 3, recommendation 3b;
//   - competence in every therapy, and in emergencies: table 5, section 2, and table 6;
//   - resuscitation cards: table 6 (family), table 5, section 4 (professionals);
//   - an independent stay in which the family does everything: table 5, section 2,
//     which gives no hours, so none are set here;
//   - home equipment tried and tolerated for 24 to 48 hours: table 5, section 1;
//   - nine items of equipment, a back-up ventilator among them: recommendation 4c;
//   - stability, follow-up, transport, agreement, home, equipment company, safety
//     plan: tables 3 and 5;
//   - professional caregivers as able as the family, there from the first day:
//     table 5, section 4.
//
// Two cards for two caregivers is common practice, no source.
func StandardPlan(skills []string) []assessment.Criterion {
	var drills []string
	for _, s := range skills {
		if emergencies[s] {
			drills = append(drills, s)
		}
	}
	attested := func(title string) assessment.Criterion {
		return assessment.Criterion{Kind: assessment.Attested, Title: title}
	}
	return []assessment.Criterion{
		{Kind: assessment.FamilyCurrent, Title: "Two family caregivers can do everything", Skills: skills, Count: 2},
		{Kind: assessment.EmergencyDrills, Title: "Two family caregivers can handle emergencies", Skills: drills, Count: 2},
		{Kind: assessment.CardsOnFile, Title: "Two family caregivers have a resuscitation card on file", Count: 2},
		{Kind: assessment.IndependentStay, Title: "The family has done all care by itself, without a break"},
		{Kind: assessment.EquipmentTrial, Title: "The home equipment has been tried on the child", Hours: 24},
		{Kind: assessment.EquipmentHome, Title: "The equipment is at home and checked", Items: []string{
			"ventilator", "back-up ventilator", "batteries", "self-inflating bag and mask", "portable suction unit",
			"heated humidifier", "oxygen for emergencies", "nebuliser", "pulse oximeter"}},
		attested("The child is stable: settings and oxygen unchanged, no recent setback"),
		attested("The home is safe and its power is enough"),
		attested("The equipment company answers day and night and replaces on the same day"),
		attested("Follow-up is arranged, with a family doctor and a breathing specialist"),
		attested("A written emergency plan with telephone numbers hangs by the bed"),
		attested("The family agrees to care alone when no nurse comes, for long times too"),
		attested("The way home and later trips are safe"),
		{Kind: assessment.EarlyShifts, Title: "Every early shift has somebody who can do everything", Skills: skills},
	}
}
