package office_test

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/crowd"
	"wellshown/integration/ward"
)

// gathered is a packet as it came.
type gathered struct {
	office.Packet
	people []office.PacketPerson
	tail   office.PacketTail
}

func (g *gathered) Begin(p office.Packet) error        { g.Packet = p; return nil }
func (g *gathered) Person(p office.PacketPerson) error { g.people = append(g.people, p); return nil }
func (g *gathered) End(t office.PacketTail) error      { g.tail = t; return nil }

func packet(t *testing.T, w *ward.Ward, by assessment.Actor, f office.PacketForm) *gathered {
	t.Helper()
	g := &gathered{}
	wantNone(t, w.Office.WritePacket(t.Context(), by, f, office.PacketMoment{}, g, nil))
	return g
}

func incident(who assessment.Actor, skill string, child assessment.ClientID, on string) office.PacketForm {
	return office.PacketForm{Kind: "incident", Person: who.Person, Skill: skill, Client: child, On: on}
}

// What was performed before a night and signed after it makes nobody current on it: 21 CFR
// 11.50 has the time of signing be part of the record, and rule C-1 of ours has a positive
// act from the later signature.
func TestWhatIsSignedAfterANightWasNotKnownThen(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	d := w.Demonstrate(nan, "humidifier", mira, ward.UnsignedByLearner)
	w.Day("2026-02-03")
	w.Sign(nan, d.ID, office.PartLearner)
	w.Day("2026-02-10")
	before := packet(t, w, w.Coordinator, incident(nan, "humidifier", mira, "2026-02-02"))
	if before.Answer.Held || !strings.Contains(before.Answer.Finding, "was NOT current") || !strings.Contains(strings.Join(before.Answer.Because, " "), "signed by Nan Orme as learner on 3 February 2026") {
		t.Errorf("%+v", before.Answer)
	}
	if r := before.people[0].Records; len(r) != 1 || len(r[0].Late) != 1 || r[0].Bears && before.people[0].Standings[0].Then.Word != assessment.Learning {
		t.Errorf("%+v", r)
	}
	after := packet(t, w, w.Coordinator, incident(nan, "humidifier", mira, "2026-02-04"))
	if !after.Answer.Held || after.Answer.Records[0] != d.ID || len(after.people[0].Records[0].Late) != 0 {
		t.Errorf("%+v", after.Answer)
	}
}

// A failure before the night that is signed after it was not known then, and tells
// against that night all the same; what is taken back since is named and proves nothing.
func TestWhatCameSinceIsToldApart(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier", "go-bag")
	w.Demonstrate(nan, "humidifier", mira)
	kept := w.Demonstrate(nan, "go-bag", mira)
	w.Day("2026-02-03")
	failed := w.Demonstrate(nan, "humidifier", mira, ward.Marked(1, assessment.Unsafe), ward.Unsigned)
	w.Day("2026-02-06")
	w.Sign(w.Educators[0], failed.ID, office.PartObserver)
	wantNone(t, w.Office.CorrectDemonstration(t.Context(), w.Educators[1], kept.ID, "Another child's sheet.", ward.Proof))
	late := packet(t, w, w.Coordinator, incident(nan, "humidifier", mira, "2026-02-04"))
	s := late.people[0].Standings[0]
	if late.Answer.Held || !s.Then.Word.Holds() || s.Now.Word != assessment.Withdrawn || !strings.Contains(late.Answer.Finding, "withdrawn, by what was signed since") {
		t.Errorf("%+v\n%+v", late.Answer, s)
	}
	taken := packet(t, w, w.Coordinator, incident(nan, "go-bag", mira, "2026-02-04"))
	s = taken.people[0].Standings[0]
	if taken.Answer.Held || !s.Then.Word.Holds() || !s.Now.Word.Holds() || s.Cleared.Word != assessment.NotStarted {
		t.Errorf("%+v\n%+v", taken.Answer, s)
	}
	if all := strings.Join(taken.Answer.Because, " "); !strings.Contains(all, "taken back by Rolf Teague on 6 February 2026") || !strings.Contains(all, "Another child's sheet.") {
		t.Errorf("the correction is not named: %s", all)
	}
}

