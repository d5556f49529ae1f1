package office_test

import (
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/integration/crowd"
)

// BenchmarkPreview measures what is seen beforehand of a revision with a recheck, and of a
// withdrawal with related skills, in an agency of 500 caregivers whose children each have
// somebody on every night.
func BenchmarkPreview(b *testing.B) {
	c := crowd.New(b, crowd.Usual, 1)
	for i, child := range c.Children {
		f := office.PatternForm{Client: child.ID, Weekdays: []int{1, 2, 3, 4, 5, 6, 7}, From: "22:00", Until: "06:00", FromOn: crowd.Now.String()}
		for _, p := range c.Caregivers[3*i : 3*i+3] {
			if p.Left.IsZero() {
				f.Person = p.ID
			}
		}
		if child.Left.IsZero() {
			if _, err := c.Office.AddPattern(b.Context(), c.Coordinator, f); err != nil {
				f.Person = ""
				_, _ = c.Office.AddPattern(b.Context(), c.Coordinator, f)
			}
		}
	}
	draft, err := c.Office.DraftRevision(b.Context(), c.Educators[0], c.Skills[0].ID)
	if err != nil {
		b.Fatal(err)
	}
	b.Run("revision", func(b *testing.B) {
		for b.Loop() {
			v, err := c.Office.PreviewInForce(b.Context(), c.Educators[0], office.PreviewForm{Revision: draft.ID, Version: draft.Version, RecheckBy: crowd.Now.AddDays(30).String()})
			if err != nil || v.People < 100 {
				b.Fatalf("%d people, %v", v.People, err)
			}
		}
	})
	b.Run("withdrawal", func(b *testing.B) {
		who := c.Caregivers[7]
		f := about(assessment.Actor{Person: who.ID}, c.Skills[0].Code, c.Children[who.Cares[0]].ID)
		for b.Loop() {
			if _, err := c.Office.PreviewWithdraw(b.Context(), c.Educators[0], f, assessment.Reinstated, true); err != nil {
				b.Fatal(err)
			}
		}
	})
}
