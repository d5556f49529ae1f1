package office_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/knowledge"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// checked is a ward that asks the starter items of a skill.
func checked(t *testing.T, w *ward.Ward, skill, asked string) {
	t.Helper()
	must(w.Office.TakeStarterItems(t.Context(), w.Educators[0], skill))(t)
	wantNone(t, w.Office.SetCheckRule(t.Context(), w.Educators[0], office.RuleForm{Skill: skill, Asked: asked, Length: "10", PassMark: "9/10", Months: "12", WaitHours: "24", Tries: "2"}))
}

// rightAnswer is the right one to a question, as a page would send it.
func rightAnswer(id assessment.RecordID, q office.Question) office.AnswerForm {
	f := office.AnswerForm{Sitting: id, Place: q.Place}
	switch q.Item.Kind {
	case knowledge.Numeric:
		f.Value, f.Unit = q.Item.Low.String(), q.Item.Unit
	case knowledge.Order, knowledge.Match:
		all := make([]int, q.Item.Options())
		for i := range all {
			all[i] = i + 1
		}
		f.Chosen = knowledge.Places(q.Shown, all)
	default:
		f.Chosen = knowledge.Places(q.Shown, q.Item.Right)
	}
	return f
}

// takes has somebody take a check, with all right but for some questions that are left out.
func takes(t *testing.T, w *ward.Ward, who assessment.Actor, skill string, leaveOut ...int) office.SittingView {
	t.Helper()
	id := must(w.Office.BeginCheck(t.Context(), who, skill, "es"))(t)
	for _, q := range must(w.Office.Sitting(t.Context(), who, id))(t).Questions {
		if !slices.Contains(leaveOut, q.Place) {
			wantNone(t, w.Office.AnswerItem(t.Context(), who, rightAnswer(id, q)))
		}
	}
	wantNone(t, w.Office.HandIn(t.Context(), who, id))
	return must(w.Office.Sitting(t.Context(), who, id))(t)
}

// own is where somebody stands with a check.
func own(t *testing.T, w *ward.Ward, who assessment.Actor, skill string) office.OwnCheck {
	t.Helper()
	for _, c := range must(w.Office.Checks(t.Context(), who))(t).Own {
		if c.Skill.Code == skill {
			return c
		}
	}
	t.Fatalf("%s has no check of %s", who.Name, skill)
	return office.OwnCheck{}
}

// A check goes on where it was left, is judged once, and says when the next try is (the
// issue's own rules, no other source).
func TestACheckIsTaken(t *testing.T) {
	t.Parallel()
	w, _, nan := quick(t)
	checked(t, w, "suction", "to learn")
	v := takes(t, w, nan, "suction", 1, 2, 3)
	if v.Result.Passed || v.Result.Right != 7 || v.Open() || v.Language != "es" || v.Next.Teach || !v.Next.From.Equal(w.Now().Add(24*time.Hour)) {
		t.Fatalf("seven of ten: %+v, next %+v", v.Result, v.Next)
	}
	_, err := w.Office.BeginCheck(t.Context(), nan, "suction", "es")
	wantRefusal(t, err, fault.Refused, "The next try is from")
	w.Pass(25 * time.Hour)
	takes(t, w, nan, "suction", 1, 2, 3, 4)
	w.Pass(25 * time.Hour)
	if _, err = w.Office.BeginCheck(t.Context(), nan, "suction", "es"); err == nil {
		t.Fatal("after two tries nobody was taught, and a third begins")
	}
	wantRefusal(t, err, fault.Refused, "an educator goes through it with you")
	wantNone(t, w.Office.Log(t.Context(), w.Educators[0], office.LogForm{Person: nan.Person, Skill: "bagging", Kind: assessment.TeachingEntry, On: w.Today().String()}))
	_, err = w.Office.BeginCheck(t.Context(), nan, "suction", "es")
	wantRefusal(t, err, fault.Refused, "an educator goes through it with you") // another skill was taught
	taught := office.LogForm{Person: nan.Person, Skill: "suction", Client: w.Client("8M", "Sol"), Kind: assessment.TeachingEntry, On: w.Today().AddDays(-2).String()}
	wantNone(t, w.Office.Log(t.Context(), w.Educators[0], taught))
	_, err = w.Office.BeginCheck(t.Context(), nan, "suction", "es")
	wantRefusal(t, err, fault.Refused, "an educator goes through it with you") // on the day of the first try, and not known whether after it
	taught.On = w.Today().String()
	wantNone(t, w.Office.Log(t.Context(), w.Educators[0], taught))
	passed := takes(t, w, nan, "suction")
	if c := own(t, w, nan, "suction"); !passed.Result.Passed || !c.Holds() || c.Through != w.Today().AddMonths(12) || len(c.Tries) != 3 || !c.Tries[0].Passed {
		t.Errorf("passed in the end: %+v", c)
	}
	w.At(passed.Through.AddDays(1).In(w.Zone))
	if c := own(t, w, nan, "suction"); c.Holds() || c.Ran != passed.Through {
		t.Errorf("a year and a day later: %+v", c)
	}
}

