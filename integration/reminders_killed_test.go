package integration

import (
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/integration/crowd"
	"wellshown/integration/mailbox"
)

// workers are programs that remind people of a crowd, each a process of its own.
type workers struct {
	t    *testing.T
	path string
	env  []string
}

// run has one work for a while, once it says that it does, and then kills it, as a power
// cut would.
func (w workers) run(d time.Duration) {
	p := exec.Command(w.path, "work")
	p.Env = w.env
	says, err := p.StdoutPipe()
	if err == nil {
		err = p.Start()
	}
	if err != nil {
		w.t.Errorf("start a worker: %v", err)
		return
	}
	if _, err := says.Read(make([]byte, 1)); err != nil {
		w.t.Errorf("a worker does not say that it works: %v", err)
	}
	time.Sleep(d)
	_ = p.Process.Signal(syscall.SIGKILL) // it may be gone already
	_ = p.Wait()
}

// Workers that are killed at any moment tell each person each thing once: every letter
// arrives, those that arrive twice do so under the same id and say the same (RFC 5322,
// section 3.6.4), and together they tell as many things as the report of what is over
// has lines.
func TestRemindersWithWorkersKilled(t *testing.T) {
	t.Parallel()
	c := crowd.New(t, crowd.Size{Caregivers: 70, Children: 25, Skills: 12, Thin: true}, 7)
	box := mailbox.Open(t)
	if err := c.Office.SetReminders(t.Context(), c.Coordinator, office.RemindersForm{On: true, At: "00:00", Lapsed: true}); err != nil {
		t.Fatal(err)
	}
	owner := c.Connect(t)
	if _, err := owner.Exec(t.Context(), `update person set email = 'tardy-' || id || '@home.example', language = case when ascii(left(id::text, 1)) % 2 = 0 then 'es' else 'en' end where kind <> ''`); err != nil {
		t.Fatal(err)
	}
	keys := filepath.Join(t.TempDir(), "ledger-keys")
	if err := os.WriteFile(keys, []byte(c.LedgerKeys), 0o600); err != nil {
		t.Fatal(err)
	}
	w := workers{t, built(t), append(os.Environ(), "DATABASE_URL="+c.DB.OwnerURL, "SERVICE_DATABASE_URL="+c.DB.ServiceURL, "WELLSHOWN_LEDGER_KEYS="+keys,
		fmt.Sprintf("SMTP_URL=smtp://127.0.0.1:%d?tls=none", box.Port), "SMTP_FROM=Wellshown <reminders@shown.example>", "SMTP_TIMEOUT=1")}

	for number(t, owner, `select count(*) from mail_digest`) == 0 { // killed before it has worked out whom to remind, the next one does
		w.run(300 * time.Millisecond)
	}
	var both sync.WaitGroup
	var kills, struck atomic.Int64
	for i := range 2 {
		random, mine := rand.New(rand.NewPCG(uint64(i), 1)), c.Connect(t)
		both.Go(func() {
			for n := 0; n < 100 && !allSent(t, mine); n++ {
				w.run(time.Duration(random.IntN(900)) * time.Millisecond)
				kills.Add(1)
				struck.Add(int64(number(t, mine, `select count(*) from mail_digest where state = 'sending'`)))
			}
		})
	}
	both.Wait()
	if !allSent(t, owner) {
		t.Fatal("letters still wait")
	}
	before := len(box.Letters())
	w.run(time.Second)
	if after := len(box.Letters()); after != before {
		t.Errorf("%d letters more when all was sent", after-before)
	}
	t.Logf("workers killed in the middle of it: %d; letters that were being sent just then, each time counted: %d", kills.Load(), struck.Load())
	told(t, c, owner, box)
}

func allSent(t *testing.T, owner *pgx.Conn) bool {
	t.Helper()
	return number(t, owner, `select count(*) from mail_digest`) > 0 && number(t, owner, `select count(*) from mail_digest where state <> 'sent'`) == 0
}

func number(t *testing.T, owner *pgx.Conn, sql string) int {
	t.Helper()
	n := 0
	if err := owner.QueryRow(t.Context(), sql).Scan(&n); err != nil {
		t.Fatal(err)
	}
	return n
}

// told holds what arrived against what was to be told.
func told(t *testing.T, c *crowd.Crowd, owner *pgx.Conn, box *mailbox.Mailbox) {
	t.Helper()
	report, err := c.Office.Overdue(t.Context(), c.Coordinator, office.OverdueQuery{On: civil.DayOf(time.Now(), c.Zone)})
	if err != nil {
		t.Fatal(err)
	}
	notices, digests := number(t, owner, `select count(*) from notice`), number(t, owner, `select count(*) from mail_digest`)
	texts, things, doubles := map[string]mailbox.Letter{}, 0, 0
	for _, l := range box.Letters() {
		first, known := texts[l.ID]
		switch {
		case known && (first.Text != l.Text || first.To != l.To || first.Subject != l.Subject || first.Date != l.Date):
			t.Errorf("two letters under the id %s: %+v and %+v", l.ID, first, l)
		case known:
			doubles++
		default:
			texts[l.ID] = l
			n := 0
			if _, err := fmt.Sscanf(l.Subject, "Wellshown: %d", &n); err != nil || !strings.HasPrefix(l.To, "tardy-") {
				t.Errorf("not one of ours: %+v", l)
			}
			things += n
		}
	}
	unknown := number(t, owner, `select count(*) from mail_digest where not '<' || message_id || '>' = any('{`+strings.Join(ids(texts), ",")+`}')`)
	t.Logf("notices: %d; letters: %d; deliveries: %d, of them doubles under the same id: %d", notices, digests, len(box.Letters()), doubles)
	if notices != report.Counts.Lapsed || things != notices || len(texts) != digests || unknown > 0 || notices < 200 {
		t.Errorf("over by the report: %d; told: %d; notices: %d; letters that arrived: %d; written: %d; never arrived: %d", report.Counts.Lapsed, things, notices, len(texts), digests, unknown)
	}
}

func ids(letters map[string]mailbox.Letter) []string {
	var all []string
	for id := range letters {
		all = append(all, id)
	}
	return all
}
