package office_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/integration/crowd"
	"wellshown/integration/ward"
)

// A preview says what happens when the change is then made: a hundred random changes are
// previewed, made by whoever may, and what the index of standings, coverage and the fold of
// the records say before and after is held against the preview, line by line (common
// practice, no source: each is asked by another way than the preview itself).
func TestPreviewsAreWhatHappens(t *testing.T) {
	t.Parallel()
	p := &previewing{T: t, c: crowd.New(t, crowd.Size{Caregivers: 28, Children: 8, Skills: 12}, 3), r: rand.New(rand.NewPCG(27, 100)), made: map[string]int{}}
	p.nights()
	p.after = p.stands()
	for n := range 100 {
		day := p.c.Today()
		p.c.Pass(time.Duration(1+p.r.IntN(300)) * time.Minute)
		if p.c.Today() != day { // days pass without a change too
			p.after = p.stands()
		}
		p.change(n)
	}
	indexIsRight(t, p.c.Ward)
	t.Logf("100 changes were as previewed %v: %d turns of standings of %d people, %d shifts broken, %d mended, %d otherwise; %d comparisons", p.made, p.turns, p.people, p.broken, p.mended, p.otherwise, p.compared)
	for _, kind := range kindsOfChange {
		if p.made[kind] < 3 {
			t.Errorf("only %d times: %s", p.made[kind], kind)
		}
	}
	if p.turns < 200 || p.broken < 100 || p.mended < 10 || p.compared < 50000 {
		t.Error("this tries less than it says")
	}
}

// nights puts each of the many on some nights of each week with one of their children.
// Of all that is required only little stays, so that most shifts are covered at first.
func (p *previewing) nights() {
	p.Helper()
	for _, r := range must(p.c.Office.Requirements(p.Context(), p.c.Coordinator))(p.T) {
		if r.Skill != "go-bag" {
			wantNone(p.T, p.c.Office.EndRequirement(p.Context(), p.c.Coordinator, r.ID, civil.Later(r.From, p.c.Today().AddDays(-1)).String()))
		}
	}
	must(p.c.Office.SetRequirement(p.Context(), p.c.Coordinator, office.RequirementForm{Skill: "suction", From: p.c.Today().String()}))(p.T)
	weekdays := [][]int{{1, 2}, {3, 4}, {5, 6, 7}}
	taken := map[assessment.ClientID]int{}
	for _, who := range p.c.Caregivers {
		for _, i := range who.Cares {
			child := p.c.Children[i]
			if n := taken[child.ID]; who.Left.IsZero() && child.Left.IsZero() && n < len(weekdays) {
				must(p.c.Office.AddPattern(p.Context(), p.c.Coordinator, office.PatternForm{Client: child.ID, Person: who.ID, Weekdays: weekdays[n], From: "22:00", Until: "06:00", FromOn: crowd.Now.String()}))(p.T)
				taken[child.ID]++
				break
			}
		}
	}
}

var kindsOfChange = []string{"a revision", "a recheck", "a withdrawal", "equipment", "a requirement", "its end", "a parting"}

type previewing struct {
	*testing.T
	c                                                           *crowd.Crowd
	r                                                           *rand.Rand
	after                                                       standsAt
	made                                                        map[string]int
	turns, people, broken, mended, otherwise, compared, refused int
}

// standsAt is how everything stands at a moment, by other ways of asking.
type standsAt struct {
	index map[assessment.CaseKey][]assessment.Segment
	cover map[assessment.ShiftID]office.CoverLine
	fold  map[civil.Date]office.FoldedDay // for every third change
}

func (p *previewing) stands() standsAt {
	p.Helper()
	ctx, by := p.Context(), p.c.Coordinator
	at := standsAt{cover: map[assessment.ShiftID]office.CoverLine{}}
	wantNone(p.T, p.c.Postgres.Reading(ctx, by.Agency, func(tx *postgres.Tx) (err error) {
		at.index, err = tx.Segments.All(ctx)
		return err
	}))
	today := p.c.Today()
	for _, l := range must(p.c.Office.Coverage(ctx, by, office.CoverageQuery{From: today, Through: today.AddDays(office.PreviewDays - 1)}))(p.T).Lines {
		at.cover[l.ID] = l
	}
	return at
}

// folded is what the fold says today and on some days to come.
func (p *previewing) folded() map[civil.Date]office.FoldedDay {
	p.Helper()
	var days []civil.Date
	for _, ahead := range []int{0, 1, 45, 240} {
		days = append(days, p.c.Today().AddDays(ahead))
	}
	return must(p.c.Office.FoldEverything(p.Context(), p.c.Coordinator, days))(p.T)
}

