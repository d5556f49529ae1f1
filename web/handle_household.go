package web

import (
	"wellshown/assessment"
)

// household shows who of a child's family can do what.
func (s *Site) household(v *visit) error {
	id, err := pathID[assessment.ClientID](v, "id")
	if err != nil {
		return err
	}
	d, err := s.office.Household(v.ctx(), v.by(), id)
	if err != nil {
		return err
	}
	words := v.words()
	page := HouseholdPage{Frame: v.frame("home"), Client: d.Client.FirstName, Able: d.Able(), Enough: assessment.FamilyEnough, Back: "/clients/" + string(id) + "/readiness"}
	for _, m := range d.Members {
		page.Members = append(page.Members, HouseholdLine{Name: m.Name, Mine: m.Person == d.Me, Holds: m.Holds, All: len(d.Skills)})
	}
	for _, k := range d.Skills {
		row := HouseholdRow{Title: k.Title, Enough: k.Hold >= assessment.FamilyEnough}
		for n, st := range k.Standings {
			cell := HouseholdCell{Name: d.Members[n].Name, SkillStanding: SkillStanding{Standing: string(st.Word), Through: words.ShortDay(st.Through), Since: words.ShortDay(st.Since)}}
			if st.Word == assessment.Due {
				cell.DaysLeft = st.Through.Sub(d.Today)
			}
			if next := st.Next.Phrase(); !st.Word.Holds() && !next.IsZero() {
				cell.Next = words.Say("Needs %s.", next)
			}
			row.Who = append(row.Who, cell)
		}
		page.Skills = append(page.Skills, row)
	}
	return v.show(page)
}
