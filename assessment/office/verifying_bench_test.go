package office_test

import (
	"context"
	"runtime"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment"
	"wellshown/assessment/ledger"
	"wellshown/integration/ward"
)

// million is a ward whose ledger has a million leaves more, each of a row of its own.
func million(b *testing.B) (*ward.Ward, assessment.Actor, assessment.DemonstrationID) {
	keys := ledgerKeys(b, "ward")
	w := ward.New(b, withKeys(keys))
	nan := w.Nurse("Nan Orme")
	v := w.Demonstrate(nan, "humidifier", w.Client("7K", "Tam"))
	owner, err := pgx.Connect(b.Context(), w.DB.OwnerURL)
	if err != nil {
		b.Fatal(err)
	}
	defer owner.Close(b.Context())
	for range 200 {
		if err := pgx.BeginFunc(b.Context(), owner, func(tx pgx.Tx) error { return fiveThousand(b.Context(), tx, keys) }); err != nil {
			b.Fatal(err)
		}
	}
	began := time.Now()
	n, err := w.Office.SealAll(b.Context())
	if err != nil {
		b.Fatal(err)
	}
	b.Logf("%d entries sealed, %.0f a second", n, float64(n)/time.Since(began).Seconds())
	if _, err := owner.Exec(b.Context(), `analyze`); err != nil { // as the server itself does after a while
		b.Fatal(err)
	}
	return w, nan, v.ID
}

// fiveThousand writes as many rows in one transaction, and vouches for them as the
// program does.
func fiveThousand(ctx context.Context, tx pgx.Tx, keys *ledger.Keys) error {
	_, err := tx.Exec(ctx, `insert into journal (agency_id, id, at, act, kind) select a.id, gen_random_uuid(), now(), 'measure', 'million' from agency a, generate_series(1, 5000)`)
	if err != nil {
		return err
	}
	var w ledger.Written
	err = tx.QueryRow(ctx, `select agency_id::text, written_in::text,
			sha256(convert_to(string_agg(row(number, at, actor_id, act, kind, subject, record_sha256)::text, E'\n' order by number), 'UTF8'))
		from ledger_waiting where written_in = pg_current_xact_id() group by 1, 2`).Scan(&w.Agency, &w.In, &w.Digest)
	if err != nil {
		return err
	}
	_, err = tx.Exec(ctx, `insert into ledger_vouching (agency_id, written_in, tag) values ($1, $2::text::xid8, $3)`, w.Agency, w.In, keys.Vouch(w))
	return err
}

// BenchmarkMillion is a ledger of a million leaves: all of it verified from the
// records, and one proof of it.
func BenchmarkMillion(b *testing.B) {
	w, nan, id := million(b)
	b.Run("verify", func(b *testing.B) {
		var most uint64
		for b.Loop() {
			v, err := w.Office.Verify(b.Context())
			if err != nil || v.Found != 0 || v.Leaves < 1_000_000 || v.Records < 1_000_000 {
				b.Fatalf("%+v, %v", v, err)
			}
			var m runtime.MemStats
			runtime.ReadMemStats(&m)
			most = max(most, m.Sys)
		}
		b.ReportMetric(float64(most)/1e6, "MB-from-system")
	})
	b.Run("proof", func(b *testing.B) {
		for b.Loop() {
			if _, err := w.Office.ProofOfDemonstration(b.Context(), nan, id); err != nil {
				b.Fatal(err)
			}
		}
	})
}
