package assessment_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

var dayOfStations = civil.MustParse("2026-11-30")

func need(skill string) assessment.Need { return assessment.Need{Skill: skill} }

func stands(words map[string]assessment.StandingWord) map[assessment.Need]assessment.Stand {
	all := map[assessment.Need]assessment.Stand{}
	for skill, w := range words {
		all[need(skill)] = assessment.Stand{Title: strings.ToUpper(skill), Can: true, Required: true,
			Standing: assessment.Standing{On: dayOfStations, Word: w, Through: civil.MustParse("2026-11-01")}}
	}
	return all
}

func numbers(round []assessment.Visit) []int {
	var all []int
	for _, v := range round {
		all = append(all, v.Station.No)
	}
	return all
}

func visitOf(t *testing.T, round []assessment.Visit, no int) assessment.Visit {
	t.Helper()
	i := slices.IndexFunc(round, func(v assessment.Visit) bool { return v.Station.No == no })
	if i < 0 {
		t.Fatalf("no station %d in %+v", no, round)
	}
	return round[i]
}

// Common practice, no source: what comes first is shown first, whatever the numbers on
// the tables say.
func TestStationsInTheirOrder(t *testing.T) {
	stations := []assessment.Station{
		{No: 1, Skill: need("circuit"), Observer: "a", First: []assessment.Need{need("suction"), need("bagging")}},
		{No: 2, Skill: need("suction"), Observer: "b", First: []assessment.Need{need("bagging")}},
		{No: 3, Skill: need("bag check"), Observer: "b"},
		{No: 4, Skill: need("bagging"), Observer: "c"},
	}
	who := assessment.Comer{Person: "l", Stands: stands(map[string]assessment.StandingWord{
		"circuit": assessment.NotStarted, "suction": assessment.Lapsed, "bagging": assessment.Learning, "bag check": assessment.Current})}
	round := assessment.Round(who, stations)
	if got := numbers(round); !slices.Equal(got, []int{4, 2, 1, 3}) {
		t.Errorf("they go to %v", got)
	}
	if v := visitOf(t, round, 1); !slices.Equal(v.First, []int{2, 4}) || v.Cannot != nil {
		t.Errorf("before the circuit comes %v, it cannot: %v", v.First, v.Cannot)
	}
	for _, c := range []struct {
		why           string
		passed, tried map[int]bool
		want          assessment.Onward
	}{
		{"nothing shown", nil, nil, assessment.Onward{Station: 4}},
		{"bagging shown, not signed: the others wait", map[int]bool{4: true}, map[int]bool{4: true}, assessment.Onward{Unsigned: []int{4}}},
		{"bagging not competent: again", nil, map[int]bool{4: true}, assessment.Onward{Station: 4, Again: true}},
	} {
		if got := assessment.GoOn(round, c.passed, c.tried); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: %+v, want %+v", c.why, got, c.want)
		}
	}
	who.Stands[need("bagging")] = assessment.Stand{Standing: assessment.Standing{Word: assessment.Current}}
	if got := assessment.GoOn(assessment.Round(who, stations), map[int]bool{4: true}, map[int]bool{4: true}); got.Station != 2 {
		t.Errorf("once bagging is signed they go to %+v", got)
	}
}

// Each standing asks or does not. What was withdrawn until somebody reinstates it, or on
// the day itself, is shown in vain (the rules of standing, testdata/standing).
func TestWhatIsDueAtAStation(t *testing.T) {
	station := assessment.Station{No: 1, Skill: need("x"), Observer: "o"}
	through := civil.MustParse("2026-11-01")
	for _, c := range []struct {
		stand  assessment.Stand
		asking assessment.Asking
		words  string
		cannot string
	}{
		{assessment.Stand{Standing: assessment.Standing{Word: assessment.Due, Through: civil.MustParse("2026-12-05")}}, assessment.AskedNow, "ends on 2026-12-05", ""},
		{assessment.Stand{Standing: assessment.Standing{Word: assessment.Lapsed, Through: through, On: dayOfStations}}, assessment.AskedNow, "lapsed after 2026-11-01", ""},
		{assessment.Stand{Standing: assessment.Standing{Word: assessment.Withdrawn}}, assessment.AskedNow, "withdrawn", ""},
		{assessment.Stand{Standing: assessment.Standing{Word: assessment.Withdrawn, Next: assessment.Next{Reinstatement: true}}}, assessment.AskedNow, "withdrawn", "must reinstate"},
		{assessment.Stand{Standing: assessment.Standing{Word: assessment.Withdrawn, Next: assessment.Next{LaterDay: true}}}, assessment.AskedNow, "withdrawn", "later day"},
		{assessment.Stand{Standing: assessment.Standing{Word: assessment.Learning}}, assessment.AskedNow, "begun, not yet held", ""},
		{assessment.Stand{Standing: assessment.Standing{Word: assessment.NotStarted}, Required: true}, assessment.AskedNow, "required, never shown", ""},
		{assessment.Stand{Standing: assessment.Standing{Word: assessment.NotStarted}}, assessment.Free, "never shown, not required", ""},
		{assessment.Stand{Standing: assessment.Standing{Word: assessment.Current, Through: civil.MustParse("2027-10-05")}, Required: true}, assessment.Held, "current through 2027-10-05", ""},
		{assessment.Stand{Standing: assessment.Standing{Word: assessment.Waived}, Required: true}, assessment.Excused, "waived", ""},
	} {
		v := assessment.Round(assessment.Comer{Person: "l", Stands: map[assessment.Need]assessment.Stand{need("x"): c.stand}}, []assessment.Station{station})[0]
		if v.Asking != c.asking || v.WhyAsked(civil.Date.String) != c.words || !strings.Contains(strings.Join(v.Cannot, " "), c.cannot) || c.cannot == "" && v.Cannot != nil {
			t.Errorf("%+v: %s, %q, cannot: %v", c.stand, v.Asking, v.WhyAsked(civil.Date.String), v.Cannot)
		}
	}
}

