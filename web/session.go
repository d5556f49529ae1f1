package web

import (
	"crypto/subtle"
	"errors"
	"net/http"
	"net/url"
	"strings"

	"github.com/gin-gonic/gin"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

// The cookie of a session. Over TLS its name makes browsers refuse it from any
// other host or path.
const (
	plainCookie  = "wellshown"
	secureCookie = "__Host-wellshown"
)

// CookieName is what the cookie of a session of pages is called.
func CookieName(secure bool) string {
	if secure {
		return secureCookie
	}
	return plainCookie
}

func (s *Site) setCookie(c *gin.Context, token string, age int) {
	http.SetCookie(c.Writer, &http.Cookie{Name: CookieName(s.opt.Secure), Value: token, Path: "/", MaxAge: age,
		HttpOnly: true, Secure: s.opt.Secure, SameSite: http.SameSiteLaxMode})
}

// signedIn tells who makes a request.
func (s *Site) signedIn(r *http.Request) (office.SessionView, string, error) {
	kept, err := r.Cookie(CookieName(s.opt.Secure))
	if err != nil {
		return office.SessionView{}, "", fault.Of(fault.Unauthenticated, "Sign in first.")
	}
	session, err := s.office.Session(r.Context(), kept.Value)
	if err != nil {
		return session, "", err
	}
	return session, kept.Value, nil
}

// Identify tells a program's edge who asks by a page's cookie. What changes
// something must carry the session's own word in a header, which no other site
// can know.
func (s *Site) Identify(r *http.Request) (assessment.Actor, error) {
	session, _, err := s.signedIn(r)
	switch {
	case err != nil:
		return assessment.Actor{}, err
	case r.Method != http.MethodGet && r.Method != http.MethodHead && !same(session.CSRF, r.Header.Get("X-CSRF")):
		return assessment.Actor{}, errExpired
	case session.MustChangePassword:
		return assessment.Actor{}, fault.Of(fault.Forbidden, "Choose a password of your own first.")
	}
	return session.Actor, nil
}

func same(a, b string) bool { return subtle.ConstantTimeCompare([]byte(a), []byte(b)) == 1 }

var (
	errNoPage    = fault.Of(fault.NotFound, "There is no such page.")
	errElsewhere = fault.Of(fault.Forbidden, "This was sent from another site’s page, so it was not done.")
	errExpired   = fault.Of(fault.Forbidden, "The page was open for too long, or it was sent from elsewhere. Go back, reload it and send it again.")
)

// serve runs one route: who is it, may they, and what to show if not.
func (s *Site) serve(r route) gin.HandlerFunc {
	return func(c *gin.Context) {
		v := s.visit(c)
		v.act = r.Act
		if err := s.admit(v, r); err != nil {
			s.fail(v, err)
			return
		}
		if c.IsAborted() { // sent elsewhere
			return
		}
		err := r.handle(v)
		if asked, drawn := s.askPasskey(v, err); asked {
			err = drawn
		}
		if err != nil {
			s.fail(v, err)
		}
	}
}

// admit lets a visit in, or says why not.
func (s *Site) admit(v *visit, r route) error {
	session, token, err := s.signedIn(v.c.Request)
	switch {
	case err == nil:
		v.session, v.token = session, token
	case !r.Public:
		return err
	case fault.KindOf(err) != fault.Unauthenticated:
		return err
	}
	if v.c.Request.Method == http.MethodPost {
		if err := v.parse(r); err != nil {
			return err
		}
		// Of what was too large nothing is done, so nothing of it is needed.
		if v.token != "" && !v.tooLarge && !same(v.session.CSRF, v.c.PostForm("csrf")) {
			return errExpired
		}
	}
	if r.Public {
		return nil
	}
	if session.MustChangePassword && r.Act != assessment.OwnAccount {
		if v.askedByScript() {
			return fault.Of(fault.Forbidden, "Choose a password of your own first.")
		}
		v.c.Abort() // a redirected form must not be carried out
		return v.to("/password", "")
	}
	return v.by().May(r.Act)
}

// mostInMemory is what a form with a file may have: more is never sent this far.
const mostInMemory = 16 << 20

// parse reads the form that was sent. A page of paper that is too large is told on
// the page that it was sent from.
func (v *visit) parse(r route) error {
	err := v.c.Request.ParseForm()
	if err == nil && strings.HasPrefix(v.c.ContentType(), "multipart/") {
		err = v.c.Request.ParseMultipartForm(mostInMemory)
	}
	var big *http.MaxBytesError
	if takesFile[r.Path] && errors.As(err, &big) {
		v.tooLarge = true
		return nil
	}
	if err != nil {
		return tooLarge(err)
	}
	return nil
}

func tooLarge(err error) error {
	var big *http.MaxBytesError
	if errors.As(err, &big) {
		return fault.Of(fault.Invalid, "What was sent is too large: at most %d kB.", big.Limit/1000)
	}
	return fault.Of(fault.Invalid, "The form could not be read. Go back and send it again.")
}

// fail shows a refusal, or says that the fault is ours.
func (s *Site) fail(v *visit, err error) {
	if v.askedByScript() {
		s.refuseScript(v, err)
		return
	}
	f, known := fault.As(err)
	if known && f.Kind == fault.Unauthenticated {
		v.c.Redirect(http.StatusSeeOther, s.signInFirst(v))
		return
	}
	page := ErrorPage{Frame: v.frame(""), RequestID: s.opt.RequestID(v.ctx()), Back: v.cameFrom()}
	page.Tongues = v.tonguesAt("/sign-in", url.Values{}) // what was never there looks like what is no more
	status := http.StatusInternalServerError
	if known {
		page.Why, status = v.refusal(f), f.Kind.Status()
	}
	page.Kind, page.Survey = errorKind(err, f), v.by().Survey != nil
	page.Lost = errors.Is(err, errExpired)
	if !known {
		logFault(v, err)
	}
	if err := s.pages.Write(v.c.Writer, status, page); err != nil {
		logFault(v, err)
	}
}

func errorKind(err error, f *fault.Fault) string {
	switch {
	case f == nil:
		return "fault"
	case errors.Is(err, errElsewhere):
		return "elsewhere"
	case errors.Is(err, errExpired):
		return "expired form"
	case f.Kind == fault.NotFound:
		return "not found"
	case f.Kind == fault.Forbidden:
		return "forbidden"
	case f.Kind == fault.Throttled:
		return "too many"
	}
	return "refused"
}
