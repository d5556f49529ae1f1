package office_test

import (
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// keptRules has the agency count in-service hours and keep supervision.
func keptRules(t *testing.T, w *ward.Ward, year assessment.InServiceYear) {
	t.Helper()
	wantNone(t, w.Office.SetPractice(t.Context(), w.Admin, office.PracticeForm{IncidentWithdraws: string(assessment.SkillAndRelated), IncidentByItself: true, InService: true, InServiceHours: "12", InServiceYear: string(year), Supervision: true}))
}

// Hired on 2025-03-15; 6 h on 2025-04-01, 5 h on 2026-02-01, 1 h on 2026-03-20: 11 h by the
// anniversary, short by 1 h (42 CFR 484.80(d) and a letter of New York's Department of Health, the latter read at
// second hand); orientation does not count.
func TestWhoIsShortOfInServiceHours(t *testing.T) {
	t.Parallel()
	w, _, nan := quick(t)
	ada := w.Aide("Ada Lund")
	w.Day("2026-03-14")
	keptRules(t, w, assessment.EmploymentAnniversary)
	v := must(w.Office.InService(t.Context(), w.Coordinator, ""))(t)
	if len(v.Lines) != 1 || v.Lines[0].Counted || !v.On {
		t.Fatalf("without a day of hire: %+v", v.Lines)
	}
	wantNone(t, w.Office.SetHired(t.Context(), w.Coordinator, ada.Person, "2025-03-15"))
	form := func(on, hours string, orientation bool) office.InServiceForm {
		return office.InServiceForm{HeldOn: on, Hours: hours, Topic: "Preventing falls", Trainer: "Ruth Adeyemi", Counts: true, Orientation: orientation, People: []assessment.PersonID{ada.Person, nan.Person}}
	}
	for on, hours := range map[string]string{"2025-04-01": "6", "2026-02-01": "5:00"} {
		must(w.Office.AddSession(t.Context(), w.Educators[0], form(on, hours, false)))(t)
	}
	must(w.Office.AddSession(t.Context(), w.Educators[0], form("2025-03-16", "4,0", true)))(t)
	line := must(w.Office.InService(t.Context(), w.Coordinator, ada.Person))(t).Lines[0]
	if line.Minutes != 660 || line.InService.Short != 60 || line.From.String() != "2025-03-15" || line.Through.String() != "2026-03-14" || !line.Ends || line.Missed != 0 {
		t.Errorf("%+v", line)
	}
	w.Day("2026-03-20")
	last := must(w.Office.AddSession(t.Context(), w.Educators[0], form("2026-03-20", "1", false)))(t)
	line = must(w.Office.InService(t.Context(), w.Coordinator, ada.Person))(t).Lines[0]
	if line.Minutes != 60 || line.Missed != 60 || line.Ends {
		t.Errorf("in the next period: %+v", line)
	}
	wantRefusal(t, w.Office.TakeSessionBack(t.Context(), w.Coordinator, last, ""), fault.Invalid, "reason")
	wantNone(t, w.Office.TakeSessionBack(t.Context(), w.Coordinator, last, "It was another day."))
	wantRefusal(t, w.Office.TakeSessionBack(t.Context(), w.Coordinator, last, "Again."), fault.Conflict, "already")
	v = must(w.Office.InService(t.Context(), w.Coordinator, ""))(t)
	if v.Lines[0].Minutes != 0 || len(v.Sessions) != 4 || !v.Sessions[0].TakenBack || len(v.Sessions[0].People) != 2 {
		t.Errorf("taken back: %+v", v)
	}
}

func TestInServiceRefused(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t)
	good := office.InServiceForm{ID: "0197a1d0-0000-7000-8000-0000000000f8", HeldOn: "2026-02-01", Hours: "1:30", Topic: "Preventing falls", Trainer: "Ruth Adeyemi", People: []assessment.PersonID{nan.Person}}
	for range 2 {
		must(w.Office.AddSession(t.Context(), w.Coordinator, good))(t)
	}
	mother := w.Family("Mina Orr", mira)
	for field, change := range map[string]func(*office.InServiceForm){
		"held_on": func(f *office.InServiceForm) { f.HeldOn = "2026-02-02" }, "topic": func(f *office.InServiceForm) { f.Topic = " " }, "trainer": func(f *office.InServiceForm) { f.Trainer = "" },
		"people": func(f *office.InServiceForm) { f.People = []assessment.PersonID{mother.Person} },
	} {
		wrong := good
		wrong.ID = ""
		change(&wrong)
		_, err := w.Office.AddSession(t.Context(), w.Coordinator, wrong)
		wantRefusal(t, err, fault.Invalid, field)
	}
	for _, hours := range []string{"", "0", "-1", "1.333", "25", "1:60", "1:5", "1.5:30", "0x10", "1e1", "½", "1/2", "1 h", ".", "99999999999999"} {
		wrong := good
		wrong.ID, wrong.Hours = "", hours
		_, err := w.Office.AddSession(t.Context(), w.Coordinator, wrong)
		wantRefusal(t, err, fault.Invalid, "hours")
	}
	other := good
	other.Topic = "Something else"
	_, err := w.Office.AddSession(t.Context(), w.Coordinator, other)
	wantRefusal(t, err, fault.Conflict, "another record")
	_, err = w.Office.AddSession(t.Context(), nan, good)
	wantRefusal(t, err, fault.Forbidden, "role")
}

