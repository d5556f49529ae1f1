package crowd

import (
	"slices"
	"testing"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// Every row is one that the schema and its triggers take, and the index is what the
// fold says of them. Two of one seed are alike, two of different seeds are not.
func TestACrowdIsWhatTheSchemaTakes(t *testing.T) {
	t.Parallel()
	c := New(t, Size{Caregivers: 30, Children: 9, Skills: 13, Entered: true}, 1)
	found, err := c.Office.CompareIndex(t.Context())
	if err != nil || len(found.Wrong) > 0 || found.Cases == 0 {
		t.Errorf("%d cases, %d of them wrong in the index, %v", found.Cases, len(found.Wrong), err)
	}
	for _, table := range columns {
		if c.Rows[table.table] == 0 && table.table != "reinstatement" && table.table != "correction" {
			t.Errorf("a crowd has no %s", table.table)
		}
	}
	g, err := c.Office.Grid(t.Context(), c.Coordinator, office.GridQuery{})
	if err != nil {
		t.Fatal(err)
	}
	words := map[assessment.StandingWord]int{}
	for _, row := range g.Rows {
		for _, cell := range row.Cells {
			words[cell.Word]++
		}
	}
	t.Logf("%v of %v", words, c.Rows)
	size := c.Size
	size.Entered = false
	mine := records(t, c)
	if !slices.Equal(records(t, New(t, size, 1)), mine) || slices.Equal(records(t, New(t, size, 2)), mine) {
		t.Error("a seed does not make one agency, or two seeds make the same")
	}
}

// records are the beginnings of the records of a crowd.
func records(t *testing.T, c *Crowd) []string {
	t.Helper()
	rows, err := c.Connect(t).Query(t.Context(), `select learner_id || outcome || performed_at || encode(body_sha256, 'hex') from demonstration order by id`)
	if err != nil {
		t.Fatal(err)
	}
	all, err := pgx.CollectRows(rows, pgx.RowTo[string])
	if err != nil {
		t.Fatal(err)
	}
	return all
}