// Two tabs, a double submit and a replay make one sitting, and nothing that was answered
// is lost.
func TestASittingIsOne(t *testing.T) {
	t.Parallel()
	w, _, nan := quick(t)
	checked(t, w, "suction", "to learn")
	id := must(w.Office.BeginCheck(t.Context(), nan, "suction", "en"))(t)
	begun := make(chan assessment.RecordID, 8)
	for range 8 {
		go func() {
			one, err := w.Office.BeginCheck(t.Context(), nan, "suction", "en")
			if err != nil {
				t.Error(err)
			}
			begun <- one
		}()
	}
	for range 8 {
		if one := <-begun; one != id {
			t.Errorf("another sitting: %s", one)
		}
	}
	v := must(w.Office.Sitting(t.Context(), nan, id))(t)
	for _, q := range v.Questions {
		f := rightAnswer(id, q)
		wantNone(t, w.Office.AnswerItem(t.Context(), nan, f))
		wantNone(t, w.Office.AnswerItem(t.Context(), nan, f))
	}
	w.Pass(time.Hour)
	if again := must(w.Office.Sitting(t.Context(), nan, id))(t); len(again.Unanswered()) != 0 || !again.Open() {
		t.Errorf("left and come back to: %+v", again)
	}
	handed := make(chan error, 4)
	for range 4 {
		go func() { handed <- w.Office.HandIn(t.Context(), nan, id) }()
	}
	for range 4 {
		wantNone(t, <-handed)
	}
	wantNone(t, w.Office.AnswerItem(t.Context(), nan, rightAnswer(id, v.Questions[0]))) // the same once more changes nothing
	other := rightAnswer(id, v.Questions[0])
	other.Chosen, other.Value = nil, ""
	wantRefusal(t, w.Office.AnswerItem(t.Context(), nan, other), fault.Conflict, "handed in already")
	if c := own(t, w, nan, "suction"); len(c.Tries) != 1 || c.Tries[0].Right != 10 {
		t.Errorf("tries %+v", c.Tries)
	}
}

// Forms that are drawn here are equally difficult, over a hundred of them, whoever sits.
func TestEveryFormOfABankIsAsDifficult(t *testing.T) {
	t.Parallel()
	w, _, _ := quick(t)
	checked(t, w, "suction", "to learn")
	first := ""
	for n := range 100 {
		who := w.Nurse(fmt.Sprint("Nurse ", strings.Repeat("x", n%7+1), n))
		id := must(w.Office.BeginCheck(t.Context(), who, "suction", "en"))(t)
		sorts := map[string]int{}
		for _, q := range must(w.Office.Sitting(t.Context(), who, id))(t).Questions {
			sorts[fmt.Sprint(q.Item.Difficulty, q.Item.Critical)]++
		}
		if got := fmt.Sprint(sorts); first == "" {
			first = got
		} else if got != first {
			t.Fatalf("form %d has %s, another %s", n, got, first)
		}
	}
}

