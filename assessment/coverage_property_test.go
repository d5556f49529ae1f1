package assessment_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// roster is an invented agency with its shifts, from a seed.
type roster struct {
	hands    []assessment.Hand
	rules    []assessment.Requirement
	fittings map[assessment.ClientID][]assessment.Fitting
	lines    assessment.StandingLines
	shifts   []assessment.Shift
}

var words = []assessment.StandingWord{assessment.NotStarted, assessment.Learning, assessment.Current, assessment.Due, assessment.Lapsed, assessment.Withdrawn, assessment.Waived}

func inventRoster(seed uint64, people, clients, skills, shifts int) roster {
	rng := rand.New(rand.NewPCG(seed, 5))
	r := roster{fittings: map[assessment.ClientID][]assessment.Fitting{}, lines: assessment.StandingLines{}}
	from := civil.MustParse("2026-02-25")
	day := func() civil.Date { return from.AddDays(rng.IntN(30)) }
	for i := range skills {
		q := assessment.Requirement{ID: assessment.RequirementID(fmt.Sprint(i)), Skill: fmt.Sprint("skill ", i), From: from.AddDays(rng.IntN(12) - 10)}
		if rng.IntN(3) == 0 {
			q.Through = q.From.AddDays(rng.IntN(30))
		}
		if rng.IntN(2) == 0 {
			q.Kind = assessment.CaregiverKinds[rng.IntN(3)]
		}
		if rng.IntN(4) == 0 {
			q.EquipmentKind = "humidifier"
		}
		r.rules = append(r.rules, q)
	}
	for i := range clients {
		id := assessment.ClientID(fmt.Sprint("client ", i))
		a := day()
		r.fittings[id] = []assessment.Fitting{{}, {From: a, Has: assessment.Fitted{"humidifier": "warm"}}, {From: a.AddDays(1 + rng.IntN(5)), Has: assessment.Fitted{"humidifier": ""}}}
	}
	for i := range people {
		p := assessment.PersonID(fmt.Sprint("person ", i))
		h := assessment.Hand{Person: p, Name: fmt.Sprint("Name ", rng.IntN(people)), Kind: assessment.CaregiverKinds[rng.IntN(3)]}
		if rng.IntN(20) == 0 {
			h.Left = day()
		}
		r.hands = append(r.hands, h)
		r.lines[p] = map[assessment.Need][]assessment.Segment{}
		for s := range skills {
			need := assessment.Need{Skill: fmt.Sprint("skill ", s)}
			line := []assessment.Segment{{From: from.AddDays(-20), Word: assessment.Current}}
			for d := from.AddDays(rng.IntN(60)); d.Before(from.AddDays(35)); d = d.AddDays(1 + rng.IntN(20)) {
				line = append(line, assessment.Segment{From: d, Word: words[rng.IntN(len(words))]})
			}
			if s%3 == 0 {
				for c := range clients {
					need.Client = assessment.ClientID(fmt.Sprint("client ", c))
					r.lines[p][need] = line
				}
				continue
			}
			r.lines[p][need] = line
		}
	}
	for i := range shifts {
		starts := from.In(newYork).Add(time.Duration(rng.IntN(30*24*4)) * 15 * time.Minute)
		s := assessment.Shift{ID: assessment.ShiftID(fmt.Sprint(i)), Client: assessment.ClientID(fmt.Sprint("client ", rng.IntN(clients))),
			Starts: starts, Ends: starts.Add(time.Duration(1+rng.IntN(95)) * 15 * time.Minute)}
		if rng.IntN(4) == 0 {
			s.Kind = assessment.CaregiverKinds[rng.IntN(3)]
		}
		if rng.IntN(20) > 0 {
			s.Person = r.hands[rng.IntN(people)].Person
		}
		r.shifts = append(r.shifts, s)
	}
	return r
}

func scopeOfThird(skill string) assessment.Scope {
	var n int
	if _, err := fmt.Sscanf(skill, "skill %d", &n); err == nil && n%3 == 0 {
		return assessment.ClientSpecific
	}
	return assessment.General
}

func (r roster) judged(rest time.Duration) *assessment.Coverage {
	demands := assessment.NewDemands(r.rules, scopeOfThird, r.fittings)
	return assessment.NewCoverage(assessment.Grounds{Zone: newYork, Hands: r.hands, Needs: demands.On, Stands: r.lines.On, Rest: rest}, r.shifts)
}

// plainWord is how somebody stands, read from the first segment to the last.
func (r roster) plainWord(p assessment.PersonID, n assessment.Need, d civil.Date) assessment.StandingWord {
	word := assessment.NotStarted
	for _, s := range r.lines[p][n] {
		if !s.From.After(d) {
			word = s.Word
		}
	}
	return word
}

