package office_test

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/mailing"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/integration/ward"
)

// outbox is where mail of a ward goes in these tests.
type outbox struct {
	mu      sync.Mutex
	letters []mailing.Letter
	answer  func(mailing.Letter) error
}

func (b *outbox) send(_ context.Context, l mailing.Letter) error {
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.answer != nil {
		if err := b.answer(l); err != nil {
			return err
		}
	}
	b.letters = append(b.letters, l)
	return nil
}

func (b *outbox) mail(o *office.Options) { o.Mail = &office.Mail{Send: b.send, Within: time.Second} }

func (b *outbox) sent() int { b.mu.Lock(); defer b.mu.Unlock(); return len(b.letters) }

// told says what letters tell whom, by day.
func told(on civil.Date, to string, c assessment.NoticeCounts) string {
	return fmt.Sprintf("%s %s: %d due, %d over, %d unplanned, %d on the roster", on, to, c.Due, c.Lapsed, c.Unplanned, c.Rostered)
}

// reminded sets the clock to eight of a day and has it worked out whom to remind.
func (v visiting) reminded(t *testing.T, on civil.Date) {
	t.Helper()
	v.At(on.At(8*60, v.Zone))
	wantNone(t, v.Office.Remind(t.Context()))
}

func (v visiting) desk(t *testing.T) office.RemindersDesk {
	t.Helper()
	return must(v.Office.Reminders(t.Context(), v.Coordinator, office.RemindersQuery{Back: 400}))(t)
}

// lettersOf are what was written, oldest first.
func lettersOf(d office.RemindersDesk) []string {
	var all []string
	for _, l := range d.Letters {
		all = append(all, told(l.FallsOn, l.To.Name, l.Counts()))
	}
	slices.Sort(all)
	return all
}

// What the page says will be sent in the days to come is what is then sent, whatever is
// planned, waived or rostered meanwhile, and all of it once (no published source: it is
// what the page promises).
func TestWhatWillBeSentIsWhatIsSent(t *testing.T) {
	t.Parallel()
	v := newVisiting(t, new(outbox).mail)
	day := civil.MustParse
	meanwhile := map[civil.Date]func(){
		day("2026-06-24"): func() {
			must(v.Office.PlanVisit(t.Context(), v.Coordinator, office.VisitForm{On: "2026-07-02", Client: v.mira, Educator: v.Educators[0].Person}))(t)
		},
		day("2026-07-08"): func() {
			must(v.Office.AddPattern(t.Context(), v.Coordinator, office.PatternForm{Client: v.mira, Person: v.nan.Person, Weekdays: []int{1}, From: "08:00", Until: "12:00", FromOn: "2026-07-20"}))(t)
		},
	}
	var promised []string
	first := day("2026-05-27")
	for on := first; on.Before(day("2026-07-22")); on = on.AddDays(1) {
		if on.Sub(first)%office.RemindersAhead == 0 {
			v.At(on.At(6*60, v.Zone))
			if do := meanwhile[on]; do != nil {
				do()
			}
			for _, c := range v.desk(t).Coming {
				for _, l := range c.Letters {
					if c.On.Sub(on) < office.RemindersAhead {
						promised = append(promised, told(c.On, l.To.Name, l.Counts))
					}
				}
			}
		}
		v.reminded(t, on)
		v.reminded(t, on) // the second time there is nothing to do
	}
	// On the visit of 2 July nothing was shown, which nobody could foresee.
	promised = append(promised, "2026-07-03 Cory Vance: 0 due, 0 over, 2 unplanned, 0 on the roster")
	slices.Sort(promised)
	sent := lettersOf(v.desk(t))
	if len(sent) < 10 || !slices.Equal(sent, promised) {
		t.Errorf("sent:\n%s\npromised:\n%s", strings.Join(sent, "\n"), strings.Join(promised, "\n"))
	}
	for _, want := range []string{
		"2026-06-05 Nan Poe: 1 due, 0 over, 0 unplanned, 0 on the roster",    // held through 5 July
		"2026-06-29 Cory Vance: 0 due, 0 over, 1 unplanned, 0 on the roster", // Ola's, through 6 July; Nan's is seen on the visit
		"2026-07-06 Nan Poe: 0 due, 1 over, 0 unplanned, 0 on the roster",    // nobody came
		"2026-07-08 Ada Minton: 0 due, 0 over, 0 unplanned, 1 on the roster", // who is on the roster from this day on
		"2026-07-11 Cory Vance: 0 due, 0 over, 0 unplanned, 1 on the roster", // the other one
	} {
		if !slices.Contains(sent, want) {
			t.Errorf("not sent: %s\nsent:\n%s", want, strings.Join(sent, "\n"))
		}
	}
	t.Logf("%d letters, as promised", len(sent))
}