func TestAnswersThatAreNone(t *testing.T) {
	t.Parallel()
	w, _, nan := quick(t)
	pia := w.Nurse("Pia Lund")
	checked(t, w, "suction", "to learn")
	beside := ward.Beside(t, w)
	id := must(w.Office.BeginCheck(t.Context(), nan, "suction", "en"))(t)
	v := must(w.Office.Sitting(t.Context(), nan, id))(t)
	for _, q := range v.Questions {
		f := rightAnswer(id, q)
		for _, odd := range []func(f *office.AnswerForm){
			func(f *office.AnswerForm) { f.Place = 11 }, func(f *office.AnswerForm) { f.Place = 0 }, func(f *office.AnswerForm) { f.Chosen = []int{99} },
			func(f *office.AnswerForm) { f.Chosen = []int{-1, 0} }, func(f *office.AnswerForm) { f.Chosen = []int{1, 1} }, func(f *office.AnswerForm) { f.Chosen = make([]int, 70000) },
			func(f *office.AnswerForm) { f.Value = strings.Repeat("9", 41) }, func(f *office.AnswerForm) { f.Value, f.Unit = "12\x00", "s" }, func(f *office.AnswerForm) { f.Value, f.Unit = "twelve", "s" },
			func(f *office.AnswerForm) { f.Value, f.Unit = "12", "furlong" },
		} {
			bad := f
			odd(&bad)
			if err := w.Office.AnswerItem(t.Context(), nan, bad); fault.KindOf(err) != fault.Invalid && !(q.Item.Kind == knowledge.Match && slices.Equal(bad.Chosen, []int{1, 1})) {
				t.Errorf("%s: %+v is taken: %v", q.Item.Kind, bad, err)
			}
		}
		wantRefusal(t, w.Office.AnswerItem(t.Context(), pia, f), fault.NotFound, "")
	}
	_, err := w.Office.Sitting(t.Context(), pia, id)
	wantRefusal(t, err, fault.NotFound, "")
	wantRefusal(t, w.Office.HandIn(t.Context(), pia, id), fault.NotFound, "")
	_, err = beside.Office.Sitting(t.Context(), beside.Educators[0], id)
	wantRefusal(t, err, fault.NotFound, "")
	wantRefusal(t, beside.Office.SayPresence(t.Context(), beside.Educators[0], id, true), fault.NotFound, "")
	wantRefusal(t, w.Office.SayPresence(t.Context(), w.Educators[0], id, true), fault.Refused, "goes on")
	_, err = w.Office.BeginCheck(t.Context(), nan, "bagging", "en") // not asked
	wantRefusal(t, err, fault.NotFound, "")
	_, err = w.Office.BeginCheck(t.Context(), w.Surveyor("Sal Reed"), "suction", "en")
	wantRefusal(t, err, fault.Forbidden, "")
	if v := must(w.Office.Sitting(t.Context(), w.Educators[0], id))(t); v.Mine || v.Person.ID != nan.Person {
		t.Errorf("an educator sees %+v", v)
	}
}

// Nothing of a check makes anybody current, due or anything else: no published source; it
// is the rule of this house.
func TestAPassedCheckChangesNoStanding(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t)
	skill := specificSkill(t, w)
	w.Require(skill, assessment.Nurse)
	w.Join(nan, mira)
	standings := func() string {
		var all []string
		for _, on := range []string{"2026-01-04", "2026-02-01", "2026-08-01", "2027-02-02", "2028-01-01"} {
			for _, r := range must(w.Office.StandingsOf(t.Context(), w.Admin, nan.Person, civil.MustParse(on)))(t).Rows {
				all = append(all, fmt.Sprint(on, r.Skill.Code, r.Client.Code, r.Word, r.Standing))
			}
		}
		return strings.Join(all, "\n")
	}
	before := standings()
	if before == "" {
		t.Fatal("nothing is asked of them: this shows nothing")
	}
	for _, asked := range []string{"to learn", "before it is shown"} {
		checked(t, w, skill, asked)
		v := takes(t, w, nan, skill)
		if !v.Result.Passed {
			t.Fatalf("not passed: %+v", v.Result)
		}
		wantNone(t, w.Office.SayPresence(t.Context(), w.Educators[0], v.ID, true))
		if after := standings(); after != before {
			t.Errorf("standings were\n%s\nand are\n%s", before, after)
		}
		w.Pass(time.Minute)
	}
	if word := word(t, w, nan, skill, mira); word != assessment.NotStarted {
		t.Errorf("their standing is %s", word)
	}
	indexIsRight(t, w)
}

