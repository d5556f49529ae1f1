package main

import (
	"crypto/rand"
	"encoding/json"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"time"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/integration/ward"
	"wellshown/web"
)

// stands says which thing stands where in an address: for each parameter, by what
// the address begins with. A word that is no kind of thing stands for itself.
var stands = map[string][][2]string{
	"id": {{"/sittings/:id/presence", "sitting-handed"}, {"/sittings/:id/check.pdf", "sitting-handed"}, {"/sittings/", "sitting"}, {"/demonstrations/:id/drill", "drill"}, {"/drills/", "drill"}, {"/people/", "person"}, {"/appointments/", "appointment"}, {"/clients/", "client"}, {"/skills/", "skill"}, {"/revisions/", "revision"}, {"/lessons/", "lesson"}, {"/proposals/", "proposal"},
		{"/sheets/", "sheet"}, {"/demonstrations/:id/pages/", "typed"}, {"/demonstrations/", "demonstration"}, {"/withdrawals/", "withdrawal"}, {"/requirements/", "requirement"}, {"/criteria/", "criterion"}, {"/plan-template/", "plan-line"},
		{"/entries/", "withdrawal"}, {"/papers/", "card"}, {"/roster/", "roster-shift"}, {"/patterns/", "pattern"}, {"/shifts/", "shift"}, {"/certificates/", "certificate"}, {"/account/passkeys/", "passkey"}, {"/account/devices/", "device"}, {"/bedside/devices/", "device"}, {"/bedside/sheets/", "sheet"}, {"/tokens/", "program"}, {"/survey-access/", "access"}, {"/erasures/", "erasure"}, {"/skills-days/", "skills-day"}, {"/reminders/letters/", "letter"}, {"/visits/days-off/", "days-off"}, {"/visits/ways/", "way"}, {"/visits/weeks/", "educator"}, {"/packets/", "packet"}, {"/visits/", "visit"}, {"/neighbours/", "neighbour"}, {"/supervision/", "supervised"}, {"/in-service/", "session-held"}, {"/incidents/", "incident"}, {"/imports/", "list"}, {"/learning/", "person"}, {"/teaching/", "taught"}, {"/practice-runs/", "practised"}, {"/teaching-sessions/", "taught"}},
	"entry": {{"", "carried"}}, "line": {{"/plan-template/", "plan-line"}}, "paper": {{"/clients/", "emergency-card"}, {"", "old-paper"}}, "name": {{"/imports/templates/", "people.csv"}},
	"member": {{"", "member"}}, "stretch": {{"", "member"}}, "criterion": {{"", "criterion"}}, "shift": {{"/coverage/", "roster-shift"}, {"", "shift"}}, "pattern": {{"", "pattern"}}, "handle": {{"", "session"}},
	"learner": {{"/skills-days/", "person"}}, "station": {{"/skills-days/", "1"}},
	"device": {{"", "device"}}, "secret": {{"", "no-such-calendar.ics"}},
	"step": {{"", "1"}}, "number": {{"", "1"}}, "token": {{"", "no-such-token"}},
	"code": {{"/check/", "certificate-code"}, {"/catalogue/", "bagging"}, {"/starters/", "bagging"}, {"/learn/", "bagging"}, {"/lessons/", "bagging"}, {"/checks/", "bagging"}, {"/scenarios/", "cpr-trach-01"}, {"/learning-days/", "bagging"}},
	"item": {{"", "bagging-01"}}, "place": {{"", "1"}},
	"kind": {{"/entries/", "withdrawal-word"}, {"/papers/", "card-word"}, {"/problems/", "not-found"}},
	"file": {{web.BedsidePrefix, "main.js"}, {"", "none.css"}},
}

var inAddress = regexp.MustCompile(`[:*](\w+)`)

// filled is the address of a route with things in it, and the kinds of them. On
// pages a demonstration that is still being marked is a sheet.
func (w walk) filled(r walked, th things) (string, []string) {
	w.t.Helper()
	var kinds []string
	path := inAddress.ReplaceAllStringFunc(r.path, func(name string) string {
		for _, s := range stands[name[1:]] {
			if !strings.HasPrefix(strings.TrimPrefix(r.path, api.Base), s[0]) {
				continue
			}
			kind := s[1]
			if (kind == "demonstration" || kind == "typed") && r.act == assessment.Observe {
				kind = "sheet"
			}
			if id, known := th[kind]; known {
				kinds = append(kinds, kind)
				return id
			}
			return strings.TrimSuffix(kind, "-word")
		}
		w.t.Fatalf("%s %s: say in `stands` what stands for %s", r.method, r.path, name)
		return ""
	})
	return path, kinds
}