// Nobody observes themselves (the rules of observing); a station that is closed and
// whoever left count for nothing; what comes first and cannot be had stops what follows.
func TestWhatCannotCount(t *testing.T) {
	words := map[string]assessment.StandingWord{"first": assessment.NotStarted, "second": assessment.NotStarted}
	two := func(observer assessment.PersonID, closed string) []assessment.Station {
		return []assessment.Station{{No: 1, Skill: need("first"), Observer: observer, Closed: closed}, {No: 2, Skill: need("second"), Observer: "o", First: []assessment.Need{need("first")}}}
	}
	cannot := func(who assessment.Comer, stations []assessment.Station, no int) string {
		return strings.Join(visitOf(t, assessment.Round(who, stations), no).Cannot, " ")
	}
	me := assessment.Comer{Person: "me", Stands: stands(words)}
	if got := cannot(me, two("me", ""), 1); !strings.Contains(got, "Nobody observes themselves") {
		t.Errorf("at their own station: %q", got)
	}
	if got := cannot(me, two("me", ""), 2); !strings.Contains(got, "FIRST comes first") {
		t.Errorf("behind their own station: %q", got)
	}
	if got := cannot(me, two("o", "No checklist is in force."), 1); got != "No checklist is in force." {
		t.Errorf("at a closed station: %q", got)
	}
	if got := cannot(me, two("o", "")[1:], 2); !strings.Contains(got, "FIRST comes first") {
		t.Errorf("where no station shows it: %q", got)
	}
	never := stands(words)
	never[need("first")] = assessment.Stand{Title: "FIRST", Standing: assessment.Standing{Word: assessment.Learning}}
	if got := cannot(assessment.Comer{Person: "l", Stands: never}, two("o", ""), 2); !strings.Contains(got, "does not become so") {
		t.Errorf("what takes another day: %q", got)
	}
	if got := cannot(assessment.Comer{Person: "l", Gone: "They left.", Stands: stands(words)}, two("o", ""), 1); got != "They left." {
		t.Errorf("who left: %q", got)
	}
	circle := two("o", "")
	circle[0].First = []assessment.Need{need("second")}
	if got := cannot(assessment.Comer{Person: "l", Stands: stands(words)}, circle, 1); !strings.Contains(got, "SECOND comes first") {
		t.Errorf("in a circle: %q", got)
	}
}

// What nobody asks for is asked for where something due rests on it.
func TestWhatComesFirstIsAskedFor(t *testing.T) {
	all := stands(map[string]assessment.StandingWord{"first": assessment.Waived, "second": assessment.Lapsed})
	round := assessment.Round(assessment.Comer{Person: "l", Stands: all}, []assessment.Station{{No: 1, Skill: need("second"), Observer: "o", First: []assessment.Need{need("first")}}, {No: 2, Skill: need("first"), Observer: "o"}})
	if v := round[0]; v.Station.No != 2 || v.Asking != assessment.AskedNow || !v.Leads || v.WhyAsked(civil.Date.String) != "waived; it comes before another that is due" {
		t.Errorf("first they go to %+v: %s", v, v.WhyAsked(civil.Date.String))
	}
}

// Whether a day is enough follows the award of the checklist: how many, on how many
// days, seen by how many (the same terms as testdata/standing).
func TestWhetherADayIsEnough(t *testing.T) {
	on := civil.MustParse("2026-02-10")
	once := oneShown(12, assessment.Anniversary, 60)
	twice := once
	twice.Award.Count, twice.Award.Days = 2, 2
	pair := once
	pair.Award.Count, pair.Award.Observers = 2, 2
	card := once
	card.Validity.CardNeeded = true
	barred := append(shownOn("2026-01-10"), assessment.Entry{Kind: assessment.WithdrawalEntry, ID: "w", Until: assessment.Reinstated, At: civil.MustParse("2026-02-01").In(time.UTC)})
	for _, c := range []struct {
		why       string
		terms     assessment.Terms
		history   []assessment.Entry
		observers []assessment.PersonID
		want      bool
	}{
		{"one is enough", once, nil, []assessment.PersonID{"a"}, true},
		{"nobody observes", once, nil, nil, false},
		{"two days are asked for", twice, nil, []assessment.PersonID{"a", "b"}, false},
		{"the second of two days", twice, shownOn("2026-02-01"), []assessment.PersonID{"a"}, true},
		{"the same day twice", twice, shownOn("2026-02-10"), []assessment.PersonID{"a"}, false},
		{"two observers are asked for, one is there", pair, nil, []assessment.PersonID{"a"}, false},
		{"two observers", pair, nil, []assessment.PersonID{"a", "b"}, true},
		{"no card on file", card, nil, []assessment.PersonID{"a"}, false},
		{"withdrawn until reinstated", once, barred, []assessment.PersonID{"a"}, false},
		{"current already", once, shownOn("2026-01-10"), nil, true},
	} {
		k, err := assessment.NewCase(time.UTC, assessment.Book{Default: c.terms}, nil, c.history)
		if err != nil {
			t.Fatal(err)
		}
		before := k.On(on)
		if got := k.CanHold(on, c.observers); got != c.want {
			t.Errorf("%s: %t, want %t", c.why, got, c.want)
		}
		if after := k.On(on); !reflect.DeepEqual(before, after) {
			t.Errorf("%s: asking changed the answer from %+v to %+v", c.why, before, after)
		}
	}
}
