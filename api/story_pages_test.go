package api_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"image"
	"image/png"
	"net/http"
	"strings"
	"testing"
	"time"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// picture is a scan of a page, another for each width.
func picture(t *testing.T, width int) raw {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewGray(image.Rect(0, 0, width, 30))); err != nil {
		t.Fatal(err)
	}
	return raw{"application/octet-stream", b.String()}
}

// fromPaper types in what was marked on paper: with its pages, and said to be so in
// the record for ever.
func (d *desk) fromPaper(learner assessment.Actor, child assessment.ClientID) {
	d.t.Helper()
	observer, at, performed := d.Educators[0], "/sheets/0197a1d0-0000-7000-8000-0000000000fa", d.Now().Add(-time.Hour)
	form := api.SheetForm{Learner: string(learner.Person), Skill: "go-bag", Client: string(child), Place: "at home", Real: true, Formal: true, FromPaper: true, PaperRevision: 1}
	d.put(at, observer, form).problem(http.StatusUnprocessableEntity) // when was it?
	form.PerformedAt = &performed
	form.PaperRevision = 9
	d.put(at, observer, form).problem(http.StatusUnprocessableEntity)
	form.PaperRevision = 1
	var s api.Sheet
	d.put(at, observer, form).into(http.StatusOK, &s)
	d.markEverything(at, observer)
	if refusal := d.post(at+"/record", observer, nil).problem(http.StatusUnprocessableEntity); !strings.Contains(refusal.Detail, "no page of it is attached") {
		d.t.Errorf("recorded without its paper: %+v", refusal)
	}
	for n, width := range []int{20, 21, 22} {
		d.put(at+path("/pages/%s", string(rune('1'+n))), observer, picture(d.t, width)).into(http.StatusOK, &s)
	}
	d.delete(at+"/pages/2", observer).into(http.StatusOK, &s)
	if !s.FromPaper || len(s.Pages) != 2 || s.Pages[1].Number != 3 || s.Pages[1].Type != "image/png" {
		d.t.Errorf("the sheet: %+v", s.Pages)
	}
	d.put(at+"/pages/11", observer, picture(d.t, 9)).problem(http.StatusNotFound)
	if refusal := d.put(at+"/pages/4", observer, raw{"image/png", "<svg onload=alert(1)>"}).problem(http.StatusUnprocessableEntity); !strings.Contains(refusal.Detail, "no JPEG, PNG or PDF") {
		d.t.Errorf("a script: %+v", refusal)
	}
	var r api.Demonstration
	d.post(at+"/record", observer, nil).into(http.StatusCreated, &r)
	if r.Paper == nil || len(r.Paper.Pages) != 2 || !r.Paper.TypedInAt.Equal(s.OpenedAt) {
		d.t.Fatalf("the record: %+v", r.Paper)
	}
	page := d.get("/demonstrations/"+r.ID+"/pages/1", learner).is(http.StatusOK)
	if hash := sha256.Sum256(page.body); hex.EncodeToString(hash[:]) != r.Paper.Pages[0].SHA256 {
		d.t.Error("the page is not the one that the record names")
	}
	if h := page.header; !strings.HasPrefix(h.Get("Content-Disposition"), "attachment") || !strings.Contains(h.Get("Content-Security-Policy"), "sandbox") || h.Get("X-Content-Type-Options") != "nosniff" {
		d.t.Errorf("handed out with %v", h)
	}
	d.get("/demonstrations/"+r.ID+"/pages/9", learner).problem(http.StatusNotFound)
	d.post("/demonstrations/"+r.ID+"/correction", observer, api.SignedReason{Reason: "Typed in twice.", Signing: api.Signing{Password: ward.Password}}).is(http.StatusNoContent)
}

// A file beyond what is taken is refused as such, in words, before it is looked at.
func TestAPageThatIsTooLarge(t *testing.T) {
	t.Parallel()
	d := newDesk(t)
	refusal := d.put("/sheets/0197a1d0-0000-7000-8000-0000000000fa/pages/1", d.Educators[0], raw{"application/octet-stream", strings.Repeat("x", office.MostPageBytes+1)}).problem(http.StatusRequestEntityTooLarge)
	if !strings.Contains(refusal.Detail, "at most 8 MB") {
		t.Errorf("%+v", refusal)
	}
}
