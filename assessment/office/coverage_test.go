package office_test

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// Midnight and the nights on which clocks change: IANA, America/Denver, 2026: 02:00 becomes
// 03:00 on 8 March, and comes twice on 1 November.
func TestCoverageWhereClocksChange(t *testing.T) {
	t.Parallel()
	h := newHome(t)
	h.Day("2026-03-02")
	must(h.Office.AddPattern(t.Context(), h.Coordinator, h.pattern(h.nan.Person, "19:00", "07:00", 6)))(t)
	night := func(from string) office.CoverLine {
		d := civil.MustParse(from)
		lines := h.coverage(office.CoverageQuery{From: d.AddDays(1), Through: d.AddDays(1)}).Lines // found on its second day
		if len(lines) != 1 {
			t.Fatalf("%s: %d shifts", from, len(lines))
		}
		return lines[0]
	}
	for day, length := range map[string]time.Duration{"2026-03-07": 11 * time.Hour, "2026-03-14": 12 * time.Hour, "2026-10-31": 13 * time.Hour} {
		if l := night(day); l.Ends.Sub(l.Starts) != length || l.Starts.Format("15:04") != "19:00" || l.Ends.Format("15:04") != "07:00" {
			t.Errorf("%s: from %s until %s", day, l.Starts, l.Ends)
		}
	}
	evening := must(h.Office.AddPattern(t.Context(), h.Coordinator, h.pattern(h.ola.Person, "16:00", "00:00", 7)))(t)
	if v := h.coverage(office.CoverageQuery{From: civil.MustParse("2026-03-09"), Through: civil.MustParse("2026-03-09")}); v.Counts.Shifts != 0 {
		t.Errorf("%s ends at midnight and does not touch Monday: %+v", evening, v.Lines)
	}
	wantNone(t, h.Office.SetRest(t.Context(), h.Coordinator, "9"))
	f := h.pattern(h.ola.Person, "07:00", "08:00", 1) // eight hours after midnight would be 08:00
	wantAtField(t, one(h.Office.AddPattern(t.Context(), h.Coordinator, f)), "short_rest", "7 hours of rest")
}

// What coverage says is what the fold says, on every shift of invented rosters over several
// dates. No published source: it is the fold that is held against.
func TestCoverageIsWhatTheFoldSays(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	skills := []string{"humidifier", "circuit-test"}
	for _, code := range skills {
		newRevision(t, w, code, oneIsEnough, "")
	}
	children := []assessment.ClientID{w.Client("7K", "Mira"), w.Client("8K", "Tam")}
	w.Require("humidifier", assessment.Nurse)
	w.Require("circuit-test", "")
	rng := rand.New(rand.NewPCG(5, 25))
	var people []assessment.Actor
	for i := range 6 {
		people = append(people, w.Nurse(fmt.Sprint("Nurse ", i)))
	}
	for _, p := range people {
		for _, code := range skills {
			for _, c := range children {
				if rng.IntN(4) > 0 {
					w.Award(p, code, c)
				}
			}
		}
	}
	w.Day("2026-06-01")
	for i := range 8 {
		f := office.PatternForm{Client: children[i%2], Person: people[rng.IntN(len(people))].Person, From: fmt.Sprintf("%02d:00", rng.IntN(24)), Until: fmt.Sprintf("%02d:30", rng.IntN(24)), FromOn: "2026-06-01"}
		for d := 1; d <= 7; d++ {
			if rng.IntN(2) == 0 {
				f.Weekdays = append(f.Weekdays, d)
			}
		}
		_, _ = w.Office.AddPattern(t.Context(), w.Coordinator, f) // who is elsewhere at the time is refused
	}
	shifts, covered := 0, 0
	for _, from := range []string{"2026-06-01", "2026-10-28", "2027-01-10", "2027-01-24", "2027-02-07", "2027-03-10"} {
		v := must(w.Office.Coverage(t.Context(), w.Coordinator, office.CoverageQuery{From: civil.MustParse(from)}))(t)
		for _, l := range v.Lines {
			shifts++
			holds := true
			for _, day := range (assessment.Shift{Starts: l.Starts, Ends: l.Ends}).Days(w.Zone) {
				for _, code := range skills {
					s := must(w.Office.Standing(t.Context(), w.Coordinator, l.Person.ID, code, l.Client.ID, day))(t)
					holds = holds && s.Word.Holds()
				}
			}
			if (l.Word == assessment.Covered) != holds {
				t.Errorf("%s of %s with %s: coverage says %s, the fold %t", l.Starts, l.Person.Name, l.Client.Code, l.Word, holds)
			}
			if holds {
				covered++
			}
		}
	}
	t.Logf("%d shifts agree with the fold, %d of them covered", shifts, covered)
	if shifts < 100 || covered < 20 || shifts-covered < 20 {
		t.Errorf("%d shifts, %d covered: too few of some to show anything", shifts, covered)
	}
}

