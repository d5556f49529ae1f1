package web

import (
	"net/http"

	"wellshown/assessment/fault"
)

// bedsideSessionPath is asked by a script, not by a person: its refusals are data too.
const bedsideSessionPath = "/bedside/session"

// bedsideSession is who is signed in, as the page of the bedside needs it.
type bedsideSession struct {
	CSRF   string       `json:"csrf"`
	Person bedsideNamed `json:"person"`
	Agency struct {
		Code string `json:"code"`
		Name string `json:"name"`
	} `json:"agency"`
	PIN      bool   `json:"pin"`      // a PIN is enough for what they sign now
	Passkeys string `json:"passkeys"` // whether passkeys can be used, as visit.passkeys says
	Zone     string `json:"zone"`     // of the agency, IANA name
	Demo     bool   `json:"demo"`     // all people are invented
}

type bedsideNamed struct {
	ID   string `json:"id"`
	Name string `json:"name"`
}

// bedsideRefusal is why a script was refused, in the shape of RFC 9457.
type bedsideRefusal struct {
	Status int    `json:"status"`
	Detail string `json:"detail"`
}

// askedByScript reports whether a script asks: it is answered with data, and never
// sent to another page.
func (v *visit) askedByScript() bool { return v.c.FullPath() == bedsideSessionPath }

func (s *Site) bedsideSession(v *visit) error {
	told := bedsideSession{CSRF: v.session.CSRF, Person: bedsideNamed{string(v.by().Person), v.by().Name}, PIN: v.session.PINSuffices, Passkeys: v.passkeys(),
		Zone: v.session.Agency.Zone, Demo: v.session.Agency.Demo}
	told.Agency.Code, told.Agency.Name = v.session.Agency.Code, v.session.Agency.Name
	v.c.Header("Cache-Control", "no-store")
	v.c.JSON(http.StatusOK, told)
	return nil
}

// refuseScript answers a script with data.
func (s *Site) refuseScript(v *visit, err error) {
	told := bedsideRefusal{http.StatusInternalServerError, "Something broke on our side. Try again."}
	if f, known := fault.As(err); known {
		told = bedsideRefusal{f.Kind.Status(), f.Error()}
	} else {
		logFault(v, err)
	}
	v.c.Header("Content-Type", "application/problem+json")
	v.c.JSON(told.Status, told)
}
