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

// segments is where somebody stands in a skill on every day, by the index.
func segments(t *testing.T, owner *pgx.Conn, who assessment.Actor) string {
	t.Helper()
	rows, err := owner.Query(t.Context(), `select from_on || ' ' || word || ' ' || coalesce(through_on::text, '') || ' ' || coalesce(since_on::text, '') from standing_segment
		where person_id = $1 order by skill_id, client_key, from_on`, who.Person)
	wantNone(t, err)
	return fmt.Sprint(must(pgx.CollectRows(rows, pgx.RowTo[string]))(t))
}

// way is one way in which a skill is shown, by chance.
func way(chance *rand.Rand, steps int) []ward.Way {
	switch chance.IntN(8) {
	case 0:
		return []ward.Way{ward.Stopped}
	case 1:
		return []ward.Way{ward.Practice}
	case 2:
		return []ward.Way{ward.Marked(1+chance.IntN(steps), assessment.Unsafe)}
	case 3:
		return nil
	}
	var ways []ward.Way
	for range 1 + chance.IntN(4) {
		ways = append(ways, ward.Marked(1+chance.IntN(steps), assessment.Marks[chance.IntN(len(assessment.Marks))]))
	}
	return ways
}

// The same marks, made online at that instant or taken in from a device, give the same
// standing on every day of the next two years: what is compared is the index of all
// days, which is then held to the fold, and the fold itself on some of them.
func TestADeviceMakesNobodyMoreCurrent(t *testing.T) {
	t.Parallel()
	b := atBedside(t, "humidifier")
	owner, chance := asOwner(t, b.Ward), rand.New(rand.NewPCG(7, 11))
	steps := len(must(b.Office.Checklist(t.Context(), b.Admin, inForce(t, b.Ward, "humidifier")))(t).Checklist.Steps())
	words := map[assessment.StandingWord]int{}
	for n := range 24 {
		begun := b.Now()
		online, offline := b.Nurse(fmt.Sprint("Online ", n)), b.Nurse(fmt.Sprint("Offline ", n))
		for range chance.IntN(3) { // what came before, the same for both at the same instants
			before, at := way(chance, steps), b.Now()
			b.Demonstrate(online, "humidifier", b.child, before...)
			b.At(at)
			b.Demonstrate(offline, "humidifier", b.child, before...)
			b.Pass(time.Duration(chance.IntN(72)) * time.Hour)
		}
		ways, performed := way(chance, steps), b.Now()
		v := b.Demonstrate(online, "humidifier", b.child, append(ways, ward.Unsigned)...)
		s := b.Fill(b.device, offline, "humidifier", b.child, performed, ways...)
		s.Pack = ward.NewID(performed) // taken before, as every pack is
		b.Pass(time.Duration(chance.IntN(60)) * time.Hour)
		r := must(b.Office.Receive(t.Context(), b.device.Owner, b.device.Send(s, b.Now().Add(time.Duration(chance.IntN(8)-4)*time.Minute))))(t)
		if r.Outcome != v.Outcome || !r.PerformedAt.Equal(v.PerformedAt) || fmt.Sprint(r.Result) != fmt.Sprint(v.Result) {
			t.Fatalf("%d: online %s at %v, offline %s at %v", n, v.Outcome, v.PerformedAt, r.Outcome, r.PerformedAt)
		}
		signs := chance.IntN(4)
		for _, d := range []struct {
			v   office.DemonstrationView
			who assessment.Actor
		}{{v, online}, {r, offline}} {
			if signs != 0 {
				b.Sign(b.Educators[0], d.v.ID, office.PartObserver)
			}
			if signs > 1 {
				b.Sign(d.who, d.v.ID, office.PartLearner)
			}
		}
		if x, y := segments(t, owner, online), segments(t, owner, offline); x != y {
			t.Fatalf("%d, begun %v: the same marks\nonline:  %s\noffline: %s", n, begun, x, y)
		}
		b.onSomeDays(online, offline, performed, words)
		b.Pass(time.Hour)
	}
	indexIsRight(t, b.Ward)
	if words[assessment.Current] == 0 || words[assessment.Lapsed] == 0 || words[assessment.Withdrawn] == 0 || words[assessment.Learning] == 0 {
		t.Errorf("too little was compared: %v", words)
	}
}

// onSomeDays compares two by the fold, from before the performance to two years later.
func (b *bedside) onSomeDays(one, other assessment.Actor, performed time.Time, words map[assessment.StandingWord]int) {
	b.t.Helper()
	first := civil.DayOf(performed, b.Zone)
	for _, after := range []int{-1, 0, 1, 2, 3, 30, 305, 364, 365, 366, 730} {
		x, y := b.Standing(one, "humidifier", b.child, first.AddDays(after)), b.Standing(other, "humidifier", b.child, first.AddDays(after))
		words[x.Word]++
		if x.Word != y.Word || x.Through != y.Through || x.Since != y.Since {
			b.t.Errorf("%d days after: online %s through %v, offline %s through %v", after, x.Word, x.Through, y.Word, y.Through)
		}
	}
}

