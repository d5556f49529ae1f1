package office_test

import (
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// BenchmarkSession is what each page asks first: whose token is this.
func BenchmarkSession(b *testing.B) {
	w := ward.New(b)
	token, _, err := w.Office.SignIn(b.Context(), office.SignInForm{Email: w.Email(w.Coordinator), Password: ward.Password})
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := w.Office.Session(b.Context(), token); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkReadiness is a child with the standard plan for all twelve starter
// skills and two of the family current in all of them.
func BenchmarkReadiness(b *testing.B) {
	w := ward.New(b)
	child := w.Client("7K", "Tam")
	for _, who := range []assessment.Actor{w.Family("Mai Lind", child), w.Family("Ola Lind", child)} {
		w.Card(who)
		for _, skill := range catalog.Codes() {
			w.Award(who, skill, child)
		}
	}
	for _, skill := range catalog.Codes() {
		w.Require(skill, assessment.Family)
	}
	if err := w.Office.StartPlan(b.Context(), w.Coordinator, child); err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := w.Office.Readiness(b.Context(), w.Coordinator, child, time.Time{}); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkClient is one child's page.
func BenchmarkClient(b *testing.B) {
	w := ward.New(b)
	child := w.Client("7K", "Tam")
	for b.Loop() {
		if _, err := w.Office.Client(b.Context(), w.Coordinator, child); err != nil {
			b.Fatal(err)
		}
	}
}
