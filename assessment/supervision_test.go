package assessment_test

import (
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
)

// With skilled care at least every 14 days: 42 CFR 484.80(h)(1)(i), from memory. Without it every
// 60 days: 484.80(h)(2), from memory; the aide is watched with each such patient every 6 months: a
// published summary of the rule, read at second hand. Yearly with skilled care: 484.80(h)(1)(iv), from memory.
func TestWhenAnAideIsSupervised(t *testing.T) {
	day := civil.MustParse
	last := day("2026-03-01")
	skilled := []assessment.SkilledCare{{From: day("2026-01-01"), Skilled: true}}
	without := []assessment.SkilledCare{{From: day("2026-01-01")}}
	if due := assessment.SuperviseBy(last, skilled, last); due != day("2026-03-15") || day("2026-03-15").After(due) || !day("2026-03-16").After(due) {
		t.Errorf("with skilled care by %s", due)
	}
	if due := assessment.SuperviseBy(last, without, last); due != day("2026-04-30") {
		t.Errorf("without by %s", due)
	}
	if due := assessment.SuperviseBy(last, nil, last); due != day("2026-03-15") {
		t.Errorf("where it is not known by %s: the shorter time is taken", due)
	}
	if due := assessment.WatchBy(day("2026-08-31"), false); due != day("2027-02-28") {
		t.Errorf("watched by %s", due)
	}
	if due := assessment.WatchBy(day("2024-02-29"), true); due != day("2025-02-28") {
		t.Errorf("watched with skilled care by %s", due)
	}
}

// Skilled care that begins between two visits shortens the time and never lengthens it (no
// source: the reading that asks for more).
func TestSkilledCareThatBegins(t *testing.T) {
	day := civil.MustParse
	begins := []assessment.SkilledCare{{From: day("2026-01-01")}, {From: day("2026-04-10"), Skilled: true}}
	for _, c := range []struct{ last, on, want string }{
		{"2026-03-01", "2026-04-09", "2026-04-30"},
		{"2026-03-01", "2026-04-10", "2026-04-24"},
		{"2026-02-15", "2026-04-10", "2026-04-16"},
		{"2026-04-12", "2026-04-12", "2026-04-26"},
	} {
		if got := assessment.SuperviseBy(day(c.last), begins, day(c.on)); got != day(c.want) {
			t.Errorf("last %s, asked on %s: by %s, want %s", c.last, c.on, got, c.want)
		}
	}
	again := []assessment.SkilledCare{{From: day("2026-01-01"), Skilled: true}, {From: day("2026-04-10"), Skilled: true, Episodes: day("2026-04-10")}}
	if got := assessment.SuperviseBy(day("2026-04-01"), again, day("2026-04-10")); got != day("2026-04-15") {
		t.Errorf("set again, it is by %s", got)
	}
	if _, known := assessment.CareOn(begins, day("2025-12-31")); known {
		t.Error("it is known before it was set")
	}
}

// One assessment by two-way audio-video in a 60-day episode of a patient, in rare circumstances
// that are documented: the home health rule of 2022, read at second hand.
func TestAssessmentsByAudioVideo(t *testing.T) {
	day := civil.MustParse
	care := assessment.SkilledCare{Skilled: true, Episodes: day("2026-01-01")}
	v := assessment.SupervisoryVisit{Client: "c1", Aide: "a", On: day("2026-03-01"), How: assessment.AudioVideo, Why: "The road was closed by a flood."}
	on := func(client, on string) []assessment.SupervisoryVisit {
		return []assessment.SupervisoryVisit{{Client: assessment.ClientID(client), Aide: "b", On: day(on), How: assessment.AudioVideo, Why: "Snow."}}
	}
	unwhy, watched, site := v, v, v
	unwhy.Why, watched.Watched, site.How, site.Why = " ", true, assessment.OnSite, ""
	rolling := care
	rolling.Episodes = civil.Date{}
	for name, c := range map[string]struct {
		v     assessment.SupervisoryVisit
		care  assessment.SkilledCare
		known []assessment.SupervisoryVisit
		wrong string // the field
	}{
		"the first":                      {v, care, nil, ""},
		"of another patient":             {v, care, on("c2", "2026-03-02"), ""},
		"the second in the episode":      {v, care, on("c1", "2026-01-01"), "how"},
		"both on the last day":           {v, care, on("c1", "2026-03-01"), "how"}, // 1 March is the 60th day: 31 + 28 + 1
		"the first day of the next":      {v, care, on("c1", "2026-03-02"), ""},
		"in an episode before the first": {v, assessment.SkilledCare{Skilled: true, Episodes: day("2026-03-02")}, on("c1", "2026-01-01"), "how"},
		"around the first day of all":    {v, assessment.SkilledCare{Skilled: true, Episodes: day("2026-03-02")}, on("c1", "2026-03-02"), ""},
		"59 days before, not counted":    {v, rolling, on("c1", "2026-01-01"), "how"},
		"60 days before, not counted":    {v, rolling, on("c1", "2025-12-31"), ""},
		"without its circumstances":      {unwhy, care, nil, "why"},
		"as watching the aide":           {watched, care, nil, "watched"},
		"without skilled care":           {v, assessment.SkilledCare{}, nil, "how"},
		"on site, however often":         {site, care, on("c1", "2026-03-01"), ""},
	} {
		err := assessment.MayBeVideo(c.v, c.care, c.known)
		f, _ := fault.As(err)
		if (err == nil) != (c.wrong == "") || f != nil && f.Fields[c.wrong] == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}
