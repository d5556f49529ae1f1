package office_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// After every kind of change the index says what the fold says, on days around it.
func TestTheIndexFollowsEveryChange(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier", "bagging", "cpr-trach")
	edda := w.Educators[0]
	tam := w.Client("8K", "Tam")
	steps := []struct {
		what string
		do   func()
	}{
		{"a pass", func() { w.Demonstrate(nan, "humidifier", mira) }},
		{"a pass with another child", func() { w.Demonstrate(nan, "humidifier", tam) }},
		{"a renewal", func() {
			w.Pass(320 * 24 * time.Hour)
			renewAppointments(t, w)
			w.Demonstrate(nan, "humidifier", mira, ward.SeenBy(w.Educators[0]))
		}},
		{"equipment", func() { w.Equip(mira, "humidifier", "cold bubbles") }},
		{"equipment back-dated", func() {
			must(w.Office.SetEquipment(t.Context(), w.Coordinator, tam, office.EquipmentForm{Kind: "humidifier", Type: "cold bubbles", From: "2026-03-01"}))(t)
		}},
		{"equipment in the future", func() {
			must(w.Office.SetEquipment(t.Context(), w.Coordinator, mira, office.EquipmentForm{Kind: "humidifier", Type: "heated", From: w.Today().AddDays(9).String()}))(t)
		}},
		{"equipment taken away", func() {
			must(w.Office.SetEquipment(t.Context(), w.Coordinator, tam, office.EquipmentForm{Kind: "humidifier", From: w.Today().String()}))(t)
		}},
		{"a pass with the new one", func() { w.Pass(time.Hour); w.Demonstrate(nan, "humidifier", mira) }},
		{"another policy", func() {
			newRevision(t, w, "humidifier", policy("months: 3", "count: 2", "days: 2", "lapse_months: 4"), "")
		}},
		{"a recheck", func() { newRevision(t, w, "humidifier", policy("absence_days: 40"), w.Today().AddDays(20).String()) }},
		{"teaching", func() {
			wantNone(t, w.Office.Log(t.Context(), edda, office.LogForm{Person: nan.Person, Skill: "humidifier", Client: tam, Kind: assessment.TeachingEntry, On: w.Today().String()}))
		}},
		{"practice", func() {
			wantNone(t, w.Office.Log(t.Context(), edda, office.LogForm{Person: nan.Person, Skill: "humidifier", Client: mira, Kind: assessment.PracticeEntry, On: w.Today().String()}))
		}},
		{"a waiver", func() {
			wantNone(t, w.Office.Waive(t.Context(), edda, about(nan, "humidifier", tam), w.Today().AddDays(3).String(), w.Today().AddDays(30).String()))
		}},
		{"a withdrawal", func() {
			wantNone(t, w.Office.Withdraw(t.Context(), edda, about(nan, "humidifier", mira), assessment.Reinstated, true))
		}},
		{"a reinstatement", func() {
			w.Pass(time.Hour)
			wantNone(t, w.Office.Reinstate(t.Context(), edda, withdrawal(t, w, nan, "humidifier", mira), "Seen again.", ward.Proof))
		}},
		{"a failure", func() { w.Demonstrate(nan, "humidifier", mira, ward.Marked(1, assessment.Unsafe)) }},
		{"a pass after it", func() { w.Demonstrate(nan, "humidifier", mira) }},
		{"a pass taken back", func() {
			v := w.Demonstrate(nan, "humidifier", mira)
			wantNone(t, w.Office.CorrectDemonstration(t.Context(), w.Educators[1], v.ID, "Wrong person.", ward.Proof))
		}},
		{"a failure taken back", func() {
			v := w.Demonstrate(nan, "humidifier", mira, ward.Stopped)
			wantNone(t, w.Office.CorrectDemonstration(t.Context(), w.Educators[1], v.ID, "Wrong person.", ward.Proof))
		}},
		{"without a card", func() {
			w.Demonstrate(nan, "bagging", mira)
			w.Demonstrate(nan, "cpr-trach", mira)
		}},
		{"a card", func() { w.Card(nan) }},
		{"a revision retired", func() {
			wantNone(t, w.Office.Retire(t.Context(), edda, inForce(t, w, "humidifier"), ward.Proof))
		}},
		{"leaving", func() { wantNone(t, w.Office.PersonLeaves(t.Context(), w.Coordinator, nan.Person, w.Today())) }},
	}
	for _, s := range steps {
		w.Pass(time.Hour)
		renewAppointments(t, w)
		s.do()
		if n := must(w.Office.Rebuild(t.Context()))(t); len(n.Wrong) != 0 || n.Cases == 0 {
			t.Errorf("after %s the index was wrong for %v", s.what, n.Wrong)
		}
		indexIsTheFold(t, w, nan, s.what)
	}
}

