package web

import (
	"errors"
	"net/http"
	"slices"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

const passkeysAt = "/account/passkeys"

// instant is a moment on the clocks of the agency.
func (v *visit) instant(at time.Time) string {
	zone, err := time.LoadLocation(v.session.Agency.Zone)
	if err != nil {
		zone = time.UTC
	}
	return v.words().Instant(at, zone)
}

func (s *Site) passkeys(v *visit) error {
	page, err := s.passkeysPage(v)
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) passkeysPage(v *visit) (PasskeysPage, error) {
	page := PasskeysPage{Frame: v.frame("")}
	if f, not := fault.As(s.office.PasskeysOffered()); not {
		page.WhyNot = v.words().Of(f.Phrase())
	}
	kept, err := s.office.Passkeys(v.ctx(), v.by())
	for _, k := range kept {
		line := Passkey{ID: string(k.ID), Name: k.Name, Added: v.instant(k.AddedAt), Remove: passkeysAt + "/" + string(k.ID) + "/removal"}
		if k.UsedAt != nil {
			line.Used = v.instant(*k.UsedAt)
		}
		if k.Doubted != nil {
			line.Doubted = v.instant(*k.Doubted)
		}
		page.Keys = append(page.Keys, line)
	}
	return page, err
}

// newPasskey asks for the password, and then has the browser make the passkey.
func (s *Site) newPasskey(v *visit) error {
	options, err := s.office.BeginPasskey(v.ctx(), v.by(), v.secret("password"))
	if err != nil {
		return s.passkeysAgain(v, err, v.say("No passkey is added."), "")
	}
	return v.show(PasskeyPage{Frame: v.frame(""), Title: v.say("Make the passkey"), Make: true, Action: passkeysAt + "/new", Options: options,
		Fields: []Hidden{{"name", v.form("name")}}, Button: v.say("Make the passkey now"), Back: passkeysAt, BackTo: v.say("Go back without one")})
}

func (s *Site) addPasskey(v *visit) error {
	if err := s.office.AddPasskey(v.ctx(), v.by(), v.form("name"), v.secret("passkey")); err != nil {
		return s.passkeysAgain(v, err, v.say("No passkey is added."), "")
	}
	return v.to(passkeysAt, v.say("The passkey is added. You can sign in with it, and sign records."))
}

func (s *Site) removePasskey(v *visit) error {
	id, err := pathID[assessment.RecordID](v, "id")
	if err != nil {
		return err
	}
	if err := s.office.RemovePasskey(v.ctx(), v.by(), id, v.secret("password")); err != nil {
		return s.passkeysAgain(v, err, v.say("The passkey is still there."), string(id))
	}
	return v.to(passkeysAt, v.say("The passkey is removed. Remove it from the device as well."))
}

// passkeysAgain puts what was wrong at the form it was wrong in.
func (s *Site) passkeysAgain(v *visit, err error, what, id string) error {
	faults, unknown := v.wrong(err, what, label("name", v.say("Name")), label("password", v.say("Password")))
	if unknown != nil {
		return unknown
	}
	page, err := s.passkeysPage(v)
	if err != nil {
		return err
	}
	page.Name = v.form("name")
	if i := slices.IndexFunc(page.Keys, func(k Passkey) bool { return k.ID == id }); i >= 0 {
		page.Keys[i].Faults = faults
	} else {
		page.Faults = faults
	}
	return v.again(page)
}

func (s *Site) passkeySignIn(v *visit) error {
	if v.token != "" {
		return v.to(inside(v.query("next")), "")
	}
	options, err := s.office.BeginPasskeySignIn(v.ctx())
	if err != nil {
		return err
	}
	return v.show(PasskeyPage{Frame: v.frame(""), Title: v.say("Sign in with a passkey"), Action: "/sign-in/passkey", Options: options, Button: v.say("Use my passkey"),
		Fields: []Hidden{{"next", inside(v.query("next"))}}, Back: "/sign-in", BackTo: v.say("Sign in with the password instead")})
}

func (s *Site) doPasskeySignIn(v *visit) error {
	token, _, err := s.office.SignInByPasskey(v.ctx(), v.secret("passkey"))
	if err != nil {
		return s.signInAgain(v, office.SignInForm{}, err)
	}
	s.setCookie(v.c, token, sessionDays*24*3600)
	return v.to(inside(v.form("next")), "")
}

// askPasskey shows what is to be signed with a passkey, with all that was typed, and
// reports whether that is what an error asks for. Whoever goes back sends the same
// once more, with office.NoPasskey: refused as it is, the form is drawn as it was
// filled in.
func (s *Site) askPasskey(v *visit, err error) (bool, error) {
	var asked office.PasskeyAsked
	if !errors.As(err, &asked) {
		return false, nil
	}
	page := PasskeyPage{Frame: v.frame(""), Title: v.say("Sign with a passkey"), Says: asked.Says, Action: v.c.Request.URL.Path, Options: asked.Options,
		Signer: asked.Signer, Now: v.words().Instant(asked.At, asked.Zone), Button: v.say("Sign with my passkey"), BackTo: v.say("Go back without signing")}
	if asked.Licence != "" {
		page.Signer += ", " + asked.Licence
	}
	if asked.Signer != v.by().Name {
		page.Title = v.say("%s, sign with a passkey", asked.Signer)
	}
	if page.Says == "" {
		page.Says = v.say("What is signed: %s.", asked.Act)
	}
	if l := wording.Of(asked.Speaks); !asked.Phrase.IsZero() && l != wording.English {
		page.Says, page.SaysIn = wording.In(l).Of(asked.Phrase), string(l)
	}
	for name, values := range v.c.Request.PostForm {
		if !slices.Contains([]string{"csrf", "password", "pin", "passkey"}, name) {
			for _, value := range values {
				page.Fields = append(page.Fields, Hidden{name, value})
			}
		}
	}
	slices.SortStableFunc(page.Fields, func(a, b Hidden) int { return strings.Compare(a.Name, b.Name) })
	return true, s.pages.Write(v.c.Writer, http.StatusOK, page)
}