// plainNeeds asks Needed itself, with the equipment of the day.
func (r roster) plainNeeds(d civil.Date, kind assessment.CaregiverKind, client assessment.ClientID) []assessment.Need {
	c := assessment.Cared{ID: client}
	for _, f := range r.fittings[client] {
		if !f.From.After(d) {
			c.Equipment = nil
			if f.Has["humidifier"] != "" {
				c.Equipment = []string{"humidifier"}
			}
		}
	}
	return assessment.Needed(d, kind, []assessment.Cared{c}, r.rules, scopeOfThird)
}

// plainlyCovered goes through a shift hour by hour.
func (r roster) plainlyCovered(h assessment.Hand, s assessment.Shift) bool {
	for t := s.Starts; t.Before(s.Ends); t = t.Add(15 * time.Minute) {
		d := civil.DayOf(t, newYork)
		needs := r.plainNeeds(d, h.Kind, s.Client)
		if len(needs) == 0 || !h.Left.IsZero() && !d.Before(h.Left) {
			return false
		}
		for _, n := range needs {
			if w := r.plainWord(h.Person, n, d); w != assessment.Current && w != assessment.Due {
				return false
			}
		}
	}
	return true
}

// TestCoverageIsWhatEachQuarterOfAnHourSays: on invented rosters over the start of summer
// time, coverage, the first day and those who could stand in are those of a plain walk.
func TestCoverageIsWhatEachQuarterOfAnHourSays(t *testing.T) {
	tried, covered, could := 0, 0, 0
	for seed := range uint64(40) {
		r := inventRoster(seed, 6, 3, 5, 40)
		rest := time.Duration(seed%4) * 4 * time.Hour
		c := r.judged(rest)
		for _, s := range r.shifts {
			able, not := c.StandIns(s)
			if len(able)+len(not) != len(r.hands) {
				t.Fatalf("%d could and %d could not, of %d", len(able), len(not), len(r.hands))
			}
			for _, h := range r.hands {
				asks := s.Kind
				for _, on := range r.hands {
					if asks == "" && on.Person == s.Person && on.Person != h.Person {
						asks = on.Kind
					}
				}
				plain := (asks == "" || asks == h.Kind) && r.plainlyCovered(h, s)
				if h.Person == s.Person {
					tried++
					if got := c.Of(s); (got.Word == assessment.Covered) != plain {
						t.Fatalf("seed %d, shift %s: %s", seed, s.ID, coverInWords(got))
					}
					if plain {
						covered++
					}
				}
				free := h.Person != s.Person
				for _, o := range r.shifts {
					if o.Person == h.Person && o.ID != s.ID && o.Starts.Before(s.Ends.Add(rest)) && s.Starts.Before(o.Ends.Add(rest)) {
						free = false
					}
				}
				if got := slices.ContainsFunc(able, func(a assessment.StandIn) bool { return a.Person == h.Person }); got != (plain && free) {
					t.Fatalf("seed %d, shift %s: %s could take it: %t", seed, s.ID, h.Person, got)
				} else if got {
					could++
				}
			}
		}
	}
	if covered < 100 || tried-covered < 100 || could < 100 {
		t.Errorf("of %d shifts %d are covered and %d people could take one: too few of some to show anything", tried, covered, could)
	}
}

// TestDemandsAreWhatIsNeeded: what is remembered for a run of days is what Needed says on
// each of them, in whatever order they are asked.
func TestDemandsAreWhatIsNeeded(t *testing.T) {
	for seed := range uint64(50) {
		r := inventRoster(seed, 1, 3, 8, 0)
		demands, rng := assessment.NewDemands(r.rules, scopeOfThird, r.fittings), rand.New(rand.NewPCG(seed, 6))
		for range 300 {
			day, kind := civil.MustParse("2026-02-10").AddDays(rng.IntN(80)), assessment.CaregiverKinds[rng.IntN(3)]
			client := assessment.ClientID(fmt.Sprint("client ", rng.IntN(4))) // the fourth has no equipment and never had
			if got, want := demands.On(day, kind, client), r.plainNeeds(day, kind, client); !slices.Equal(got, want) {
				t.Fatalf("seed %d: a %s of %s needs %v on %s, not %v", seed, kind, client, got, day, want)
			}
		}
	}
}

// BenchmarkCoverage judges 10,000 shifts of an agency with 500 caregivers, 150 clients
// and 30 required skills, from nothing known: the demands too.
func BenchmarkCoverage(b *testing.B) {
	r := inventRoster(1, 500, 150, 30, 10000)
	b.ReportAllocs()
	for b.Loop() {
		if first := assessment.FirstBreaks(r.judged(10 * time.Hour).All(r.shifts)); len(first) == 0 {
			b.Fatal("nothing breaks")
		}
	}
}

// BenchmarkStandIns asks all 500 for one shift, of 10,000.
func BenchmarkStandIns(b *testing.B) {
	r := inventRoster(1, 500, 150, 30, 10000)
	c := r.judged(10 * time.Hour)
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		c.StandIns(r.shifts[i%len(r.shifts)])
	}
}
