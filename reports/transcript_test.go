package reports

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/assessment/wording"
)

func stands(s office.SkillRef, c office.ClientRef, required bool, word assessment.StandingWord, since, through string, next assessment.Next) office.StandingView {
	v := office.StandingView{Person: lucja, Skill: s, Client: c, Required: required, Standing: assessment.Standing{On: theDay, Word: word, Next: next}}
	if since != "" {
		v.Since = civil.MustParse(since)
	}
	if through != "" {
		v.Through = civil.MustParse(through)
	}
	return v
}

// ofLucja is an invented nurse's transcript for 15 January 2027.
func ofLucja(t testing.TB) office.Transcript {
	taken := issued
	score, low := "191/200", "17/29"
	shown := func(id string, days int, title, client string, o assessment.Outcome, score *string) postgres.Demonstration {
		return postgres.Demonstration{ID: assessment.DemonstrationID(id), Title: title, Client: client, Observer: "Ольга Мартин", Revision: 4,
			Formal: true, RealClient: true, PerformedAt: issued.AddDate(0, 0, -days), Outcome: o, Score: score}
	}
	v := office.Transcript{Agency: office.AgencyView{Name: "Larkmoor Home Nursing"}, Zone: denver(t), At: theDay.In(denver(t)).Add(14 * time.Hour),
		Standings: office.PersonStandings{On: theDay, Today: theDay, Person: office.PersonView{Name: "Łucja Żak", Kind: assessment.Nurse},
			Rows: []office.StandingView{
				stands(bagging, office.ClientRef{}, true, assessment.Current, "2026-02-03", "2027-11-30", assessment.Next{}),
				stands(suctioning, ofMira, true, assessment.Due, "2026-02-03", "2027-02-03", assessment.Next{Demonstrations: 1}),
				stands(suctioning, ofTeo, true, assessment.Withdrawn, "2027-01-02", "2027-08-01", assessment.Next{Reinstatement: true}),
				stands(tubeChange, ofMira, false, assessment.Learning, "2026-12-01", "", assessment.Next{Demonstrations: 2, WithClient: 1}),
			}},
		Records: []postgres.Demonstration{
			shown("d3", 0, "Tracheostomy suctioning", "Mira, 7K", assessment.Competent, &score),
			shown("d2", 20, "Planned tracheostomy tube change", "Mira, 7K", assessment.NotYetCompetent, &low),
			shown("d1", 40, "Manual ventilation with a self-inflating bag", "", assessment.StoppedForSafety, nil),
		},
		Certificates: []postgres.Certificate{{Number: 128, Title: "Tracheostomy suctioning", Client: "Mira, 7K", Code: "4H7K9QXM2TBT",
			HeldOn: civil.MustParse("2026-02-03"), ThroughOn: civil.MustParse("2027-02-03")}},
	}
	by := func(id assessment.DemonstrationID, part, name, licence, meaning string, days int) {
		v.Signatures[id] = append(v.Signatures[id], postgres.Signature{DemonstrationID: id, Part: part, PrintedName: name, Licence: licence, Meaning: meaning,
			SignedAt: issued.AddDate(0, 0, -days), Zone: "America/Denver"})
	}
	v.Signatures = map[assessment.DemonstrationID][]postgres.Signature{}
	by("d3", office.PartObserver, "Ольга Мартин", "RN CO-4471", office.MeaningObserver, 0)
	by("d3", office.PartLearner, "Łucja Żak", "", office.MeaningLearner, 0)
	by("d2", office.PartObserver, "Ольга Мартин", "RN CO-4471", office.MeaningObserver, 20)
	by("d2", office.PartLearner, "Łucja Żak", "", office.MeaningLearner, 3)
	v.Records[1].CorrectedAt = &taken
	v.Records[2].Formal = false
	return v
}

func drawnTranscript(t *testing.T, called string, v office.Transcript) string {
	t.Helper()
	return drawn(t, called, func() (*paper, error) { return transcript(v, wording.English) })
}

