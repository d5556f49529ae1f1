package assessment_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// smallHome is one child, c, whose nurses need suctioning for them and resuscitation, and
// whose aides need nothing yet. Everybody is current in both through 11 June 2026 and
// lapsed from the 12th on, unless a test says otherwise.
type smallHome struct {
	hands []assessment.Hand
	lines assessment.StandingLines
	rest  time.Duration
	also  []assessment.Requirement // besides what nurses need
}

var (
	suctioning    = assessment.Need{Skill: "suctioning", Client: "c"}
	resuscitation = assessment.Need{Skill: "resuscitation"}
)

func segmentsOf(words ...string) []assessment.Segment {
	var line []assessment.Segment
	for _, w := range words {
		day, word, _ := strings.Cut(w, " ")
		line = append(line, assessment.Segment{From: civil.MustParse(day), Word: assessment.StandingWord(word)})
	}
	return line
}

func newHome(names ...string) *smallHome {
	h := &smallHome{lines: assessment.StandingLines{}}
	for _, n := range names {
		p := assessment.PersonID(n)
		h.hands = append(h.hands, assessment.Hand{Person: p, Name: n, Kind: assessment.Nurse})
		h.lines[p] = map[assessment.Need][]assessment.Segment{
			suctioning:    segmentsOf("2026-01-01 current", "2026-05-13 due", "2026-06-12 lapsed"),
			resuscitation: segmentsOf("2026-01-01 current", "2026-05-13 due", "2026-06-12 lapsed"),
		}
	}
	return h
}

func (h *smallHome) judged(shifts ...assessment.Shift) *assessment.Coverage {
	demands := assessment.NewDemands(append([]assessment.Requirement{
		{ID: "1", Skill: "suctioning", Kind: assessment.Nurse, Client: "c", From: civil.MustParse("2026-01-01")},
		{ID: "2", Skill: "resuscitation", Kind: assessment.Nurse, From: civil.MustParse("2026-01-01")},
	}, h.also...), scopeOfSuctioning, nil)
	return assessment.NewCoverage(assessment.Grounds{Zone: newYork, Hands: h.hands, Needs: demands.On, Stands: h.lines.On, Rest: h.rest}, shifts)
}

func scopeOfSuctioning(skill string) assessment.Scope {
	if skill == "suctioning" {
		return assessment.ClientSpecific
	}
	return assessment.General
}

func coverInWords(a assessment.ShiftCover) string {
	words := string(a.Word)
	for _, o := range a.Obstacles {
		words += fmt.Sprintf("; %s on %s", o.Why, o.On)
		if o.Why == assessment.NotHeld {
			words += fmt.Sprintf(": %s %s", o.Need.Skill, o.Word)
		}
	}
	return words
}

