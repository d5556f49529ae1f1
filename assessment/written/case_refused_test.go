package written_test

import (
	"strings"
	"testing"

	"wellshown/assessment/fault"
	"wellshown/assessment/written"
)

// refusal is a change to a good case and what the refusal must name.
type refusal struct{ old, new, names string }

func refuses(t *testing.T, good string, answer func([]byte) ([]byte, error), all []refusal) {
	t.Helper()
	if _, err := answer([]byte(good)); err != nil {
		t.Fatal(err)
	}
	for _, r := range all {
		if !strings.Contains(good, r.old) {
			t.Fatalf("the case does not hold %s", r.old)
		}
		out, err := answer([]byte(strings.Replace(good, r.old, r.new, 1)))
		if err == nil {
			t.Errorf("%s → %s was answered: %s", r.old, r.new, out)
			continue
		}
		if !strings.Contains(err.Error(), r.names) || fault.KindOf(err) != fault.Invalid {
			t.Errorf("%s → %s is refused with %q, which does not name %q", r.old, r.new, err, r.names)
		}
	}
}

func TestStandingCasesAreReadStrictly(t *testing.T) {
	refuses(t, standingCase, written.AnswerStanding, []refusal{
		// what is not known, not there, or there twice
		{`"zone": "America/Denver"`, `"zone": "America/Denver", "note": ""`, "note: there is no such field"},
		{`"zone"`, `"Zone"`, "Zone: there is no such field"},
		{`"zone": "America/Denver",`, ``, "zone: this is missing"},
		{`"zone": "America/Denver"`, `"zone": "America/Denver", "zone": "UTC"`, "zone is given twice"},
		{`"count": 1`, `"count": 1, "count": 3`, "policy.award.count is given twice"},
		{`"count": 1, `, ``, "policy.award.count: this is missing"},
		{`"days": 1, `, ``, "policy.award.days: this is missing"},
		{`"observers": 1, `, ``, "policy.award.observers: this is missing"},
		{`"real": 0, `, ``, "policy.award.real: this is missing"},
		{`"span_days": 180, `, ``, "policy.award.span_days: this is missing"},
		{`"months": 12, `, ``, "policy.validity.months: this is missing"},
		{`"anchor": "anniversary", `, ``, "policy.validity.anchor: this is missing"},
		{`"renewal_days": 60, `, ``, "policy.validity.renewal_days: this is missing"},
		{`, "absence_days": 0`, ``, "policy.validity.absence_days: this is missing"},
		{`"revision": 1, `, ``, "history[0].revision: this is missing"},
		{`"formal": true, `, ``, "history[0].formal: this is missing"},
		{`"real": true,`, ``, "history[0].real: this is missing"},
		{`"observer": "o1", `, ``, "history[0].observer: this is missing"},
		{`"outcome": "competent", `, ``, "history[0].outcome: this is missing"},
		{`, "until": "redemonstrated"`, ``, "history[1].until: this is missing"},
		{`"of": "w1", `, ``, "history[2].of: this is missing"},
		{`"by": "2026-06-30", `, ``, "history[4].by: this is missing"},
		{`"kind": "teaching"`, `"until": "reinstated", "kind": "teaching"`, "history[6].until: there is no such field"},
		{`"on": ["2026-01-06", "2026-05-01"]`, `"on": null`, "on: this is missing"},
		// wrong words, numbers, days and instants
		{`"kind": "practice"`, `"kind": "practise"`, `history[5].kind: "practise" is no kind of entry`},
		{`"anniversary"`, `"Anniversary"`, `policy.validity.anchor: "Anniversary" is none of`},
		{`"outcome": "competent"`, `"outcome": "passed"`, `history[0].outcome: "passed" is none of`},
		{`"redemonstrated"`, `"forever"`, `history[1].until: "forever" is none of`},
		{`"count": 1`, `"count": "1"`, "policy.award.count: this is not a whole number"},
		{`"count": 1`, `"count": 1.0`, "policy.award.count: this is not a whole number"},
		{`"count": 1`, `"count": 1e0`, "policy.award.count: this is not a whole number"},
		{`"count": 1`, `"count": -1`, "count, days and observers are at least 1"},
		{`"count": 1`, `"count": 99999999999999999999`, "policy.award.count: this is not a whole number"},
		{`"formal": true`, `"formal": "yes"`, "history[0].formal: this is text where true or false belongs"},
		{`"from": "2026-01-01"`, `"from": "2026-02-30"`, `history[3].from: "2026-02-30" is not a day`},
		{`"2026-05-01"]`, `"2026-5-1"]`, `on[1]: "2026-5-1" is not a day`},
		{`"2026-05-01"]`, `20260501]`, `on[1]: this is a number where text`},
		{`10:00:00-07:00`, `10:00:00`, "history[0].performed_at: \"2026-01-05T10:00:00\" is not an instant"},
		{`10:00:00-07:00`, `10:00-07:00`, "is not an instant"},
		{`10:00:00-07:00`, `10:00:00-24:00`, "is not an instant"},
		{`10:00:00-07:00`, `25:00:00-07:00`, "is not an instant"},
		{`10:00:00-07:00`, `23:59:60-07:00`, "is not an instant"},
		{`10:00:00-07:00`, `10:00:00,5-07:00`, "is not an instant"},
		{`2026-01-05T10:00:00`, `2026-02-29T10:00:00`, "is not an instant"},
		{`2026-01-05T10:00:00`, `0001-01-01T00:00:00`, "is not an instant"},
		{`2026-01-05T10:00:00`, `2026-01-05 10:00:00`, "is not an instant"},
		{`"America/Denver"`, `"America/Nowhere"`, `zone: "America/Nowhere" is no time zone`},
		{`"America/Denver"`, `"Local"`, `zone: "Local" is no time zone`},
		{`"America/Denver"`, `""`, `zone: "" is no time zone`},
		{`"America/Denver"`, `"../zoneinfo/UTC"`, "is no time zone"},
		{`"America/Denver"`, `"right/America/Denver"`, "is no time zone"},
		{`"America/Denver"`, `"-07:00"`, "is no time zone"},
		{`"America/Denver"`, `7`, "zone: this is a number where text"},
		// a history that contradicts itself
		{`"id": "w1"`, `"id": "d1"`, `two entries have the id "d1"`},
		{`"id": "p1"`, `"id": ""`, "history[5].id: this is empty"},
		{`"of": "w1"`, `"of": "w9"`, `reinstatement "r1" is of "w9", which is no withdrawal`},
		{`"of": "w1"`, `"of": "d1"`, `reinstatement "r1" is of "d1", which is no withdrawal`},
		{`"of": "d1"`, `"of": "d9"`, `correction "c1" is of "d9"`},
		{`"of": "d1"`, `"of": "c1"`, `correction "c1" is of "c1"`},
		{`"through": "2026-02-01"`, `"through": "2025-12-31"`, `waiver "v1" ends before it begins`},
		{`"by": "2026-06-30"`, `"by": "2026-05-09"`, `recheck "k1"`},
		{`"revision": 2`, `"revision": 0`, `recheck "k1"`},
		{`"revision": 1`, `"revision": 0`, `demonstration "d1" names no revision`},
		// policies that are refused
		{`"days": 1`, `"days": 2`, "policy: days, observers and real cannot be more than count"},
		{`"observers": 1`, `"observers": 2`, "cannot be more than count"},
		{`"real": 0`, `"real": 2`, "cannot be more than count"},
		{`"real": 0`, `"real": -1`, "real is 0 or more"},
		{`"span_days": 180`, `"span_days": 0`, "span_days is 0"},
		{`"span_days": 180`, `"span_days": 367`, "span_days is 367"},
		{`"lapse_months": 24`, `"lapse_months": -1`, "lapse_months is -1"},
		{`"months": 12`, `"months": 0`, "months is 0"},
		{`"renewal_days": 60`, `"renewal_days": 336`, "renewal_days is 336"},
		{`"renewal_days": 60`, `"renewal_days": -1`, "renewal_days, notice_days and absence_days are 0 or more"},
		{`"notice_days": 30`, `"notice_days": -1`, "renewal_days, notice_days and absence_days are 0 or more"},
		{`"absence_days": 0`, `"absence_days": -1`, "renewal_days, notice_days and absence_days are 0 or more"},
		// what is not one JSON value
		{`"on": ["2026-01-06", "2026-05-01"]}`, `"on": ["2026-01-06", "2026-05-01"]} {}`, "not one JSON value: line 13"},
		{`"on": ["2026-01-06", "2026-05-01"]}`, `"on": ["2026-01-06", "2026-05-01"]`, "not one JSON value"},
		{`"count": 1,`, `"count": 1`, "not one JSON value: line 2"},
		{`"on": ["2026-01-06", "2026-05-01"]`, `"on": ["2026-01-06", "2026-05-01",]`, "not one JSON value"},
		{`"history": [`, `"history": [[],`, "history[0]: this is a list where an object"},
		{`"id": "d1"`, "\"id\": \"d\xff1\"", "not UTF-8"},
	})
}