// An incident of before a night that is written down after it was not known then. Whoever asked
// before that is not told of it, however late the packet is worked out; whoever asks after it is
// told that it came late. No source.
func TestAnIncidentWrittenDownAfterANightIsToldAsLate(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	w.Demonstrate(nan, "humidifier", mira)
	w.Day("2026-02-08")
	asked := w.Now()
	w.Day("2026-02-10")
	must(w.Office.RecordIncident(t.Context(), w.Coordinator, wentWrong(nan, "humidifier", mira, "2026-02-03T03:10")))(t)
	w.Day("2026-02-12")
	f := incident(nan, "humidifier", mira, "2026-02-04")
	g := packet(t, w, w.Coordinator, f)
	s := g.people[0].Standings[0]
	if g.Answer.Held || !s.Then.Word.Holds() || s.Now.Word != assessment.Withdrawn {
		t.Errorf("%+v\n%+v", g.Answer, s)
	}
	if all := g.people[0].Happenings; len(all) != 2 || !all[0].Late || !all[1].Late {
		t.Errorf("both withdrawals came late: %+v", all)
	}
	before := &gathered{}
	wantNone(t, w.Office.WritePacket(t.Context(), w.Coordinator, f, office.PacketMoment{At: asked}, before, nil))
	if !before.Answer.Held || len(before.people[0].Happenings) != 0 {
		t.Errorf("asked before it was written down: %+v, %+v", before.Answer, before.people[0].Happenings)
	}
}

// What a shift began with counts on it: what was signed while it went on came too late.
func TestAShiftIsAskedAboutAsItBegan(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	w.Join(nan, mira)
	w.Demonstrate(nan, "humidifier", mira) // at 10:00
	shift := func(starts, ends string) assessment.ShiftID {
		return must(w.Office.AddRosterShift(t.Context(), w.Coordinator, office.RosterShiftForm{Client: mira, Starts: starts, Ends: ends}))(t)
	}
	early, late := shift("2026-02-01T09:00", "2026-02-01T19:00"), shift("2026-02-01T19:00", "2026-02-02T07:00")
	poe := w.Nurse("Poe Sand")
	w.Require("humidifier", assessment.Nurse)
	w.Join(poe, mira)
	w.Demonstrate(poe, "humidifier", mira)
	theirs := must(w.Office.AddRosterShift(t.Context(), w.Coordinator, office.RosterShiftForm{Client: mira, Person: poe.Person, Starts: "2026-02-03T19:00", Ends: "2026-02-04T07:00"}))(t)
	w.Day("2026-02-05")
	ask := func(id assessment.ShiftID) *gathered {
		return packet(t, w, w.Coordinator, office.PacketForm{Kind: "incident", Person: nan.Person, Skill: "humidifier", Shift: id})
	}
	if g := ask(early); g.Answer.Held || g.On == nil || g.WholeDay || !strings.Contains(strings.Join(g.Answer.Because, " "), "The roster has nobody on that shift") {
		t.Errorf("%+v", g.Answer)
	}
	if g := ask(theirs); !strings.Contains(strings.Join(g.Answer.Because, " "), "The roster has Poe Sand on that shift, not Nan Orme.") {
		t.Errorf("nothing says that somebody else was on it: %+v", g.Answer)
	}
	if g := ask(late); !g.Answer.Held || len(g.people[0].Standings) != 2 || !strings.Contains(g.Answer.Finding, "1 February 2026, 19:00 MST to 2 February 2026, 07:00 MST") {
		t.Errorf("%+v", g.Answer)
	}
}

