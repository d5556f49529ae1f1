package reports

import (
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
)

// winterDay is an invented skills day with two learners: one with everything before her,
// one who has shown bagging and observes at one station herself.
func winterDay(t testing.TB) office.SkillsDayView {
	t.Helper()
	mira := office.ClientRef{ID: "m", FirstName: "Mira", Code: "7K"}
	on := civil.MustParse("2026-11-30")
	v := office.SkillsDayView{SkillsDay: postgres.SkillsDay{ID: "s", HeldOn: on, Name: "Winter skills day", Place: "skills room, second floor"}, At: issued, Zone: denver(t),
		Agency: office.AgencyView{Name: "Larkmoor Home Nursing", Zone: "America/Denver"}}
	bag, suction := assessment.Need{Skill: "bagging"}, assessment.Need{Skill: "suction", Client: "m"}
	core := []assessment.Station{{No: 1, Skill: bag, Title: "Manual ventilation with a bag", Observer: "noor"},
		{No: 2, Skill: suction, Title: "Tracheostomy suctioning", Observer: "zak", First: []assessment.Need{bag}},
		{No: 3, Skill: assessment.Need{Skill: "humidifier", Client: "m"}, Title: "Humidifier: fill, heat and check", Observer: "zak"}}
	for i, name := range []string{"Noor Haddadin", "Łucja Żak", "Łucja Żak"} {
		v.Stations = append(v.Stations, office.StationView{No: i + 1, Skill: office.SkillRef{Title: core[i].Title}, Observer: office.PersonRef{Name: name}, Client: mira})
	}
	add := func(who office.PersonRef, stands map[assessment.Need]assessment.Stand, shown ...postgres.Shown) {
		l := office.LearnerOfDay{Person: who, Cares: []office.ClientRef{mira}}
		for _, visit := range assessment.Round(assessment.Comer{Person: who.ID, Stands: stands}, core) {
			r := office.VisitView{Visit: visit}
			if visit.Station.No == 1 {
				r.Shown = shown
			}
			l.Round = append(l.Round, r)
		}
		v.Learners = append(v.Learners, l)
	}
	stand := func(w assessment.StandingWord, title string) assessment.Stand {
		return assessment.Stand{Title: title, Can: true, Required: true, Standing: assessment.Standing{On: on, Word: w, Through: civil.MustParse("2026-11-18")}}
	}
	add(office.PersonRef{ID: "lan", Name: "Nguyễn Thị Lan", Kind: assessment.Family, Relation: "mother"}, map[assessment.Need]assessment.Stand{
		bag: stand(assessment.NotStarted, core[0].Title), suction: stand(assessment.Lapsed, core[1].Title), core[2].Skill: stand(assessment.Current, core[2].Title)})
	add(office.PersonRef{ID: "zak", Name: "Łucja Żak", Kind: assessment.Nurse}, map[assessment.Need]assessment.Stand{
		bag: stand(assessment.Learning, core[0].Title), suction: stand(assessment.Lapsed, core[1].Title), core[2].Skill: stand(assessment.Waived, core[2].Title)},
		postgres.Shown{Outcome: assessment.Competent, Formal: true, ByObserver: true})
	return v
}

func TestCardsOfASkillsDay(t *testing.T) {
	path := drawn(t, "skills-day", func() (*paper, error) { return skillsDayCards(winterDay(t)) })
	golden(t, "skills-day", path)
	pages := strings.Split(readBack(t, path), "\n---\n")
	if len(pages) != 2 {
		t.Fatalf("%d pages for two learners", len(pages))
	}
	for i, of := range [][2]string{{"Nguyễn Thị Lan", "Łucja Żak\n"}, {"Łucja Żak", "Nguyễn"}} {
		if !strings.Contains(pages[i], of[0]) || strings.Contains(pages[i], of[1]) {
			t.Errorf("page %d is of somebody else, or of two:\n%s", i+1, pages[i])
		}
	}
	says(t, path, "Winter skills day", "30 November 2026, skills room, second floor", "looks after Mira, 7K", "Station 1: Manual ventilation with a bag", "Required, never shown",
		"After station 1, once that is signed.", "Shown: competent, waits for a signature.", "Nobody observes themselves", "A tick on it is no record, and nobody signs here")
}

// Whatever is on the list, each page is one learner's and says whose.
func TestACardOfManyStations(t *testing.T) {
	v := winterDay(t)
	long := v.Learners[0]
	long.Person.Name = strings.Repeat("Maximiliana-Konstantina ", 8)
	for range 4 {
		long.Round = append(long.Round, long.Round[:2]...)
	}
	v.Learners = []office.LearnerOfDay{long, v.Learners[1]}
	pages := strings.Split(readBack(t, drawn(t, "skills-day-long", func() (*paper, error) { return skillsDayCards(v) })), "\n---\n")
	for i, p := range pages {
		if first := strings.Contains(p, "Maximiliana"); first == strings.Contains(p, "Shown: competent") || !first && i < len(pages)-1 {
			t.Errorf("page %d:\n%s", i+1, p)
		}
	}
}

func TestCardsOfNobody(t *testing.T) {
	v := winterDay(t)
	v.Learners = nil
	says(t, drawn(t, "skills-day-empty", func() (*paper, error) { return skillsDayCards(v) }), "Nobody is on the list of this skills day")
	v = winterDay(t)
	v.Learners = v.Learners[:1]
	v.Learners[0].Round = nil
	says(t, drawn(t, "skills-day-nothing", func() (*paper, error) { return skillsDayCards(v) }), "Nothing at these stations is due.")
}
