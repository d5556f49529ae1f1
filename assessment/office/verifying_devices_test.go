package office_test

import (
	"strings"
	"testing"

	"wellshown/integration/ward"
)

func atBedsideWithLedger(t *testing.T) *bedside {
	t.Helper()
	w := ward.New(t, withKeys(ledgerKeys(t, "ward")))
	return &bedside{w, t, w.Client("7K", "Mira"), w.Nurse("Nan Orme"), w.Device(w.Educators[0])}
}

// Verify asks again who signed a sheet, also where everything else was made to fit: the
// text, its hash and the entry of the ledger (FIPS 186-5: a signature is of one text by
// one key).
func TestVerifyAsksAgainWhichDeviceSigned(t *testing.T) {
	t.Parallel()
	b := atBedsideWithLedger(t)
	v, _ := b.send("humidifier")
	must(b.Office.SealAll(t.Context()))(t)
	if found := verified(t, b.Office); found.Found != 0 || found.Devices != 1 {
		t.Fatalf("%d sheets checked: %s", found.Devices, listed(found))
	}
	owner := asOwner(t, b.Ward)
	for _, sql := range []string{
		`set session_replication_role = replica`,
		`update received_sheet set sheet = replace(sheet, '"not met"', '"independent"') || ' ', sheet_sha256 = sha256(convert_to(replace(sheet, '"not met"', '"independent"') || ' ', 'UTF8'))`,
	} {
		_, err := owner.Exec(t.Context(), sql)
		wantNone(t, err)
	}
	if says := listed(verified(t, b.Office)); !strings.Contains(says, "received_sheet "+string(v.ID)+": its text was not signed") {
		t.Errorf("found: %s", says)
	}
}

// A sheet whose text was erased has nothing left to be checked, and is no finding.
func TestVerifyChecksNoErasedText(t *testing.T) {
	t.Parallel()
	b := atBedsideWithLedger(t)
	b.send("humidifier", ward.Stopped)
	_, err := asOwner(t, b.Ward).Exec(t.Context(), `set session_replication_role = replica; update received_sheet set sheet = 'erased', erased_at = now()`)
	wantNone(t, err)
	found := verified(t, b.Office)
	if found.Devices != 0 || strings.Contains(listed(found), "was not signed") {
		t.Errorf("%d checked: %s", found.Devices, listed(found))
	}
}