// A published programme asks for its awareness course within the previous 12 months
// (Nottinghamshire Healthcare, emergency management for a child with a tracheostomy): passed
// on 2025-06-10, 2026-06-10 is accepted and 2026-06-11 is not.
func TestACheckComesFirst(t *testing.T) {
	t.Parallel()
	w := ward.NewAt(t, time.Date(2025, 6, 1, 16, 0, 0, 0, time.UTC), ward.WithCertificate(drawn))
	mira, nan := w.Client("7K", "Mira"), w.Nurse("Nan Orme")
	newRevision(t, w, "bagging", oneIsEnough, "")
	checked(t, w, "bagging", "before it is shown")
	form := office.OpenForm{Learner: nan.Person, Skill: "bagging", Client: mira, Place: "at home", Real: true, Formal: true}
	opens := func() error {
		v, err := w.Office.Open(t.Context(), w.Educators[0], form)
		if err == nil {
			err = w.Office.Discard(t.Context(), w.Educators[0], v.ID)
		}
		return err
	}
	w.Day("2025-06-10")
	wantRefusal(t, opens(), fault.Refused, "comes first, and is not passed")
	if v := takes(t, w, nan, "bagging"); !v.Result.Passed || v.Through != civil.MustParse("2026-06-10") {
		t.Fatalf("the check: %+v, through %s", v.Result, v.Through)
	}
	w.Pass(time.Minute)
	wantNone(t, opens())
	form.When = "2025-06-10T08:00" // before the check was taken, on its day
	wantRefusal(t, opens(), fault.Refused, "is not passed")
	form.When = ""
	w.Day("2026-04-01")
	trainerWasThere(t, w, w.Educators[0], mira, takes(t, w, w.Educators[0], "bagging"))
	w.Award(w.Educators[0], "bagging", mira, ward.SeenBy(w.Educators[1]))
	w.Pass(24 * time.Hour)
	a := must(w.Office.ProposeAppointment(t.Context(), w.Admin, office.AppointmentForm{Person: w.Educators[0].Person, Skills: []string{"bagging"}, From: w.Today().String(),
		Through: w.Today().AddMonths(11).String(), Evidence: "Has shown it here."}))(t)
	must(w.Office.AgreeAppointment(t.Context(), w.Educators[1], a.ID))(t)
	w.At(civil.MustParse("2026-06-10").In(w.Zone).Add(23 * time.Hour))
	wantNone(t, opens())
	w.Day("2026-06-11")
	wantRefusal(t, opens(), fault.Refused, "its last pass held through 2026-06-10")
	form.Formal = false // practice
	wantNone(t, opens())
}

// Whoever begins while little is asked, and hands in once more is, has passed what is asked no
// more: it opens nothing. Where a rule is ambiguous the reading that withholds (rule of this
// house, no published source).
func TestAnEasierCheckOpensNothing(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "bagging")
	edda := w.Educators[0]
	must(w.Office.TakeStarterItems(t.Context(), edda, "bagging"))(t)
	rule := office.RuleForm{Skill: "bagging", Asked: "to learn", Length: "2", PassMark: "1/10", Months: "12"}
	wantNone(t, w.Office.SetCheckRule(t.Context(), edda, rule))
	id := must(w.Office.BeginCheck(t.Context(), nan, "bagging", "en"))(t)
	for _, q := range must(w.Office.Sitting(t.Context(), nan, id))(t).Questions {
		wantNone(t, w.Office.AnswerItem(t.Context(), nan, rightAnswer(id, q)))
	}
	w.Pass(time.Minute)
	rule.Asked, rule.Length, rule.PassMark = "before it is shown", "8", "9/10"
	wantNone(t, w.Office.SetCheckRule(t.Context(), edda, rule))
	w.Pass(time.Minute)
	wantNone(t, w.Office.HandIn(t.Context(), nan, id))
	w.Pass(time.Minute)
	v := must(w.Office.Sitting(t.Context(), nan, id))(t)
	if c := own(t, w, nan, "bagging"); !v.Result.Passed || !v.Easier || !c.Easier || c.Holds() {
		t.Errorf("two of two by the old rule: %+v, %v; the check %+v", v.Result, v.Easier, c)
	}
	if all := must(w.Office.Transcript(t.Context(), nan, nan.Person, w.Today()))(t).Checks; len(all) != 1 || all[0].Holds {
		t.Errorf("on the transcript: %+v", all)
	}
	form := office.OpenForm{Learner: nan.Person, Skill: "bagging", Client: mira, Place: "at home", Real: true, Formal: true}
	_, err := w.Office.Open(t.Context(), edda, form)
	wantRefusal(t, err, fault.Refused, "passed only by a rule that asked less")
	if v := takes(t, w, nan, "bagging"); !v.Result.Passed || v.Easier {
		t.Fatalf("the check as it is asked now: %+v", v.Result)
	}
	w.Pass(time.Minute)
	must(w.Office.Open(t.Context(), edda, form))(t)
}