// Life goes on at random, and each evening the house is asked where somebody stands. A
// packet that asks about that night much later says the same of what was known then.
func TestThenIsWhatWasSaidThatEvening(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier", "go-bag")
	r := rand.New(rand.NewPCG(9, 1))
	type evening struct {
		skill string
		on    civil.Date
	}
	said := map[evening]office.StandingView{}
	var unsigned []office.DemonstrationView
	var all []assessment.DemonstrationID
	life := &randomLife{T: t, w: w, r: r, nan: nan, mira: mira}
	for day := civil.MustParse("2026-02-02"); day.Before(civil.MustParse("2026-04-20")); day = day.AddDays(1 + r.IntN(3)) {
		w.Day(day.String())
		unsigned, all = life.live(unsigned, all)
		for _, skill := range []string{"humidifier", "go-bag"} {
			said[evening{skill, day}] = w.Standing(nan, skill, mira, day)
		}
	}
	w.Day("2026-05-01")
	words, differ := map[assessment.StandingWord]int{}, 0
	for e, want := range said {
		s := packet(t, w, w.Coordinator, incident(nan, e.skill, mira, e.on.String())).people[0].Standings[0]
		words[want.Word]++
		differ += map[bool]int{true: 1}[s.Differs()]
		if s.Then.Word != want.Word || s.Then.Through != want.Through || !slices.Equal(s.Then.Because, want.Because) {
			t.Errorf("%s on %s: that evening %+v, in the packet %+v", e.skill, e.on, want.Standing, s.Then)
		}
		if now := w.Standing(nan, e.skill, mira, e.on); s.Now.Word != now.Word || s.Now.Through != now.Through {
			t.Errorf("%s on %s: asked today %+v, in the packet %+v", e.skill, e.on, now.Standing, s.Now)
		}
	}
	t.Logf("%d evenings agree, %d of them told otherwise today: %v", len(said), differ, words)
	if differ == 0 || words[assessment.Current] == 0 || words[assessment.Withdrawn] == 0 {
		t.Errorf("this tries less than it says")
	}
}

// randomLife does one thing a day.
type randomLife struct {
	*testing.T
	w    *ward.Ward
	r    *rand.Rand
	nan  assessment.Actor
	mira assessment.ClientID
}

func (l *randomLife) live(unsigned []office.DemonstrationView, all []assessment.DemonstrationID) ([]office.DemonstrationView, []assessment.DemonstrationID) {
	skill := []string{"humidifier", "go-bag"}[l.r.IntN(2)]
	show := func(ways ...ward.Way) {
		d := l.w.Demonstrate(l.nan, skill, l.mira, ways...)
		all = append(all, d.ID)
	}
	switch l.r.IntN(9) {
	case 0, 1:
		show()
	case 2:
		show(ward.Marked(1, assessment.NotMet))
	case 3:
		unsigned = append(unsigned, l.w.Demonstrate(l.nan, skill, l.mira, ward.Unsigned))
	case 4:
		unsigned = append(unsigned, l.w.Demonstrate(l.nan, skill, l.mira, ward.Marked(1, assessment.Unsafe), ward.Unsigned))
	case 5:
		if l.w.Standing(l.nan, skill, l.mira, civil.Date{}).Word.Holds() {
			wantNone(l.T, l.w.Office.Withdraw(l.Context(), l.w.Educators[0], about(l.nan, skill, l.mira), assessment.Redemonstrated, false))
		}
	case 6:
		if len(all) > 0 {
			i := l.r.IntN(len(all))
			wantNone(l.T, l.w.Office.CorrectDemonstration(l.Context(), l.w.Educators[1], all[i], "Another child's sheet.", ward.Proof))
			all = slices.Delete(all, i, i+1)
		}
	case 7, 8:
		for _, d := range unsigned {
			l.w.Sign(l.w.Educators[0], d.ID, office.PartObserver)
			l.w.Pass(time.Minute)
			l.w.Sign(l.nan, d.ID, office.PartLearner)
			all = append(all, d.ID)
		}
		unsigned = nil
	}
	return unsigned, all
}

