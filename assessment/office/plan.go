package office

import (
	"slices"

	"wellshown/assessment"
)

// emergencies are the starter skills that are drills for emergencies.
var emergencies = map[string]bool{"decannulation": true, "blocked-tube": true, "bagging": true, "alarms-power": true, "cpr-trach": true}

const ats = "American Thoracic Society 2016, "

// StandardTemplate is what plans for going home begin with where an agency has no
// template of its own. It follows the American Thoracic Society's 2016 guideline on
// chronic home invasive ventilation in children (Sterni et al., Am J Respir Crit Care
// Med 2016), line by line as each says, and each plan is edited for its child. The
// Spanish is a draft until a qualified translator has reviewed it.
//
// Of the stay in which the family does everything the guideline gives no hours, so none
// are set here. Who may say what is so is common practice, no source.
func StandardTemplate() []assessment.Criterion {
	return slices.Concat(standardCare(), standardHome())
}

// standardCare is what the family can do, and what the child has lived with.
func standardCare() []assessment.Criterion {
	return []assessment.Criterion{
		{Kind: assessment.FamilyCurrent, Title: "Two family caregivers can do everything", Spanish: "Dos familiares pueden hacerlo todo", Count: 2,
			Source: ats + "recommendation 3b and table 5, section 2"},
		{Kind: assessment.EmergencyDrills, Title: "Two family caregivers can handle emergencies", Spanish: "Dos familiares saben actuar en una emergencia", Count: 2,
			Source: ats + "table 5, section 2, and table 6"},
		{Kind: assessment.CardsOnFile, Title: "Two family caregivers have a resuscitation card on file", Spanish: "Dos familiares tienen su tarjeta de reanimación", Count: 2,
			Source: ats + "table 6; that it is two: common practice, no source"},
		{Kind: assessment.IndependentStay, Title: "The family has done all care by itself, without a break", Spanish: "La familia ha dado todos los cuidados sola, sin interrupción",
			Source: ats + "table 5, section 2, which gives no hours: the team plans the number"},
		{Kind: assessment.EquipmentTrial, Title: "The home equipment has been tried on the child", Spanish: "El equipo de casa se ha probado con el niño o la niña", Hours: 24,
			Says: assessment.SaidByClinician, Source: ats + "table 5, section 1: for 24 to 48 hours at least"},
		{Kind: assessment.EquipmentHome, Title: "The equipment is at home and checked", Spanish: "El equipo está en casa y revisado", Items: []string{
			"ventilator", "back-up ventilator", "batteries", "self-inflating bag and mask", "portable suction unit",
			"heated humidifier", "oxygen for emergencies", "nebuliser", "pulse oximeter"}, ItemsSpanish: []string{
			"ventilador", "ventilador de reserva", "baterías", "bolsa de reanimación con mascarilla", "aspirador portátil",
			"humidificador con calor", "oxígeno para emergencias", "nebulizador", "oxímetro de pulso"}, Source: ats + "recommendation 4c"},
	}
}

// standardHome is what somebody says is so, and the shifts.
func standardHome() []assessment.Criterion {
	said := func(title, spanish, source string) assessment.Criterion {
		return assessment.Criterion{Kind: assessment.Attested, Title: title, Spanish: spanish, Source: ats + source}
	}
	stable := said("The child is stable: settings and oxygen unchanged, no recent setback", "El niño o la niña está estable: sin cambios en el ventilador ni en el oxígeno, y sin recaídas", "table 5, section 1")
	stable.Says = assessment.SaidByClinician
	return []assessment.Criterion{
		stable,
		said("The home is safe and its power is enough", "La casa es segura y la luz alcanza para el equipo", "table 5, section 3"),
		said("The equipment company answers day and night, replaces on the same day and visits each month", "La empresa del equipo atiende día y noche, lo cambia el mismo día y visita cada mes", "table 5, section 3"),
		said("Follow-up is arranged, with a family doctor and a breathing specialist", "Hay citas con el médico de cabecera y con el especialista en respiración", "recommendation 1"),
		said("A written emergency plan with telephone numbers hangs by the bed", "Junto a la cama hay un plan de emergencia con teléfonos", "table 5, section 5"),
		said("Somebody trained is always awake with the child, and the family agrees to care alone when no nurse comes, for long times too",
			"Siempre hay alguien capacitado y despierto, y la familia acepta cuidar sola si no llega la enfermera, también por mucho tiempo", "recommendation 3a and table 5, section 2"),
		said("The way home and later trips are safe", "El viaje a casa y los viajes de después son seguros", "table 5, sections 1 and 2"),
		{Kind: assessment.EarlyShifts, Title: "Every early shift has somebody who can do everything", Spanish: "En cada uno de los primeros turnos hay alguien que puede hacerlo todo", Source: ats + "table 5, section 4"},
	}
}

// StandardPlan is what a child's plan begins with by the standard template, for the
// skills that the family must hold.
func StandardPlan(skills []string) []assessment.Criterion {
	return planFrom(StandardTemplate(), skills)
}

// planFrom makes a plan of a template: lines that look at skills and name none look at
// those that the family must hold.
func planFrom(template []assessment.Criterion, skills []string) []assessment.Criterion {
	var drills []string
	for _, s := range skills {
		if emergencies[s] {
			drills = append(drills, s)
		}
	}
	plan := slices.Clone(template)
	for i, c := range plan {
		switch {
		case len(c.Skills) > 0:
		case c.Kind == assessment.EmergencyDrills:
			plan[i].Skills = drills
		case c.Kind == assessment.FamilyCurrent, c.Kind == assessment.EarlyShifts:
			plan[i].Skills = skills
		}
	}
	return plan
}
