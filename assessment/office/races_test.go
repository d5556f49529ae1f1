package office_test

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// waiters waits until so many sessions of this database wait for a lock.
func waiters(t *testing.T, c *pgx.Conn, wanted int) {
	t.Helper()
	for n := 0; n < wanted; {
		wantNone(t, t.Context().Err())
		wantNone(t, c.QueryRow(t.Context(), `select count(*) from pg_stat_activity where datname = current_database() and wait_event_type = 'Lock'`).Scan(&n))
	}
}

// Of leaving and an edit that was begun before, neither loses the other.
func TestLeavingIsNotLostToAnEdit(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	v := w.Demonstrate(nan, "humidifier", mira)
	email, holder, watcher := w.Email(nan), asOwner(t, w), asOwner(t, w)
	tx, err := holder.Begin(t.Context())
	wantNone(t, err)
	_, err = tx.Exec(t.Context(), `select 1 from person where id = $1 for update`, nan.Person)
	wantNone(t, err)
	done := make(chan error, 2)
	go func() { done <- w.Office.PersonLeaves(t.Context(), w.Coordinator, nan.Person, w.Today()) }()
	waiters(t, watcher, 1)
	go func() {
		_, err := edited(t, w, w.Admin, nan.Person, office.PersonForm{Name: "Nan Orme-Hill", Kind: "nurse", Email: email})
		done <- err
	}()
	waiters(t, watcher, 2)
	wantNone(t, tx.Rollback(t.Context()))
	wantNone(t, <-done)
	wantNone(t, <-done)
	p := must(w.Office.Person(t.Context(), w.Admin, nan.Person))(t)
	if c := must(w.Office.Check(t.Context(), v.Certificate.Code))(t); p.LeftOn != w.Today() || p.Name != "Nan Orme-Hill" || c.Holds() {
		t.Errorf("%+v; the certificate holds: %v", p, c.Holds())
	}
}

// One withdrawal is traded for another while a page reads: it says what was before
// or what is after, never what lies between the two.
func TestAReadSeesOneMoment(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	w.Demonstrate(nan, "humidifier", mira)
	w.Pass(time.Hour)
	wantNone(t, w.Office.Withdraw(t.Context(), w.Educators[0], about(nan, "humidifier", mira), assessment.Reinstated, false))
	first := withdrawal(t, w, nan, "humidifier", mira)
	for range 8 { // so that every connection knows its statements
		word(t, w, nan, "humidifier", mira)
	}
	w.Pass(time.Hour)
	holder, watcher := asOwner(t, w), asOwner(t, w)
	tx, err := holder.Begin(t.Context())
	wantNone(t, err)
	_, err = tx.Exec(t.Context(), `lock table reinstatement in access exclusive mode`)
	wantNone(t, err)
	said := make(chan office.StandingView, 1)
	go func() {
		v, err := w.Office.Standing(t.Context(), w.Coordinator, nan.Person, "humidifier", mira, civil.Date{})
		if err != nil {
			t.Error(err)
		}
		said <- v
	}()
	waiters(t, watcher, 1)
	_, err = tx.Exec(t.Context(), `insert into withdrawal (agency_id, id, person_id, skill_id, client_id, at, until, reason, signed_by, printed_name)
		values ($1, '0197a1d0-0000-7000-8000-0000000000f1', $2, $3, $4, $5, 'reinstated', 'Seen again.', $6, 'Ada Minton')`,
		w.Admin.Agency, nan.Person, skillOf(t, w, "humidifier"), mira, w.Now(), w.Admin.Person)
	wantNone(t, err)
	_, err = tx.Exec(t.Context(), `insert into reinstatement (agency_id, id, withdrawal_id, at, reason, signed_by, printed_name)
		values ($1, '0197a1d0-0000-7000-8000-0000000000f2', $2, $3, 'Fine.', $4, 'Edda Lorne')`, w.Admin.Agency, first, w.Now(), w.Educators[0].Person)
	wantNone(t, err)
	wantNone(t, tx.Commit(t.Context()))
	if v := <-said; v.Word != assessment.Withdrawn {
		t.Errorf("withdrawn before and after; said while it changed: %s", v.Word)
	}
	if s := word(t, w, nan, "humidifier", mira); s != assessment.Withdrawn {
		t.Errorf("after: %s", s)
	}
}

