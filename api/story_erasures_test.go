package api_test

import (
	"net/http"
	"time"

	"wellshown/api"
	"wellshown/assessment/civil"
	"wellshown/integration/ward"
)

// partings tells of somebody who left long ago and is erased by two administrators.
func (d *desk) partings() {
	d.t.Helper()
	gone := d.Nurse("Wendeline Osterkamp")
	second := d.Administrator("Bodil Krane")
	d.need(d.Office.PersonLeaves(d.t.Context(), d.Admin, gone.Person, civil.MustParse("2015-03-02")))
	ask := api.ErasureForm{Person: string(gone.Person), Reason: "Asked for by letter."}
	d.post("/erasures", d.Admin, ask).problem(http.StatusUnprocessableEntity)
	d.put("/retention", d.Admin, api.RetentionForm{Years: 5, Reason: "Less."}).problem(http.StatusUnprocessableEntity)
	d.put("/retention", d.Coordinator, api.RetentionForm{Years: 6, Reason: "Agreed."}).problem(http.StatusForbidden)
	d.put("/retention", d.Admin, api.RetentionForm{Years: 6, Reason: "Agreed."}).is(http.StatusNoContent)
	var asked api.Erasure
	d.post("/erasures", d.Admin, ask).into(http.StatusCreated, &asked)
	d.post("/erasures/"+asked.ID+"/dropping", d.Admin, nil).is(http.StatusNoContent)
	d.Pass(time.Second) // the one asked for last is listed first
	d.post("/erasures", d.Admin, ask).into(http.StatusCreated, &asked)
	carry := "/erasures/" + asked.ID + "/carrying-out"
	d.post(carry, d.Admin, api.Signing{Password: ward.Password}).problem(http.StatusUnprocessableEntity)
	var before api.Erasures
	d.get("/erasures", second).into(http.StatusOK, &before)
	d.post(carry, second, api.Signing{Password: ward.Password}).is(http.StatusNoContent)
	d.post(carry, second, api.Signing{Password: ward.Password}).problem(http.StatusConflict)
	var all api.Erasures
	d.get("/erasures", d.Admin).into(http.StatusOK, &all)
	if all.Years != 6 || len(all.Items) != 2 || all.Items[0].Verdict != "carried out" || all.Items[0].Name != "erased" || all.Items[0].EndedBy.Name != second.Name || all.Items[1].Verdict != "taken back" {
		d.t.Errorf("%+v", all)
	}
	for _, x := range append(before.Over, all.Over...) {
		if x.Person == string(gone.Person) || x.Name == "" || x.LeftOn == "" || x.KeptThrough == "" {
			d.t.Errorf("listed as one who can be erased: %+v", x)
		}
	}
}
