package web

import (
	"net/http"
	"net/url"
	"slices"

	"github.com/gin-gonic/gin"

	"wellshown/assessment"
	"wellshown/assessment/wording"
)

// languageCookie keeps the language that was chosen in a browser in which nobody is
// signed in. Whoever signs in has one of their own.
const languageCookie = "language"

// chosenLanguage is the language that a request asks for by lang=, or that was chosen
// before; empty for neither.
func chosenLanguage(r *http.Request) wording.Language {
	if l := known(r.URL.Query().Get("lang")); l != "" {
		return l
	}
	if kept, err := r.Cookie(languageCookie); err == nil {
		return known(kept.Value)
	}
	return ""
}

func known(tag string) wording.Language {
	if l := wording.Language(tag); slices.Contains(wording.Languages, l) {
		return l
	}
	return ""
}

// keepLanguage remembers the language that a request asks for by lang=.
func (s *Site) keepLanguage(c *gin.Context) {
	if l := known(c.Query("lang")); l != "" {
		s.setLanguage(c, l)
	}
}

func (s *Site) setLanguage(c *gin.Context, l wording.Language) {
	http.SetCookie(c.Writer, &http.Cookie{Name: languageCookie, Value: string(l), Path: "/", MaxAge: 365 * 24 * 3600,
		HttpOnly: true, Secure: s.opt.Secure, SameSite: http.SameSiteLaxMode})
}

// language is that of who is signed in, else the one that was chosen, else the one
// that the browser prefers. What is work of the agency is written in English so far.
func (v *visit) language() wording.Language {
	switch {
	case v.speaks != "":
		return v.speaks
	case v.token == "":
		if l := chosenLanguage(v.c.Request); l != "" {
			return l
		}
		return wording.Preferred(v.c.GetHeader("Accept-Language"))
	case v.act != "" && v.act != assessment.OwnAccount && v.worksHere():
		return wording.English
	}
	return wording.Of(v.session.Language)
}

// worksHere reports whether who is signed in has any other part than that of somebody
// who looks after a child.
func (v *visit) worksHere() bool {
	return slices.ContainsFunc(v.by().Roles, func(r assessment.Role) bool { return r != assessment.Caregiver })
}

// words speak the language of the visit.
func (v *visit) words() wording.Words { return wording.In(v.language()) }

// say says a sentence in the language of the visit.
func (v *visit) say(format string, args ...any) string { return v.words().Say(format, args...) }

// A Tongue is the page that is shown, in another language.
type Tongue struct {
	Own  string // what the language calls itself
	Tag  string // BCP 47
	Href string
}

// tongues lead to the page in other languages, for whoever is not signed in; for who
// is, the account has the choice.
func (v *visit) tongues() []Tongue {
	at := v.c.Request.URL
	path, query := at.EscapedPath(), at.Query()
	if v.c.Request.Method != http.MethodGet {
		path, query = v.site.pageAbove(v.c.FullPath(), path), url.Values{}
	}
	return v.tonguesAt(path, query)
}

// tonguesAt lead to some page in other languages.
func (v *visit) tonguesAt(path string, query url.Values) []Tongue {
	if v.token != "" {
		return nil
	}
	var all []Tongue
	for _, l := range wording.Languages {
		if l != v.language() {
			query.Set("lang", string(l))
			all = append(all, Tongue{l.Own(), string(l), path + "?" + query.Encode()})
		}
	}
	return all
}

// languageForm is the choice of a language, with the reader's own.
func (v *visit) languageForm() LanguageForm {
	form := LanguageForm{Chosen: string(wording.Of(v.session.Language))}
	for _, l := range wording.Languages {
		form.All = append(form.All, Option{Value: string(l), Text: l.Own()})
	}
	return form
}

// chooseLanguage keeps the language of who is signed in.
func (s *Site) chooseLanguage(v *visit) error {
	err := s.office.SetLanguage(v.ctx(), v.by(), v.form("language"))
	if err == nil {
		l := wording.Of(v.form("language"))
		s.setLanguage(v.c, l) // for the page on which they sign in the next time
		return v.to("/account", wording.In(l).Say("Your pages are in this language now."))
	}
	faults, unknown := v.wrong(err, v.say("Your language is not kept."), label("language", v.say("Language")))
	if unknown != nil {
		return unknown
	}
	page, err := s.accountPage(v)
	if err != nil {
		return err
	}
	page.Reads.Faults = faults
	return v.again(page)
}

// paperLanguage is the one in which a paper is printed: asked for by language=, else the
// reader's own.
func (v *visit) paperLanguage() wording.Language {
	if l := known(v.query("language")); l != "" {
		return l
	}
	return v.language()
}
