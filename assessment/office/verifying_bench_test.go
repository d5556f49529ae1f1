package office_test

import (
	"runtime"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment"
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
		if err := pgx.BeginFunc(b.Context(), owner, func(tx pgx.Tx) error { return manyAtOnce(b.Context(), tx, keys, 5000) }); err != nil {
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