// Who is not there any more, what is waived and what nobody asks for any more is not told,
// and who has no address is named on the page instead.
func TestWhoIsNotReminded(t *testing.T) {
	t.Parallel()
	v := newVisiting(t, new(outbox).mail)
	v.Day("2026-05-01")
	wantNone(t, v.Office.Waive(t.Context(), v.Educators[0], about(v.nan, "humidifier", v.mira), "2026-05-01", "2026-12-31"))
	wantNone(t, v.Office.PersonLeaves(t.Context(), v.Admin, v.ola.Person, civil.MustParse("2026-06-01")))
	for on := civil.MustParse("2026-05-25"); on.Before(civil.MustParse("2026-07-20")); on = on.AddDays(4) {
		v.reminded(t, on)
	}
	for _, l := range v.desk(t).Letters {
		if l.To.ID == v.ola.Person && !l.FallsOn.Before(civil.MustParse("2026-06-01")) {
			t.Errorf("told after she left: %+v", l)
		}
		if c := l.Counts(); l.To.ID == v.nan.Person && c.Due+c.Lapsed > 1 {
			t.Errorf("told of what is waived: %+v", l)
		}
	}
	w := newVisiting(t, new(outbox).mail)
	p := must(w.Office.Person(t.Context(), w.Admin, w.nan.Person))(t)
	must(w.Office.EditPerson(t.Context(), w.Admin, w.nan.Person, office.PersonForm{Version: p.Version, Name: p.Name, Kind: string(p.Kind), Roles: []string{"caregiver"}}))(t)
	w.Day("2026-06-01")
	d := w.desk(t)
	if len(d.NoAddress) != 1 || d.NoAddress[0].ID != w.nan.Person {
		t.Errorf("without an address: %+v", d.NoAddress)
	}
}

// The hour is the agency's, and one that the clocks skip is the one that they show
// instead (RFC 5545, section 3.3.5): on 8 March 2026 in Denver half past two is half past three.
func TestRemindersKeepToTheAgencysHour(t *testing.T) {
	t.Parallel()
	v := newVisiting(t, new(outbox).mail)
	wantNone(t, v.Office.SetReminders(t.Context(), v.Coordinator, office.RemindersForm{On: true, At: "02:30", Opens: true, Days: "120"}))
	for _, c := range []struct {
		at   string
		want int
	}{
		{"2026-03-08T01:59:00-07:00", 0}, {"2026-03-08T03:29:00-06:00", 0}, {"2026-03-08T03:30:00-06:00", 2}, {"2026-03-08T12:00:00-06:00", 2},
	} {
		v.At(must(time.Parse(time.RFC3339, c.at))(t))
		wantNone(t, v.Office.Remind(t.Context()))
		if got := len(v.desk(t).Letters); got != c.want {
			t.Errorf("at %s: %d letters; want %d", c.at, got, c.want)
		}
	}
}

// A letter that a server refuses for now is tried again, one that it refuses for good is
// shown with what it said, and a person has it sent once more, under the same id.
func TestLettersThatAreRefused(t *testing.T) {
	t.Parallel()
	box := &outbox{}
	v := newVisiting(t, box.mail)
	nan, ola := v.Email(v.nan), v.Email(v.ola)
	tries := map[string]int{}
	box.answer = func(l mailing.Letter) error {
		tries[l.ID]++
		switch {
		case l.To == nan && tries[l.ID] == 1:
			return &mailing.Failure{Code: 550, Says: "550 nobody here", Lasting: true}
		case l.To == ola && tries[l.ID] <= 2:
			return errors.New("anything else")
		}
		return nil
	}
	ctx, stop := context.WithCancel(t.Context())
	defer stop()
	worked := make(chan error, 1)
	go func() { worked <- v.Office.Work(ctx) }()
	state := func(to assessment.Actor) office.LetterView {
		for _, l := range v.desk(t).Letters {
			if l.To.ID == to.Person {
				return l
			}
		}
		t.Fatalf("no letter to %s", to.Name)
		return office.LetterView{}
	}
	until := func(what string, so func() bool) {
		t.Helper()
		for range 400 {
			if so() {
				return
			}
			time.Sleep(50 * time.Millisecond)
		}
		t.Fatalf("never: %s", what)
	}
	v.reminded(t, civil.MustParse("2026-06-06"))
	until("refused for good", func() bool {
		l := state(v.nan)
		return l.State == postgres.MailFailed && l.Code == 550 && l.Says == "550 nobody here"
	})
	until("refused for now", func() bool {
		l := state(v.ola)
		return l.State == postgres.MailWaiting && l.Tries == 1 && l.NextAt.After(v.Now())
	})
	wantNone(t, v.Office.SendAgain(t.Context(), v.Coordinator, state(v.nan).ID))
	until("sent again", func() bool { return state(v.nan).State == postgres.MailSent })
	wantRefusal(t, v.Office.SendAgain(t.Context(), v.Coordinator, state(v.nan).ID), fault.Conflict, "not one that failed")
	for range 2 {
		v.Pass(10 * time.Minute)
		wantNone(t, v.Office.Remind(t.Context()))
		tried := state(v.ola).Tries
		until("tried again", func() bool { l := state(v.ola); return l.Tries > tried || l.State == postgres.MailSent })
		until("noted", func() bool { l := state(v.ola); return l.State != postgres.MailSending })
	}
	until("taken in the end", func() bool { return state(v.ola).State == postgres.MailSent })
	stop()
	wantNone(t, <-worked)
	if box.sent() != 2 || box.letters[0].ID == box.letters[1].ID {
		t.Errorf("%+v", box.letters)
	}
}

