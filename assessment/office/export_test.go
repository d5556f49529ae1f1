package office

import "strconv"

// HoldConfirmations keeps all turns of those who sign until it is let go.
func HoldConfirmations(o *Office) (release func()) { return fill(o.confirming.slots) }

// Confirming is how many have a place among those who sign.
func Confirming(o *Office) int { return len(o.confirming.places) }

// FillSignIns takes all places of those who sign in until it is let go.
func FillSignIns(o *Office) (release func()) { return fill(o.signingIn.places) }

func fill(c chan struct{}) (release func()) {
	for range cap(c) {
		c <- struct{}{}
	}
	return func() {
		for range cap(c) {
			<-c
		}
	}
}

// Strangers guesses once with each of so many addresses that nobody has, and tells how
// many are kept.
func Strangers(o *Office, called string, n int) (kept int) {
	for i := range n {
		_ = o.strangers.count("", called+strconv.Itoa(i)+"@ward.example", "198.51.100.9", o.opt.Now())
	}
	return len(o.strangers.tries)
}