func TestTranscript(t *testing.T) {
	path := drawnTranscript(t, "transcript", ofLucja(t))
	golden(t, "transcript", path)
	says(t, path, "Current in 2 of 3 required skills on 15 January 2027", "Łucja Żak", "nurse", "needed: one competent demonstration",
		"needed: reinstatement by someone entitled", "30 Nov 2027", "18 Nov 2026", "95.5 %", "58.6 %", "taken back: counts no more", "practice: does not count",
		"stopped for safety", "Ольга Мартин", "licence RN CO-4471", "not signed", "4H7K-9QXM-2TBT", "The check code tells whether one still holds.", "Issued 15 Jan 2027, 14:00 MST")
	saysNot(t, path, "Aug 2027") // a withdrawn holding has no last day
}

func TestTranscriptFindings(t *testing.T) {
	row := func(required bool, w assessment.StandingWord) office.StandingView {
		return office.StandingView{Required: required, Standing: assessment.Standing{Word: w}}
	}
	for want, s := range map[string]office.PersonStandings{
		"No skill is required on 15 January 2027":                                  {On: theDay, Today: theDay, Rows: []office.StandingView{row(false, assessment.Current)}},
		"Current in the one required skill on 15 January 2027":                     {On: theDay, Today: theDay, Rows: []office.StandingView{row(true, assessment.Due), row(false, assessment.Lapsed)}},
		"Current in 0 of 1 required skills on 15 January 2027":                     {On: theDay, Today: theDay, Rows: []office.StandingView{row(true, assessment.Waived)}},
		"Current in all 2 required skills on 15 January 2027":                      {On: theDay, Today: theDay.AddDays(9), Rows: []office.StandingView{row(true, assessment.Due), row(true, assessment.Current)}},
		"Current in 1 of 2 required skills on 15 January 2027, if nothing changes": {On: theDay, Today: theDay.AddDays(-9), Rows: []office.StandingView{row(true, assessment.Lapsed), row(true, assessment.Current)}},
	} {
		if got := transcriptFinding(english, s); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

func TestTranscriptOfNothing(t *testing.T) {
	v := office.Transcript{At: issued, Zone: time.UTC, Standings: office.PersonStandings{On: theDay, Today: theDay,
		Person: office.PersonView{Name: "Ольга Мартин", LeftOn: theDay}}}
	says(t, drawnTranscript(t, "transcript-empty", v), "No skill is required on 15 January 2027", "Ольга Мартин", "with the agency until 14 January 2027",
		"Nothing is required, and nothing has been shown yet.", "None has been recorded yet.", "None has been issued yet.")
}

// Beside the standings of a day that is past stands only what was there on it.
func TestTranscriptOfAPastDay(t *testing.T) {
	v := ofLucja(t)
	v.Standings.On = civil.DayOf(v.Records[1].PerformedAt, v.Zone)
	late := v.Certificates[0]
	late.Title, late.IssuedAt = "Issued later", issued
	v.Certificates[0].IssuedAt = v.Records[1].PerformedAt
	v.Certificates = append(v.Certificates, late)
	path := drawnTranscript(t, "transcript-past", v)
	until := english.date(v.Standings.On)
	says(t, path, "Return demonstrations up to "+until, "Certificates up to "+until, "58.6 %", "stopped for safety", "4H7K-9QXM-2TBT")
	saysNot(t, path, "95.5 %", "Issued later")
	if len(v.Records) != 3 || len(v.Certificates) != 2 {
		t.Error("drawing changed what was to be drawn")
	}
}

func TestTranscriptOfManyRecords(t *testing.T) {
	v := ofLucja(t)
	for i := range 1100 {
		d := v.Records[0]
		d.Title = fmt.Sprintf("Skill number %d", i)
		v.Records = append(v.Records, d)
	}
	got := said(t, drawnTranscript(t, "transcript-long", v))
	for _, want := range []string{"Skill number 0", "Skill number 1099", "Skill number 996"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is missing", want)
		}
	}
}

func TestTranscriptRefusesABrokenScore(t *testing.T) {
	v := ofLucja(t)
	broken := "a lot"
	v.Records[0].Score = &broken
	if _, err := transcript(v, wording.English); err == nil {
		t.Error("drawn")
	}
}
