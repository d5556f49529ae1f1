package demo_test

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/cmd/wellshown/demo"
	"wellshown/integration/testdb"
	"wellshown/migrations"
)

// made is a demo with the office that people then work in.
type made struct {
	demo.Result
	db     *postgres.DB
	owner  string // address
	office *office.Office
	desk   assessment.Actor
	zone   *time.Location
	papers int // certificates drawn
}

// lastDay is a Wednesday on standard time; two years before it lies a leap day.
var lastDay = time.Date(2025, time.November, 26, 22, 40, 0, 0, time.UTC)

// makeAll makes the demo once for each seed, all at the same time.
func makeAll(t *testing.T, seeds ...uint64) []*made {
	t.Helper()
	all, failed := make([]*made, len(seeds)), make(chan error, len(seeds))
	for i, seed := range seeds {
		database := testdb.New(t)
		all[i] = &made{db: open(t, database.ServiceURL), owner: database.OwnerURL}
		go func() { failed <- all[i].make(t.Context(), seed) }()
	}
	for range seeds {
		if err := <-failed; err != nil {
			t.Fatal(err)
		}
	}
	return all
}

func open(t *testing.T, url string) *postgres.DB {
	t.Helper()
	db, err := postgres.Open(t.Context(), url)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(db.Close)
	return db
}

func (m *made) make(ctx context.Context, seed uint64) error {
	draw := func(f office.CertificateFacts) ([]byte, error) {
		m.papers++
		return fmt.Appendf(nil, "%s holds %s through %s", f.Person, f.Title, f.Through), nil
	}
	var err error
	if m.Result, err = demo.Make(ctx, m.db, demo.Options{Now: lastDay, Seed: seed, Certificate: draw, BaseURL: "https://shown.example",
		Doubled: func(ctx context.Context) error { return migrations.Analyze(ctx, m.owner) }}); err != nil {
		return err
	}
	m.office = office.New(m.db, office.Options{Now: func() time.Time { return lastDay }})
	if m.desk, err = m.office.Desk(ctx, demo.Code); err != nil {
		return err
	}
	m.zone, err = time.LoadLocation(demo.Zone)
	return err
}

// TestDemo makes the demo twice and looks at it from all sides.
func TestDemo(t *testing.T) {
	both := makeAll(t, 7, 7)
	m := both[0]
	t.Logf("%+v", m.Counts)
	t.Run("is the same each time", func(t *testing.T) { sameEachTime(t, m, both[1]) })
	t.Run("counts", func(t *testing.T) { countsAreTrue(t, m) })
	t.Run("every standing occurs", func(t *testing.T) { everyStandingOccurs(t, m) })
	t.Run("every reason to be withdrawn occurs", func(t *testing.T) { everyWithdrawalOccurs(t, m) })
	t.Run("the ways home", func(t *testing.T) { waysHome(t, m) })
	t.Run("something is left to do", func(t *testing.T) { somethingIsLeft(t, m) })
	t.Run("skills days", func(t *testing.T) { skillsDays(t, m) })
	t.Run("checks", func(t *testing.T) { checksWereTaken(t, m) })
	t.Run("roster", func(t *testing.T) { roster(t, m) })
	t.Run("lists", func(t *testing.T) { lists(t, m) })
	t.Run("visits", func(t *testing.T) { visits(t, m) })
	t.Run("new equipment is not shown yet", func(t *testing.T) { newEquipment(t, m) })
	t.Run("a recheck was missed", func(t *testing.T) { recheckMissed(t, m) })
	t.Run("all can sign in", func(t *testing.T) { allCanSignIn(t, m) })
	t.Run("names nobody real", func(t *testing.T) { namesNobodyReal(t, m) })
	t.Run("nothing lies in the future", func(t *testing.T) { nothingInTheFuture(t, m) })
	t.Run("is made once", func(t *testing.T) { madeOnce(t, m) })
	t.Run("fold and index agree", func(t *testing.T) { foldAndIndexAgree(t, m) })
}