// change previews one change, makes it, and compares.
func (p *previewing) change(n int) {
	p.Helper()
	kind := kindsOfChange[p.r.IntN(len(kindsOfChange))]
	look, do := p.random(kind)
	v, err := look()
	for err != nil { // what may not be done is not shown either
		p.refused++
		refused := do()
		if refused == nil || !strings.HasSuffix(err.Error(), lastPart(refused)) {
			p.Fatalf("%d, %s: looking at it is refused with %v, doing it with %v", n, kind, err, refused)
		}
		look, do = p.random(kind)
		v, err = look()
	}
	before := p.after
	if n%3 == 0 {
		before.fold = p.folded()
	}
	wantNone(p.T, do())
	if p.after = p.stands(); n%3 == 0 {
		p.after.fold = p.folded()
	}
	p.made[kind]++
	p.standings(n, kind, v, before)
	p.shifts(n, kind, v, before)
	p.turns, p.people = p.turns+len(v.Standings), p.people+v.People
	p.broken, p.mended, p.otherwise = p.broken+len(v.Broken), p.mended+len(v.Mended), p.otherwise+len(v.Otherwise)
}

// lastPart is a refusal without what was attempted.
func lastPart(err error) string {
	parts := strings.Split(err.Error(), ": ")
	return parts[len(parts)-1]
}

// standings holds the preview's turns to the index on every day on which an answer could
// begin, and to the fold on some.
func (p *previewing) standings(n int, kind string, v office.Preview, before standsAt) {
	p.Helper()
	told := map[assessment.CaseKey][]office.StandingChange{}
	for _, c := range v.Standings {
		key := assessment.CaseKey{Person: c.Person.ID, Skill: c.Skill.ID, Client: c.Client.ID}
		told[key] = append(told[key], c)
	}
	check := func(key assessment.CaseKey, day civil.Date, was, is assessment.StandingWord, by string) {
		p.compared++
		i := slices.IndexFunc(told[key], func(c office.StandingChange) bool {
			return !c.From.After(day) && (c.Through.IsZero() || !c.Through.Before(day))
		})
		if (i >= 0) != (was != is) || i >= 0 && (told[key][i].Before != was || told[key][i].After != is) {
			p.Fatalf("%d, %s: on %s %v was %s and is %s by %s, and the preview says %+v", n, kind, day, key, was, is, by, told[key])
		}
	}
	cases := map[assessment.CaseKey]bool{}
	for _, lines := range []map[assessment.CaseKey][]assessment.Segment{before.index, p.after.index} {
		for key := range lines {
			cases[key] = true
		}
	}
	for key := range told {
		cases[key] = true
	}
	for key := range cases {
		days := map[civil.Date]bool{v.Today: true}
		for _, s := range slices.Concat(before.index[key], p.after.index[key]) {
			if s.From.After(v.Today) {
				days[s.From], days[s.From.AddDays(-1)] = true, true
			}
		}
		for _, c := range told[key] {
			days[c.From] = true
			if !c.Through.IsZero() {
				days[c.Through], days[c.Through.AddDays(1)] = true, true
			}
		}
		for day := range days {
			check(key, day, indexed(before.index[key], day), indexed(p.after.index[key], day), "the index")
		}
	}
	for day, folded := range p.after.fold {
		was, known := before.fold[day]
		for key, is := range folded.Standings {
			if s, there := was.Standings[key]; known && there {
				check(key, day, s.Word, is.Word, "the fold")
			}
		}
	}
}

func indexed(line []assessment.Segment, day civil.Date) assessment.StandingWord {
	for _, s := range slices.Backward(line) {
		if !s.From.After(day) {
			return s.Word
		}
	}
	return assessment.NotStarted
}

// shifts holds the preview's shifts to coverage before and after.
func (p *previewing) shifts(n int, kind string, v office.Preview, before standsAt) {
	p.Helper()
	told := map[assessment.ShiftID]string{}
	for what, lines := range map[string][]office.CoverLine{"broken": v.Broken, "mended": v.Mended, "otherwise": v.Otherwise} {
		for _, l := range lines {
			told[l.ID] = what
		}
	}
	for id, is := range p.after.cover {
		was, there := before.cover[id]
		want := ""
		switch broke, breaks := was.Word == assessment.Breaks, is.Word == assessment.Breaks; {
		case !there:
		case breaks && !broke:
			want = "broken"
		case broke && !breaks:
			want = "mended"
		case breaks && fmt.Sprintf("%+v", was.Lacks) != fmt.Sprintf("%+v", is.Lacks):
			want = "otherwise"
		}
		if p.compared++; told[id] != want {
			p.Fatalf("%d, %s: the shift %s of %s was %s %+v and is %s %+v, and the preview says %q", n, kind, id, is.Person.Name, was.Word, was.Lacks, is.Word, is.Lacks, told[id])
		}
		delete(told, id)
	}
	if len(told) > 0 {
		p.Fatalf("%d, %s: the preview tells of shifts that there are not: %v", n, kind, told)
	}
}

