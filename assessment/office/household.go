package office

import (
	"context"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// HouseholdView is a child's family caregivers with what is asked of them today.
type HouseholdView struct {
	assessment.Household
	Client ClientRef
	Today  civil.Date
	Me     assessment.PersonID // the reader
}

// Household answers for today. Caregivers may ask for their own children; of other
// families, and of nurses and aides, nothing is told.
func (o *Office) Household(ctx context.Context, by assessment.Actor, client assessment.ClientID) (HouseholdView, error) {
	var v HouseholdView
	err := o.as(ctx, by, assessment.ReadReadiness, func(tx *postgres.Tx, now Moment) error {
		if err := mayForClient(ctx, tx, now, by, assessment.ReadReadiness, client); err != nil {
			return err
		}
		p, err := o.planned(ctx, tx, now, client, now.Today)
		if err != nil {
			return err
		}
		var members []assessment.HouseholdMember
		for _, m := range p.family {
			members = append(members, assessment.HouseholdMember{Person: m.Person, Name: m.Name})
		}
		v = HouseholdView{Client: ClientRef{p.client.ID, p.client.Code, p.client.FirstName}, Today: now.Today, Me: by.Person}
		v.Household, err = assessment.NewHousehold(members, p.askedOfFamily(), func(person assessment.PersonID, code string) (assessment.Standing, error) {
			return p.standing(person, code, now.Today)
		})
		return err
	})
	return v, err
}

// askedOfFamily lists what is asked of the child's family, by requirements or by the plan
// for going home, in the order in which it is taught.
func (p *planned) askedOfFamily() []assessment.HouseholdSkill {
	asked := p.skills(assessment.FamilyCurrent, assessment.EmergencyDrills)
	for _, n := range p.demands.of(assessment.Family, p.client.ID) {
		asked = append(asked, n.Skill)
	}
	var skills []assessment.HouseholdSkill
	for _, s := range p.book.inOrder() {
		if slices.Contains(asked, s.Code) {
			skills = append(skills, assessment.HouseholdSkill{Code: s.Code, Title: s.Title})
		}
	}
	return skills
}
