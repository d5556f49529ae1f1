package assessment_test

import (
	"encoding/json"
	"math/rand/v2"
	"os"
	"slices"
	"testing"
	"time"

	"wellshown/assessment"
)

// planningFacts reads a file of testdata/planning.
func planningFacts(t *testing.T, file string, into any) {
	t.Helper()
	raw, err := os.ReadFile("testdata/planning/" + file)
	if err == nil {
		err = json.Unmarshal(raw, into)
	}
	if err != nil {
		t.Fatal(err)
	}
}

// TestAssignmentOfThePublishedTable: testdata/planning/assignment.json names its source.
func TestAssignmentOfThePublishedTable(t *testing.T) {
	var facts struct {
		Cases []struct {
			Source  string
			Cost    [][]int
			Columns []int `json:"published_columns"`
			Total   int   `json:"published_total"`
		}
	}
	planningFacts(t, "assignment.json", &facts)
	if len(facts.Cases) == 0 {
		t.Fatal("no case")
	}
	for _, c := range facts.Cases {
		if columns, total := assessment.AssignLeast(c.Cost); total != c.Total || !slices.Equal(columns, c.Columns) {
			t.Errorf("%s: columns %v cost %d", c.Source, columns, total)
		}
	}
}

// leastByTrying tries every way to give rows columns of their own.
func leastByTrying(cost [][]int, taken []bool) int {
	if len(cost) == 0 {
		return 0
	}
	best := 1 << 40
	for j, c := range cost[0] {
		if !taken[j] {
			taken[j] = true
			best = min(best, c+leastByTrying(cost[1:], taken))
			taken[j] = false
		}
	}
	return best
}

// TestAssignmentIsTheLeast: against every way there is, on 1,000 small tables.
func TestAssignmentIsTheLeast(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 23))
	for n := range 1000 {
		rows := rng.IntN(6)
		columns := rows + rng.IntN(3)
		cost := make([][]int, rows)
		for i := range cost {
			cost[i] = make([]int, columns)
			for j := range cost[i] {
				cost[i][j] = rng.IntN(12) - 3
			}
		}
		chosen, total := assessment.AssignLeast(cost)
		sum, taken := 0, make([]bool, columns)
		for i, j := range chosen {
			if taken[j] {
				t.Fatalf("case %d: column %d twice", n, j)
			}
			taken[j] = true
			sum += cost[i][j]
		}
		if want := leastByTrying(cost, make([]bool, columns)); len(chosen) != rows || sum != total || total != want {
			t.Fatalf("case %d: %v costs %d (said: %d), not %d", n, chosen, sum, total, want)
		}
	}
}

// TestShiftsFilledAtOnce: as many as can be filled with another person each, then with the
// fewest hours; against every way there is, on 1,000 small agencies.
func TestShiftsFilledAtOnce(t *testing.T) {
	filled := 0
	for seed := range uint64(1000) {
		r := inventRoster(seed, 5, 2, 2, 14)
		c := r.judged(8 * time.Hour)
		broken := r.shifts[:1+seed%4]
		able := make([]map[assessment.PersonID]time.Duration, len(broken))
		for i, s := range broken {
			able[i] = map[assessment.PersonID]time.Duration{}
			who, _ := c.StandIns(s)
			for _, w := range who {
				able[i][w.Person] = w.Hours
			}
		}
		most, least := fillByTrying(able, map[assessment.PersonID]bool{})
		shared := c.ShareOut(broken)
		hours, seen := time.Duration(0), map[assessment.PersonID]bool{}
		for i, s := range broken {
			if h, taken := shared.Takes[s.ID]; taken {
				own, could := able[i][h.Person]
				if !could || seen[h.Person] {
					t.Fatalf("seed %d: %s cannot take %s", seed, h.Person, s.ID)
				}
				seen[h.Person] = true
				hours += own
			}
		}
		if len(shared.Takes) != most || hours != least || len(shared.None) != len(broken)-most {
			t.Fatalf("seed %d: %d filled by %s, not %d by %s", seed, len(shared.Takes), hours, most, least)
		}
		filled += most
	}
	if filled < 500 {
		t.Errorf("only %d shifts could be filled at all", filled)
	}
}

func fillByTrying(able []map[assessment.PersonID]time.Duration, taken map[assessment.PersonID]bool) (int, time.Duration) {
	if len(able) == 0 {
		return 0, 0
	}
	most, least := fillByTrying(able[1:], taken)
	for p, own := range able[0] {
		if taken[p] {
			continue
		}
		taken[p] = true
		n, hours := fillByTrying(able[1:], taken)
		if n, hours = n+1, hours+own; n > most || n == most && hours < least {
			most, least = n, hours
		}
		taken[p] = false
	}
	return most, least
}
