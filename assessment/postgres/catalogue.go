package postgres

import (
	"context"
	_ "embed"
	"fmt"
	"slices"
	"strings"

	"github.com/jackc/pgx/v5"
)

// catalogue is what the migrations of this program make, one line for each thing;
// go test ./integration -run SchemaGolden -update writes it anew.
//
//go:embed catalogue.txt
var catalogue string

// Difference is a rule of the schema by which a database is not the one that this
// program's migrations make.
type Difference struct {
	Rule    string
	Missing bool // the program's, and not the database's; else the other way round
}

// String is the difference in words.
func (d Difference) String() string {
	if d.Missing {
		return "missing: " + d.Rule
	}
	return "in addition: " + d.Rule
}

// Differences holds the database's own rules against those of this program: tables,
// columns, constraints, triggers, policies, functions and rights.
func (d Door) Differences(ctx context.Context) ([]Difference, error) {
	there, err := d.Catalogue(ctx)
	if err != nil {
		return nil, err
	}
	return differences(strings.Split(strings.TrimSpace(catalogue), "\n"), there), nil
}

// Catalogue lists all that the schema public has, one line for each thing, and what
// elsewhere could stand in for it. It asks PostgreSQL's own catalogues, by functions
// of PostgreSQL's own: the path leads nowhere else.
func (d Door) Catalogue(ctx context.Context) ([]string, error) {
	var lines []string
	begin := pgx.TxOptions{BeginQuery: `begin isolation level repeatable read read only; set local search_path = pg_catalog; set local statement_timeout = 0`}
	err := pgx.BeginTxFunc(ctx, d.db.pool, begin, func(tx pgx.Tx) error {
		rows, err := tx.Query(ctx, catalogueQuery)
		if err != nil {
			return err
		}
		lines, err = pgx.CollectRows(rows, pgx.RowTo[string])
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("read the catalogue: %w", err)
	}
	for i, l := range lines {
		lines[i] = oneLine.Replace(l)
	}
	slices.Sort(lines)
	return lines, nil
}

var oneLine = strings.NewReplacer(`\`, `\\`, "\n", `\n`, "\r", `\r`)

// differences compares two lists of rules, each as often as it stands there.
func differences(program, database []string) []Difference {
	count := map[string]int{}
	for _, rule := range program {
		count[rule]++
	}
	var found []Difference
	for _, rule := range database {
		if count[rule]--; count[rule] < 0 {
			found = append(found, Difference{Rule: rule})
		}
	}
	for _, rule := range program {
		if count[rule] > 0 {
			count[rule]--
			found = append(found, Difference{rule, true})
		}
	}
	slices.SortFunc(found, func(a, b Difference) int { return strings.Compare(a.Rule, b.Rule) })
	return found
}