// words are what fields hold wherever a route says nothing else: a word in braces
// stands for a thing or a day.
var words = map[string]string{
	"person": "{person}", "learner": "{person}", "client": "{client}", "skill": "bagging", "skills": "bagging", "from": "{today}", "through": "{today}", "on": "{today}",
	"evidence": "Judged these at a teaching hospital.", "reason": "Seen without.", "code": "3X", "first_name": "Noor", "kind": "nurse", "title": "Calm", "word": "met",
	"starts": "{now}", "ends": "{later}", "password": ward.Password, "old": "not this one", "new": "seven otters wading", "pin": "592047", "part": "learner", "token": "no-such-token",
	"weekdays": "[1]", "until": "reinstated", "hours": "8", "from_on": "{today}", "shifts": `[{"shift":"{roster-shift}","version":"0"}]`,
	"name": "New", "version": "0", "seen": "0", "issuer": "Lifeline Courses", "number": "1", "statement": "Read.", "email": "nobody@ward.example", "place": "at home",
	"real": "true", "formal": "true", "marks": `[{"step":1,"mark":"cued"}]`, "parameters": `[{"name":"cuff","words":"none"}]`,
	"source": "Common practice, no source.", "retired": "false", "en": `{"title":"x","read":"x","then":"x","recognise":"x","act":"x","call":"x"}`, "es": `{"title":"x","read":"x","then":"x","recognise":"x","act":"x","call":"x"}`,
	"stations": `[{"no":1,"skill":"bagging","observer":"{educator}","client":"{client}"}]`, "learners": `["{person}"]`,
}

