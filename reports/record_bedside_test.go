package reports

import (
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// A record that came from a device says so, with its clock, its own outcome, the pace
// and what the learner drew (the issue's own words, no other source).
func TestRecordFromADevice(t *testing.T) {
	t.Parallel()
	one := "1"
	v := circuitChange(t, func(v *office.DemonstrationView) {
		sent := issued.Add(-48 * time.Hour)
		var made []time.Time
		for i := range 9 {
			made = append(made, sent.Add(time.Duration(i)*700*time.Millisecond))
		}
		v.MarkedAt = map[int]string{1: "2025-11-18T22:02:09.000000Z", 2: "2025-11-18T22:02:19.250000Z"}
		v.Bedside = &office.BedsideView{Name: "The ward’s grey tablet", SHA256: strings.Repeat("5f20", 16), Gap: 48 * time.Hour, Outcome: assessment.NotYetCompetent, Score: &one, Differs: true,
			Clocks:      assessment.Clocks{Performed: sent.Add(-time.Hour), Finished: sent.Add(-time.Minute), Sent: sent, Received: issued.Add(-time.Minute)},
			NameChecked: sent.Add(-time.Hour), LookedOver: sent.Add(-time.Minute), TalkedOver: "Calm and in order", Practise: "The clamp, three times.", Bursts: assessment.Bursts(made),
			Drawn: [][]int{{0, 0, 1000, 1000}, {80, 600, 130, 240, 190, 640, 260, 300, 340, 620}, {500, 500}}}
	})
	path := drawnRecord(t, "record-device", v)
	golden(t, "record-device", path)
	for _, says := range []string{"Recorded on the device The ward’s grey tablet", "2 days behind", "The device said not yet competent. The office says competent, and that stands.",
		"9 steps were marked within 6 seconds", "came back from a second copy", "not a signature that counts", "Calm and in order.", "The clamp, three times."} {
		if !strings.Contains(strings.Join(strings.Fields(readBack(t, path)), " "), says) {
			t.Errorf("the paper does not say %q", says)
		}
	}
}