func TestScoreCasesAreReadStrictly(t *testing.T) {
	refuses(t, scoreCase, written.AnswerScore, []refusal{
		{`"steps": [`, `"extra": 1, "steps": [`, "extra: there is no such field"},
		{`"pass_mark": "95/100", `, ``, "policy.pass_mark: this is missing"},
		{`"pass_mark": "95/100"`, `"pass_mark": 0.95`, "policy.pass_mark: this is a number: write numbers as text"},
		{`"pass_mark": "95/100"`, `"pass_mark": "95"`, "the pass mark is 95"},
		{`"pass_mark": "95/100"`, `"pass_mark": "-1"`, "the pass mark is -1"},
		{`"pass_mark": "95/100"`, `"pass_mark": "95 %"`, `"95 %" is not a number`},
		{`"pass_mark": "95/100"`, `"pass_mark": "1/0"`, "divides by zero"},
		{`"cue_limit": 2`, `"cue_limit": -1`, "the cue limit is -1"},
		{`"cue_limit": 2`, `"cue_limit": "2"`, "policy.cue_limit: this is not a whole number"},
		{`"not met": "0"`, `"not met": "0", "unsafe": "0"`, "policy.credits.unsafe: there is no such field"},
		{`"cued": "1/2"`, `"cued": "2"`, "the credit for cued is 2"},
		{`"cued": "1/2"`, `"cued": "0", "cued": "1"`, "policy.credits.cued is given twice"},
		{`"assisted": "0"`, `"assisted": "3/4"`, "the credit for assisted is 0.75"},
		{`{"no": 1, "weight": 1`, `{"no": 0, "weight": 1`, "steps[0].no: steps are numbered from 1"},
		{`{"no": 1, "weight": 1`, `{"no": 2, "weight": 1`, "steps[1].no: there are two steps 2"},
		{`{"no": 1, "weight": 1`, `{"weight": 1`, "steps[0].no: this is missing"},
		{`"weight": 2`, `"weight": 0`, "steps[2].weight: the weight is 0"},
		{`"weight": 2`, `"weight": 1.5`, "steps[2].weight: this is not a whole number"},
		{`"least": "cued"`, `"least": "hinted"`, `steps[2].least: "hinted" is none of`},
		{`"high": "15"`, `"high": 15`, "steps[1].measures[0].high: this is a number: write numbers as text"},
		{`"high": "15"`, `"high": {"value": "15"}`, "steps[1].measures[0].high.value: there is no such field"},
		{`"high": "15"`, `"high": {}`, "steps[1].measures[0].high.parameter: this is missing"},
		{`"name": "time", "unit": "s"`, `"name": "time"`, "steps[1].measures[0].unit: this is missing"},
		{`{"name": "time", "unit": "s", "high": "15"}`, `{"name": "a", "unit": "s"}, {"name": "a", "unit": "s"}`, `two values of the step are named "a"`},
		{`"unit": "mmHg"}`, `"unit": "mmHg", "at": "x"}`, "parameters.suction_high.at: there is no such field"},
		{`"stopped": false, `, ``, "sheet.stopped: this is missing"},
		{`"mark": "cued"`, `"mark": "prompted"`, `sheet.marks[1].mark: "prompted" is none of`},
		{`{"no": 1, "mark"`, `{"no": 9, "mark"`, "the checklist has no step 9"},
		{`{"no": 1, "mark"`, `{"no": 2, "mark"`, "step 2 is on the sheet twice"},
		{`"not_applicable": "no probe on this circuit"`, `"not_applicable": "none", "mark": "cued"`, "step 4 is marked and also not applicable"},
		{`"not_applicable": "no probe on this circuit"`, `"not_applicable": true`, "sheet.marks[3].not_applicable: this is true or false where text"},
		{`"values": {"time"`, `"values": {"tine"`, `step 2 has no value named "tine"`},
		{`"unit": "kPa"`, `"unit": "s"`, "step 3, pressure: the value is in s and the range in mmHg"},
		{`{"value": "120", "unit": "mmHg"}`, `{"value": "120", "unit": "cm"}`, "step 3, pressure: cm cannot be turned into mmHg"},
		{`{"value": "14.9", "unit": "s"}`, `"14.9 s"`, "sheet.marks[1].values.time: this is text where an object"},
		{`{"value": "14.9", "unit": "s"}`, `{"value": "14.9"}`, "sheet.marks[1].values.time.unit: this is missing"},
	})
}