// sends is what a route is sent besides: fields of the address for what reads, all
// fields of a form on pages, and what is optional or particular in the API.
var sends = map[string]string{
	"GET /transcript.pdf": "person={person}", "GET /readiness.pdf": "client={client}", "GET /blank.pdf": "revision={other-revision}",
	"GET /lessons/:id/compare": "with={lesson}", "POST /lessons/starters": "skill=suction&language=en", "POST /lessons/drafts": "skill={skill}&language=en", "POST /lessons/drawings": "name=ours-1",
	"POST /lessons/:id/source": "version=0&source=%23+T%0A%0AWords.", "POST /lessons/:id/in-force": "reviewed=yes&statement=Read.&version=0&password={secret}", "POST /lessons/:id/retirement": "password={secret}",
	"GET /revisions/:id/compare": "with={other-revision}", "GET /api/v1/revisions/:id/comparison": "with={other-revision}",
	"GET /api/v1/certificates": "person={person}", "GET /api/v1/demonstrations": "learner={person}",
	"GET /api/v1/standings": "person={person}&skill=bagging&client={client}", "GET /api/v1/ledger/extension": "head=none",

	"POST /api/v1/clients/:id/criteria": "kind=attested", "POST /api/v1/clients/:id/equipment": "kind=ventilator&type=x", "POST /api/v1/people/:id/cards": "issued_on={today}",
	"POST /api/v1/people/:id/licences": "kind=RN", "POST /api/v1/logs": "kind=teaching&skill=circuit-test&client={client}", "POST /api/v1/waivers": "skill=circuit-test&client={client}", "POST /api/v1/withdrawals": "skill=circuit-test&client={client}",
	"POST /survey-access": "person={surveyor}&whole=yes&reason=x&from={today}&through={today}", "POST /api/v1/survey-access": "person={surveyor}&whole=true",
	"POST /erasures": "about=person+{person}&reason=x", "POST /api/v1/erasures": "person={person}", "POST /erasures/retention": "years=6&reason=x", "POST /erasures/:id/carrying-out": "password={secret}",
	"POST /packets": "kind=person&person={person}&on={today}", "POST /api/v1/packets": "about=person&person={person}",
	"POST /visits": "client={client}&educator={educator}&on={next-workday}", "POST /api/v1/visits": "client={client}&educator={educator}&on={workday}", "PUT /api/v1/visits/:id": "educator={educator}", "POST /visits/proposal": "weeks=8&version=0&visits=none", "POST /visits/:id": "on={today}&educator={educator}&version=0", "GET /visits/:id": "on={today}",
	"PUT /api/v1/visits/weeks/:id": "per_day=4&days_off=[7]", "POST /api/v1/visits/days-off": "educator={educator}&from=2027-03-01", "POST /api/v1/visits/ways": "client={client}&base=Office&minutes=20",
	"POST /incidents": "person={person}&skill=bagging&happened={now}&seen=It+slipped.&password={secret}", "POST /incidents/:id/closing": "record={demonstration}&note=Taught.&password={secret}", "POST /incidents/:id/taking-back": "reason=x&password={secret}",
	"POST /api/v1/incidents": "happened={now}&seen=It+slipped.", "POST /api/v1/incidents/:id/closing": "record={demonstration}&note=Taught.", "GET /incidents": "person={person}", "GET /api/v1/incidents": "person={person}",
	"POST /learning/days": "skill=bagging&days=3", "POST /learning/:id/target": "goal=other&on={today}", "POST /learning/:id/choices": "skill=bagging+&by={today}",
	"POST /learning/:id/sessions": "held_on={today}&minutes=30&trainer={educator}&skills=bagging&learners=shown", "GET /learning/:id/practice": "what=bagging+", "POST /learning/:id/practice": "what=bagging+&revision={other-revision}&done_on={today}&step-1=alone",
	"POST /teaching/:id/correction": "held_on={today}&minutes=30&trainer={educator}&skills=bagging&reason=x&password={secret}", "POST /practice-runs/:id/taking-back": "reason=x",
	"PUT /api/v1/people/:id/learning-target": "goal=other&on={today}", "POST /api/v1/people/:id/learning-choices": "skill=bagging", "PUT /api/v1/learning-days/:code": "days=3",
	"POST /api/v1/teaching-sessions":                `held_on={today}&minutes=30&teacher={educator}&skills=["bagging"]&learners=[{"person":"{person}","shown":true}]`,
	"POST /api/v1/teaching-sessions/:id/correction": `held_on={today}&minutes=30&teacher={educator}&skills=["bagging"]&learners=[]`, "POST /api/v1/people/:id/practice-runs": `revision={other-revision}&done_on={today}&marks=[{"step":1,"went":"alone"}]`,
	"POST /in-service": "held_on={today}&hours=1&topic=Falls&trainer=Ruth&people={aide}", "POST /api/v1/in-service": "held_on={today}&hours=1&topic=Falls&trainer=Ruth&counts=true&orientation=false&people=[\"{aide}\"]", "POST /in-service/hired": "person={aide}&on={today}", "POST /in-service/:id/taking-back": "reason=x",
	"POST /supervision": "aide={aide}&client={client}&supervisor={educator}&on={today}&how=on+site", "POST /api/v1/supervision": "aide={aide}&client={client}&supervisor={educator}&on={today}&how=on site", "POST /supervision/skilled-care": "client={client}&from={today}&skilled=yes", "PUT /api/v1/clients/:id/skilled-care": "skilled=true",
	"GET /in-service": "person={person}", "GET /api/v1/in-service": "person={person}", "GET /supervision": "client={client}", "GET /api/v1/supervision": "client={client}",
	"POST /practice": "incident_withdraws=skill+alone&in_service_hours=12&in_service_year=calendar+year", "PUT /api/v1/practice": "incident_withdraws=skill alone&incident_by_itself=true&in_service=true&orientation_counts=false&supervision=true&in_service_hours=12&in_service_year=calendar year",
	"POST /drills": "learner={person}&skill=decannulation&client={client}&setting=simulation&purpose=practice&place=hall", "POST /demonstrations/:id/drill": "recognised=4&acted=&called=9",
	"POST /scenarios": "skill=decannulation&source=Common+practice,+no+source.&en_title=x&en_read=x&en_then=x&en_recognise=x&en_act=x&en_call=x&es_title=x&es_read=x&es_then=x&es_recognise=x&es_act=x&es_call=x", "POST /scenarios/:code": "version=0&source=Common+practice,+no+source.&en_title=x&en_read=x&en_then=x&en_recognise=x&en_act=x&en_call=x&es_title=x&es_read=x&es_then=x&es_recognise=x&es_act=x&es_call=x", "POST /scenarios/:code/retirement": "retired=no",
	"PUT /api/v1/drills/:id": "skill=decannulation&client={client}&formal=false", "POST /api/v1/scenarios": "skill=cpr-trach", "PUT /api/v1/drills/:id/moments": "acted_s=3",
	"POST /checks/:code/rule": "asked=to+learn&length=10&pass_mark=9/10", "POST /checks/:code/items": "items=skill:+bagging", "POST /api/v1/checks/:code/items": "items=skill: bagging", "POST /api/v1/checks/:code/sittings": "language=en", "POST /api/v1/sittings/:id/presence": "present=true",
	"PUT /api/v1/checks/:code/rule": "asked=to learn&length=10&pass_mark=9/10&months=12&wait_hours=0&tries=0", "POST /checks/:code/items/:item/retirement": "retired=no", "POST /checks/:code/new-item": "id=ours-1&kind=single&difficulty=1&no-source=yes&ask-en=Q&teach-en=T&option-1-en=a&option-2-en=b&right=1",
	"POST /checks/:code/items/:item": "kind=single&version=1&do=look&difficulty=1&no-source=yes&ask-en=Q&teach-en=T&option-1-en=a&option-2-en=b&right=1", "POST /sittings/:id/answers": "place=1",
	"POST /reminders/settings": "on=yes&at=07:00&days=7&lapsed=yes&unplanned=7",
	"POST /visits/weeks":       "educator={educator}&per_day=4&days_off=7&base=Office", "POST /visits/days-off": "educator={educator}&from=2027-03-01&through=2027-03-02", "POST /visits/ways": "from={client}&base=Office&minutes=20",
	"POST /neighbours": "name=Elm+Nursing&line=x", "POST /neighbours/:id/agreement": "compared=yes", "POST /neighbours/:id/end": "reason=x", "POST /api/v1/neighbours": "name=Elm Nursing&line=x", "POST /api/v1/neighbours/:id/agreement": "compared=true", "POST /api/v1/neighbours/:id/end": "reason=x", "POST /api/v1/people/:id/carried-in/files": "file=x&same=true",
	"POST /imports": "kind=people", "POST /api/v1/imports": "kind=people", "POST /imports/:id": "version=0", "POST /people/:id/carried-in/papers": "shows={carried}",
	"POST /skills-days": "on={today}&name=Winter&place=hall&skill-1=bagging&observer-1={educator}&client-1={client}&learners={person}", "POST /skills-days/:id": "version=0&on={today}&name=Winter&place=hall",
	"POST /skills-days/:id/stations/:station/taking": "learner={person}", "POST /skills-days/:id/stations/:station/passing": "learner={person}&to=0",
	"POST /skills-days/:id/stations/:station/learners/:learner": "version=0&setting=simulation&purpose=practice",
	"POST /tokens": "name=New&acts=read+checklists&days=30", "POST /api/v1/tokens": "acts=read+checklists", "POST /api/v1/requirements": "client={client}", "PUT /api/v1/sheets/:id/marks/:step": "mark=cued", "PUT /api/v1/sheets/:id": "client={client}",
	"GET /api/v1/bedside/pack": "device={device}", "PUT /api/v1/bedside/devices/:id/holding": "finished=1&refused=0&open=0", "PUT /api/v1/bedside/sheets/:id": "device={device}&sheet=x&signature=x&sent_at={now}",
	"POST /api/v1/bedside/devices": "id=0197a1d0-0000-7000-8000-0000000000d1&name=Tablet&public_key={device-key}",
	"PUT /api/v1/clients/:id":      "code={new-code}", "POST /api/v1/clients": "code={new-code}",

	"POST /people": "name=New&roles=caregiver&kind=nurse", "POST /people/:id/edit": "name=New&version=0",
	"POST /people/:id/papers": "paper=card&issuer=Lifeline+Courses&issued_on={today}", "POST /people/:id/papers/taking-back": "what=card+{card}&reason=Wrong.&password={secret}",
	"POST /people/:id/taking-back": "what=withdrawal+{withdrawal}&reason=Wrong.&password={secret}", "POST /people/:id/withdrawals": "skill=circuit-test+{client}&until=reinstated&reason=x&password={secret}",
	"POST /people/:id/waivers": "skill=circuit-test+{client}&from={today}&through={today}&reason=x&password={secret}", "POST /people/:id/reinstatements": "withdrawal={withdrawal}&reason=x&password={secret}",
	"POST /people/:id/log": "skill=circuit-test+{client}&kind=teaching&on={today}", "POST /people/:id/leaving": "on={today}", "POST /people/:id/vouching": "password={secret}", "POST /people/:id/codes/end": "password={secret}",
	"POST /appointments": "person={person}&skills=bagging&from={today}&through={today}&evidence=x", "POST /appointments/:id/end": "reason=x",
	"POST /requirements": "skill=bagging&client={client}&from={today}", "POST /requirements/:id/end": "through={today}",
	"POST /clients": "code={new-code}&first_name=Noor", "POST /clients/:id/edit": "code={new-code}&first_name=Noor", "POST /clients/:id/parameters": "parameter=cuff&words=none",
	"POST /clients/:id/equipment": "kind=ventilator&type=x&from={today}", "POST /clients/:id/team": "person={person}&from={today}", "POST /clients/:id/team/:member/end": "through={today}",
	"POST /clients/:id/readiness/days": "home=2027-03-01", "PUT /api/v1/clients/:id/plan-days": "home=2027-03-01", "POST /clients/:id/readiness/signature": "version=0&password={secret}",
	"POST /plan-template/lines": "kind=attested&title=Calm", "POST /plan-template/lines/:line": "title=Quiet", "POST /api/v1/plan-template/lines": "kind=attested",
	"POST /clients/:id/home-papers": "kit_place=Hook&telephone-emergency-number=911", "PUT /api/v1/clients/:id/home-record": "version=",
	"POST /clients/:id/readiness/evidence": "criterion={criterion}&word=met", "POST /clients/:id/readiness/waivers": "criterion={criterion}&reason=x",
	"POST /clients/:id/readiness/waivers/end": "criterion={criterion}&reason=x", "POST /clients/:id/readiness/criteria": "kind=attested&title=Calm",
	"POST /clients/:id/readiness/criteria/:criterion": "title=Quiet", "POST /clients/:id/readiness/shifts": "person={person}&starts={starts}&ends={ends}",
	"GET /coverage/sharing": "shift={roster-shift}", "POST /coverage/sharing": "take={roster-shift}+0+{educator}", "POST /coverage/rest": "hours=8", "POST /api/v1/clients/:id/roster/patterns": "from=07:00&until=19:00&from_on={today}", "PUT /api/v1/patterns/:id": "from=07:00&until=19:00&from_on={today}", "GET /api/v1/coverage/sharing": "shifts={roster-shift}", "POST /coverage/shifts/:shift/giving": "version=0", "POST /coverage/shifts/:shift/removal": "version=0",
	"POST /clients/:id/roster/shifts": "starts={starts}&ends={ends}", "POST /clients/:id/roster/patterns": "weekdays=1&from=07:00&until=19:00&from_on={today}", "POST /clients/:id/roster/patterns/:pattern": "version=0&weekdays=1&from=07:00&until=19:00&from_on={today}",
	"POST /clients/:id/roster/patterns/:pattern/end": "version=0", "POST /clients/:id/roster/patterns/:pattern/days": "version=0&on={today}&left_out=yes", "POST /clients/:id/roster/patterns/:pattern/days/lifting": "on={tomorrow}", "POST /api/v1/patterns/:id/days/lifting": "on={tomorrow}",
	"POST /demonstrations": "learner={person}&skill=bagging&client={client}&setting=real&purpose=formal&place=at+home", "POST /demonstrations/:id/marks/:step": "mark=cued",
	"POST /demonstrations/:id/stop": "reason=x", "POST /demonstrations/:id/signature": "part=learner&password={secret}", "POST /demonstrations/:id/correction": "reason=x&password={secret}",
	"POST /revisions/:id/in-force": "reviewed=yes&statement=Read.&version=0&seen=0&password={secret}", "POST /proposals/:id/agreement": "reviewed=yes&seen=0&password={secret}", "POST /proposals/:id/dropping": "reason=x", "POST /api/v1/withdrawals/preview": "skill=circuit-test&client={client}", "POST /api/v1/clients/:id/equipment/preview": "kind=ventilator&type=y", "POST /api/v1/requirements/preview": "skill=suction&client={client}", "POST /revisions/:id/source": "version=0&source=x",
	"POST /account/pin": "pin=592047&again=592047&password={secret}", "POST /account/passkeys": "name=Phone&password={secret}", "POST /account/passkeys/:id/removal": "password={secret}",
	"POST /account/language": "language=es", "POST /account/codes": "password={secret}", "POST /password": "old=not+this+one&new=seven+otters+wading&again=seven+otters+wading",
}

