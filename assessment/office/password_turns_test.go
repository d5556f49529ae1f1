package office_test

import (
	"context"
	"sync"
	"testing"
	"time"

	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// Whoever waits for a password to be hashed holds no connection: with more signers
// waiting than there are connections, pages are still read.
func TestSignersWhoWaitStopNoPage(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	v := w.Demonstrate(nan, "humidifier", mira, ward.UnsignedByLearner)
	const signers = 12 // the pool has 8 connections
	release := office.HoldConfirmations(w.Office)
	ctx, cancel := context.WithTimeout(t.Context(), time.Minute) // only so that a failure ends
	defer cancel()
	errs := make([]error, signers)
	var all sync.WaitGroup
	for i := range signers {
		all.Go(func() {
			_, errs[i] = w.Office.Sign(ctx, nan, office.SignForm{Demonstration: v.ID, Part: office.PartLearner, Proof: ward.Proof})
		})
	}
	for office.Confirming(w.Office) < signers && ctx.Err() == nil {
		time.Sleep(time.Millisecond)
	}
	_, err := w.Office.Demonstration(ctx, nan, v.ID)
	wantNone(t, err)
	release()
	all.Wait()
	for _, err := range errs {
		wantNone(t, err)
	}
}

// Strangers who fill the queue of sign-ins are sent away at once, none of their
// tries counts, and who is signed in goes on signing.
func TestStrangersKeepNobodyFromSigning(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	v := w.Demonstrate(nan, "humidifier", mira, ward.UnsignedByLearner)
	release := office.FillSignIns(w.Office)
	try := func() error {
		_, _, err := w.Office.SignIn(t.Context(), office.SignInForm{Email: w.Email(w.Coordinator), Password: ward.Password, Address: "10.0.0.1"})
		return err
	}
	for range 6 {
		wantRefusal(t, try(), fault.Busy, "Try again in a minute")
	}
	_, err := w.Office.Sign(t.Context(), nan, office.SignForm{Demonstration: v.ID, Part: office.PartLearner, Proof: ward.Proof})
	wantNone(t, err)
	release()
	wantNone(t, try())
}