// sameEachTime: all but ids follows from the day and the seed.
func sameEachTime(t *testing.T, first, second *made) {
	a, b := first.content(t), second.content(t)
	if len(a) != len(b) || len(a) < 2000 {
		t.Fatalf("%d lines, then %d", len(a), len(b))
	}
	for i := range a {
		if a[i] != b[i] {
			t.Fatalf("line %d differs:\n%s\n%s", i, a[i], b[i])
		}
	}
	t.Logf("%d lines are the same", len(a))
}

// content is all that people see, one line a record, without ids.
func (m *made) content(t *testing.T) []string {
	t.Helper()
	var lines []string
	add := func(format string, args ...any) { lines = append(lines, fmt.Sprintf(format, args...)) }
	for _, s := range m.SignIns {
		add("%+v", s)
	}
	add("%+v", m.Counts)
	for _, d := range m.demonstrations(t) {
		score := ""
		if d.Score != nil {
			score = *d.Score
		}
		add("%s %s shows %s %d for %s at %s to %s: %s %s", d.PerformedAt.Format(time.RFC3339), d.Learner, d.Code, d.Revision, d.Client, d.Place, d.Observer, d.Outcome, score)
	}
	for _, c := range m.certificates(t) {
		add("certificate %d %s: %s %s %s to %s", c.Number, c.Code, c.Person, c.Title, c.HeldOn, c.ThroughOn)
	}
	grid, err := m.office.Grid(t.Context(), m.desk, office.GridQuery{})
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range grid.Rows {
		for i, cell := range row.Cells {
			add("%s %s: %s through %s for %s", row.Person.Name, grid.Skills[i].Code, cell.Word, cell.Through, cell.Client.Code)
		}
	}
	return lines
}

// certificates are everybody's, in the order of their names.
func (m *made) certificates(t *testing.T) []postgres.Certificate {
	t.Helper()
	var all []postgres.Certificate
	for _, p := range m.people(t) {
		issued, err := m.office.Certificates(t.Context(), m.desk, p.ID, "", 0)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, issued.Items...)
	}
	return all
}

func (m *made) demonstrations(t *testing.T) []postgres.Demonstration {
	t.Helper()
	found, err := m.office.Demonstrations(t.Context(), m.desk, postgres.DemonstrationFilter{Limit: 100_000})
	if err != nil {
		t.Fatal(err)
	}
	return found.Items
}

func countsAreTrue(t *testing.T, m *made) {
	all := m.demonstrations(t)
	outcomes := map[assessment.Outcome]int{}
	practices, corrected, drilled := 0, 0, map[assessment.PersonID]string{}
	for _, d := range all {
		outcomes[d.Outcome]++
		if drill, err := office.DrillOf(d); err != nil || drill != nil {
			drilled[d.LearnerID] = fmt.Sprint(drill, err)
		}
		if !d.Formal {
			practices++
		}
		if d.CorrectedAt != nil {
			corrected++
		}
	}
	c := m.Counts
	got := []int{len(all), outcomes[assessment.NotYetCompetent], outcomes[assessment.StoppedForSafety], practices, corrected}
	want := []int{c.Demonstrations, c.NotYet, c.Stopped, c.Practices, c.Corrections}
	if !slices.Equal(got, want) {
		t.Errorf("recorded, not yet competent, stopped, practices, corrected: the office has %v, the demo says %v", got, want)
	}
	if len(drilled) != 2 {
		t.Errorf("the demo is meant to have a drill of each of two people: %v", drilled)
	}
	if c.Demonstrations < 1500 || c.Demonstrations > 2500 {
		t.Errorf("%d demonstrations; the demo is meant to have 1,500 to 2,500", c.Demonstrations)
	}
	if c.Caregivers != 40 || c.Children != 8 {
		t.Errorf("%d caregivers and %d children, want 40 and 8", c.Caregivers, c.Children)
	}
	if c.NotYet == 0 || c.Stopped == 0 || c.Practices == 0 || c.Unsigned == 0 || c.Late == 0 || c.Corrections != 2 || c.Withdrawals != 4 || c.Waivers != 2 || c.OpenSheets != 2 || c.Revisions != 14 {
		t.Errorf("something never happened: %+v", c)
	}
	if issued := len(m.certificates(t)); issued != m.papers || m.papers < 300 {
		t.Errorf("%d certificates drawn, %d on file", m.papers, issued)
	}
}

