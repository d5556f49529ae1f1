package office_test

import (
	"strings"
	"testing"
	"time"

	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// What is past its use goes, also of whoever never comes again; what is in use stays,
// and nobody misses a failed try that they were not told of.
func TestCleaning(t *testing.T) {
	t.Parallel()
	w := ward.New(t, withSecrets(secretKeys(t, "a")))
	edda, rolf := w.Educators[0], w.Educators[1]
	owner := asOwner(t, w)
	counts := func() (n [4]int) {
		for i, table := range []string{"sign_in_try", "session", "sign_in_pending", "passkey_challenge"} {
			wantNone(t, owner.QueryRow(t.Context(), `select count(*) from `+table).Scan(&n[i]))
		}
		return n
	}
	codesOn(t, w, rolf)
	signIn(t, w, edda, "")
	w.Pass(time.Minute)
	for range 2 {
		_, _, err := w.Office.SignIn(t.Context(), office.SignInForm{Email: w.Email(edda), Password: "guess", Address: "198.51.100.9"})
		wantRefusal(t, err, fault.Unauthenticated, "not right")
	}
	signIn(t, w, w.Coordinator, "")
	firstHalf(t, w, rolf)
	askSignIn(t, w)
	_, err := w.Office.BeginPasskey(t.Context(), edda, ward.Password)
	wantNone(t, err)
	before := counts()
	wantNone(t, w.Office.Clean(t.Context()))
	if after := counts(); after != before || after[1] != 2 || after[2] != 1 || after[3] != 2 {
		t.Errorf("in use: %v, cleaned: %v", before, after)
	}
	w.Pass(24 * time.Hour)
	wantNone(t, w.Office.Clean(t.Context()))
	if after := counts(); after != [4]int{2, 2, 0, 0} { // the failed ones, which Edda has not been told of
		t.Errorf("a day later: %v", after)
	}
	w.Pass(7 * 24 * time.Hour)
	for range 2 {
		wantNone(t, w.Office.Clean(t.Context()))
	}
	if after := counts(); after != [4]int{} {
		t.Errorf("eight days later: %v", after)
	}
	signIn(t, w, edda, "")
	if told := words(must(w.Office.Account(t.Context(), edda))(t)); strings.Count(told, "failed tr") != 1 || !strings.Contains(told, "2 failed tries") {
		t.Errorf("told: %s", told)
	}
}
