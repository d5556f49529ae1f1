package office_test

import (
	"errors"
	"fmt"
	"testing"

	"github.com/jackc/pgx/v5/pgconn"
)

// What is known of a skill that is held per child, and names no child, would be in
// nobody's history: not even the owner of the tables can put it in.
func TestWhatIsHeldPerChildNamesTheChild(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier", "bagging")
	v := w.Demonstrate(nan, "humidifier", mira)
	owner := asOwner(t, w)
	agency, person, by := w.Admin.Agency, nan.Person, w.Educators[0].Person
	insert := map[string]string{
		"withdrawal": `insert into withdrawal (agency_id, id, person_id, skill_id, client_id, at, until, reason, signed_by, printed_name)
			values ('%s', gen_random_uuid(), '%s', '%s', null, now(), 'reinstated', 'Seen.', '%s', 'Ada Minton')`,
		"waiver": `insert into waiver (agency_id, id, person_id, skill_id, client_id, from_on, through_on, reason, at, signed_by, printed_name)
			values ('%s', gen_random_uuid(), '%s', '%s', null, '2026-01-01', '2026-01-02', 'Away.', now(), '%s', 'Ada Minton')`,
		"exposure": `insert into exposure (agency_id, id, person_id, skill_id, client_id, kind, on_day, recorded_at, recorded_by)
			values ('%s', gen_random_uuid(), '%s', '%s', null, 'practice', '2026-01-01', now(), '%s')`,
	}
	refused := func(table string, err error) {
		t.Helper()
		var pg *pgconn.PgError
		if !errors.As(err, &pg) || pg.ConstraintName != "held_per_child_names_the_child" {
			t.Errorf("%s without a child: %v", table, err)
		}
	}
	for table, sql := range insert {
		_, err := owner.Exec(t.Context(), fmt.Sprintf(sql, agency, person, skillOf(t, w, "humidifier"), by))
		refused(table, err)
		if _, err = owner.Exec(t.Context(), fmt.Sprintf(sql, agency, person, skillOf(t, w, "bagging"), by)); err != nil {
			t.Errorf("%s of a general skill: %v", table, err)
		}
	}
	_, err := owner.Exec(t.Context(), `insert into demonstration select (jsonb_populate_record(d, jsonb_build_object('id', gen_random_uuid(), 'client_id', null))).*
		from demonstration d where id = $1`, v.ID)
	refused("demonstration", err)
}