// renewAppointments keeps the educators entitled as years go by.
func renewAppointments(t *testing.T, w *ward.Ward) {
	t.Helper()
	for _, a := range must(w.Office.Appointments(t.Context(), w.Admin))(t) {
		if a.Person == w.Educators[0].Person && a.Open {
			return
		}
	}
	w.Educators[0] = w.Educator("Next Lorne") // a founding appointment is given once
	w.Appoint(w.Educators[0], w.Educators[1], "bagging", "humidifier", "cpr-trach")
}

func inForce(t *testing.T, w *ward.Ward, code string) assessment.RevisionID {
	t.Helper()
	skills, _, err := w.Office.Skills(t.Context(), w.Admin)
	wantNone(t, err)
	for _, s := range skills {
		for _, r := range s.Revisions {
			if s.Code == code && r.State == assessment.InForce {
				return r.ID
			}
		}
	}
	t.Fatalf("nothing of %s is in force", code)
	return ""
}

// indexIsTheFold compares the grid, which reads the index, with the fold.
func indexIsTheFold(t *testing.T, w *ward.Ward, who assessment.Actor, after string) {
	t.Helper()
	for _, ahead := range []int{-400, -1, 0, 1, 10, 25, 45, 100, 400} {
		on := w.Today().AddDays(ahead)
		grid := must(w.Office.Grid(t.Context(), w.Coordinator, office.GridQuery{On: on}))(t)
		for _, row := range grid.Rows {
			if row.Person.ID != who.Person {
				continue
			}
			for i, cell := range row.Cells {
				if !cell.Known {
					continue
				}
				s := w.Standing(who, grid.Skills[i].Code, cell.Client.ID, on)
				if s.Word != cell.Word || s.Through != cell.Through {
					t.Errorf("after %s, on %s: the grid says %s through %s, the fold %s through %s", after, on, cell.Word, cell.Through, s.Word, s.Through)
				}
			}
		}
	}
}