// An early shift of a way home is looked at too, with what its plan names besides.
func TestCoverageOfAWayHome(t *testing.T) {
	t.Parallel()
	h := newHome(t)
	id := assessment.ShiftID(must(h.Office.PlanShift(t.Context(), h.Coordinator, h.mira, office.ShiftForm{Person: h.nan.Person, Starts: "2026-02-03T07:00", Ends: "2026-02-03T19:00"}))(t).ID)
	if l := h.coverage(office.CoverageQuery{}).Lines; len(l) != 1 || l[0].Word != assessment.Covered || l[0].Source != office.OfWayHome {
		t.Errorf("before the plan names a skill: %+v", l)
	}
	must(h.Office.AddCriterion(t.Context(), h.Coordinator, h.mira, office.CriterionForm{Kind: "early shifts", Title: "Shifts", Skills: []string{"circuit-test"}}))(t)
	if d := h.desk(id); d.Word != assessment.Breaks || len(d.Lacks) != 1 || d.Lacks[0].Skill.Code != "circuit-test" {
		t.Errorf("it names one: %+v", d.CoverLine)
	}
	wantAtPerson(t, h.give(id, h.ola.Person, ""), "not current")
	h.add(h.nan.Person, "2026-02-04T07:00", "2026-02-04T19:00")
	wantAtPerson(t, one(h.Office.AddRosterShift(t.Context(), h.Coordinator, h.shift(h.nan.Person, "2026-02-03T18:00", "2026-02-03T20:00"))), "another shift then")
}

// A child or a caregiver who leaves: nobody looks after the one, and the other breaks.
func TestCoverageOfWhoLeaves(t *testing.T) {
	t.Parallel()
	h := newHome(t)
	must(h.Office.AddPattern(t.Context(), h.Coordinator, h.pattern(h.nan.Person, "07:00", "19:00", 1, 2, 3, 4, 5, 6, 7)))(t)
	wantNone(t, h.Office.PersonLeaves(t.Context(), h.Coordinator, h.nan.Person, civil.MustParse("2026-02-05")))
	if v := h.coverage(office.CoverageQuery{}); v.Counts.Covered != 4 || v.Counts.Breaks != 10 || v.First[0].Lacks[0].Why != assessment.HasLeft || v.First[0].Lacks[0].On.String() != "2026-02-05" {
		t.Errorf("a nurse leaves on the 5th: %+v", v.Counts)
	}
	must(h.Office.ClientLeaves(t.Context(), h.Coordinator, h.mira, civil.MustParse("2026-02-07")))(t)
	if v := h.coverage(office.CoverageQuery{}); v.Counts.Shifts != 6 {
		t.Errorf("the child leaves on the 7th: %+v", v.Counts)
	}
}

