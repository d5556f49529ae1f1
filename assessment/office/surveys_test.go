package office_test

import (
	"context"
	"slices"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/integration/ward"
)

// surveyed is an agency with two children, a nurse who looks after both, a nurse who
// once looked after the first, and one who looks after neither.
type surveyed struct {
	w                                  *ward.Ward
	mira, tam                          assessment.ClientID
	both, once, stranger               assessment.Actor
	general, forMira, forTam, onceMira office.DemonstrationView // the general one was shown with Mira's values
	hers                               office.DemonstrationView // of the stranger, general, with Tam's values
}

func newSurveyed(t *testing.T) surveyed {
	t.Helper()
	w := ward.New(t, ward.WithCertificate(func(office.CertificateFacts) ([]byte, error) { return []byte("%PDF-1.4\n"), nil }))
	s := surveyed{w: w, mira: w.Client("7K", "Mira"), tam: w.Client("8Q", "Tam"), both: w.Nurse("Nan Orme"), once: w.Nurse("Ola Rask"), stranger: w.Nurse("Per Lind")}
	w.Join(s.both, s.mira)
	w.Join(s.both, s.tam)
	w.Join(s.once, s.mira)
	s.general, s.forMira, s.forTam = w.Award(s.both, "bagging", s.mira), w.Award(s.both, "go-bag", s.mira), w.Award(s.both, "go-bag", s.tam)
	s.onceMira, s.hers = w.Award(s.once, "go-bag", s.mira), w.Award(s.stranger, "bagging", s.tam)
	for _, m := range must(w.Office.Client(t.Context(), w.Coordinator, s.mira))(t).Team {
		if m.Person == s.once.Person {
			must(w.Office.EndOnTeam(t.Context(), w.Coordinator, s.mira, m.ID, w.Today().String()))(t)
		}
	}
	w.Pass(48 * time.Hour)
	return s
}

// opens tries everything that reads about one thing, and tells by name what it gave.
func (s surveyed) opens(ctx context.Context, by assessment.Actor) map[string]error {
	o := s.w.Office
	found := map[string]error{
		"child mira": drop(o.ClientDesk(ctx, by, s.mira)), "child tam": drop(o.ClientDesk(ctx, by, s.tam)),
		"way home mira": drop(o.Readiness(ctx, by, s.mira, time.Time{})), "way home tam": drop(o.Readiness(ctx, by, s.tam, time.Time{})),
		"standing both mira": drop(o.Standing(ctx, by, s.both.Person, "go-bag", s.mira, civil.Date{})), "standing both tam": drop(o.Standing(ctx, by, s.both.Person, "go-bag", s.tam, civil.Date{})),
		"standing both": drop(o.Standing(ctx, by, s.both.Person, "bagging", "", civil.Date{})), "standing stranger": drop(o.Standing(ctx, by, s.stranger.Person, "bagging", "", civil.Date{})),
		"grid":   drop(o.Grid(ctx, by, office.GridQuery{})),
		"ledger": drop(o.LedgerHead(ctx, by)),
	}
	for name, p := range map[string]assessment.Actor{"both": s.both, "once": s.once, "stranger": s.stranger} {
		found["person "+name], found["desk "+name] = drop(o.Person(ctx, by, p.Person)), drop(o.PersonDesk(ctx, by, p.Person, civil.Date{}))
		found["transcript "+name] = drop(o.Transcript(ctx, by, p.Person, civil.Date{}))
		found["papers "+name], found["certificates "+name] = drop(o.Qualifications(ctx, by, p.Person)), drop(o.Certificates(ctx, by, p.Person, "", 0))
	}
	for name, d := range map[string]office.DemonstrationView{"general": s.general, "mira": s.forMira, "tam": s.forTam, "once": s.onceMira, "hers": s.hers} {
		found["record "+name], found["reading "+name] = drop(o.Demonstration(ctx, by, d.ID)), drop(o.ReadRecord(ctx, by, d.ID))
		found["proof "+name] = drop(o.ProofOfDemonstration(ctx, by, d.ID))
		found["certificate "+name], found["view "+name] = drop(o.Certificate(ctx, by, d.Certificate.ID)), drop(o.ViewCertificate(ctx, by, d.Certificate.ID))
		found["code "+name], found["certificate's proof "+name] = drop(o.CertificateByCode(ctx, by, d.Certificate.Code)), drop(o.ProofOfCertificate(ctx, by, d.Certificate.ID))
	}
	return found
}

