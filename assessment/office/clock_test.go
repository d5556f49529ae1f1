package office_test

import (
	"slices"
	"testing"
	"time"

	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// A clock that is set back would let a day come twice: nothing is shown or
// recorded until it is right.
func TestAClockSetBackIsRefused(t *testing.T) {
	t.Parallel()
	w := ward.New(t, withKeys(ledgerKeys(t, "ward")))
	must(w.Office.SealAll(t.Context()))(t)
	sealed, email := w.Now(), w.Email(w.Coordinator)
	w.Pass(-30 * time.Second) // a machine that sets its clock right
	readable(t, w)
	w.At(sealed.Add(-24 * time.Hour))
	_, _, err := w.Office.Skills(t.Context(), w.Coordinator)
	wantRefusal(t, err, fault.Busy, "clock")
	_, err = w.Office.AddClient(t.Context(), w.Coordinator, office.ClientForm{Code: "8L", FirstName: "Wim"})
	wantRefusal(t, err, fault.Busy, "clock")
	_, _, err = w.Office.SignIn(t.Context(), office.SignInForm{Email: email, Password: ward.Password})
	wantRefusal(t, err, fault.Busy, "clock")
	w.At(sealed.Add(time.Hour))
	readable(t, w)
}

// A clock that ran ahead and was set right would shut everything until the time that
// it showed. Whoever runs the server can go on, once and only then; it is told for
// ever, and a clock that is set back without a word is still found.
func TestAClockThatRanAheadIsSetRight(t *testing.T) {
	t.Parallel()
	w := ward.New(t, withKeys(ledgerKeys(t, "ward")))
	ctx := t.Context()
	must(w.Office.SealAll(ctx))(t)
	_, err := w.Office.SetClockRight(ctx)
	wantRefusal(t, err, fault.Refused, "nothing to set right")
	right := w.Now()
	w.Pass(365 * 24 * time.Hour)
	w.Client("8L", "Wim")
	must(w.Office.SealAll(ctx))(t)
	w.At(right.Add(time.Hour))
	_, err = w.Office.AddClient(ctx, w.Coordinator, office.ClientForm{Code: "8M", FirstName: "Ada"})
	wantRefusal(t, err, fault.Busy, "clock")
	if codes := must(w.Office.SetClockRight(ctx))(t); !slices.Equal(codes, []string{ward.Code}) {
		t.Errorf("set right for %v", codes)
	}
	w.Client("8M", "Ada")
	must(w.Office.SealAll(ctx))(t)
	v := must(w.Office.Verify(ctx))(t)
	if v.Found != 0 || len(v.ClocksSetRight) != 1 || !v.ClocksSetRight[0].Ahead.Equal(right.Add(365*24*time.Hour).Truncate(time.Second)) || !v.ClocksSetRight[0].Back.Equal(right.Add(time.Hour).Truncate(time.Second)) {
		t.Errorf("%+v", v)
	}
	_, err = w.Office.SetClockRight(ctx)
	wantRefusal(t, err, fault.Refused, "nothing to set right")
	w.At(right.Add(-24 * time.Hour))
	_, _, err = w.Office.Skills(ctx, w.Coordinator)
	wantRefusal(t, err, fault.Busy, "clock")
}