// Signatures twice over, corrections, withdrawals, a new revision with a recheck,
// other equipment and practice, all at once, in several rounds: the index is the
// fold.
func TestEverythingAtOnce(t *testing.T) {
	t.Parallel()
	w, mira, _ := quick(t, "humidifier")
	tam := w.Client("8K", "Tam")
	edda := w.Educators[0]
	var who []assessment.Actor
	for i := range 4 {
		who = append(who, w.Nurse(fmt.Sprintf("Nurse %d", i)))
		w.Demonstrate(who[i], "humidifier", tam)
	}
	r := rand.New(rand.NewPCG(7, 7))
	for round := range 5 {
		w.Pass(26 * time.Hour)
		var ids []assessment.DemonstrationID
		for _, n := range who {
			ids = append(ids, w.Demonstrate(n, "humidifier", mira, ward.Unsigned).ID)
		}
		draft := must(w.Office.DraftRevision(t.Context(), edda, skillOf(t, w, "humidifier")))(t)
		draft = save(t, w, edda, draft, policy(fmt.Sprintf("months: %d", 3+round), fmt.Sprintf("absence_days: %d", 20*round)))
		var jobs []func() error
		for i, id := range ids {
			for range 2 {
				jobs = append(jobs,
					func() error { return signAt(t, w, edda, id, office.PartObserver) },
					func() error { return signAt(t, w, who[i], id, office.PartLearner) })
			}
			if i%2 == 0 {
				jobs = append(jobs, func() error {
					return w.Office.CorrectDemonstration(t.Context(), w.Educators[1], id, "wrong", ward.Proof)
				})
			} else {
				jobs = append(jobs, func() error {
					f := about(who[i], "humidifier", mira)
					return w.Office.Withdraw(t.Context(), edda, f, assessment.Redemonstrated, true)
				})
			}
		}
		recheck := w.Today().AddDays(15).String()
		proposed := must(ward.Propose(t.Context(), w.Office, edda, office.PutInForceForm{Revision: draft.ID, Version: draft.Version, Statement: "Read.", RecheckBy: recheck, Proof: ward.Proof}))(t)
		jobs = append(jobs,
			func() error { return agreeAtLast(t, w, proposed.ID) },
			func() error {
				_, err := w.Office.SetEquipment(t.Context(), w.Coordinator, mira, office.EquipmentForm{Kind: "humidifier", Type: fmt.Sprint("type ", round), From: w.Today().AddDays(round - 2).String()})
				return err
			},
			func() error {
				return w.Office.Log(t.Context(), w.Coordinator, office.LogForm{Person: who[round%4].Person, Skill: "humidifier", Client: mira, Kind: assessment.PracticeEntry, On: w.Today().String()})
			})
		r.Shuffle(len(jobs), func(i, j int) { jobs[i], jobs[j] = jobs[j], jobs[i] })
		errs := make([]error, len(jobs))
		atOnce(len(jobs), func(i int) { errs[i] = jobs[i]() })
		for _, err := range errs {
			if k := fault.KindOf(err); err != nil && k != fault.Refused && k != fault.Conflict {
				t.Errorf("round %d: %v", round, err)
			}
		}
		indexIsRight(t, w)
		for _, n := range who {
			indexIsTheFold(t, w, n, fmt.Sprint("round ", round))
		}
	}
}

func signAt(t *testing.T, w *ward.Ward, by assessment.Actor, id assessment.DemonstrationID, part string) error {
	_, err := w.Office.Sign(t.Context(), by, office.SignForm{Demonstration: id, Part: part, Proof: ward.Proof})
	return err
}