// TestWhatBreaksAShift: the rules of coverage in the design, each read so that it
// withholds; common practice, no source.
func TestWhatBreaksAShift(t *testing.T) {
	day, night, lateNight := [2]string{"2026-06-11 07:00", "2026-06-11 19:00"}, [2]string{"2026-06-11 19:00", "2026-06-12 07:00"}, [2]string{"2026-06-11 16:00", "2026-06-12 00:00"}
	line := func(words ...string) func(*smallHome) {
		return func(h *smallHome) { h.lines["a"][suctioning] = segmentsOf(words...) }
	}
	for _, c := range []struct {
		name   string
		times  [2]string
		change func(*smallHome)
		want   string
	}{
		{"due holds", day, nil, "covered"},
		{"through midnight of its last day", lateNight, nil, "covered"},
		{"past midnight of its last day", night, nil, "breaks; does not hold a skill on 2026-06-12: suctioning lapsed; does not hold a skill on 2026-06-12: resuscitation lapsed"},
		{"waived covers nobody", day, line("2026-01-01 waived"), "breaks; does not hold a skill on 2026-06-11: suctioning waived"},
		{"withdrawn", day, line("2026-01-01 current", "2026-06-11 withdrawn"), "breaks; does not hold a skill on 2026-06-11: suctioning withdrawn"},
		{"withdrawn on the second day", night, line("2026-01-01 current", "2026-06-12 withdrawn"), "breaks; does not hold a skill on 2026-06-12: suctioning withdrawn; does not hold a skill on 2026-06-12: resuscitation lapsed"},
		{"current only from the second day", night, line("2026-06-12 current"), "breaks; does not hold a skill on 2026-06-11: suctioning not started; does not hold a skill on 2026-06-12: resuscitation lapsed"},
		{"learning", day, line("2026-01-01 learning"), "breaks; does not hold a skill on 2026-06-11: suctioning learning"},
		{"never shown", day, line(), "breaks; does not hold a skill on 2026-06-11: suctioning not started"},
		{"gone by then", day, func(h *smallHome) { h.hands[0].Left = civil.MustParse("2026-06-11") }, "breaks; has left on 2026-06-11"},
		{"gone the day after", day, func(h *smallHome) { h.hands[0].Left = civil.MustParse("2026-06-12") }, "covered"},
		{"nothing required of them", day, func(h *smallHome) { h.hands[0].Kind = assessment.Aide }, "breaks; nothing is required of them yet on 2026-06-11"},
		{"nobody's caregiver", day, func(h *smallHome) { h.hands[0].Kind = "" }, "breaks; is no caregiver on 2026-06-11"},
		{"not known", day, func(h *smallHome) { h.hands = nil }, "breaks; not known here on 2026-06-11"},
		{"ends before it starts", [2]string{"2026-06-12 07:00", "2026-06-11 19:00"}, nil, "breaks; does not hold a skill on 2026-06-12: suctioning lapsed; does not hold a skill on 2026-06-12: resuscitation lapsed"},
	} {
		h := newHome("a")
		if c.change != nil {
			c.change(h)
		}
		if got := coverInWords(h.judged().Of(shiftAt("s", "c", "a", c.times[0], c.times[1]))); got != c.want {
			t.Errorf("%s: %q, not %q", c.name, got, c.want)
		}
	}
	h := newHome("a")
	if got := h.judged().Of(shiftAt("s", "c", "", day[0], day[1])); got.Word != assessment.OpenYet {
		t.Errorf("nobody is on it: %v", got)
	}
	also := shiftAt("s", "c", "a", day[0], day[1])
	also.Also = []assessment.Need{resuscitation, {Skill: "humidifier"}}
	if got := coverInWords(h.judged().Of(also)); got != "breaks; does not hold a skill on 2026-06-11: humidifier not started" {
		t.Errorf("what the way home asks besides: %q", got)
	}
}

func TestTheFirstShiftThatBreaks(t *testing.T) {
	h := newHome("a")
	shifts := []assessment.Shift{
		shiftAt("4", "c", "a", "2026-06-14 07:00", "2026-06-14 19:00"),
		shiftAt("2", "c", "a", "2026-06-12 07:00", "2026-06-12 19:00"),
		shiftAt("3", "c", "a", "2026-06-12 07:00", "2026-06-12 21:00"),
		shiftAt("1", "c", "a", "2026-06-10 07:00", "2026-06-10 19:00"),
		shiftAt("0", "c", "", "2026-06-11 07:00", "2026-06-11 19:00"),
		shiftAt("5", "d", "a", "2026-06-11 07:00", "2026-06-11 19:00"),
	}
	first := assessment.FirstBreaks(h.judged().All(shifts))
	if len(first) != 1 || first["c"].Shift.ID != "2" {
		t.Errorf("the first that break: %v", first)
	}
}