// A surveyor who was let in for a child sees the child, who looks after it and ever
// did, and of them what is general or about that child; one who was let in for a
// person sees all of theirs; nobody sees anything else. Common practice, no source.
func TestASurveyorSeesOnlyWhomTheyWereLetInFor(t *testing.T) {
	t.Parallel()
	s := newSurveyed(t)
	one := func(name string, f office.AccessForm) assessment.Actor { return s.w.LetIn(s.w.Unseeing(name), f) }
	everywhere := []string{"ledger"}
	each := func(kinds ...string) func(names ...string) []string {
		return func(names ...string) (all []string) {
			for _, n := range names {
				for _, what := range kinds {
					all = append(all, what+" "+n)
				}
			}
			return all
		}
	}
	ofCertificate := each("certificate", "view", "code", "certificate's proof")
	ofRecord := each("record", "reading", "proof", "certificate", "view", "code", "certificate's proof")
	ofPerson := each("person", "desk", "transcript", "papers", "certificates")
	for name, c := range map[string]struct {
		by   assessment.Actor
		open []string
	}{
		"nobody": {s.w.Unseeing("Una Moe"), nil},
		"mira": {one("Sal Orrin", office.AccessForm{Clients: []assessment.ClientID{s.mira}}), slices.Concat(everywhere, ofPerson("both", "once"), ofRecord("general", "mira", "once"),
			[]string{"child mira", "way home mira", "standing both mira", "standing both"})},
		"both": {one("Ivo Hale", office.AccessForm{People: []assessment.PersonID{s.both.Person}}), slices.Concat(everywhere, ofPerson("both"), ofRecord("general", "mira", "tam"),
			[]string{"standing both mira", "standing both tam", "standing both"})},
		"stranger and tam": {one("Eli Dahl", office.AccessForm{People: []assessment.PersonID{s.stranger.Person}, Clients: []assessment.ClientID{s.tam}}),
			slices.Concat(everywhere, ofPerson("both", "stranger"), ofRecord("tam", "hers"), ofCertificate("general"), []string{"child tam", "way home tam", "standing both tam", "standing both", "standing stranger"})},
	} {
		for what, err := range s.opens(t.Context(), c.by) {
			want := slices.Contains(c.open, what)
			if kind := fault.KindOf(err); want != (err == nil) || !want && kind != fault.NotFound && kind != fault.Forbidden {
				t.Errorf("let in for %s, %s: %v, want open %t", name, what, err, want)
			}
		}
	}
	whole := s.opens(t.Context(), s.w.Surveyor("Halina Wren"))
	for what, err := range whole {
		if err != nil {
			t.Errorf("let in to the whole agency, %s: %v", what, err)
		}
	}
}

