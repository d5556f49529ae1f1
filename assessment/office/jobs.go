package office

import (
	"context"
	"fmt"
	"time"

	"wellshown/assessment/postgres"
)

// Work does the jobs that were put off, of every agency, until ctx ends; then it
// finishes what is under way. Any number of programs may work at once.
//
// A new kind of job: a struct of ids, days and numbers with a Kind (postgres.Job),
// the agency's id among them; tx.Jobs.Add(ctx, job) in the transaction that wants it;
// and a line in crew, whose function goes in by the id (o.in or o.reading), does what
// is harmless twice, and answers errors that name nobody.
func (o *Office) Work(ctx context.Context) error {
	if err := o.db.Work(ctx, o.crew()); err != nil {
		return fmt.Errorf("do what was put off: %w", err)
	}
	return nil
}

// crew is who does which kind of job.
func (o *Office) crew() *postgres.Crew {
	crew := postgres.NewCrew()
	postgres.Let(crew, 2*time.Minute, o.send)
	postgres.Let(crew, packetWithin, o.makePacket)
	return crew
}