// A letter of which the program dies each time is not sent for ever: it fails, is shown so, and can be sent again by hand.
func TestALetterThatKillsItsSenderHasAnEnd(t *testing.T) {
	t.Parallel()
	box := &outbox{}
	v := newVisiting(t, box.mail)
	deaths := 0
	box.answer = func(l mailing.Letter) error {
		if l.To == v.Email(v.nan) {
			deaths++
			panic("the program is killed here")
		}
		return nil
	}
	ctx, stop := context.WithCancel(t.Context())
	defer stop()
	worked := make(chan error, 1)
	go func() { worked <- v.Office.Work(ctx) }()
	letter := func() office.LetterView {
		for _, l := range v.desk(t).Letters {
			if l.To.ID == v.nan.Person {
				return l
			}
		}
		return office.LetterView{}
	}
	v.reminded(t, civil.MustParse("2026-06-06"))
	for tries := 1; letter().State != postgres.MailFailed; tries++ {
		if tries > 20 {
			t.Fatalf("still tried: %+v", letter())
		}
		for range 400 {
			if letter().Tries >= tries {
				break
			}
			time.Sleep(25 * time.Millisecond)
		}
		v.Pass(10 * time.Minute)
		wantNone(t, v.Office.Remind(t.Context()))
	}
	if l := letter(); l.Tries != 10 || !strings.Contains(l.Says, "tried 10 times") {
		t.Errorf("%+v", l)
	}
	wantNone(t, v.Office.SendAgain(t.Context(), v.Coordinator, letter().ID))
	stop()
	wantNone(t, <-worked)
}

// Where no mail can be sent nobody is taken as told.
func TestWithoutAMailServerNobodyIsTold(t *testing.T) {
	t.Parallel()
	v := newVisiting(t)
	v.reminded(t, civil.MustParse("2026-06-05"))
	d := v.desk(t)
	if d.CanSend || len(d.Letters) != 0 || len(d.Coming) == 0 {
		t.Errorf("%+v", d)
	}
}

// What cannot be a setting is refused with the field, and nobody but those who plan sets it.
func TestSettingReminders(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	good := office.RemindersForm{On: true, At: "06:45", Days: "7; 30,14 7", Unplanned: "3"}
	for field, f := range map[string]office.RemindersForm{
		"at": {On: true, At: "7", Lapsed: true}, "days": {On: true, At: "07:00", Days: "0"}, "unplanned": {On: true, At: "07:00", Unplanned: "many", Lapsed: true}, "on": {On: true, At: "07:00"},
	} {
		wantAtField(t, w.Office.SetReminders(t.Context(), w.Coordinator, f), field, "")
	}
	wantRefusal(t, w.Office.SetReminders(t.Context(), w.Educators[0], good), fault.Forbidden, "set reminders")
	wantNone(t, w.Office.SetReminders(t.Context(), w.Coordinator, good))
	d := must(w.Office.Reminders(t.Context(), w.Admin, office.RemindersQuery{}))(t)
	if d.Rules.At.String() != "06:45" || !slices.Equal(d.Rules.Days, []int{30, 14, 7}) || d.Rules.Unplanned != 3 || d.SetBy.ID != w.Coordinator.Person {
		t.Errorf("%+v", d)
	}
}