// Rows that somebody has spoiled are found, named and made right.
func TestRebuildFindsWhatIsWrong(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	w.Demonstrate(nan, "humidifier", mira)
	indexIsRight(t, w)
	owner, err := pgx.Connect(t.Context(), w.DB.OwnerURL)
	wantNone(t, err)
	defer owner.Close(t.Context())
	for _, spoil := range []string{
		`update standing_segment set word = 'current' where word = 'due'`,
		`update standing_segment set through_on = through_on + 1`,
		`update standing_segment set since_on = since_on - 1`,
		`delete from standing_segment`,
		`delete from standing_segment where word = 'lapsed'`,
		`insert into standing_segment select agency_id, person_id, skill_id, client_key, '2028-01-01', 'current', '2030-01-01', since_on, 'infinity' from standing_segment limit 1`,
		`update standing_segment set until_on = 'infinity'`,
		`update standing_segment set until_on = until_on - 1 where until_on > from_on and until_on < 'infinity'`,
		`update standing_segment set client_key = '00000000-0000-0000-0000-000000000000'`,
		fmt.Sprintf(`insert into standing_segment select agency_id, '%s', skill_id, client_key, from_on, word, through_on, since_on, until_on from standing_segment`, w.Educators[1].Person),
	} {
		_, err := owner.Exec(t.Context(), spoil)
		wantNone(t, err)
		if n := must(w.Office.Rebuild(t.Context()))(t); len(n.Wrong) == 0 {
			t.Errorf("not found: %s", spoil)
		}
		if s := must(w.Office.StandingsOf(t.Context(), w.Coordinator, nan.Person, civil.Date{}))(t); len(s.Rows) != 1 || !s.Rows[0].Word.Holds() {
			t.Errorf("after %s: %+v", spoil, s.Rows)
		}
		indexIsRight(t, w)
	}
	var rows int
	wantNone(t, owner.QueryRow(t.Context(), `select count(*) from standing_segment where person_id <> $1`, nan.Person).Scan(&rows))
	if rows != 0 {
		t.Errorf("%d rows of somebody of whom nothing is known", rows)
	}
}

// Changes of many kinds at once leave an index that is right, and none has to be
// given up for another.
func TestTheIndexUnderLoad(t *testing.T) {
	t.Parallel()
	w, mira, _ := quick(t, "humidifier")
	var learners []assessment.Actor
	for i := range 6 {
		learners = append(learners, w.Nurse(fmt.Sprintf("Nurse %d", i)))
	}
	var ids []assessment.DemonstrationID
	for _, l := range learners {
		ids = append(ids, w.Demonstrate(l, "humidifier", mira, ward.UnsignedByLearner).ID)
	}
	errs := make([]error, 24)
	draft := must(w.Office.DraftRevision(t.Context(), w.Educators[0], skillOf(t, w, "humidifier")))(t)
	draft = save(t, w, w.Educators[0], draft, policy("months: 3"))
	proposed := must(ward.Propose(t.Context(), w.Office, w.Educators[0], office.PutInForceForm{Revision: draft.ID, Version: draft.Version, Statement: "Read.", RecheckBy: "2026-04-01", Proof: ward.Proof}))(t)
	atOnce(len(errs), func(i int) {
		who := learners[i%6]
		switch i / 6 {
		case 0:
			_, errs[i] = w.Office.Sign(t.Context(), who, office.SignForm{Demonstration: ids[i], Part: office.PartLearner, Proof: ward.Proof})
		case 1:
			f := about(who, "humidifier", mira)
			errs[i] = w.Office.Withdraw(t.Context(), w.Educators[0], f, assessment.Reinstated, true)
		case 2:
			_, errs[i] = w.Office.SetEquipment(t.Context(), w.Coordinator, mira, office.EquipmentForm{Kind: "humidifier", Type: fmt.Sprint("type ", i), From: "2026-03-01"})
		case 3:
			if i == 18 {
				errs[i] = agreeAtLast(t, w, proposed.ID)
				return
			}
			errs[i] = w.Office.Log(t.Context(), w.Coordinator, office.LogForm{Person: who.Person, Skill: "humidifier", Client: mira, Kind: assessment.TeachingEntry, On: "2026-02-01"})
		}
	})
	for i, err := range errs {
		if err != nil {
			t.Errorf("change %d: %v", i, err)
		}
	}
	for _, l := range learners {
		if s := word(t, w, l, "humidifier", mira); s != assessment.Withdrawn {
			t.Errorf("%s: %s", l.Name, s)
		}
	}
	indexIsRight(t, w)
	w.Postgres.Close() // a connection that ends tells the statistics all it knows
	var deadlocks int
	wantNone(t, asOwner(t, w).QueryRow(t.Context(), `select deadlocks from pg_stat_database where datname = current_database()`).Scan(&deadlocks))
	if deadlocks != 0 {
		t.Errorf("%d deadlocks", deadlocks)
	}
}
