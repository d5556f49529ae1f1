package web

import (
	"fmt"
	"strings"

	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

// BedsideLine tells of the device that a record was filled in on, without a network.
type BedsideLine struct {
	Device      string
	Received    string
	Clocks      string   // what its clock showed, where that was wrong; else empty
	Gap         string   // by how much; empty where that is let pass
	Outcomes    string   // both, where they differ
	NameChecked string   // when, by the device; empty: it was not
	LookedOver  string   // when, by the device, where the sheet came back from a second copy; empty: it never did
	Pace        []string // marks that were made in one go
	TalkedOver  string
	Practise    string
	Drawn       string // path of what the learner drew, in a field of 1000 by 1000; empty: nothing
}

func bedsideLine(w wording.Words, v office.DemonstrationView) *BedsideLine {
	d := v.Bedside
	if d == nil {
		return nil
	}
	b := BedsideLine{Device: d.Name, Received: w.Instant(d.Clocks.Received, v.Zone), Gap: w.Of(d.GapPhrase()), Outcomes: w.Of(d.OutcomesPhrase(v.Outcome)),
		TalkedOver: d.TalkedOver, Practise: d.Practise, Drawn: drawnPath(d.Drawn)}
	if d.ShownGap() {
		b.Clocks = w.Say("It showed %s when this was begun and %s when it was sent.", w.Instant(d.Clocks.Performed, v.Zone), w.Instant(d.Clocks.Sent, v.Zone))
	}
	if !d.NameChecked.IsZero() {
		b.NameChecked = w.Instant(d.NameChecked, v.Zone)
	}
	if !d.LookedOver.IsZero() {
		b.LookedOver = w.Instant(d.LookedOver, v.Zone)
	}
	for _, burst := range d.Bursts {
		b.Pace = append(b.Pace, w.Of(burst.Phrase(v.Zone)))
	}
	return &b
}

// drawnPath is the strokes as one path (SVG 2, section 9.3).
func drawnPath(strokes [][]int) string {
	var path strings.Builder
	for _, s := range strokes {
		for i := 0; i+1 < len(s); i += 2 {
			letter := "L"
			if i == 0 {
				letter = "M"
			}
			fmt.Fprintf(&path, "%s%d %d", letter, s[i], s[i+1])
		}
		if len(s) == 2 { // a dot
			path.WriteString("l1 0")
		}
	}
	return path.String()
}
