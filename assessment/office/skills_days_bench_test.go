package office_test

import (
	"fmt"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// BenchmarkSkillsDay looks at the largest day that can be planned: every skill at two
// stations, 200 learners.
func BenchmarkSkillsDay(b *testing.B) {
	w := ward.New(b)
	mira := w.Client("7K", "Mira")
	form := office.SkillsDayForm{On: w.Today().String(), Name: "Largest", Place: "hall"}
	for i, code := range append(catalog.Codes(), catalog.Codes()...) {
		form.Stations = append(form.Stations, office.StationForm{No: i + 1, Skill: code, Observer: w.Educators[i%2].Person, Client: mira})
	}
	for i := range office.MostLearners {
		p, err := w.Office.AddPerson(b.Context(), w.Coordinator, office.PersonForm{Name: fmt.Sprintf("Nurse %d", i), Kind: string(assessment.Nurse)})
		if err != nil {
			b.Fatal(err)
		}
		form.Learners = append(form.Learners, p.ID)
	}
	day, err := w.Office.PlanSkillsDay(b.Context(), w.Coordinator, form)
	if err != nil {
		b.Fatal(err)
	}
	b.Run("whole", func(b *testing.B) {
		for b.Loop() {
			if _, err := w.Office.SkillsDay(b.Context(), w.Coordinator, day.ID); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("name check", func(b *testing.B) {
		for b.Loop() {
			if _, err := w.Office.NameCheck(b.Context(), w.Educators[0], day.ID, 1, form.Learners[7]); err != nil {
				b.Fatal(err)
			}
		}
	})
}
