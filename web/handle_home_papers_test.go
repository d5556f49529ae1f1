package web

import (
	"net/http"
	"testing"
)

// Two people change what a child's papers say at once. The later one is told what stands now
// and loses nothing that they typed; and a fault in between does not make theirs the newer
// (common practice, no source: no change is lost unseen).
func TestTheLaterOfTwoReadsWhatTheEarlierWrote(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	mira := w.Client("7K", "Mira")
	site := engine(w)
	at := "/clients/" + string(mira) + "/home-papers"
	cory, edda := as(t, site, w, w.Coordinator), as(t, site, w, w.Educators[0])
	mine, theirs := cory.get(at).wants(http.StatusOK).form(at), edda.get(at).wants(http.StatusOK).form(at)
	bad := mine.send("telephone-emergency-number", "nine one one", "kit_place", "On the hook").wants(http.StatusUnprocessableEntity).sound().says("This is no telephone number.")
	theirs.send("telephone-emergency-number", "112", "kit_place", "By the bed").wants(http.StatusOK).says("It is written down.")
	page := bad.form(at).send("telephone-emergency-number", "911").wants(http.StatusUnprocessableEntity).sound().says("Nothing was written down.", "Somebody has changed this since you read it.",
		"What stands now, where you typed something else", "Where the kit is: By the bed", "telephone: 112")
	again := page.form(at)
	if again.fields.Get("kit_place") != "On the hook" || again.fields.Get("telephone-emergency-number") != "911" {
		t.Errorf("what was typed is lost: %v", again.fields)
	}
	kept, err := w.Office.HomePapers(t.Context(), w.Coordinator, mira)
	if err != nil || kept.KitPlace.English != "By the bed" {
		t.Fatalf("the earlier one is overwritten: %+v, %v", kept.KitPlace, err)
	}
	again.send("telephone-emergency-number", "112").wants(http.StatusOK).says("It is written down.", "On the hook")
}
