package web

import (
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode"

	"golang.org/x/net/html"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
	"wellshown/integration/ward"
)

// pieces are the texts of a page, one by one; what is marked as being in a language
// of its own, and codes, are left out.
func pieces(node *html.Node) []string {
	var all []string
	var walk func(n *html.Node)
	walk = func(n *html.Node) {
		if n.Type == html.ElementNode && (n.Data != "html" && attrOf(n, "lang") != "" || n.Data == "code" || hasClass(n, "code")) {
			return
		}
		if n.Type == html.TextNode {
			if text := strings.Join(strings.Fields(n.Data), " "); text != "" {
				all = append(all, text)
			}
		}
		for _, a := range n.Attr {
			if a.Key == "aria-label" || a.Key == "placeholder" || a.Key == "title" {
				all = append(all, a.Val)
			}
		}
		for c := n.FirstChild; c != nil; c = c.NextSibling {
			walk(c)
		}
	}
	walk(node)
	return all
}

func lettersIn(s string) bool { return strings.IndexFunc(s, unicode.IsLetter) >= 0 }

// left are the pieces that are the same in two languages and are not made of known
// names alone.
func left(english, spanish *html.Node, names ...string) []string {
	same := map[string]bool{}
	for _, p := range pieces(english) {
		same[p] = true
	}
	var found []string
	for _, p := range pieces(spanish) {
		rest := p
		for _, n := range names {
			rest = strings.ReplaceAll(rest, n, "")
		}
		if same[p] && lettersIn(rest) && !slices.Contains(symbols, p) {
			found = append(found, p)
		}
	}
	return found
}

// symbols stand alone and are the same in both languages: those of units are no words and are
// never translated (SI Brochure, 9th edition, 5.2), and "no" is Spanish, too.
var symbols = []string{"min", "s", "L/min", "mL", "mm", "cm", "cmH2O", "mmHg", "Fr", "°C", "no"}

// internationalWords are the same in both languages.
var internationalWords = []string{"Wellshown", "English", "Español", "PIN", "SHA-256", "PDF", "MST", "MDT", "JSON"}

// What a caregiver reads on real pages is in their language: what is the same in two
// readings of the same page is names, or the agency's own words, which are marked as
// English.
func TestNoEnglishIsLeftOnPagesOfACaregiver(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	mira := w.Client("7K", "Mira")
	rosa := w.Family("Rosa Quispe", mira)
	w.Require("bagging", "family")
	w.Require("suction", "family")
	w.Award(rosa, "bagging", mira)
	shown := w.Demonstrate(rosa, "suction", mira)
	site := engine(w)
	b := as(t, site, w, rosa)
	certificate := ""
	for _, a := range nodes(b.get("/people/"+string(rosa.Person)).node, "a") {
		if at := attrOf(a, "href"); strings.HasPrefix(at, "/certificates/") && certificate == "" {
			certificate = at
		}
	}
	if certificate == "" {
		t.Fatal("there is no certificate to look at")
	}
	happened := w.Now().In(w.Zone).Add(-2 * time.Hour).Format("2006-01-02 15:04")
	id, err := w.Office.NewID()
	if err != nil {
		t.Fatal(err)
	}
	incident, err := w.Office.RecordIncident(t.Context(), w.Coordinator, office.IncidentForm{ID: id, Person: rosa.Person, Skill: "bagging", Client: mira, Happened: happened,
		Seen: "The bag was squeezed too fast.", Withdraws: string(assessment.SkillAndRelated), Proof: ward.Proof})
	if err != nil {
		t.Fatal(err)
	}
	addresses := []string{"/home", "/clients", "/clients?find=zz", "/clients/" + string(mira), "/people/" + string(rosa.Person), "/people/" + string(rosa.Person) + "/carried-in", "/account", "/password", "/account/passkeys", "/account/codes",
		"/account/calendars", "/account/held", "/checklists", "/checklists?find=zz", "/demonstrations/" + string(shown.ID), "/demonstrations/" + string(shown.ID) + "/proof", certificate, certificate + "/proof", "/waiting", "/incidents", "/incidents/" + string(incident), "/survey/access", "/check", "/check?code=4H7K", "/check?code=4H7K-9QXM-2TBT", "/nowhere", "/today", "/people", "/sign-in", "/plan", "/learning/" + string(rosa.Person), "/learning/" + string(rosa.Person) + "/practice?what=suction+" + string(mira)}
	for _, link := range nodes(b.get("/checklists").node, "a") {
		if at := attrOf(link, "href"); strings.HasPrefix(at, "/revisions/") {
			addresses = append(addresses, at, at+"/compare")
			break
		}
	}
	english := map[string]*page{}
	for _, at := range addresses {
		english[at] = b.get(at)
	}
	b.get("/account").form("/account/language").send("language", string(wording.Spanish))
	names := append([]string{"Rosa Quispe", "Mira", "7K", "Wren Hollow Nursing", "Edda Lorne", "Rolf Teague", "RN W-0002", w.Email(rosa)}, internationalWords...)
	for _, at := range addresses {
		p := b.get(at).sound()
		if p.status != english[at].status {
			t.Errorf("%s answers %d, and %d in Spanish", at, english[at].status, p.status)
		}
		for _, words := range left(english[at].node, p.node, names...) {
			t.Errorf("%s is not in Spanish: %q", at, words)
		}
	}
}

// inSpanish is a page as somebody reads it whose language is Spanish.
func inSpanish(page Page) Page {
	v := reflect.New(reflect.TypeOf(page)).Elem()
	v.Set(reflect.ValueOf(page))
	v.FieldByName("Frame").FieldByName("Language").SetString(string(wording.Spanish))
	return v.Interface().(Page)
}

// textsIn are all texts that a page is given.
func textsIn(v reflect.Value) []string {
	switch v.Kind() {
	case reflect.String:
		return []string{strings.Join(strings.Fields(v.String()), " ")}
	case reflect.Struct:
		var all []string
		for i := range v.NumField() {
			all = append(all, textsIn(v.Field(i))...)
		}
		return all
	case reflect.Slice:
		var all []string
		for i := range v.Len() {
			all = append(all, textsIn(v.Index(i))...)
		}
		return all
	case reflect.Pointer:
		if !v.IsNil() {
			return textsIn(v.Elem())
		}
	}
	return nil
}

// What a template says itself is said in the reader's language: in two drawings of the
// same sample, what is the same is what the sample was given.
func TestNoEnglishIsLeftInTemplatesOfFamilies(t *testing.T) {
	samples := samples()
	for name, page := range samples {
		switch page.(type) {
		case ReadinessPage: // not said in the reader's language yet
			delete(samples, name)
		}
	}
	all := map[string]Page{}
	for name, page := range samples {
		if f := page.frame(); (f.Person == "" || f.Person == motherFrame().Person) && f.Language != wording.Spanish {
			all[name], all[name+" in Spanish"] = page, inSpanish(page)
		}
	}
	drawn := parsedAll(t, all)
	looked := 0
	for name, page := range samples {
		if drawn[name+" in Spanish"] == nil {
			continue
		}
		looked++
		known := append(textsIn(reflect.ValueOf(page)), internationalWords...)
		slices.SortFunc(known, func(a, b string) int { return len(b) - len(a) })
		known = slices.DeleteFunc(known, func(s string) bool { return !lettersIn(s) })
		for _, words := range left(drawn[name], drawn[name+" in Spanish"], known...) {
			t.Errorf("%s says in Spanish: %q", name, words)
		}
	}
	if looked < 12 {
		t.Errorf("only %d samples were looked at", looked)
	}
}