// With skilled care assessed every 14 days and watched once a year, without every 60 days and
// watched with each child every 6 months: 42 CFR 484.80(h), from memory, the last read at second hand.
func TestWhenAidesAreSupervised(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t)
	theo := w.Client("4B", "Theo")
	ada := w.Aide("Ada Lund")
	w.Join(ada, mira)
	w.Join(ada, theo)
	w.Join(nan, mira)
	keptRules(t, w, assessment.CalendarYear)
	day := w.Today()
	lines := func() map[assessment.ClientID]office.SupervisionLine {
		all := map[assessment.ClientID]office.SupervisionLine{}
		for _, l := range must(w.Office.Supervision(t.Context(), w.Coordinator, "", ""))(t).Lines {
			if l.Aide.ID != ada.Person {
				t.Errorf("%s is no aide", l.Aide.Name)
			}
			all[l.Client.ID] = l
		}
		return all
	}
	if all := lines(); len(all) != 2 || all[mira].Known || !all[mira].Skilled || all[mira].By != day.AddDays(14) || all[mira].WatchBy != day.AddMonths(12) {
		t.Errorf("where nothing is known: %+v", all)
	}
	wantNone(t, w.Office.SetSkilledCare(t.Context(), w.Coordinator, theo, office.SkilledCareForm{From: day.String()}))
	wantNone(t, w.Office.SetSkilledCare(t.Context(), w.Coordinator, mira, office.SkilledCareForm{From: day.String(), Skilled: true, Episodes: day.String()}))
	if all := lines(); all[theo].Skilled || all[theo].By != day.AddDays(60) || all[theo].WatchBy != day.AddMonths(6) || all[mira].By != day.AddDays(14) {
		t.Errorf("as it is set: %+v", all)
	}
	edda := w.Educators[0]
	visit := office.SupervisionForm{Client: mira, Aide: ada.Person, Supervisor: edda.Person, On: day.AddDays(10).String(), How: string(assessment.OnSite), Watched: true}
	w.At(w.Now().AddDate(0, 0, 15))
	if all := lines(); !all[mira].Late || all[theo].Late || all[mira].Unseen {
		t.Errorf("on the fifteenth day: %+v", all)
	}
	made := must(w.Office.AddSupervision(t.Context(), w.Coordinator, visit))(t)
	if all := lines(); all[mira].Late || all[mira].By != day.AddDays(24) || all[mira].WatchBy != day.AddDays(10).AddMonths(12) || !all[theo].Watched.IsZero() {
		t.Errorf("assessed: %+v", all)
	}
	video := visit
	video.How, video.Watched, video.Why, video.On = string(assessment.AudioVideo), false, "The road was closed by a flood.", day.AddDays(11).String()
	must(w.Office.AddSupervision(t.Context(), w.Coordinator, video))(t)
	video.On = day.AddDays(12).String()
	_, err := w.Office.AddSupervision(t.Context(), w.Coordinator, video)
	wantRefusal(t, err, fault.Invalid, "60-day episode")
	for field, change := range map[string]func(*office.SupervisionForm){
		"supervisor": func(f *office.SupervisionForm) { f.Supervisor = w.Coordinator.Person }, "aide": func(f *office.SupervisionForm) { f.Aide = nan.Person },
		"on": func(f *office.SupervisionForm) { f.On = day.AddDays(40).String() }, "found": func(f *office.SupervisionForm) { f.Deficient = true },
		"how": func(f *office.SupervisionForm) { f.How, f.Client, f.Why = string(assessment.AudioVideo), theo, "Snow." },
	} {
		wrong := visit
		wrong.Watched = false
		change(&wrong)
		_, err := w.Office.AddSupervision(t.Context(), w.Coordinator, wrong)
		wantRefusal(t, err, fault.Invalid, field)
	}
	wantNone(t, w.Office.TakeSupervisionBack(t.Context(), w.Coordinator, made))
	wantRefusal(t, w.Office.TakeSupervisionBack(t.Context(), w.Coordinator, made), fault.Conflict, "already")
	if all := lines(); !all[mira].Watched.IsZero() || all[mira].Last != day.AddDays(11) {
		t.Errorf("taken back: %+v", all[mira])
	}
	v := must(w.Office.Supervision(t.Context(), w.Coordinator, ada.Person, mira))(t)
	if len(v.Lines) != 1 || len(v.Visits) != 2 || v.Overdue != 0 || len(v.Care) < 2 {
		t.Errorf("%+v", v)
	}
	if nobody := must(w.Office.Practice(t.Context(), w.Coordinator))(t); !nobody.Supervision || nobody.SetBy.Name != w.Admin.Name || civil.DayOf(nobody.SetAt, w.Zone) != day {
		t.Errorf("%+v", nobody)
	}
}
