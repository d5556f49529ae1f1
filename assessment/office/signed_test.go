package office_test

import (
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

func asOwner(t *testing.T, w *ward.Ward) *pgx.Conn { t.Helper(); return connected(t, w.DB.OwnerURL) }

func connected(t *testing.T, url string) *pgx.Conn {
	t.Helper()
	c := must(pgx.Connect(t.Context(), url))(t)
	t.Cleanup(func() { c.Close(t.Context()) })
	return c
}

// Another agency's people see nothing and change nothing, by any id.
func TestAnotherAgencyReachesNothing(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	v := w.Demonstrate(nan, "humidifier", mira, ward.UnsignedByLearner)
	sheet := opened(t, w, nan, "humidifier", mira)
	admin := must(w.Office.FoundAgency(t.Context(), office.NewAgency{Code: "elsewhere", Name: "Elsewhere", Zone: ward.Zone, AdminName: "Max Roe", AdminEmail: "max@elsewhere.example", AdminPassword: "first words to change"}))(t)
	wantNone(t, w.Office.ChangePassword(t.Context(), admin, "first words to change", ward.Password, ""))
	by := admin
	by.Roles = assessment.Roles
	for what, err := range map[string]error{
		"sign":       sign(t, w, by, v.ID, office.PartLearner),
		"correct":    w.Office.CorrectDemonstration(t.Context(), by, v.ID, "Mine.", ward.Proof),
		"withdraw":   w.Office.Withdraw(t.Context(), by, about(nan, "humidifier", mira), assessment.Reinstated, false),
		"waive":      w.Office.Waive(t.Context(), by, about(nan, "humidifier", mira), "2026-02-01", "2026-02-02"),
		"discard":    w.Office.Discard(t.Context(), by, sheet.ID),
		"equipment":  second(w.Office.SetEquipment(t.Context(), by, mira, office.EquipmentForm{Kind: "humidifier", Type: "x", From: "2026-02-01"})),
		"read":       second(w.Office.Demonstration(t.Context(), by, v.ID)),
		"record":     second(w.Office.Record(t.Context(), by, sheet.ID)),
		"transcript": second(w.Office.Transcript(t.Context(), by, nan.Person, civil.Date{})),
	} {
		if k := fault.KindOf(err); k != fault.NotFound && k != fault.Invalid {
			t.Errorf("%s: %v", what, err)
		}
	}
	if g := must(w.Office.Grid(t.Context(), by, office.GridQuery{}))(t); len(g.Rows) != 0 || len(g.Clients) != 0 {
		t.Errorf("another agency's grid: %+v", g)
	}
	if n := must(w.Office.Rebuild(t.Context()))(t); n.Agencies != 2 || len(n.Wrong) != 0 {
		t.Errorf("%+v", n)
	}
}

func second[T any](_ T, err error) error { return err }

// What is signed cannot be changed by anybody, the owner of the tables included;
// and the service's role sees and writes nothing without naming an agency.
func TestSQLCannotChangeWhatIsSigned(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	w.Demonstrate(nan, "humidifier", mira)
	v := w.Demonstrate(nan, "humidifier", mira, ward.Unsigned)
	wantNone(t, w.Office.Withdraw(t.Context(), w.Educators[0], about(nan, "humidifier", mira), assessment.Reinstated, false))
	w.Pass(time.Minute)
	wantNone(t, w.Office.Reinstate(t.Context(), w.Educators[0], withdrawal(t, w, nan, "humidifier", mira), "Seen.", ward.Proof))
	wantNone(t, w.Office.Waive(t.Context(), w.Educators[0], about(nan, "humidifier", mira), "2026-02-01", "2026-02-02"))
	wantNone(t, w.Office.CorrectDemonstration(t.Context(), w.Educators[0], v.ID, "Wrong child.", ward.Proof))
	w.Card(nan)
	owner, service, named := asOwner(t, w), connected(t, w.DB.ServiceURL), connected(t, w.DB.ServiceURL)
	_, err := named.Exec(t.Context(), `select set_config('app.agency_id', $1, false)`, w.Admin.Agency)
	wantNone(t, err)
	for _, table := range []string{"demonstration", "signature", "withdrawal", "reinstatement", "waiver", "correction", "certificate", "journal",
		"licence", "resuscitation_card", "appointment", "appointment_agreement", "client_equipment", "client_parameter", "force_proposal", "force_proposal_end"} {
		var rows, seen int
		wantNone(t, owner.QueryRow(t.Context(), `select count(*) from `+table).Scan(&rows))
		wantNone(t, service.QueryRow(t.Context(), `select count(*) from `+table).Scan(&seen))
		if rows == 0 || seen != 0 {
			t.Errorf("%s: %d rows, %d of them seen without an agency", table, rows, seen)
		}
		for _, sql := range []string{`update ` + table + ` set agency_id = agency_id`, `delete from ` + table, `truncate ` + table + ` cascade`} {
			if _, err := owner.Exec(t.Context(), sql); err == nil {
				t.Errorf("the owner may %s", sql)
			}
			if _, err := named.Exec(t.Context(), sql); err == nil {
				t.Errorf("the service may %s", sql)
			}
		}
	}
	for _, sql := range []string{
		`update revision set body = '{}', body_sha256 = sha256('{}') where state = 'in force'`,
		`update revision set state = 'draft', in_force_at = null where state <> 'draft'`,
		`update revision set in_force_at = in_force_at - interval '1 year' where state = 'in force'`,
		`delete from revision where state = 'retired'`,
		`insert into signature select agency_id, demonstration_id, 'learner', person_id, printed_name, licence, meaning, signed_at, zone, body_sha256 from signature where part = 'observer'`,
		`insert into signature select agency_id, '` + string(v.ID) + `', part, person_id, printed_name, licence, meaning, signed_at, zone, body_sha256 from signature where part = 'observer'`,
		`insert into reinstatement select agency_id, '01963f7a-0000-7000-8000-0000000000ab', withdrawal_id, at, reason, signed_by, printed_name from reinstatement`,
	} {
		for who, c := range map[string]*pgx.Conn{"the owner": owner, "the service": named} {
			if tag, err := c.Exec(t.Context(), sql); err == nil {
				t.Errorf("%s may, %s: %s", who, tag, sql)
			}
		}
	}
	if _, err := service.Exec(t.Context(), `insert into journal (agency_id, id, at, act, kind) values ($1, gen_random_uuid(), now(), 'x', 'y')`, w.Admin.Agency); err == nil {
		t.Error("the service writes a journal without an agency")
	}
	if _, err := named.Exec(t.Context(), `insert into journal (agency_id, id, at, act, kind) values (gen_random_uuid(), gen_random_uuid(), now(), 'x', 'y')`); err == nil {
		t.Error("the service writes another agency's journal")
	}
}