// BenchmarkCoverage asks for the fourteen days of 10,000 shifts: 500 caregivers, 150
// children, two of the starter skills required; 714 patterns, each on every day.
func BenchmarkCoverage(b *testing.B) {
	w := ward.New(b)
	var clients []assessment.ClientID
	for i := range 150 {
		clients = append(clients, w.Client(fmt.Sprintf("C%d", i), "Child"))
	}
	w.Require("humidifier", assessment.Nurse)
	w.Require("bagging", assessment.Nurse)
	var people []assessment.PersonID
	for i := range 500 {
		p, err := w.Office.AddPerson(b.Context(), w.Coordinator, office.PersonForm{Name: fmt.Sprintf("Nurse %d", i), Kind: "nurse"})
		if err != nil {
			b.Fatal(err)
		}
		people = append(people, p.ID)
	}
	var first assessment.ShiftID
	fill(b, w, clients, people)
	for _, state := range []string{"trouble", "covered", ""} {
		b.Run("state "+state, func(b *testing.B) {
			for b.Loop() {
				v, err := w.Office.Coverage(b.Context(), w.Coordinator, office.CoverageQuery{State: state})
				if err != nil || v.Counts.Shifts < 9900 {
					b.Fatal(v.Counts, err)
				}
				if len(v.Lines) > 0 {
					first = v.Lines[0].ID
				}
			}
		})
	}
	b.Run("stand-ins", func(b *testing.B) {
		for b.Loop() {
			if _, err := w.Office.ShiftDesk(b.Context(), w.Coordinator, first); err != nil {
				b.Fatal(err)
			}
		}
	})
}

// fill has 714 daily patterns, and a year's worth of standings of everybody with everyone,
// written as the owner: through the office it would take minutes.
func fill(b *testing.B, w *ward.Ward, clients []assessment.ClientID, people []assessment.PersonID) {
	owner, err := pgx.Connect(b.Context(), w.DB.OwnerURL)
	if err != nil {
		b.Fatal(err)
	}
	defer owner.Close(b.Context())
	for _, sql := range []string{`
		insert into shift_pattern (agency_id, id, client_id, person_id, kind, weekdays, from_clock, until_clock, from_on, short_rest, added_by, added_at)
		select $1, gen_random_uuid(), ($2::uuid[])[1 + i % 150], ($3::uuid[])[1 + i % 500], '', '{1,2,3,4,5,6,7}', (i / 500) * 720, (i / 500) * 720 + 700, $4, '', $5, now() from generate_series(0, 713) i`, `
		insert into standing_segment (agency_id, person_id, skill_id, client_key, from_on, word, through_on, since_on)
		select $1, p, k.id, case k.scope when 'general' then '00000000-0000-0000-0000-000000000000' else c end, $4::date - 30 * n, case n % 3 when 1 then 'current' when 2 then 'due' else 'lapsed' end, $4::date + 9, $4::date - 300
		from unnest($3::uuid[]) with ordinality u (p, i), unnest($2::uuid[]) with ordinality v (c, j), skill k, generate_series(1, 6) n
		where k.code in ('humidifier', 'bagging') and (k.scope = 'general' and j = 1 or k.scope <> 'general' and (i + j) % 10 = 0) and $5::uuid is not null`} {
		if _, err := owner.Exec(b.Context(), sql, w.Coordinator.Agency, clients, people, w.Today().String(), w.Coordinator.Person); err != nil {
			b.Fatal(err)
		}
	}
	if _, err := owner.Exec(b.Context(), `analyze`); err != nil {
		b.Fatal(err)
	}
}

// Their own shifts of the next 14 days, those they take for a day too, and nobody else's.
func TestComingShiftsOfAPerson(t *testing.T) {
	t.Parallel()
	h := newHome(t)
	id := must(h.Office.AddPattern(t.Context(), h.Coordinator, h.pattern(h.nan.Person, "19:00", "07:00", 1)))(t)
	wantNone(t, h.give(assessment.Pattern{ID: id}.ShiftID(civil.MustParse("2026-02-09")), h.ola.Person, ""))
	h.add(h.ola.Person, "2026-02-03T07:00", "2026-02-03T19:00")
	coming := func(by, of assessment.Actor) string {
		var all string
		for _, l := range must(h.Office.PersonDesk(t.Context(), by, of.Person, civil.Date{}))(t).Coming {
			all += l.Starts.Format("02T15:04") + " " + string(l.Word) + ". "
		}
		return all
	}
	if got := coming(h.Coordinator, h.ola); got != "03T07:00 covered. 09T19:00 covered. " {
		t.Errorf("Ola: %s", got)
	}
	if got := coming(h.nan, h.nan); got != "02T19:00 covered. " {
		t.Errorf("Nan herself: %s", got)
	}
	if got := must(h.Office.PersonDesk(t.Context(), h.Coordinator, h.ola.Person, civil.MustParse("2026-01-31")))(t).Coming; got != nil {
		t.Errorf("on another day: %v", got)
	}
}