// What a device sends is asked the same: a pass without its check is refused, as it is
// where a skill that comes first is not held; what is no pass is taken in.
func TestACheckComesFirstOnADeviceToo(t *testing.T) {
	t.Parallel()
	b := atBedside(t, "humidifier")
	checked(t, b.Ward, "humidifier", "before it is shown")
	told := func() []office.PackCheck {
		p := must(b.Office.Pack(t.Context(), b.device.Owner, b.device.ID))(t)
		i := slices.IndexFunc(p.Learners, func(l office.PackLearner) bool { return l.ID == b.nurse.Person })
		if i < 0 {
			t.Fatal("the pack lacks the learner")
		}
		return p.Learners[i].Checks
	}
	b.Require("humidifier", assessment.Nurse)
	b.Join(b.nurse, b.child)
	if all := told(); len(all) != 1 || all[0].Skill != "humidifier" || !strings.Contains(all[0].Why, "comes first") {
		t.Errorf("the pack tells %+v", all)
	}
	s := b.Fill(b.device, b.nurse, "humidifier", b.child, b.Now())
	b.Pass(30 * time.Minute)
	b.refused(b.device.Send(s, b.Now()), fault.Refused, "comes first, and is not passed")
	failed, _ := b.send("humidifier", ward.Stopped)
	if failed.Outcome == assessment.Competent {
		t.Errorf("a missed step is %s", failed.Outcome)
	}
	takes(t, b.Ward, b.nurse, "humidifier")
	b.refused(b.device.Send(s, b.Now()), fault.Refused, "comes first, and is not passed") // it was shown before
	b.Pass(time.Minute)
	if all := told(); len(all) != 0 {
		t.Errorf("the pack tells %+v", all)
	}
	if v, _ := b.send("humidifier"); v.Outcome != assessment.Competent {
		t.Errorf("after the check: %s", v.Outcome)
	}
}

