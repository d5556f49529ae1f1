package main

// goes are routes after which somebody is not there any more, or is called
// otherwise: they are asked about people and children of their own.
var goes = map[string]bool{"PUT /api/v1/people/:id": true, "PUT /api/v1/people/:id/departure": true, "POST /people/:id/edit": true, "POST /people/:id/leaving": true,
	"PUT /api/v1/clients/:id/departure": true}

// theirs may sign the records of a place: the learner and who saw it.
var theirs = map[string][]string{"own": {"caregiver", "educator"}, "outside": {"educator"}}

// takesAnyID answer alike whatever the id: with why.
var takesAnyID = map[string]bool{
	"GET /api/v1/certificates":            true, // a list of whom there is not is empty
	"GET /api/v1/demonstrations":          true, // the same
	"GET /api/v1/incidents":               true, // the same
	"GET /incidents":                      true, // the same
	"GET /in-service":                     true, // the same
	"GET /api/v1/in-service":              true, // the same
	"GET /supervision":                    true, // the same
	"GET /api/v1/supervision":             true, // the same
	"POST /demonstrations/:id/discarding": true, // thrown away is thrown away: the second of two clicks says so too
	"PUT /api/v1/bedside/sheets/:id":      true, // takes a sheet in under an id that the device made
	"PUT /api/v1/sheets/:id":              true, // opens a sheet under an id that the asker made
}

// absent are routes whose thing of one's own is not there in this walk: with why.
var absent = map[string]bool{
	"GET /api/v1/bedside/pack":             true,                                                                                              // for one's own device
	"POST /account/devices/:id/revocation": true, "DELETE /api/v1/bedside/devices/:id": true, "PUT /api/v1/bedside/devices/:id/holding": true, // an educator's: nobody else has one
	"POST /people/:id/devices/:device/revocation": true, // needs a device of that person; the tests of devices revoke one
	"POST /account/passkeys/:id/removal":          true, // needs a device; the tests of passkeys remove one's own and another's
}

// unfinished are routes that no request of this walk finishes, by why.
var unfinished = map[string][]string{
	"takes a sheet that was signed; the tests of received sheets send some":    {"PUT /api/v1/bedside/sheets/:id"},
	"needs a device of somebody who observes; the tests of devices revoke one": {"POST /people/:id/devices/:device/revocation"},
	"needs a signer who has a passkey; the tests of the API give one":          {"POST /api/v1/demonstrations/:id/passkey-question"},
	"done already in the ward, so that it is refused as a conflict": {
		"POST /api/v1/clients/:id/team", "POST /clients/:id/team", "POST /api/v1/clients/:id/plan", "POST /clients/:id/readiness",
		"POST /api/v1/skills/:id/revisions", "POST /api/v1/starters/:code/adoption", "POST /api/v1/appointments/:id/agreement", "POST /appointments/:id/agreement",
		"POST /requirements", "POST /plan-template", "POST /api/v1/plan-template", "POST /people/:id/papers/taking-back", "POST /people/:id/taking-back", "POST /people/:id/reinstatements",
		"POST /people/:id/vouching", "POST /appointments/:id/end", "POST /clients/:id/equipment", "POST /clients/:id/readiness/shifts",
		"POST /api/v1/skills",
	},
	"takes somebody who left years ago, or a second administrator; the tests of erasures have both": {"POST /erasures", "POST /erasures/:id/carrying-out", "POST /api/v1/erasures", "POST /api/v1/erasures/:id/carrying-out"},
	"takes a secret that is shown once; the tests of calendars have some":                           {"GET /feeds/:secret"},
	"takes a mail server; the tests of reminders have one":                                          {"POST /reminders/letters/:id/sending"},
	"says what was read, which no request of this walk has": {
		"PUT /api/v1/clients/:id/home-record",
		"POST /clients/:id/readiness/signature", "POST /api/v1/clients/:id/plan-signature", "POST /people/:id/edit", "PUT /api/v1/people/:id", "POST /revisions/:id/in-force", "POST /api/v1/revisions/:id/proposals", "POST /api/v1/revisions/:id/preview", "POST /proposals/:id/agreement", "POST /api/v1/proposals/:id/agreement",
		"POST /revisions/:id/source", "PUT /api/v1/revisions/:id/source", "POST /lessons/:id/source", "POST /lessons/:id/in-force",
		"POST /imports/:id", "POST /api/v1/imports/:id/carrying-out", "POST /visits/:id", "POST /visits/proposal", "PUT /api/v1/visits/:id", "POST /api/v1/visits/proposal",
		"PUT /api/v1/skills-days/:id", "POST /skills-days/:id", "POST /skills-days/:id/stations/:station/learners/:learner",
		"POST /clients/:id/roster/patterns/:pattern", "POST /clients/:id/roster/patterns/:pattern/days", "POST /clients/:id/roster/patterns/:pattern/end",
		"POST /api/v1/coverage/shifts/:shift/giving", "POST /api/v1/coverage/sharing", "POST /api/v1/patterns/:id/days", "POST /api/v1/patterns/:id/end", "PUT /api/v1/patterns/:id", "POST /api/v1/roster/shifts/:id/removal", "PUT /api/v1/roster/shifts/:id",
		"POST /coverage/shifts/:shift/giving", "POST /coverage/shifts/:shift/removal", "POST /coverage/sharing",
	},
	"needs what came before it: marks, a waiver, a file, a head, one's turn to sign": {
		"POST /api/v1/sheets/:id/record", "POST /demonstrations/:id/record", "POST /api/v1/criteria/:id/waiver-end", "DELETE /api/v1/plan-template", "POST /clients/:id/readiness/waivers/end",
		"POST /incidents/:id/closing", "POST /api/v1/incidents/:id/closing", "POST /checklists", "POST /imports", "POST /api/v1/imports", "POST /people/:id/carried-in/papers", "POST /people/:id/carried-in/files", "POST /check", "POST /neighbours", "POST /api/v1/neighbours", "POST /api/v1/people/:id/carried-in/files", "POST /demonstrations/:id/pages", "GET /api/v1/ledger/extension", "POST /ledger/extension", "POST /demonstrations/:id/signature",
		"POST /api/v1/revisions/:id/retirement", "POST /revisions/:id/retirement", "POST /lessons/:id/retirement", "POST /lessons/drawings", "PUT /api/v1/sheets/:id", "GET /static/*file",
	},
	"would end or need a secret; the tests of accounts do it": {
		"GET /link/:token", "POST /link/:token", "POST /api/v1/links", "POST /api/v1/sessions",
		"POST /sign-in", "POST /sign-in/passkey", "POST /sign-in/code", "POST /sign-out",
		"POST /password", "PUT /api/v1/me/password", "POST /account/passkeys", "POST /account/passkeys/new",
		"POST /account/passkeys/:id/removal", "POST /account/codes", "POST /account/codes/confirmation", "POST /account/codes/recovery",
		"POST /account/codes/end", "POST /people/:id/codes/end",
	},
}

func (w walk) complainOfUnfinished(finished map[string]bool) {
	known := map[string]bool{}
	for _, routes := range unfinished {
		for _, name := range routes {
			known[name] = true
		}
	}
	for _, r := range w.routes {
		name := r.method + " " + r.path
		if !finished[name] && !known[name] {
			w.t.Errorf("nobody got %s done: give it the fields it needs in `sends`, or say in `unfinished` why nobody can", name)
		}
	}
}
