package api_test

import (
	"net/http"
	"time"

	"wellshown/api"
	"wellshown/assessment"
)

// roster tells of shifts: planned, found to break, given to somebody who can, shared out.
func (d *desk) roster(child assessment.ClientID) {
	d.t.Helper()
	var rule api.Requirement
	d.post("/requirements", d.Coordinator, api.RequirementForm{Skill: "bagging", Kind: "nurse", From: d.Today().String()}).into(http.StatusCreated, &rule)
	nora, otto := d.Nurse("Nora Vale"), d.Nurse("Otto Penn")
	d.Award(nora, "bagging", child)
	clear(d.tokens) // days went by: everybody signs in again
	at := d.Now().Truncate(time.Minute).Add(24 * time.Hour)
	form := api.RosterShiftForm{ID: "0197a1d0-0000-7000-8000-0000000000ee", Kind: "nurse", Starts: at, Ends: at.Add(8 * time.Hour)}
	var made, again api.OnRoster
	d.post(path("/clients/%s/roster/shifts", child), d.Coordinator, form).into(http.StatusCreated, &made)
	d.post(path("/clients/%s/roster/shifts", child), d.Coordinator, form).into(http.StatusCreated, &again)
	var shift api.CoverShift
	d.get("/coverage/shifts/"+made.ID, d.Educators[0]).into(http.StatusOK, &shift)
	if again.ID != made.ID || shift.Answer != "open" || len(shift.Able) != 1 || shift.Able[0].Person.Name != "Nora Vale" {
		d.t.Errorf("an open shift: %+v", shift)
	}
	d.post("/coverage/shifts/"+made.ID+"/giving", d.Coordinator, api.GiveShift{Version: shift.Version, Person: string(otto.Person)}).problem(http.StatusUnprocessableEntity)
	d.put("/coverage/rest", d.Coordinator, api.RestForm{Hours: "8"}).is(http.StatusNoContent)
	d.post("/coverage/shifts/"+made.ID+"/giving", d.Coordinator, api.GiveShift{Version: shift.Version, Person: string(nora.Person)}).is(http.StatusNoContent)
	d.post("/coverage/shifts/"+made.ID+"/giving", d.Coordinator, api.GiveShift{Version: shift.Version}).problem(http.StatusConflict)
	d.get("/coverage/shifts/"+made.ID, d.Coordinator).into(http.StatusOK, &shift)
	form.Version, form.Ends, form.Person = shift.Version, at.Add(7*time.Hour), string(nora.Person)
	d.put("/roster/shifts/"+made.ID, d.Coordinator, form).is(http.StatusNoContent)
	var all api.Coverage
	d.get(path("/coverage?client=%s&state=covered", child), d.Coordinator).into(http.StatusOK, &all)
	if all.Counts.Covered != 1 || len(all.Items) != 1 || all.Items[0].Person.Name != "Nora Vale" || !all.Items[0].Ends.Equal(form.Ends) || all.Rest != 8 {
		d.t.Errorf("given to Nora: %+v", all)
	}
	d.paper("/coverage.pdf?from="+d.Today().String(), d.Coordinator, "%PDF coverage "+d.Today().String())
	d.paper("/coverage.csv?from="+d.Today().String(), d.Coordinator, "day\r\n"+d.Today().String())
	d.paper("/coverage.xlsx?from="+d.Today().String(), d.Coordinator, "PK coverage "+d.Today().String())
	d.patterns(child, otto)
	d.get("/coverage/shifts/"+made.ID, d.Coordinator).into(http.StatusOK, &shift)
	d.post("/roster/shifts/"+made.ID+"/removal", d.Coordinator, api.ReadVersion{Version: "0"}).problem(http.StatusConflict)
	d.post("/roster/shifts/"+made.ID+"/removal", d.Coordinator, api.ReadVersion{Version: shift.Version}).is(http.StatusNoContent)
	d.put(path("/requirements/%s/end", rule.ID), d.Coordinator, api.LastDay{Through: d.Today().String()}).is(http.StatusNoContent)
}

// patterns tells of a weekly pattern of somebody who is not current.
func (d *desk) patterns(child assessment.ClientID, otto assessment.Actor) {
	d.t.Helper()
	first := d.Today().AddDays(3)
	form := api.PatternForm{Person: string(otto.Person), Weekdays: []int{1, 2, 3, 4, 5, 6, 7}, From: "19:00", Until: "23:00", FromOn: first.String(), ThroughOn: first.AddDays(1).String()}
	var made, next api.OnRoster
	d.post(path("/clients/%s/roster/patterns", child), d.Coordinator, form).into(http.StatusCreated, &made)
	var all api.Coverage
	d.get(path("/coverage?client=%s&state=breaks", child), d.Coordinator).into(http.StatusOK, &all)
	if all.Counts.Breaks != 2 || len(all.First) != 1 || all.First[0].ID != made.ID+"."+first.String() || all.First[0].Lacks[0].Skill.Code != "bagging" {
		d.t.Fatalf("Otto holds nothing: %+v", all)
	}
	var share api.Sharing
	d.get(path("/coverage/sharing?shifts=%s,%s", all.Items[0].ID, all.Items[1].ID), d.Coordinator).into(http.StatusOK, &share)
	if len(share.Takes) != 1 || len(share.None) != 1 || share.Takes[0].Takes.Name != "Nora Vale" {
		d.t.Fatalf("shared out: %+v", share)
	}
	given := api.GivenShifts{Shifts: []api.GivenShift{{Shift: share.Takes[0].ID, GiveShift: api.GiveShift{Version: share.Takes[0].Version, Person: share.Takes[0].Takes.ID}}}}
	d.post("/coverage/sharing", d.Coordinator, given).is(http.StatusNoContent)
	d.post("/coverage/sharing", d.Coordinator, given).problem(http.StatusConflict)
	var roster api.ClientRoster
	d.get(path("/clients/%s/roster", child), d.Educators[0]).into(http.StatusOK, &roster)
	if len(roster.Patterns) != 1 || len(roster.Patterns[0].Days) != 1 || roster.Patterns[0].Days[0].Person.Name != "Nora Vale" {
		d.t.Fatalf("the roster: %+v", roster.Patterns)
	}
	version := roster.Patterns[0].Version
	d.post(path("/patterns/%s/days", made.ID), d.Coordinator, api.PatternDayForm{Version: version, On: first.AddDays(1).String(), LeftOut: true}).is(http.StatusNoContent)
	d.post(path("/patterns/%s/days/lifting", made.ID), d.Coordinator, api.ThatDay{On: first.AddDays(1).String()}).is(http.StatusNoContent)
	form.Version, form.From = version, "18:00"
	d.put("/patterns/"+made.ID, d.Coordinator, form).into(http.StatusOK, &next)
	d.post(path("/patterns/%s/end", next.ID), d.Coordinator, api.ReadVersion{Version: version}).problem(http.StatusConflict)
	d.get(path("/clients/%s/roster", child), d.Coordinator).into(http.StatusOK, &roster)
	d.post(path("/patterns/%s/end", next.ID), d.Coordinator, api.ReadVersion{Version: roster.Patterns[0].Version}).is(http.StatusNoContent)
}