// TestWhoCouldTakeAShift: by fewest hours in the week, then by name; the others with the
// first reason why not.
func TestWhoCouldTakeAShift(t *testing.T) {
	h := newHome("gone", "aide", "busy", "tired", "lapsed", "few", "many", "also few", "on it", "none", "waived")
	h.rest = 10 * time.Hour
	h.hands[0].Left, h.hands[1].Kind, h.hands[9].Kind = civil.MustParse("2026-06-01"), assessment.Aide, ""
	h.lines["lapsed"][resuscitation] = segmentsOf("2026-01-01 current", "2026-06-10 lapsed")
	h.lines["waived"][resuscitation] = segmentsOf("2026-01-01 waived")
	c := h.judged(
		shiftAt("s", "c", "on it", "2026-06-09 19:00", "2026-06-10 07:00"),
		shiftAt("b", "d", "busy", "2026-06-10 06:59", "2026-06-10 09:00"),
		shiftAt("t", "d", "tired", "2026-06-10 16:59", "2026-06-10 23:00"),
		shiftAt("t2", "d", "tired", "2026-06-09 08:00", "2026-06-09 09:30"),
		shiftAt("f", "d", "few", "2026-06-10 17:00", "2026-06-10 23:00"),       // ten hours after: rested
		shiftAt("f2", "d", "few", "2026-06-07 19:00", "2026-06-08 02:00"),      // Sunday into Monday: two hours of this week
		shiftAt("a", "d", "also few", "2026-06-14 22:00", "2026-06-15 22:00"),  // Sunday into the next week: two hours
		shiftAt("a2", "d", "also few", "2026-06-12 07:00", "2026-06-12 13:00"), // six
		shiftAt("m", "d", "many", "2026-06-08 07:00", "2026-06-09 05:00"),
	)
	able, not := c.StandIns(shiftAt("s", "c", "on it", "2026-06-09 19:00", "2026-06-10 07:00"))
	var who []string
	for _, a := range able {
		who = append(who, fmt.Sprintf("%s %s", a.Name, a.Hours))
	}
	if got := strings.Join(who, ", "); got != "also few 8h0m0s, few 8h0m0s, many 22h0m0s" {
		t.Errorf("who could: %s", got)
	}
	who = nil
	for _, n := range not {
		words := fmt.Sprintf("%s: %s", n.Name, n.Why)
		switch n.Why {
		case assessment.NotHeld:
			words += fmt.Sprintf(" (%s %s %s)", n.Need.Skill, n.Word, n.On)
		case assessment.OnAnother:
			words += fmt.Sprintf(" (%s)", n.Other.ID)
		case assessment.TooSoon:
			words += fmt.Sprintf(" (%s %s)", n.Other.ID, n.Rest)
		}
		who = append(who, words)
	}
	want := []string{"aide: is another kind of caregiver", "busy: is on another shift at the time (b)", "gone: has left",
		"lapsed: does not hold a skill (resuscitation lapsed 2026-06-10)", "none: is no caregiver", "on it: is on this shift",
		"tired: would have too little rest (t2 9h30m0s)", "waived: does not hold a skill (resuscitation waived 2026-06-09)"}
	if !slices.Equal(who, want) {
		t.Errorf("who could not: %s", strings.Join(who, "\n"))
	}
}

