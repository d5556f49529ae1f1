package office_test

import (
	"context"
	"fmt"
	"sync"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// BenchmarkSignOff is one record signed by both, with and without the ledger, by
// one writer and by 32 at once. The passwords of "full" cost what they cost in
// earnest; those of "cheap" next to nothing, so that only the database is seen.
func BenchmarkSignOff(b *testing.B) {
	for _, cost := range []struct {
		name string
		is   office.PasswordCost
	}{{"full", office.PasswordCost{}}, {"cheap", ward.Cheap}} {
		for _, writers := range []int{1, 32} {
			for _, kept := range []bool{false, true} {
				name := fmt.Sprintf("%s/writers=%d/ledger=%v", cost.name, writers, kept)
				b.Run(name, func(b *testing.B) { signOffs(b, cost.is, writers, kept) })
			}
		}
	}
}

func signOffs(b *testing.B, cost office.PasswordCost, writers int, kept bool) {
	w := ward.New(b, withKeys(ledgerKeys(b, "ward")), ward.WithCertificate(func(office.CertificateFacts) ([]byte, error) { return make([]byte, 20_000), nil }),
		func(o *office.Options) { o.PasswordCost = cost })
	signings := toSign(b, w, b.N)
	if !kept {
		unkept(b, w)
	}
	ctx, stop := context.WithCancel(b.Context())
	var sealer sync.WaitGroup
	sealer.Go(func() {
		for kept && ctx.Err() == nil {
			_, _ = w.Office.SealAll(ctx)
			time.Sleep(time.Second)
		}
	})
	b.ResetTimer()
	queue := make(chan func() error)
	var all sync.WaitGroup
	for range writers {
		all.Go(func() {
			for sign := range queue {
				if err := sign(); err != nil {
					b.Error(err)
				}
			}
		})
	}
	for _, sign := range signings {
		queue <- sign
	}
	close(queue)
	all.Wait()
	b.StopTimer()
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "records/s")
	stop()
	sealer.Wait()
}

// unkept takes every table out of the ledger.
func unkept(b *testing.B, w *ward.Ward) {
	owner, err := pgx.Connect(b.Context(), w.DB.OwnerURL)
	if err != nil {
		b.Fatal(err)
	}
	defer owner.Close(b.Context())
	_, err = owner.Exec(b.Context(), `
		do $$ declare t text; begin
			for t in select tgrelid::regclass from pg_trigger where tgname = 'ledger_enters' loop
				execute 'alter table ' || t || ' disable trigger ledger_enters';
			end loop;
		end $$`)
	if err != nil {
		b.Fatal(err)
	}
}
