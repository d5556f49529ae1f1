package api_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/assessment/ledger"
)

// ledger keeps a head, and checks what the API hands out with the public keys and
// nothing else.
func (d *desk) ledger(learner assessment.Actor, certificate api.Certificate) {
	d.t.Helper()
	var head, later api.LedgerHead
	d.get("/ledger/head", d.Coordinator).into(http.StatusOK, &head)
	keys, err := ledger.ReadPublic(head.Keys...)
	d.need(err)
	d.Nurse("Somebody Later")
	d.get("/ledger/head", d.Coordinator).into(http.StatusOK, &later)
	var x api.LedgerExtension
	d.get("/ledger/extension?head="+url.QueryEscape(head.Signed), d.Coordinator).into(http.StatusOK, &x)
	from, to, err := ledger.Extension(x.Proof).Check(keys)
	if !x.Extends || err != nil || from.Size != head.Size || to.Size != later.Size || later.Size <= head.Size {
		d.t.Errorf("%+v, %v", x, err)
	}
	d.get("/ledger/extension?head="+url.QueryEscape(strings.Replace(head.Signed, "sealed 2", "sealed 3", 1)), d.Coordinator).problem(http.StatusUnprocessableEntity)
	var entries api.List[api.LedgerEntry]
	d.get("/ledger/entries?after=10", d.Coordinator).into(http.StatusOK, &entries)
	if len(entries.Items) != 10 || entries.Items[0].Position != 9 {
		d.t.Errorf("%+v", entries)
	}
	d.get("/ledger/entries", learner).problem(http.StatusForbidden)
	for at, receipts := range map[string]int{"/demonstrations/" + certificate.DemonstrationID: 3, "/certificates/" + certificate.ID: 1} {
		var p api.Proof
		d.get(at+"/proof", learner).into(http.StatusOK, &p)
		if len(p.Receipts) != receipts || p.Waiting {
			d.t.Fatalf("%s: %+v", at, p)
		}
		for _, r := range p.Receipts {
			checkReceipt(d.t, r, head.Keys)
		}
	}
}

func checkReceipt(t *testing.T, r api.Receipt, public []string) {
	t.Helper()
	keys, err := ledger.ReadPublic(public...)
	if err != nil {
		t.Fatal(err)
	}
	if p, err := ledger.Receipt(r).Check(keys); err != nil || len(r.Record) == 0 || p.Leaf.Actor == "" {
		t.Errorf("%+v, %v", p, err)
	}
}
