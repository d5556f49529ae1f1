package office

import (
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/handover"
	"wellshown/assessment/postgres"
)

// Of each holding one line is carried in: the newest competent demonstration that both signed,
// whatever the order in the file, with the day through which it was held there. None reads as if
// it held for ever where the file gives it an end (common practice, no source).
func TestOneLineOfEachHolding(t *testing.T) {
	both := []handover.Signed{{Part: "observer"}, {Part: "learner"}}
	shown := func(on string, change func(*handover.Entry)) handover.Entry {
		e := handover.Entry{Kind: handover.Demonstration, Skill: "bagging", On: on, Formal: true, Outcome: string(assessment.Competent), Signed: both, By: handover.Who{Name: "Ewa Sobczyk"}}
		if change != nil {
			change(&e)
		}
		return e
	}
	body := handover.Body{Entries: []handover.Entry{
		shown("2026-09-07", nil), shown("2025-09-09", nil), shown("2025-09-11", nil),
		shown("2026-11-01", func(e *handover.Entry) { e.Formal = false }),
		shown("2026-11-02", func(e *handover.Entry) { e.Outcome = "not competent" }),
		shown("2026-11-03", func(e *handover.Entry) { e.Signed = both[:1] }),
		shown("2026-11-04", func(e *handover.Entry) { e.Taken = &handover.Correction{} }),
		shown("2026-11-05", func(e *handover.Entry) { e.Skill = "suction" }),
		shown("2026-11-06", func(e *handover.Entry) { e.Kind = "withdrawal" }),
	}}
	held := handover.Held{Skill: "bagging", How: handover.WasHeld, Through: "2027-09-17"}
	found, line, err := lineBehind(body, held, postgres.CarriedLine{Place: "Ward Nursing"})
	if err != nil || !found || line.ObservedOn != civil.MustParse("2026-09-07") || line.ThroughOn != civil.MustParse("2027-09-17") || line.Signer != "Ewa Sobczyk" || line.Place != "Ward Nursing" {
		t.Errorf("%v, %+v, %v", found, line, err)
	}
	if found, _, err := lineBehind(handover.Body{Entries: body.Entries[3:]}, held, postgres.CarriedLine{}); found || err != nil {
		t.Errorf("of nothing that was shown: %v, %v", found, err)
	}
	held.Through = "soon"
	if _, _, err := lineBehind(body, held, postgres.CarriedLine{}); err == nil {
		t.Error("a day that is none was taken")
	}
}
