package office_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// answered begins a check and answers all of it right, without handing it in.
func answered(t *testing.T, w *ward.Ward, who assessment.Actor, skill string, leaveOut ...int) office.SittingView {
	t.Helper()
	id := must(w.Office.BeginCheck(t.Context(), who, skill, "es"))(t)
	for _, q := range must(w.Office.Sitting(t.Context(), who, id))(t).Questions {
		if !slices.Contains(leaveOut, q.Place) {
			wantNone(t, w.Office.AnswerItem(t.Context(), who, rightAnswer(id, q)))
		}
	}
	return must(w.Office.Sitting(t.Context(), who, id))(t)
}

// What is handed in when the time of a sitting is over is no pass, what was answered is kept,
// and verify judges it the same; what was handed in before checks had an end stays what it
// was (the issue's own rule, no other source).
func TestASittingComesToAnEnd(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "bagging")
	ada := w.Educators[0]
	checked(t, w, "bagging", "before it is shown")
	rule := office.RuleForm{Skill: "bagging", Asked: "before it is shown", Length: "10", PassMark: "9/10", Months: "12", WaitHours: "24", OpenFor: "30"}
	for _, bad := range []string{"9", "1441", "half"} {
		rule.OpenFor = bad
		wantRefusal(t, w.Office.SetCheckRule(t.Context(), ada, rule), fault.Invalid, "")
	}
	w.Pass(time.Minute)
	rule.OpenFor = "30"
	wantNone(t, w.Office.SetCheckRule(t.Context(), ada, rule))
	begun := w.Now()
	v := answered(t, w, nan, "bagging", 1)
	if !v.Ends.Equal(begun.Add(30*time.Minute)) || v.Over {
		t.Fatalf("it ends at %s, begun at %s", v.Ends, begun)
	}
	onTime := w.Nurse("Pia Lund")
	last := answered(t, w, onTime, "bagging")
	w.At(v.Ends)
	wantNone(t, w.Office.HandIn(t.Context(), onTime, last.ID))
	if v := must(w.Office.Sitting(t.Context(), onTime, last.ID))(t); !v.Result.Passed || v.Result.Late {
		t.Errorf("in its last moment: %+v", v.Result)
	}
	w.Pass(time.Second)
	wantRefusal(t, w.Office.AnswerItem(t.Context(), nan, rightAnswer(v.ID, v.Questions[0])), fault.Refused, "The time for this check was over")
	if c := own(t, w, nan, "bagging"); c.Open != v.ID || !c.Over || !c.Ends.Equal(v.Ends) {
		t.Errorf("not handed in: %+v", c)
	}
	if id := must(w.Office.BeginCheck(t.Context(), nan, "bagging", "es"))(t); id != v.ID {
		t.Error("another one began beside the one whose time is over")
	}
	w.Pass(14 * 24 * time.Hour)
	wantNone(t, w.Office.HandIn(t.Context(), nan, v.ID))
	late := must(w.Office.Sitting(t.Context(), nan, v.ID))(t)
	if r := late.Result; r.Passed || !r.Late || r.Right != 9 || len(late.Unanswered()) != 1 || late.Waits || !late.Next.From.Equal(w.Now().Add(24*time.Hour)) {
		t.Errorf("two weeks later: %+v, the next try %+v", r, late.Next)
	}
	form := office.OpenForm{Learner: nan.Person, Skill: "bagging", Client: mira, Place: "at home", Real: true, Formal: true}
	_, err := w.Office.Open(t.Context(), ada, form)
	wantRefusal(t, err, fault.Refused, "is not passed")
	_, err = w.Office.BeginCheck(t.Context(), nan, "bagging", "es")
	wantRefusal(t, err, fault.Refused, "The next try is from") // what is right was told just now
	w.Pass(24 * time.Hour)
	if again := takes(t, w, nan, "bagging"); !again.Result.Passed {
		t.Errorf("taken again: %+v", again.Result)
	}
	if v := must(w.Office.Verify(t.Context()))(t); v.Found != 0 || v.Checks != 3 {
		t.Fatalf("found %d, judged %d again: %+v", v.Found, v.Checks, v.Findings)
	}
	beforeChecksHadAnEnd(t, w, onTime, last.ID)
}

// beforeChecksHadAnEnd makes a sitting one of old: long, with neither its rule nor its result
// telling of an end.
func beforeChecksHadAnEnd(t *testing.T, w *ward.Ward, who assessment.Actor, id assessment.RecordID) {
	t.Helper()
	owner := must(pgx.Connect(t.Context(), w.DB.OwnerURL))(t)
	defer owner.Close(t.Context())
	says := func(words string) bool {
		return slices.ContainsFunc(must(w.Office.Verify(t.Context()))(t).Findings, func(f office.Finding) bool {
			return f.Subject == string(id) && strings.Contains(f.Says, words)
		})
	}
	for _, sql := range []string{`set session_replication_role = replica`, `update knowledge_result set open_minutes = null, handed_in_at = handed_in_at + interval '9 days' where sitting_id = '` + string(id) + `'`} {
		must(owner.Exec(t.Context(), sql))(t)
	}
	if !says("by another time than its rule says") {
		t.Error("nobody says that a result lost its end")
	}
	must(owner.Exec(t.Context(), `update knowledge_rule set open_minutes = null`))(t)
	if says("by another time") || says("judged again") {
		t.Error("a check from before there were ends is judged by one")
	}
	if v := must(w.Office.Sitting(t.Context(), who, id))(t); !v.Result.Passed || v.Result.Late || !v.Ends.IsZero() || !v.Easier {
		t.Errorf("it was a pass, by a rule that asked less: %+v", v)
	}
	if c := own(t, w, who, "bagging"); c.Holds() || !c.Easier {
		t.Errorf("it counts as if it had been short: %+v", c)
	}
}
