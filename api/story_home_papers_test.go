package api_test

import (
	"net/http"
	"slices"
	"strings"
	"time"

	"wellshown/api"
)

// homePapers fills a child's papers for home. What is not on record is told, and is not
// guessed; two who change at once do not overwrite each other (common practice, no source).
func (d *desk) homePapers(at string) {
	d.t.Helper()
	var h api.HomePapers
	d.get(at+"/home-papers", d.Coordinator).into(http.StatusOK, &h)
	card := func() []string {
		return h.Papers[slices.IndexFunc(h.Papers, func(p api.HomePaper) bool { return p.Paper == "emergency-card" })].Missing
	}
	if h.Version != "" || h.Tube != "" || !slices.Contains(card(), "the size of the tube") || !slices.Contains(card(), "the telephone: Local emergency number") {
		d.t.Errorf("nothing is on record: %+v", h)
	}
	before := len(card())
	form := api.HomeRecord{KitPlace: &api.InLanguages{English: "On the hook", Spanish: "En el gancho"},
		Contacts:  []api.HomeContact{{Office: "emergency number", Telephone: "911", Turn: 1}, {Office: "hospital team", Name: "Tarn Children’s", Telephone: "555 0140", Turn: 2}},
		Suppliers: []api.HomeSupplier{{Kind: "ventilator", Supplier: "Alder Home Equipment", Telephone: "555 0161", CheckedBy: "family", CheckedWhen: "each day"}}}
	wrong := form
	wrong.Contacts = []api.HomeContact{{Office: "hospital team", Telephone: "call me"}}
	if p := d.put(at+"/home-record", d.Coordinator, wrong).problem(http.StatusUnprocessableEntity); !strings.Contains(string(p.Errors[0].Location), "contacts[0].telephone") {
		d.t.Errorf("a wrong number: %+v", p)
	}
	d.put(at+"/home-record", d.Coordinator, form).into(http.StatusOK, &h)
	if len(card()) != before-3 || h.Contacts[0].Telephone != "911" || h.Equipment[0].Supplier != "Alder Home Equipment" || h.KitPlace.Spanish != "En el gancho" {
		d.t.Errorf("written down: %+v", h)
	}
	d.put(at+"/home-record", d.Educators[0], form).problem(http.StatusConflict) // read before
	d.Pass(time.Second)
	form.Version, form.Contacts, form.Suppliers = h.Version, []api.HomeContact{{Office: "hospital team"}}, nil
	d.put(at+"/home-record", d.Educators[0], form).into(http.StatusOK, &h)
	if len(card()) != before-2 || h.Equipment[0].Telephone != "555 0161" {
		d.t.Errorf("one is forgotten: %+v", h)
	}
	if got := string(d.get(at+"/home-papers/emergency-card?language=es", d.Coordinator).is(http.StatusOK).body); got != "%PDF emergency-card of Teo in es" {
		d.t.Errorf("the paper: %s", got)
	}
	d.get(at+"/home-papers/emergency-card?language=fr", d.Coordinator).problem(http.StatusBadRequest)
	d.get(at+"/home-papers/diary", d.Coordinator).problem(http.StatusNotFound)
}