var brace = regexp.MustCompile(`\{([a-z-]+)\}`)

// told is a text with things and days in place of the words in braces, and the
// kinds of things in it.
func (w walk) told(text string, th things) (string, []string) {
	at := w.own.Now().In(w.own.Zone)
	workday := w.own.Today().AddDays(60)
	workday = workday.AddDays(8 - max(int(workday.Weekday()), 1)) // a Monday: nobody is visited at weekends unless it is said
	days := map[string]string{"today": w.own.Today().String(), "tomorrow": w.own.Today().AddDays(1).String(), "workday": workday.String(), "next-workday": workday.AddDays(1).String(), "now": at.Format(time.RFC3339), "later": at.Add(time.Hour).Format(time.RFC3339), "secret": ward.Password,
		"starts": at.Format("2006-01-02T15:04"), "ends": at.Add(time.Hour).Format("2006-01-02T15:04"), "new-code": strings.ToUpper(rand.Text()[:6]), "device-key": deviceKey}
	var kinds []string
	text = brace.ReplaceAllStringFunc(text, func(b string) string {
		word := b[1 : len(b)-1]
		if day, known := days[word]; known {
			return day
		}
		if th[word] == "" {
			w.t.Fatalf("nothing is called %s: add it to `casefile`", b)
		}
		kinds = append(kinds, word)
		return th[word]
	})
	return text, kinds
}