// On random dates a packet of a large agency says of each case what the fold says.
func TestPacketsOfACrowdAreWhatTheFoldSays(t *testing.T) {
	t.Parallel()
	c := crowd.New(t, crowd.Size{Caregivers: 60, Children: 20, Skills: 12}, 4)
	r := rand.New(rand.NewPCG(4, 4))
	var days []civil.Date
	for range 6 {
		days = append(days, crowd.Opened.AddDays(r.IntN(crowd.Now.Sub(crowd.Opened))))
	}
	folded := must(c.Office.FoldEverything(t.Context(), c.Coordinator, days))(t)
	compared := 0
	for _, day := range days {
		g := packet(t, c.Ward, c.Coordinator, office.PacketForm{Kind: "period", From: day.AddDays(-30).String(), Through: day.String()})
		told := map[assessment.CaseKey]bool{}
		for _, p := range g.people {
			for _, s := range p.Standings {
				key := assessment.CaseKey{Person: p.Person.ID, Skill: s.Skill.ID, Client: s.Client.ID}
				told[key] = true
				compared++
				if want := folded[day].Standings[key]; want.Word != s.Now.Word || want.Through != s.Now.Through {
					t.Fatalf("on %s %v is %+v in the packet, and by the fold %+v", day, key, s.Now, want)
				}
			}
		}
		for key, s := range folded[day].Standings {
			if s.Word != assessment.NotStarted && !told[key] && isTold(g, key.Person) {
				t.Errorf("on %s %v is %s and not told", day, key, s.Word)
			}
		}
	}
	t.Logf("%d standings on %d days agree", compared, len(days))
}

func isTold(g *gathered, id assessment.PersonID) bool {
	return slices.ContainsFunc(g.people, func(p office.PacketPerson) bool { return p.Person.ID == id })
}

// A surveyor gets a packet of nobody else than those they were let in for, and finds
// nobody else in one.
func TestASurveyorsPacketIsAboutWhomTheyWereLetInFor(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier", "go-bag")
	ivo := w.Client("3B", "Ivo")
	w.Join(nan, mira)
	w.Join(nan, ivo)
	olga := w.Nurse("Olga Pell")
	w.Join(olga, ivo)
	for _, child := range []assessment.ClientID{mira, ivo} {
		w.Demonstrate(nan, "humidifier", child)
	}
	w.Demonstrate(olga, "humidifier", ivo)
	sam := w.LetIn(w.Unseeing("Sam Reed"), office.AccessForm{Clients: []assessment.ClientID{mira}})
	today := w.Today().String()
	g := packet(t, w, sam, office.PacketForm{Kind: "person", Person: nan.Person, On: today})
	if !g.Part || len(g.people) != 1 || len(g.people[0].Records) != 1 || g.people[0].Records[0].ClientID != mira {
		t.Errorf("%+v", g.people)
	}
	if g = packet(t, w, sam, office.PacketForm{Kind: "child", Client: mira, On: today}); len(g.people) != 1 || isTold(g, olga.Person) {
		t.Errorf("%+v", g.People)
	}
	for what, f := range map[string]office.PacketForm{
		"somebody else":                {Kind: "person", Person: olga.Person, On: today},
		"another child":                {Kind: "child", Client: ivo, On: today},
		"an incident with another":     incident(nan, "humidifier", ivo, today),
		"an incident of somebody else": incident(olga, "humidifier", ivo, today),
	} {
		err := w.Office.WritePacket(t.Context(), sam, f, office.PacketMoment{}, &gathered{}, nil)
		if fault.KindOf(err) != fault.NotFound {
			t.Errorf("%s: %v", what, err)
		}
	}
	err := w.Office.WritePacket(t.Context(), sam, office.PacketForm{Kind: "period", From: today, Through: today}, office.PacketMoment{}, &gathered{}, nil)
	if fault.KindOf(err) != fault.Forbidden {
		t.Errorf("the agency: %v", err)
	}
	for _, nobody := range []assessment.Actor{nan, w.Unseeing("Pat Nile")} {
		if err := w.Office.WritePacket(t.Context(), nobody, office.PacketForm{Kind: "person", Person: nan.Person, On: today}, office.PacketMoment{}, &gathered{}, nil); fault.KindOf(err) != fault.Forbidden {
			t.Errorf("%s: %v", nobody.Name, err)
		}
	}
}