// random is a change of a kind, to be looked at and to be made.
func (p *previewing) random(kind string) (look func() (office.Preview, error), do func() error) {
	ctx, o := p.Context(), p.c.Office
	rolf, cory := p.c.Educators[1], p.c.Coordinator
	skill, child := p.c.Skills[p.r.IntN(len(p.c.Skills))], p.c.Children[p.r.IntN(len(p.c.Children))]
	person := p.c.Caregivers[p.r.IntN(len(p.c.Caregivers))]
	today := p.c.Today()
	switch kind {
	case "a revision", "a recheck":
		return p.revision(skill, kind == "a recheck")
	case "a withdrawal":
		if len(person.Cares) > 0 {
			child = p.c.Children[person.Cares[p.r.IntN(len(person.Cares))]]
		}
		f := about(assessment.Actor{Person: person.ID}, skill.Code, child.ID)
		until, related := []assessment.Until{assessment.Redemonstrated, assessment.Reinstated}[p.r.IntN(2)], p.r.IntN(2) == 0
		return func() (office.Preview, error) { return o.PreviewWithdraw(ctx, rolf, f, until, related) }, func() error { return o.Withdraw(ctx, rolf, f, until, related) }
	case "equipment":
		kinds := []string{"ventilator", "humidifier", "tracheostomy tube", "circuit"}
		f := office.EquipmentForm{Kind: kinds[p.r.IntN(len(kinds))], Type: fmt.Sprint("type ", p.r.IntN(3)), From: today.AddDays(p.r.IntN(60) - 20).String()}
		return func() (office.Preview, error) { return o.PreviewEquipment(ctx, cory, child.ID, f) }, func() error { _, err := o.SetEquipment(ctx, cory, child.ID, f); return err }
	case "a requirement":
		f := office.RequirementForm{Skill: skill.Code, Kind: []string{"", "nurse", "aide", "family"}[p.r.IntN(4)], From: today.AddDays(p.r.IntN(40)).String()}
		if p.r.IntN(3) > 0 {
			f.Client = child.ID
		}
		if p.r.IntN(3) == 0 {
			f.Through = today.AddDays(40 + p.r.IntN(40)).String()
		}
		return func() (office.Preview, error) { return o.PreviewRequirement(ctx, cory, f) }, func() error { _, err := o.SetRequirement(ctx, cory, f); return err }
	case "its end":
		all := must(o.Requirements(ctx, cory))(p.T)
		id, through := all[p.r.IntN(len(all))].ID, today.AddDays(p.r.IntN(30)).String()
		return func() (office.Preview, error) { return o.PreviewRequirementEnd(ctx, cory, id, through) }, func() error { return o.EndRequirement(ctx, cory, id, through) }
	}
	on := today.AddDays(p.r.IntN(40))
	return func() (office.Preview, error) { return o.PreviewLeaving(ctx, p.c.Admin, person.ID, on) }, func() error { return o.PersonLeaves(ctx, p.c.Admin, person.ID, on) }
}

// revision drafts another policy of a skill. The look is that of the second person, who
// then agrees to what they saw.
func (p *previewing) revision(skill crowd.Skill, recheck bool) (look func() (office.Preview, error), do func() error) {
	ctx, o := p.Context(), p.c.Office
	by := ""
	if recheck {
		by = p.c.Today().AddDays(p.r.IntN(80)).String()
	}
	draft := must(o.DraftRevision(ctx, p.c.Educators[0], skill.ID))(p.T)
	draft = save(p.T, p.c.Ward, p.c.Educators[0], draft, policy(fmt.Sprintf("months: %d", 6+p.r.IntN(12)), fmt.Sprintf("notice_days: %d", 20+p.r.IntN(60)), fmt.Sprintf("absence_days: %d", p.r.IntN(2)*(60+p.r.IntN(100))),
		fmt.Sprintf("pass_mark: %d/100", 60+p.r.IntN(40)), fmt.Sprintf("count: %d", 1+p.r.IntN(3)), "days: 1", "observers: 1", "real: 0"))
	form := office.PutInForceForm{Revision: draft.ID, Version: draft.Version, Statement: "Read.", RecheckBy: by, Proof: ward.Proof}
	first := must(o.PreviewInForce(ctx, p.c.Educators[0], office.PreviewForm{Revision: draft.ID, Version: draft.Version, RecheckBy: by}))(p.T)
	form.Seen = first.Version
	proposed := must(o.ProposeInForce(ctx, p.c.Educators[0], form))(p.T)
	second := must(o.Proposal(ctx, p.c.Educators[1], proposed.ID))(p.T).Preview
	if fmt.Sprintf("%+v", first.Standings)+fmt.Sprintf("%+v", first.Broken) != fmt.Sprintf("%+v", second.Standings)+fmt.Sprintf("%+v", second.Broken) {
		p.Fatalf("the first is shown\n%+v\nand the second\n%+v", first, second)
	}
	return func() (office.Preview, error) { return second, nil }, func() error {
		return o.AgreeInForce(ctx, p.c.Educators[1], office.AgreeForm{Proposal: proposed.ID, Seen: second.Version, Proof: ward.Proof})
	}
}