// The bank is the agency's, and every version of it stays.
func TestTheBankOfAnAgency(t *testing.T) {
	t.Parallel()
	w, _, nan := quick(t)
	checked(t, w, "suction", "to learn")
	ada, bea := w.Educators[0], w.Educators[1]
	if n := must(w.Office.TakeStarterItems(t.Context(), bea, "suction"))(t); n != 0 {
		t.Errorf("%d starter items came twice", n)
	}
	starter := must(catalog.Items("suction"))(t)
	text := string(must(starter.YAML())(t))
	if n := must(w.Office.AddItems(t.Context(), ada, "suction", text))(t); n != 0 {
		t.Errorf("%d items are new in the same text", n)
	}
	if n := must(w.Office.AddItems(t.Context(), ada, "suction", strings.Replace(text, "Push on until the child coughs.", "Push on until there is a cough.", 1)))(t); n != 1 {
		t.Errorf("%d items changed", n)
	}
	for _, odd := range []string{"", "skill: bagging", "skill: suction\nitems: [{id: a}]", strings.Repeat("x", 200_001), "skill: suction\nitems:\n  - {id: a, kind: single, difficulty: 1, right: [1], en: {ask: q, options: [x, y], teach: t}}"} {
		if _, err := w.Office.AddItems(t.Context(), ada, "suction", odd); fault.KindOf(err) != fault.Invalid && odd != "" {
			t.Errorf("%.40q is taken: %v", odd, err)
		}
	}
	id := must(w.Office.BeginCheck(t.Context(), nan, "suction", "en"))(t)
	asked := must(w.Office.Sitting(t.Context(), nan, id))(t).Questions[0].Item
	changed := asked
	changed.Source = "a source of this agency"
	version := 0
	for _, i := range must(w.Office.CheckBank(t.Context(), ada, "suction"))(t).Items {
		if i.Item.ID == asked.ID {
			version = i.Version
		}
	}
	wantNone(t, w.Office.SaveItem(t.Context(), ada, office.ItemForm{Skill: "suction", Typed: knowledge.TypedOf(changed), Version: version}))
	wantNone(t, w.Office.SaveItem(t.Context(), ada, office.ItemForm{Skill: "suction", Typed: knowledge.TypedOf(changed), Version: version})) // sent twice
	changed.Source = "another source"
	wantRefusal(t, w.Office.SaveItem(t.Context(), bea, office.ItemForm{Skill: "suction", Typed: knowledge.TypedOf(changed), Version: version}), fault.Conflict, "meanwhile")
	wantRefusal(t, w.Office.SaveItem(t.Context(), nan, office.ItemForm{Skill: "suction", Typed: knowledge.TypedOf(changed), Version: version}), fault.Forbidden, "")
	if now := must(w.Office.Sitting(t.Context(), nan, id))(t).Questions[0].Item; now.Source != asked.Source {
		t.Error("a form that was begun asks another version")
	}
	items := must(w.Office.CheckBank(t.Context(), ada, "suction"))(t).Items
	for n, i := range items {
		err := w.Office.RetireItem(t.Context(), ada, "suction", i.Item.ID, true)
		if len(items)-n > 10 {
			wantNone(t, err)
		} else {
			wantRefusal(t, err, fault.Refused, "only 9 would be left")
		}
	}
	wantNone(t, w.Office.RetireItem(t.Context(), ada, "suction", items[0].Item.ID, false))
	for _, bad := range []office.RuleForm{{Length: "99"}, {PassMark: "11/10"}, {PassMark: "0/1"}, {PassMark: "90"}, {PassMark: "101 %"}, {Months: "-1"}, {WaitHours: "1.5"}, {Tries: "many"}, {Asked: "perhaps"}} {
		f := office.RuleForm{Skill: "suction", Asked: "to learn", Length: "10", PassMark: "90 %"}
		for _, p := range []struct{ to, from *string }{{&f.Length, &bad.Length}, {&f.PassMark, &bad.PassMark}, {&f.Months, &bad.Months}, {&f.WaitHours, &bad.WaitHours}, {&f.Tries, &bad.Tries}, {&f.Asked, &bad.Asked}} {
			if *p.from != "" {
				*p.to = *p.from
			}
		}
		wantRefusal(t, w.Office.SetCheckRule(t.Context(), ada, f), fault.Invalid, "")
	}
}

// Each check is judged again by verify; whoever changes a row as the database's owner is found.
func TestChecksAreJudgedAgain(t *testing.T) {
	t.Parallel()
	w, _, nan := quick(t)
	checked(t, w, "suction", "to learn")
	takes(t, w, nan, "suction", 1, 2)
	if v := must(w.Office.Verify(t.Context()))(t); v.Found != 0 || v.Checks != 1 {
		t.Fatalf("found %d, judged %d again: %+v", v.Found, v.Checks, v.Findings)
	}
	owner := must(pgx.Connect(t.Context(), w.DB.OwnerURL))(t)
	defer owner.Close(t.Context())
	for _, sql := range []string{`set session_replication_role = replica`, `update knowledge_result set passed = true, right_count = 10, missed = '{}', critical = '{}'`} {
		must(owner.Exec(t.Context(), sql))(t)
	}
	v := must(w.Office.Verify(t.Context()))(t)
	if !slices.ContainsFunc(v.Findings, func(f office.Finding) bool { return strings.Contains(f.Says, "judged again") }) {
		t.Errorf("found %+v", v.Findings)
	}
}