// cells counts the standings of all caregivers in what they have to hold today.
func (m *made) cells(t *testing.T) map[assessment.StandingWord]int {
	t.Helper()
	words := map[assessment.StandingWord]int{}
	for _, p := range m.caregivers(t) {
		v, err := m.office.StandingsOf(t.Context(), m.desk, p.ID, m.Today)
		if err != nil {
			t.Fatal(err)
		}
		for _, row := range v.Rows {
			words[row.Word]++
		}
	}
	return words
}

// caregivers are those who look after children, also those who have left.
func (m *made) caregivers(t *testing.T) []office.PersonView {
	t.Helper()
	return slices.DeleteFunc(m.people(t), func(p office.PersonView) bool { return p.Kind == "" })
}

func (m *made) people(t *testing.T) []office.PersonView {
	t.Helper()
	found, next, err := m.office.People(t.Context(), m.desk, office.PeopleQuery{Left: true, Limit: 200})
	if err != nil || next != "" {
		t.Fatalf("list people: %v; next page %q", err, next)
	}
	return found
}

func everyStandingOccurs(t *testing.T, m *made) {
	words := m.cells(t)
	t.Log(words)
	for _, w := range []assessment.StandingWord{assessment.NotStarted, assessment.Learning, assessment.Current, assessment.Due, assessment.Lapsed,
		assessment.Withdrawn, assessment.Waived} {
		if words[w] == 0 {
			t.Errorf("nobody is %s", w)
		}
	}
	held, required := words[assessment.Current]+words[assessment.Due], 0
	for _, n := range words {
		required += n
	}
	if held*10 < required*6 {
		t.Errorf("only %d of %d are held: that is no agency that works", held, required)
	}
}

func (m *made) person(t *testing.T, name string) assessment.PersonID {
	t.Helper()
	id, err := m.office.PersonNamed(t.Context(), m.desk, name)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return id
}

