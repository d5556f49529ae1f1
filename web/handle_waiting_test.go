package web

import (
	"net/http"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/integration/ward"
)

// The list tells how many records wait in all, puts what went wrong first and
// leads from page to page.
func TestAllThatWaitsCanBeReached(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	mira := w.Client("7K", "Mira")
	lan := w.Family("Lan", mira)
	w.Require("bagging", assessment.Family)
	failed := w.Demonstrate(lan, "bagging", mira, ward.Stopped, ward.Unsigned)
	for range 31 {
		w.Pass(time.Minute)
		w.Demonstrate(lan, "bagging", mira, ward.Unsigned)
	}
	edda := as(t, site, w, w.Educators[0])
	page := edda.get("/today").headed("32 records wait for your signature").says("It was not competent", "holds nobody back")
	first := page.follow("See all 32 that wait for you").headed("32 records wait for your signature").sound()
	second := first.follow("See the next ones").headed("32 records wait for your signature").sound()
	again := second.follow("Go back to the first page")
	if at := "/demonstrations/" + string(failed.ID); !first.has(at) || second.has(at) || !again.has(at) {
		t.Errorf("the failure is on the pages: %v, %v, %v", first.has(at), second.has(at), again.has(at))
	}
	as(t, site, w, w.Coordinator).get("/today").says("32 records wait for a signature").follow("See all 32 that wait").headed("32 records wait for a signature").sound()
	mother := as(t, site, w, lan)
	mother.get("/home").follow("See all 32 that wait for you").headed("32 records wait for your signature").sound()
	mother.get("/waiting?of=all").wants(http.StatusForbidden)
	edda.get("/waiting?after=nowhere").wants(http.StatusUnprocessableEntity)
}