// Lists and what stands together on one page are narrowed as single things are.
func TestListsOfASurveyorAreNarrowed(t *testing.T) {
	t.Parallel()
	s := newSurveyed(t)
	ctx, o := t.Context(), s.w.Office
	by := s.w.LetIn(s.w.Unseeing("Sal Orrin"), office.AccessForm{Clients: []assessment.ClientID{s.mira}})
	people, _, err := o.People(ctx, by, office.PeopleQuery{Left: true})
	var names []string
	for _, p := range people {
		names = append(names, p.Name)
	}
	if err != nil || !slices.Equal(names, []string{"Nan Orme", "Ola Rask", "Sal Orrin"}) {
		t.Errorf("people: %v, %v", names, err)
	}
	clients := must(o.Clients(ctx, by, ""))(t)
	if len(clients) != 1 || clients[0].ID != s.mira {
		t.Errorf("children: %+v", clients)
	}
	page := must(o.Demonstrations(ctx, by, postgres.DemonstrationFilter{}))(t)
	for _, d := range []office.DemonstrationView{s.general, s.forMira, s.onceMira} {
		if !slices.ContainsFunc(page.Items, func(p postgres.Demonstration) bool { return p.ID == d.ID }) {
			t.Errorf("the record of %s in %s is not listed", d.Learner, d.Title)
		}
	}
	if len(page.Items) == 0 || slices.ContainsFunc(page.Items, func(d postgres.Demonstration) bool { return d.ClientID == s.tam }) {
		t.Errorf("records: %+v", page.Items)
	}
	ofTam := func(c assessment.ClientID) bool { return c == s.tam }
	desk := must(o.PersonDesk(ctx, by, s.both.Person, civil.Date{}))(t)
	transcript := must(o.Transcript(ctx, by, s.both.Person, civil.Date{}))(t)
	certificates := must(o.Certificates(ctx, by, s.both.Person, "", 0))(t)
	standings := must(o.StandingsOf(ctx, by, s.both.Person, civil.Date{}))(t)
	for _, rows := range [][]office.StandingView{desk.Rows, transcript.Standings.Rows, standings.Rows} {
		if len(rows) == 0 || slices.ContainsFunc(rows, func(r office.StandingView) bool { return ofTam(r.Client.ID) }) {
			t.Errorf("standings: %+v", rows)
		}
	}
	for name, part := range map[string]bool{"page": desk.Part, "transcript": transcript.Standings.Part, "standings": standings.Part} {
		if !part {
			t.Errorf("the %s does not tell that it is a part", name)
		}
	}
	own := s.w.LetIn(s.w.Unseeing("Ivo Hale"), office.AccessForm{People: []assessment.PersonID{s.both.Person}})
	if must(o.PersonDesk(ctx, own, s.both.Person, civil.Date{}))(t).Part || must(o.Transcript(ctx, s.w.Coordinator, s.both.Person, civil.Date{}))(t).Standings.Part {
		t.Error("the whole is called a part")
	}
	for _, records := range [][]postgres.Demonstration{desk.Records, transcript.Records} {
		if len(records) == 0 || slices.ContainsFunc(records, func(d postgres.Demonstration) bool { return ofTam(d.ClientID) }) {
			t.Errorf("records: %+v", records)
		}
	}
	for _, held := range [][]postgres.Certificate{desk.Certificates, transcript.Certificates, certificates.Items} {
		if len(held) != 2 || slices.ContainsFunc(held, func(c postgres.Certificate) bool { return ofTam(c.ClientID) }) {
			t.Errorf("certificates: %+v", held)
		}
	}
}

// Access begins and ends by the clock, also for a session that is open; ending it or
// taking the role away ends it at once, and the role does not bring it back.
func TestASurveyorsAccessEnds(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	ctx := t.Context()
	nurse := w.Nurse("Nan Orme")
	halina := w.Unseeing("Halina Wren")
	token := ""
	enter := func() {
		t.Helper()
		var err error
		if token, _, err = w.Office.SignIn(ctx, office.SignInForm{Agency: ward.Code, Email: w.Email(halina), Password: ward.Password}); err != nil {
			t.Fatal(err)
		}
	}
	enter()
	reads := func() error {
		v := must(w.Office.Session(ctx, token))(t)
		return drop(w.Office.Person(ctx, v.Actor, nurse.Person))
	}
	wantRefusal(t, reads(), fault.Forbidden, "not been let in")
	tomorrow := w.Today().AddDays(1).String()
	form := office.AccessForm{Person: halina.Person, Whole: true, Reason: "The yearly survey.", From: tomorrow, Through: tomorrow}
	given := must(w.Office.GiveAccess(ctx, w.Admin, form))(t)
	wantRefusal(t, reads(), fault.Forbidden, "has not begun")
	begins := w.Today().AddDays(1).In(w.Zone)
	w.At(begins.Add(-time.Microsecond))
	enter()
	wantRefusal(t, reads(), fault.Forbidden, "has not begun")
	w.At(begins)
	if err := reads(); err != nil {
		t.Errorf("at its first instant: %v", err)
	}
	wantNone(t, w.Office.EndAccess(ctx, w.Admin, given.ID))
	wantRefusal(t, reads(), fault.Forbidden, "is over")
	wantRefusal(t, w.Office.EndAccess(ctx, w.Admin, given.ID), fault.Conflict, "over already")

	form.From, form.Through = "", tomorrow
	must(w.Office.GiveAccess(ctx, w.Admin, form))(t)
	if err := reads(); err != nil {
		t.Errorf("let in again: %v", err)
	}
	roles := func(roles ...string) {
		p := must(w.Office.Person(ctx, w.Admin, halina.Person))(t)
		must(w.Office.EditPerson(ctx, w.Admin, halina.Person, office.PersonForm{Name: p.Name, Email: p.Email, Roles: roles, Version: p.Version}))(t)
	}
	roles(string(assessment.Coordinator))
	roles(string(assessment.Surveyor))
	enter()
	wantRefusal(t, reads(), fault.Forbidden, "is over")

	given = must(w.Office.GiveAccess(ctx, w.Admin, form))(t)
	w.At(given.ToAt.Add(-time.Microsecond))
	enter()
	if err := reads(); err != nil {
		t.Errorf("at its last instant: %v", err)
	}
	w.At(given.ToAt)
	wantRefusal(t, reads(), fault.Forbidden, "is over")
}