func (m *made) standing(t *testing.T, name, skill, child string, on civil.Date) office.StandingView {
	t.Helper()
	id, err := m.office.ClientByCode(t.Context(), m.desk, child)
	if err != nil {
		t.Fatal(err)
	}
	v, err := m.office.Standing(t.Context(), m.desk, m.person(t, name), skill, id, on)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func everyWithdrawalOccurs(t *testing.T, m *made) {
	for _, c := range []struct{ name, skill, child string }{
		{"Amal Haddad", "humidifier", "4B"},       // a renewal that went wrong
		{"Sam Whitlock", "suction", "4B"},         // an incident, until reinstated
		{"João Teixeira", "circuit-change", "5W"}, // until shown again
	} {
		if v := m.standing(t, c.name, c.skill, c.child, m.Today); v.Word != assessment.Withdrawn {
			t.Errorf("%s in %s: %s, want withdrawn", c.name, c.skill, v.Word)
		}
	}
	if v := m.standing(t, "Sam Whitlock", "suction", "4B", m.Today); !v.Next.Reinstatement {
		t.Error("Sam Whitlock does not wait for a reinstatement")
	}
	if v := m.standing(t, "Chidi Okoro", "humidifier", "3F", m.Today); v.Word != assessment.Waived {
		t.Errorf("Chidi Okoro in the humidifier: %s, want waived", v.Word)
	}
	imre := m.Today.AddDays(-209)
	if v := m.standing(t, "Imre Kovács", "suction", "9R", imre); v.Word != assessment.Withdrawn {
		t.Errorf("Imre Kovács in suction on %s: %s, want withdrawn", imre, v.Word)
	}
	if v := m.standing(t, "Imre Kovács", "suction", "9R", imre.AddDays(5)); !v.Word.Holds() {
		t.Errorf("Imre Kovács in suction after the reinstatement: %s, want current", v.Word)
	}
	if v := m.standing(t, "Kwame Boateng", "cpr-trach", "3F", m.Today); v.Word != assessment.Lapsed || !v.Next.Card {
		t.Errorf("Kwame Boateng, whose card ran out: %s, want lapsed and a card needed", v.Word)
	}
}

func waysHome(t *testing.T, m *made) {
	for code, left := range map[string]int{m.GoingHome: 3, m.Ready: 0} {
		id, err := m.office.ClientByCode(t.Context(), m.desk, code)
		if err != nil {
			t.Fatal(err)
		}
		v, err := m.office.Readiness(t.Context(), m.desk, id, time.Time{})
		if err != nil {
			t.Fatal(err)
		}
		if v.Left() != left || v.Ready != (left == 0) || len(v.Lines) != 14 {
			t.Errorf("%s: %d of %d left, ready: %v; want %d left", code, v.Left(), len(v.Lines), v.Ready, left)
			for _, l := range v.Lines {
				t.Log(l.State, l.Criterion.Title, l.Left)
			}
		}
	}
}

func somethingIsLeft(t *testing.T, m *made) {
	v := m.standing(t, m.OneMore.Name, m.OneMore.Skill, m.OneMore.Child, m.Today)
	if v.Word != assessment.Learning || v.Next.Demonstrations != 1 {
		t.Errorf("%s in %s is %s and needs %d more, want learning and one", m.OneMore.Name, m.OneMore.Skill, v.Word, v.Next.Demonstrations)
	}
	if v := m.standing(t, "Šárka Nováková", "circuit-change", "5W", m.Today); v.Word != assessment.Learning || v.Next.Demonstrations != 1 {
		t.Errorf("the second one who lacks one is %s and needs %d more", v.Word, v.Next.Demonstrations)
	}
	educator := m.actor(t, m.OneMoreBy)
	sheet, err := m.office.Sheet(t.Context(), educator, m.OneMoreDoc)
	if err != nil {
		t.Fatal(err)
	}
	if len(sheet.Marks) != 12 || len(sheet.Open) == 0 {
		t.Errorf("the open sheet has %d marks and %d steps open, want 12 and some", len(sheet.Marks), len(sheet.Open))
	}
	for _, name := range []string{"Zofia Bałut", "Jo Lindqvist"} {
		who := m.actor(t, m.email(t, name))
		waits, err := m.office.AwaitingMe(t.Context(), who, "", 0)
		if err != nil {
			t.Fatal(err)
		}
		if len(waits.Items) == 0 {
			t.Errorf("nothing waits for the signature of %s", name)
		}
	}
}

func (m *made) email(t *testing.T, name string) string {
	t.Helper()
	i := slices.IndexFunc(m.SignIns, func(s demo.SignIn) bool { return s.Name == name })
	if i < 0 {
		t.Fatalf("%s cannot sign in", name)
	}
	return m.SignIns[i].Email
}

// actor signs somebody in.
func (m *made) actor(t *testing.T, email string) assessment.Actor {
	t.Helper()
	for _, s := range m.SignIns {
		if s.Email == email {
			_, actor, err := m.office.SignIn(t.Context(), office.SignInForm{Agency: demo.Code, Email: s.Email, Password: s.Secret, Address: "test"})
			if err != nil {
				t.Fatalf("sign in as %s: %v", s.Name, err)
			}
			return actor
		}
	}
	t.Fatalf("nobody signs in as %s", email)
	return assessment.Actor{}
}

// Theo's ventilator and circuit were changed nine days before the last one: what
// was shown with the old ones holds no more.
func newEquipment(t *testing.T, m *made) {
	before, after := 0, 0
	for _, name := range []string{"Łucja Wrona", "Marek Wrona", "Amal Haddad", "Sam Whitlock"} {
		if m.standing(t, name, "circuit-change", "4B", m.Today.AddDays(-10)).Word.Holds() {
			before++
		}
		if m.standing(t, name, "circuit-change", "4B", m.Today).Word.Holds() {
			after++
		}
	}
	if before == 0 || after != 0 {
		t.Errorf("%d hold Theo's circuit change the day before his new ventilator and %d today, want some and none", before, after)
	}
}

func recheckMissed(t *testing.T, m *made) {
	through := m.Today.AddDays(-86)
	if v := m.standing(t, "Wiremu Brannigan", "stoma-ties", "3F", through); !v.Word.Holds() || v.Through != through {
		t.Errorf("Wiremu Brannigan on the last day without the recheck: %s through %s, want current through %s", v.Word, v.Through, through)
	}
	if v := m.standing(t, "Wiremu Brannigan", "stoma-ties", "3F", through.AddDays(1)); v.Word != assessment.Lapsed {
		t.Errorf("Wiremu Brannigan on the day after: %s, want lapsed", v.Word)
	}
}

func allCanSignIn(t *testing.T, m *made) {
	roles, emails := map[string]int{}, map[string]bool{}
	for _, s := range m.SignIns {
		roles[s.Role]++
		emails[s.Email] = true
		if !strings.HasSuffix(s.Email, ".example") {
			t.Errorf("%s could get mail at %s", s.Name, s.Email)
		}
		m.actor(t, s.Email)
	}
	// Of the sixteen nurses one has left.
	want := map[string]int{"administrator": 1, "coordinator": 2, "educator": 4, "surveyor": 1, "family caregiver": 16, "nurse": 15, "aide": 8}
	if !maps.Equal(roles, want) || len(emails) != len(m.SignIns) {
		t.Errorf("sign-ins by role: %v (%d addresses), want %v", roles, len(emails), want)
	}
}

// Equipment is named by its build and a letter, never by maker or model.
var generic = regexp.MustCompile(`^(portable turbine, type [A-Z]|single limb, (leak port|exhalation valve)|heated pass-over, type [A-Z]|[3-6]\.[05] mm, (un)?cuffed)$`)

func namesNobodyReal(t *testing.T, m *made) {
	children, err := m.office.Clients(t.Context(), m.desk, "")
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for _, c := range children {
		v, err := m.office.Client(t.Context(), m.desk, c.ID)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range v.Equipment {
			for _, change := range e.History {
				seen++
				if !generic.MatchString(change.Type) {
					t.Errorf("%s has a %s %q, which is not named by build and letter", c.Code, e.Kind, change.Type)
				}
			}
		}
	}
	if seen < 4*len(children) {
		t.Errorf("only %d pieces of equipment", seen)
	}
}

func nothingInTheFuture(t *testing.T, m *made) {
	opening := m.Today.AddMonths(-24).In(m.zone)
	for _, d := range m.demonstrations(t) {
		if d.PerformedAt.Before(opening) || d.RecordedAt.After(lastDay) || d.RecordedAt.Before(d.PerformedAt) {
			t.Errorf("%s by %s: performed %s, recorded %s", d.Code, d.Learner, d.PerformedAt, d.RecordedAt)
		}
	}
}

func madeOnce(t *testing.T, m *made) {
	_, err := demo.Make(context.Background(), m.db, demo.Options{Now: lastDay, Seed: 7})
	var f *fault.Fault
	if !errors.As(err, &f) || f.Kind != fault.Conflict {
		t.Errorf("made again: %v, want a conflict", err)
	}
}
