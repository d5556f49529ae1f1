package assessment

// Household is the family caregivers of one child, side by side: who can do what is
// asked of the family, on one day.
type Household struct {
	Members []HouseholdMember
	Skills  []HouseholdSkill
}

// HouseholdMember is one of the family.
type HouseholdMember struct {
	Person PersonID
	Name   string
	Holds  int // of the skills asked, those held
}

// HouseholdSkill is a skill that is asked of the family, with how each stands in it.
type HouseholdSkill struct {
	Code      string
	Title     string
	Standings []Standing // one a member, in their order
	Hold      int        // members who hold it
}

// FamilyEnough is how many family caregivers a child needs at least, each able to do all
// that is asked: American Thoracic Society 2016, recommendation 3b (two specifically
// trained family caregivers; conditional).
const FamilyEnough = 2

// NewHousehold puts a family together. Standing says how a member stands in a skill;
// what does not hold is not held, a waiver included.
func NewHousehold(members []HouseholdMember, skills []HouseholdSkill, standing func(PersonID, string) (Standing, error)) (Household, error) {
	h := Household{Members: members, Skills: skills}
	for i := range h.Skills {
		k := &h.Skills[i]
		k.Standings, k.Hold = make([]Standing, len(members)), 0
		for n := range h.Members {
			s, err := standing(h.Members[n].Person, k.Code)
			if err != nil {
				return h, err
			}
			if k.Standings[n] = s; s.Word.Holds() {
				k.Hold++
				h.Members[n].Holds++
			}
		}
	}
	return h, nil
}

// Able counts the members who hold every skill that is asked. Where none is asked,
// nobody was seen to do anything.
func (h Household) Able() int {
	able := 0
	for _, m := range h.Members {
		if len(h.Skills) > 0 && m.Holds == len(h.Skills) {
			able++
		}
	}
	return able
}
