package api_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"wellshown/api"
	"wellshown/integration/ward"
)

// Whoever follows next to the end of a list has read every record of it once.
func TestEveryRecordIsOnSomePage(t *testing.T) {
	t.Parallel()
	d := newDesk(t)
	child := d.Client("7K", "Mira")
	nan := d.Nurse("Nan Orme")
	d.Award(nan, "humidifier", child)
	d.Award(nan, "go-bag", child)
	for range 3 {
		d.Demonstrate(nan, "humidifier", child, ward.Unsigned)
	}
	for path, least := range map[string]int{
		"/demonstrations?limit=2": 5, "/demonstrations?limit=2&unsigned=true": 3, "/demonstrations/awaiting-me?limit=2": 3,
		"/certificates?limit=1&person=" + string(nan.Person): 2,
	} {
		if n := len(d.everyPage(path)); n < least {
			t.Errorf("%s: %d different records, want %d or more", path, n, least)
		}
	}
	d.walkEntries()
	d.get("/ledger/entries?after=first", d.Educators[0]).problem(http.StatusBadRequest)
	d.get("/demonstrations?after=0.0", d.Educators[0]).problem(http.StatusBadRequest)
	d.get("/certificates?after=first", d.Educators[0]).problem(http.StatusBadRequest)
}

// walkEntries reads the whole ledger, three entries at a time.
func (d *desk) walkEntries() {
	d.t.Helper()
	d.get("/ledger/head", d.Educators[0]).is(http.StatusOK) // seals what waits
	last, pages := int64(1<<62), 0
	for after := ""; ; pages++ {
		var page api.List[api.LedgerEntry]
		d.get("/ledger/entries?limit=3&after="+after, d.Educators[0]).into(http.StatusOK, &page)
		for _, e := range page.Items {
			if last != 1<<62 && e.Position != last-1 {
				d.t.Fatalf("entry %d comes after entry %d", e.Position, last)
			}
			last = e.Position
		}
		if after = page.Next; after == "" {
			break
		}
	}
	if last != 0 || pages < 10 {
		d.t.Errorf("%d pages end at entry %d", pages, last)
	}
}

// everyPage gives the ids of a list, page after page; none comes twice.
func (d *desk) everyPage(path string) map[string]bool {
	d.t.Helper()
	type head struct {
		ID string `json:"id"`
	}
	seen := map[string]bool{}
	for at, n := path, 0; at != ""; n++ {
		var page api.List[head]
		d.get(at, d.Educators[0]).into(http.StatusOK, &page)
		for _, h := range page.Items {
			if seen[h.ID] {
				d.t.Errorf("%s: %s comes twice", at, h.ID)
			}
			seen[h.ID] = true
		}
		if n > 50 || len(page.Items) == 0 || strings.Contains(path, "limit=1&") && len(page.Items) > 1 || len(page.Items) > 2 {
			d.t.Fatalf("%s: page %d holds %d", at, n, len(page.Items))
		}
		if at = ""; page.Next != "" {
			at = path + "&after=" + url.QueryEscape(page.Next)
		}
	}
	return seen
}
