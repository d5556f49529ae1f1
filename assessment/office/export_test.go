package office

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