// By a clock that was wrong somebody holds a skill on no day on which they would not by
// either instant at which it may have been performed (the stricter reading, no source).
func TestAWrongClockMakesNobodyMoreCurrent(t *testing.T) {
	t.Parallel()
	b := atBedside(t, "humidifier")
	owner, chance := asOwner(t, b.Ward), rand.New(rand.NewPCG(3, 5))
	refused, taken := 0, 0
	for n := range 16 {
		var nurses [3]assessment.Actor // by the device, at the earlier instant, at the later one
		for i := range nurses {
			nurses[i] = b.Nurse(fmt.Sprint("Nurse ", n, " ", i))
		}
		for range 1 + chance.IntN(3) {
			at := b.Now()
			var before []ward.Way
			if chance.IntN(3) == 0 {
				before = []ward.Way{ward.Marked(1, assessment.Unsafe)}
			}
			for _, who := range nurses {
				b.At(at)
				b.Demonstrate(who, "humidifier", b.child, before...)
			}
			b.Pass(time.Duration(1+chance.IntN(48)) * time.Hour)
		}
		b.Pass(time.Duration(chance.IntN(40)) * time.Hour)
		var ways []ward.Way
		if chance.IntN(2) == 0 {
			ways = []ward.Way{ward.Marked(1, assessment.Unsafe)}
		}
		ahead := time.Duration(chance.IntN(193)-96) * time.Hour
		b.nurse = nurses[0]
		form := b.byClock(ahead, "humidifier", ways...)
		r, err := b.Office.Receive(t.Context(), b.device.Owner, form)
		if err != nil && len(ways) == 0 {
			refused++
			continue
		}
		wantNone(t, err)
		taken++
		instants, received := r.Bedside.Clocks.Instants(), b.Now()
		ids := []assessment.DemonstrationID{r.ID}
		for i, at := range []time.Time{instants[0], instants[len(instants)-1]} {
			b.At(received)
			ids = append(ids, b.online(nurses[i+1], at, ways))
		}
		for i, who := range nurses {
			b.At(received.Add(time.Minute))
			b.Sign(b.Educators[0], ids[i], office.PartObserver)
			b.Sign(who, ids[i], office.PartLearner)
		}
		b.neverKinder(owner, nurses, received, fmt.Sprintf("%d, %v ahead, %v", n, ahead, ways))
		b.Pass(time.Hour)
	}
	if taken < 8 {
		t.Errorf("%d taken in and %d refused: too little was compared", taken, refused)
	}
}

// online shows a skill at an instant of the past.
func (b *bedside) online(who assessment.Actor, at time.Time, ways []ward.Way) assessment.DemonstrationID {
	b.t.Helper()
	s := must(b.Office.Open(b.t.Context(), b.Educators[0], office.OpenForm{Learner: who.Person, Skill: "humidifier", Client: b.child, Place: "at home", Real: true, Formal: true, PerformedAt: at}))(b.t)
	var forms []office.MarkForm
	for _, step := range s.Checklist.Steps() {
		m := assessment.Independent
		if len(ways) > 0 && step.No == 1 {
			m = assessment.Unsafe
		}
		forms = append(forms, ward.Form(b.t, step, s.Parameters, m))
	}
	must(b.Office.MarkAll(b.t.Context(), b.Educators[0], s.ID, forms))(b.t)
	return must(b.Office.Record(b.t.Context(), b.Educators[0], s.ID))(b.t).ID
}

// neverKinder compares the first with both others, from the day it came in on.
func (b *bedside) neverKinder(owner *pgx.Conn, nurses [3]assessment.Actor, received time.Time, what string) {
	b.t.Helper()
	var kinder int
	wantNone(b.t, owner.QueryRow(b.t.Context(), `
		with days as (select ($4::date + n) as day from generate_series(0, 730) n),
		held as (select p.who, d.day, exists (select from standing_segment s where s.person_id = p.id and s.word in ('current', 'due') and s.from_on <= d.day
				and not exists (select from standing_segment l where l.person_id = p.id and l.skill_id = s.skill_id and l.client_key = s.client_key and l.from_on > s.from_on and l.from_on <= d.day)) as holds
			from days d, (values (0, $1::uuid), (1, $2::uuid), (2, $3::uuid)) p (who, id))
		select count(*) from held a where a.who = 0 and a.holds and exists (select from held o where o.day = a.day and o.who > 0 and not o.holds)`,
		nurses[0].Person, nurses[1].Person, nurses[2].Person, civil.DayOf(received, b.Zone).String()).Scan(&kinder))
	if kinder > 0 {
		b.t.Errorf("%s: on %d days somebody holds the skill by the device and would not by one of the instants", what, kinder)
	}
}
