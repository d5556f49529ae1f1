package main

import (
	"crypto/rand"
	"maps"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"

	"regexp"
	"wellshown/api"
	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// said is an answer as it is compared.
type said struct {
	status     int
	body       string
	to         string // where it sends on
	kind       string // media type
	statements int64
}

// refused tells how an answer turns somebody away, or nothing where it does not.
func (a said) refused() string {
	switch {
	case a.status == http.StatusUnauthorized, a.status == http.StatusSeeOther && strings.HasPrefix(a.to, "/sign-in"):
		return "signed out"
	case a.status == http.StatusForbidden:
		return "forbidden"
	case a.status == http.StatusNotFound:
		return "not there"
	}
	return ""
}

// try asks a route as one role about things of all places, and gives how many
// requests that were. What may change something is asked last.
func (w walk) try(r walked, role string, who assessment.Actor, places []place, finished map[string]bool) int {
	tried := 0
	answers := map[string]said{}
	for _, p := range places {
		th := w.fresh(r, p, who)
		path, kinds := w.filled(r, th)
		_, _, _, inBody := w.sent(r, th, "")
		named := len(kinds)+len(inBody) > 0
		if !named && p.name != "own" {
			continue
		}
		tried++
		answers[p.name] = w.ask(r, who, path, th)
		w.hold(r, role, who, p.name, len(kinds) > 0, answers[p.name])
		if a := answers[p.name]; a.refused() == "" && a.status < 400 {
			finished[r.method+" "+r.path] = true
		}
	}
	if f, n := answers["foreign"], answers["never"]; f != n && !r.public { // whoever has a certificate's code may check it, whose ever it is
		w.toldApart(r, role, f, n)
	}
	return tried + w.mixed(r, role, who, places)
}

// mixed asks with an address of one's own and things of others in what is sent.
func (w walk) mixed(r walked, role string, who assessment.Actor, places []place) int {
	own := places[2].things
	path, inPath := w.filled(r, own)
	_, _, _, inBody := w.sent(r, own, "")
	inBody = slices.DeleteFunc(inBody, func(kind string) bool { return slices.Contains(inPath, kind) })
	if len(inPath) == 0 || len(inBody) == 0 || who.Reach(r.act) == assessment.Nothing {
		return 0
	}
	var answers []said
	for _, of := range places[:2] {
		th := maps.Clone(own)
		for _, kind := range inBody {
			th[kind] = of.things[kind]
		}
		a := w.ask(r, who, path, th)
		if a.refused() == "" && a.status < 400 {
			w.t.Errorf("%s %s as %s takes in what is %s: %d, to %s", r.method, r.path, role, of.name, a.status, a.to)
		}
		answers = append(answers, a)
	}
	if answers[0] != answers[1] {
		w.toldApart(r, role, answers[0], answers[1])
	}
	return len(answers)
}

func (w walk) toldApart(r walked, role string, f, n said) {
	w.t.Errorf("%s %s as %s tells another agency's from what never was:\n%d %d statements, to %s\n%d %d statements, to %s\n%s", r.method, r.path, role,
		f.status, f.statements, f.to, n.status, n.statements, n.to, apart(f.body, n.body))
}

// fresh are the things a request is about: what a route may remove is made anew for
// each that is allowed to.
func (w walk) fresh(r walked, p place, who assessment.Actor) things {
	th := p.things
	if p.name != "own" && p.name != "outside" {
		return th
	}
	if strings.HasPrefix(strings.TrimPrefix(r.path, api.Base), "/imports/:id") && who.Reach(r.act) != assessment.Nothing { // it is whose who sent it
		th = maps.Clone(th)
		th["list"] = sentList(w.t, w.own, who)
		return th
	}
	if strings.Contains(r.path, "/sittings/:id") && r.act == assessment.TakeCheck && who.Reach(r.act) == assessment.Own && p.name == "own" { // it is whose who takes it
		th = maps.Clone(th)
		th["sitting"] = string(got(w.own.Office.BeginCheck(w.t.Context(), who, "bagging", "en"))(w.t))
		return th
	}
	if strings.Contains(r.path, "/packets/:id") && who.Reach(r.act) == assessment.Named && p.name == "own" { // theirs alone
		th = maps.Clone(th)
		th["packet"] = string(w.own.Packet(who, office.PacketForm{Kind: string(office.PacketOfPerson), Person: assessment.PersonID(th["person"])}))
		return th
	}
	if r.method == http.MethodGet || r.public || who.Reach(r.act) == assessment.Nothing {
		return th
	}
	if goes[r.method+" "+r.path] {
		th = maps.Clone(th)
		th["person"] = string(w.own.Nurse("Somebody who goes").Person)
		th["client"] = string(w.own.Client(strings.ToUpper(rand.Text()[:6]), "Gone"))
	}
	_, kinds := w.filled(r, th)
	_, _, _, inBody := w.sent(r, th, "")
	for _, kind := range append(kinds, inBody...) {
		switch {
		case passing[kind] != nil:
			th.renew(w.t, w.own, kind)
		case kind == "session" && p.name == "own":
			_, session := w.signIn(who)
			account := got(w.own.Office.Account(w.t.Context(), session.Actor))(w.t)
			th[kind] = account.Sessions[0].Handle
		}
	}
	return th
}

// ask sends one request in a session of its own.
func (w walk) ask(r walked, who assessment.Actor, path string, th things) said {
	token, csrf := "", ""
	if who.Person != "" {
		var session office.SessionView
		token, session = w.signIn(who)
		csrf = session.CSRF
	}
	query, body, kind, _ := w.sent(r, th, csrf)
	if query != "" {
		path += "?" + query
	}
	request := httptest.NewRequest(r.method, path, strings.NewReader(body))
	request.Header.Set("Content-Type", kind)
	switch {
	case token == "":
	case r.api:
		request.Header.Set("Authorization", "Bearer "+token)
	default:
		request.AddCookie(&http.Cookie{Name: "wellshown", Value: token})
	}
	before := w.statements.Load()
	answer := httptest.NewRecorder()
	w.handler.ServeHTTP(answer, request)
	plain := []string{answer.Header().Get("X-Request-Id"), "REQUEST"}
	if csrf != "" {
		plain = append(plain, csrf, "CSRF")
	}
	for _, id := range th {
		plain = append(plain, id, "ID")
	}
	alike := strings.NewReplacer(plain...)
	return said{answer.Code, instants.ReplaceAllString(alike.Replace(answer.Body.String()), "NEW"), alike.Replace(answer.Header().Get("Location")), answer.Header().Get("Content-Type"), w.statements.Load() - before}
}

// signIn opens a session of somebody.
func (w walk) signIn(who assessment.Actor) (string, office.SessionView) {
	w.t.Helper()
	token, _, err := w.own.Office.SignIn(w.t.Context(), office.SignInForm{Agency: ward.Code, Email: w.own.Email(who), Password: ward.Password})
	need(w.t, err)
	return token, got(w.own.Office.Session(w.t.Context(), token))(w.t)
}

// instants are ids that are made anew for each form that is drawn.
var instants = regexp.MustCompile(`name="id" value="[0-9a-f-]{36}"`)

// hold holds one answer to the table of permissions.
func (w walk) hold(r walked, role string, who assessment.Actor, place string, inPath bool, a said) {
	complain := func(wanted string) {
		w.t.Errorf("%s %s as %s, %s: %d %s %.200s, and the table says: %s", r.method, r.path, role, place, a.status, a.to, a.body, wanted)
	}
	reach := who.Reach(r.act)
	switch {
	case a.status == http.StatusTooManyRequests && !r.public:
		complain("not too many: an answer that nobody looked for would hide behind this one")
	case a.status >= 500:
		complain("nothing breaks")
	case r.public:
		if a.status == http.StatusForbidden {
			complain("open to everybody")
		}
	case who.Person == "":
		if a.refused() != "signed out" {
			complain("signed out")
		}
	case reach == assessment.Nothing:
		if a.refused() != "forbidden" {
			complain("forbidden")
		}
	case place == "foreign" || place == "never":
		if inPath && a.refused() != "not there" && !takesAnyID[r.method+" "+r.path] || a.status < 300 && !takesAnyID[r.method+" "+r.path] {
			complain("not there")
		}
	// Who was let in for a person was not let in for their child.
	case reach == assessment.Own && r.act != assessment.SignRecord && place == "outside", reach == assessment.Named && place == "outside",
		role == "surveyor of one person" && (r.act == assessment.ReadClients || r.act == assessment.ReadReadiness), r.act == assessment.SignRecord && !slices.Contains(theirs[place], role):
		if inPath && a.refused() == "" && !takesAnyID[r.method+" "+r.path] {
			complain("out of reach")
		}
	case r.path == "/sign-out": // leads to where one signs in
	case a.refused() != "" && !absent[r.method+" "+r.path]:
		complain("allowed")
	}
}

// apart is where two texts part.
func apart(a, b string) string {
	i := 0
	for i < min(len(a), len(b)) && a[i] == b[i] {
		i++
	}
	from := max(0, i-80)
	return "A: " + a[from:min(len(a), i+150)] + "\nB: " + b[from:min(len(b), i+150)]
}
