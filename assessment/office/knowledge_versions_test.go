package office_test

import (
	"strconv"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/knowledge"
	"wellshown/assessment/office"
)

// What was asked in other words was another question: each is counted apart, in a bank and on
// an item's page alike, and an item that was only taken out and back in is the same one
// (common practice of item analysis, no source).
func TestAChangedQuestionIsCountedApart(t *testing.T) {
	t.Parallel()
	w, _, nan := quick(t)
	ada := w.Educators[0]
	checked(t, w, "suction", "to learn")
	bank := must(w.Office.CheckBank(t.Context(), ada, "suction"))(t)
	all := office.RuleForm{Skill: "suction", Asked: "to learn", Length: strconv.Itoa(len(bank.Items)), PassMark: "9/10"}
	wantNone(t, w.Office.SetCheckRule(t.Context(), ada, all))
	item := bank.Items[0].Item
	placeOf := func(who assessment.Actor) (assessment.RecordID, int) {
		id := must(w.Office.BeginCheck(t.Context(), who, "suction", "en"))(t)
		for _, q := range must(w.Office.Sitting(t.Context(), who, id))(t).Questions {
			if q.Item.ID == item.ID {
				return id, q.Place
			}
		}
		t.Fatalf("%s is not asked", item.ID)
		return "", 0
	}
	_, place := placeOf(nan)
	takes(t, w, nan, "suction", place)
	begun := w.Now()
	w.Pass(24 * time.Hour)
	for _, retired := range []bool{true, false} {
		all.Length = strconv.Itoa(len(bank.Items) - 1)
		wantNone(t, w.Office.SetCheckRule(t.Context(), ada, all))
		wantNone(t, w.Office.RetireItem(t.Context(), ada, "suction", item.ID, retired))
		w.Pass(time.Minute)
	}
	all.Length = strconv.Itoa(len(bank.Items))
	wantNone(t, w.Office.SetCheckRule(t.Context(), ada, all))
	v := must(w.Office.BankItem(t.Context(), ada, "suction", item.ID))(t)
	if q := v.Now.Stands; len(v.Now.Before) != 0 || q.First != 1 || q.Last != 3 || q.Asked != 1 || q.Right != 0 || q.Answered != 0 {
		t.Fatalf("taken out and back in: %+v", v.Now)
	}
	changed := v.Typed
	changed.Said["en"] = knowledge.TypedText{Ask: "Asked in other words?", Teach: changed.Said["en"].Teach, Options: changed.Said["en"].Options, Pairs: changed.Said["en"].Pairs}
	wantNone(t, w.Office.SaveItem(t.Context(), ada, office.ItemForm{Skill: "suction", Typed: changed, Version: 3}))
	rewritten := w.Now()
	w.Pass(time.Minute)
	for _, name := range []string{"Pia Lund", "Rui Sato"} {
		takes(t, w, w.Nurse(name), "suction")
	}
	v = must(w.Office.BankItem(t.Context(), ada, "suction", item.ID))(t)
	if len(v.Now.Before) != 1 {
		t.Fatalf("before it was changed: %+v", v.Now)
	}
	stands, before := v.Now.Stands, v.Now.Before[0]
	if stands.First != 4 || stands.Asked != 2 || stands.Right != 2 || !stands.Until.IsZero() {
		t.Errorf("as it stands: %+v", stands)
	}
	if before.First != 1 || before.Last != 3 || before.Asked != 1 || before.Right != 0 || before.From.After(begun) || !before.Until.Equal(rewritten) {
		t.Errorf("before: %+v", before)
	}
	for _, i := range must(w.Office.CheckBank(t.Context(), ada, "suction"))(t).Items {
		switch {
		case i.Item.ID == item.ID && (i.Stands != stands || len(i.Before) != 1 || i.Before[0] != before):
			t.Errorf("in the bank %+v, on its page %+v", i, v.Now)
		case i.Item.ID != item.ID && (i.Stands.Asked != 3 || i.Stands.Right != 3 || len(i.Before) != 0):
			t.Errorf("%s was never changed: %+v", i.Item.ID, i)
		}
	}
}