func TestWhatLettingASurveyorInRefuses(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	ctx := t.Context()
	nurse, halina := w.Nurse("Nan Orme"), w.Unseeing("Halina Wren")
	today := w.Today()
	good := office.AccessForm{Person: halina.Person, People: []assessment.PersonID{nurse.Person, nurse.Person}, Reason: "The yearly survey.", Through: today.AddDays(29).String()}
	for name, c := range map[string]struct {
		change func(*office.AccessForm)
		says   string
	}{
		"nobody":               {func(f *office.AccessForm) { f.Person = "" }, "Say who"},
		"no surveyor":          {func(f *office.AccessForm) { f.Person = nurse.Person }, "no surveyor"},
		"themselves":           {func(f *office.AccessForm) { f.Person = w.Admin.Person }, "themselves"},
		"no reason":            {func(f *office.AccessForm) { f.Reason = " " }, "Say why"},
		"nothing named":        {func(f *office.AccessForm) { f.People = nil }, "Name the people"},
		"both":                 {func(f *office.AccessForm) { f.Whole = true }, "choose one"},
		"no last day":          {func(f *office.AccessForm) { f.Through = "" }, "Give the day"},
		"no day of a calendar": {func(f *office.AccessForm) { f.Through = "2026-02-30" }, "2026-02-30"},
		"backwards":            {func(f *office.AccessForm) { f.From, f.Through = today.AddDays(2).String(), today.AddDays(1).String() }, "before the first"},
		"in the past":          {func(f *office.AccessForm) { f.From = today.AddDays(-1).String() }, "over already"},
		"too long":             {func(f *office.AccessForm) { f.Through = today.AddDays(30).String() }, "at most 30 days"},
		"somebody unknown":     {func(f *office.AccessForm) { f.People = []assessment.PersonID{nobodys} }, "no such record"},
		"a child unknown":      {func(f *office.AccessForm) { f.Clients = []assessment.ClientID{nobodys} }, "no such record"},
	} {
		f := good
		c.change(&f)
		_, err := w.Office.GiveAccess(ctx, w.Admin, f)
		if !saying(err, c.says) {
			t.Errorf("%s: %v, want %q", name, err, c.says)
		}
	}
	given := must(w.Office.GiveAccess(ctx, w.Admin, good))(t)
	if len(given.Named) != 1 || given.Named[0].Person.Name != "Nan Orme" || !given.Open {
		t.Errorf("given: %+v", given)
	}
	wantNone(t, w.Office.PersonLeaves(ctx, w.Admin, nurse.Person, today))
	if err := drop(w.Office.GiveAccess(ctx, w.Admin, good)); err != nil { // what they signed is what a survey may be about
		t.Errorf("for somebody who left: %v", err)
	}
	wantNone(t, w.Office.PersonLeaves(ctx, w.Admin, halina.Person, today))
	if err := drop(w.Office.GiveAccess(ctx, w.Admin, good)); !saying(err, "no longer with the agency") {
		t.Errorf("a surveyor who left: %v", err)
	}
}

// saying reports whether an error has words in it, in its sentence or at a field.
func saying(err error, words string) bool {
	if err == nil {
		return false
	}
	told := err.Error()
	if f, ok := fault.As(err); ok {
		for _, field := range f.Fields {
			told += " " + field
		}
	}
	return strings.Contains(told, words)
}
