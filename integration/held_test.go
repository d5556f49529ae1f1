package integration_test

import (
	"regexp"
	"strings"
	"testing"

	"wellshown/assessment/postgres"
	"wellshown/integration/testdb"
)

// notHeld are columns that name a person and are in no download, with why.
var notHeld = map[string]string{
	"passkey_owner.person_id": "a random number that stands for the person at their own devices, and tells nothing of them",
}

// namesPeople finds every column that refers to a person, and every one that by
// its name tells who did something without referring to one.
const namesPeople = `
	select distinct c.relname || '.' || a.attname from pg_class c
	join pg_attribute a on a.attrelid = c.oid and a.attnum > 0 and not a.attisdropped
	left join pg_constraint k on k.conrelid = c.oid and k.contype = 'f' and k.confrelid = 'person'::regclass and a.attnum = any(k.conkey)
	where c.relkind = 'r' and c.relnamespace = 'public'::regnamespace and a.attname <> 'agency_id'
	and (k.oid is not null or a.atttypid = 'uuid'::regtype and a.attname ~ '(_by|person_id|learner_id|observer_id|actor_id)$' or a.attname = 'subject')
	order by 1`

// A person may read all that is held about them (no published source for the list
// of tables: it is the schema itself that is walked).
func TestEveryColumnThatNamesAPersonIsInTheirDownload(t *testing.T) {
	t.Parallel()
	covered := map[string]bool{"person.id": true}
	for _, p := range postgres.HeldParts() {
		for _, column := range p.Named {
			covered[p.Table+"."+column] = true
		}
	}
	columns := lines(t, connectTo(t, testdb.New(t).OwnerURL), namesPeople)
	if len(columns) < 45 {
		t.Fatalf("only %d columns name people: this looks at the wrong thing", len(columns))
	}
	for _, column := range columns {
		if !covered[column] && notHeld[column] == "" {
			t.Errorf("%s names a person, and no part of their download holds it: add it to assessment/postgres/held_parts.go, or say in notHeld why not", column)
		}
	}
}

// What is secret, or the hash of it, is in no part: columns that hold such things
// are known by their names and by being bytes.
func TestNoPartOfADownloadIsSecret(t *testing.T) {
	t.Parallel()
	db := connectTo(t, testdb.New(t).OwnerURL)
	secret := regexp.MustCompile(`hash$|sealed|public_key|credential_id|handle|state|bound`)
	for _, p := range postgres.HeldParts() {
		if strings.Contains(p.Columns, "*") {
			t.Errorf("%s names its columns one by one", p.Name)
		}
		for _, column := range strings.Split(p.Columns, ", ") {
			if secret.MatchString(column) {
				t.Errorf("%s hands out %s.%s", p.Name, p.Table, column)
			}
			kinds := lines(t, db, `select format_type(atttypid, null) from pg_attribute where attrelid = $1::regclass and attname = $2`, p.Table, column)
			if len(kinds) == 1 && kinds[0] == "bytea" {
				t.Errorf("%s hands out the bytes of %s.%s", p.Name, p.Table, column)
			}
		}
	}
}