// sent is what a route is sent besides its address: fields, and as JSON.
func (w walk) sent(r walked, th things, csrf string) (fields, body, kind string, kinds []string) {
	asked := strings.Replace(r.method, http.MethodHead, http.MethodGet, 1)
	given, err := url.ParseQuery(sends[asked+" "+r.path])
	need(w.t, err)
	if r.api && asked != http.MethodGet && r.method != http.MethodDelete {
		for _, name := range r.needs {
			if given.Get(name) == "" {
				if words[name] == "" {
					w.t.Fatalf("%s %s needs the field %q: say what it holds in `words`, or for this route in `sends`", r.method, r.path, name)
				}
				given.Set(name, words[name])
			}
		}
	}
	for name := range given {
		value, found := w.told(given.Get(name), th)
		given.Set(name, value)
		kinds = append(kinds, found...)
	}
	switch {
	case asked == http.MethodGet:
		return given.Encode(), "", "", kinds
	case !r.api:
		given.Set("csrf", csrf)
		return "", given.Encode(), "application/x-www-form-urlencoded", kinds
	case r.takes == "application/yaml":
		return "", w.yaml, r.takes, kinds
	case r.takes == "application/octet-stream":
		return "", w.photo, r.takes, kinds
	case r.takes == "":
		return "", "", "", kinds
	}
	return "", r.json(w.t, given), r.takes, kinds
}

// json writes fields as the API's document says they are written.
func (r walked) json(t *testing.T, fields url.Values) string {
	all := map[string]any{}
	for name := range fields {
		value := any(fields.Get(name))
		switch r.types[name] {
		case "boolean":
			value = value == "true"
		case "array":
			value = []any{value}
		case "integer":
			value = json.RawMessage(fields.Get(name))
		}
		if text := fields.Get(name); strings.HasPrefix(text, "[") || strings.HasPrefix(text, "{") {
			value = json.RawMessage(text)
		}
		all[name] = value
	}
	text, err := json.Marshal(all)
	need(t, err)
	return string(text)
}
