package web

import (
	"context"
	"maps"
	"net"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"github.com/gin-gonic/gin"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

type civilDate = civil.Date

// visit is one request with who makes it.
type visit struct {
	site    *Site
	c       *gin.Context
	session office.SessionView
	token   string           // of the session; empty: nobody is signed in
	act     assessment.Act   // of the route; empty for public pages
	speaks  wording.Language // known better than by who is signed in; empty: it is not

	tooLarge bool // a file was sent that is larger than any that is taken, and nothing of it was read
}

func (s *Site) visit(c *gin.Context) *visit {
	c.Request = c.Request.WithContext(office.FromBrowser(c.Request.Context(), c.Request.UserAgent()))
	s.keepLanguage(c)
	return &visit{site: s, c: c}
}

func (v *visit) ctx() context.Context { return v.c.Request.Context() }

// by is who acts.
func (v *visit) by() assessment.Actor { return v.session.Actor }

// may reports whether who is signed in may do an act at all: what they may not
// do is not offered.
func (v *visit) may(act assessment.Act) bool { return v.by().Reach(act) != assessment.Nothing }

// whole reports whether an act reaches everything in the agency.
func (v *visit) whole(act assessment.Act) bool { return v.by().Reach(act) == assessment.Everything }

// address is the client's, for slowing down guesses.
func (v *visit) address() string {
	host, _, err := net.SplitHostPort(v.c.Request.RemoteAddr)
	if err != nil {
		return v.c.Request.RemoteAddr
	}
	return host
}

// form is a field of the form that was sent, without space around it.
func (v *visit) form(name string) string { return strings.TrimSpace(v.c.PostForm(name)) }

// secret is a field of the form as it was typed.
func (v *visit) secret(name string) string { return v.c.PostForm(name) }

// proof is what a signer gives to show that it is them who signs.
func (v *visit) proof() office.Proof {
	return office.Proof{Password: v.secret("password"), PIN: v.form("pin"), Passkey: v.secret("passkey")}
}

// ticked reports whether a box of the form was ticked.
func (v *visit) ticked(name string) bool { return v.c.PostForm(name) != "" }

// query is a word of the address.
func (v *visit) query(name string) string { return strings.TrimSpace(v.c.Query(name)) }

// day is a day of the address; the zero day where there is none.
func (v *visit) day(name string) (civil.Date, error) {
	text := v.query(name)
	if text == "" {
		return civil.Date{}, nil
	}
	d, err := civil.Parse(text)
	if err != nil {
		return d, fault.Of(fault.Invalid, "%q is not a day: write it as YYYY-MM-DD, such as 2027-01-15", text)
	}
	return d, nil
}

// pathID is an id of the address. What is no id was never the id of anything.
func pathID[T ~string](v *visit, name string) (T, error) {
	return assessment.ParseID[T](v.c.Param(name))
}

// formID is an id of the form; empty where nothing was chosen.
func formID[T ~string](v *visit, name string) (T, error) {
	text := v.form(name)
	if text == "" {
		return "", nil
	}
	return assessment.ParseID[T](text)
}

// passkeys says whether passkeys can be used: empty for no, offered for anybody's, own
// where whoever is signed in has one too.
func (v *visit) passkeys() string {
	switch {
	case v.site.office.PasskeysOffered() != nil:
		return ""
	case v.token != "" && v.session.HasPasskey:
		return "own"
	}
	return "offered"
}

// frame is what the layout draws around the page, with the place it is in.
func (v *visit) frame(here string) Frame {
	f := Frame{Path: v.c.Request.URL.RequestURI(), Flash: v.takeFlash(), Language: v.language(), Tongues: v.tongues()}
	f.Passkeys = v.passkeys()
	if v.token == "" {
		return f
	}
	var roles []string
	for _, r := range v.by().Roles {
		roles = append(roles, string(r))
	}
	f.Agency, f.Person, f.PersonID = v.session.Agency.Name, v.by().Name, string(v.by().Person)
	f.Menu, f.CSRF, f.Demo = slices.DeleteFunc(MenuFor(roles, here), v.shut), v.session.CSRF, v.session.Agency.Demo
	f.PIN, f.News = v.session.PINSuffices, v.session.News
	return f
}

// shut reports whether a place of the menu is closed to who is signed in: surveyors
// have the places of their role only as far as they were let in.
func (v *visit) shut(e Entry) bool {
	acts := map[string]assessment.Act{"today": assessment.ReadReports, "standings": assessment.ReadReports, "people": assessment.ReadReports,
		"papers": assessment.ReadReports, "children": assessment.ReadClients, "survey": assessment.LookUp, "checklists": assessment.ReadChecklists}
	act, bound := acts[e.Key]
	return bound && !v.may(act)
}

// show draws a page.
func (v *visit) show(page Page) error { return v.site.pages.Write(v.c.Writer, http.StatusOK, page) }

// again draws a form again with what was wrong in it.
func (v *visit) again(page Page) error {
	return v.site.pages.Write(v.c.Writer, http.StatusUnprocessableEntity, page)
}

// to sends the reader on after a form was taken in, with a word on what was done.
func (v *visit) to(address, flash string) error {
	if flash != "" {
		v.setFlash(flash)
	}
	v.c.Redirect(http.StatusSeeOther, address)
	return nil
}

// wrong turns a refusal into the faults of a form: what happened, why, what to do
// next. Labels name the fields, in the order of the form. What is no refusal of
// this form is given back as an error.
func (v *visit) wrong(err error, what string, labels ...FieldFault) (Faults, error) {
	f, ok := fault.As(err)
	if !ok || f.Kind == fault.NotFound || f.Kind == fault.Unauthenticated || f.Kind == fault.Forbidden {
		return Faults{}, err
	}
	words := v.words()
	out := Faults{What: what, Why: words.Of(f.Phrase())}
	if len(f.Fields) == 0 {
		return out, nil
	}
	out.Next = words.Say("Look at each one below; what you typed is still there.")
	for _, secret := range []string{"password", "old", "new", "again", "pin", "code"} {
		if f.Fields[secret] != "" {
			out.Next = words.Say("Look below. Passwords, PINs and codes must be typed again.")
		}
	}
	named := map[string]bool{}
	for _, l := range append(labels, label("pin", words.Say("Your PIN"))) {
		if _, bad := f.Fields[l.Field]; bad && !named[l.Field] {
			out.Fields = append(out.Fields, FieldFault{l.Field, l.Label, words.Of(f.At(l.Field))})
			named[l.Field] = true
		}
	}
	for field := range f.Fields {
		if !named[field] { // nothing may go unseen
			out.Why += " " + words.Of(f.At(field))
		}
	}
	return out, nil
}

// refusal is a refusal with what is wrong with each field, in the reader's language.
func (v *visit) refusal(f *fault.Fault) string {
	words := v.words()
	says := words.Of(f.Phrase())
	var at []string
	for _, field := range slices.Sorted(maps.Keys(f.Fields)) {
		at = append(at, words.Of(f.At(field)))
	}
	if len(at) == 0 {
		return says
	}
	return says + " " + strings.Join(at, " ")
}

// label names a field of a form for its fault.
func label(field, text string) FieldFault { return FieldFault{Field: field, Label: text} }

const flashCookie = "said"

func (v *visit) setFlash(text string) {
	http.SetCookie(v.c.Writer, &http.Cookie{Name: flashCookie, Value: url.QueryEscape(text), Path: "/", MaxAge: 60,
		HttpOnly: true, Secure: v.site.opt.Secure, SameSite: http.SameSiteLaxMode})
}

func (v *visit) takeFlash() string {
	kept, err := v.c.Request.Cookie(flashCookie)
	if err != nil {
		return ""
	}
	http.SetCookie(v.c.Writer, &http.Cookie{Name: flashCookie, Path: "/", MaxAge: -1, HttpOnly: true, Secure: v.site.opt.Secure, SameSite: http.SameSiteLaxMode})
	text, err := url.QueryUnescape(kept.Value)
	if err != nil || len(text) > 300 {
		return ""
	}
	return text
}

// inside keeps a place to go within this site.
func inside(address string) string {
	u, err := url.Parse(address)
	if err != nil || u.IsAbs() || u.Host != "" || !strings.HasPrefix(address, "/") || strings.HasPrefix(address, "//") || strings.Contains(address, "\\") {
		return "/"
	}
	return address
}