// TestAShiftAsksForAKind: common practice, no source. An aide never stands in for a nurse
// because nobody said so; where an open shift asks for nobody in particular, anybody may.
func TestAShiftAsksForAKind(t *testing.T) {
	h := newHome("a nurse", "another", "an aide", "a mother")
	h.hands[2].Kind, h.hands[3].Kind = assessment.Aide, assessment.Family
	for _, kind := range assessment.CaregiverKinds {
		h.also = append(h.also, assessment.Requirement{ID: "k", Skill: "resuscitation", Kind: kind, From: civil.MustParse("2026-01-01")})
	}
	on := func(person, kind string) assessment.Shift {
		s := shiftAt("s", "c", person, "2026-06-10 07:00", "2026-06-10 19:00")
		s.Kind = assessment.CaregiverKind(kind)
		return s
	}
	for _, c := range []struct{ person, kind, cover, could string }{
		{"a nurse", "", "covered", "another"},
		{"a nurse", "nurse", "covered", "another"},
		{"an aide", "", "covered", ""},
		{"an aide", "nurse", "breaks; is another kind of caregiver on 2026-06-10", "a nurse, another"},
		{"a mother", "aide", "breaks; is another kind of caregiver on 2026-06-10", "an aide"},
		{"", "", "open", "a mother, a nurse, an aide, another"},
		{"", "nurse", "open", "a nurse, another"},
		{"", "family", "open", "a mother"},
		{"nobody known", "", "breaks; not known here on 2026-06-10", "a mother, a nurse, an aide, another"},
	} {
		s, coverage := on(c.person, c.kind), h.judged()
		if got := coverInWords(coverage.Of(s)); got != c.cover {
			t.Errorf("%q on a shift for %q: %q, not %q", c.person, c.kind, got, c.cover)
		}
		able, not := coverage.StandIns(s)
		var who []string
		for _, a := range able {
			who = append(who, a.Name)
		}
		if got := strings.Join(who, ", "); got != c.could {
			t.Errorf("%q on a shift for %q: %q could, not %q", c.person, c.kind, got, c.could)
		}
		for _, n := range not {
			if n.Why == assessment.OtherKind && n.Asks == "" {
				t.Errorf("%s is another kind than none: %+v", n.Name, n)
			}
		}
		if shared := coverage.ShareOut([]assessment.Shift{s}); (len(shared.Takes) == 1) != (c.could != "") {
			t.Errorf("%q on a shift for %q, shared out: %+v", c.person, c.kind, shared)
		}
	}
	p := daily("07:00", "19:00")
	p.Kind, p.Person = assessment.Nurse, "an aide"
	if got := coverInWords(h.judged().Of(first(p.On(civil.MustParse("2026-06-10"), newYork, nil)))); got != "breaks; is another kind of caregiver on 2026-06-10" {
		t.Errorf("of a pattern that asks for nurses: %q", got)
	}
	e := assessment.PatternException{Pattern: p.ID, On: civil.MustParse("2026-06-10"), Person: "a nurse", From: p.From, Until: p.Until}
	if got := h.judged().Of(first(p.On(e.On, newYork, &e))); got.Word != assessment.Covered || got.Shift.Kind != assessment.Nurse {
		t.Errorf("given to a nurse on one day: %+v", got)
	}
}

func first(s assessment.Shift, _ bool) assessment.Shift { return s }

// TestAShiftThatIsGivenUp: whoever was on it is not in their own way when it is asked about
// as an open one.
func TestAShiftThatIsGivenUp(t *testing.T) {
	s := shiftAt("s", "c", "a", "2026-06-10 07:00", "2026-06-10 19:00")
	c := newHome("a").judged(s)
	s.Person = ""
	if able, not := c.StandIns(s); len(able) != 1 || len(not) != 0 {
		t.Errorf("could: %v, could not: %v", able, not)
	}
}

// TestShiftsThatPatternsTakeUp: who is on a pattern's night is not free that night.
func TestShiftsThatPatternsTakeUp(t *testing.T) {
	h := newHome("a", "b")
	p := daily("19:00", "07:00")
	nights := assessment.PatternShifts([]assessment.Pattern{p}, nil, civil.MustParse("2026-06-01"), civil.MustParse("2026-06-30"), newYork)
	able, not := h.judged(nights...).StandIns(shiftAt("s", "c", "", "2026-06-10 06:00", "2026-06-10 12:00"))
	if len(able) != 1 || able[0].Name != "b" || len(not) != 1 || not[0].Why != assessment.OnAnother || not[0].Other.ID != "p.2026-06-09" {
		t.Errorf("could: %v, could not: %v", able, not)
	}
}
