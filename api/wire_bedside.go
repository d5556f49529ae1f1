package api

import (
	"time"

	"wellshown/assessment/office"
)

// DeviceForm is a device as it asks to be enrolled.
type DeviceForm struct {
	ID        string `json:"id" maxLength:"100" doc:"Made by the device: a UUID of version 7 (RFC 9562)." example:"0197a1d0-0000-7000-8000-0000000000d1"`
	Name      string `json:"name" maxLength:"200" doc:"By which its owner knows it." example:"The ward's grey tablet"`
	PublicKey string `json:"public_key" maxLength:"400" doc:"The public half of an ECDSA key on the curve P-256 that was made on the device: SubjectPublicKeyInfo (RFC 5480), as base64url."`
}

// Device is a device that signs sheets at the bedside.
type Device struct {
	ID         string     `json:"id" format:"uuid"`
	Name       string     `json:"name"`
	Person     string     `json:"person" format:"uuid" doc:"Whose it is."`
	EnrolledAt time.Time  `json:"enrolled_at"`
	UsedAt     *time.Time `json:"used_at,omitempty" doc:"When it last took a pack or sent a sheet. Left out: never."`
	RevokedAt  *time.Time `json:"revoked_at,omitempty" doc:"Since when no sheet of it is taken in. Left out: it is not revoked."`
	RevokedBy  string     `json:"revoked_by,omitempty" doc:"The name."`
}

func device(v office.DeviceView) Device {
	return Device{ID: string(v.ID), Name: v.Name, Person: string(v.Owner), EnrolledAt: v.EnrolledAt.UTC(), UsedAt: maybeInstant(v.UsedAt),
		RevokedAt: maybeInstant(v.RevokedAt), RevokedBy: v.RevokedBy}
}

// Holding is what a device holds that is not here, in sheets.
type Holding struct {
	Finished int `json:"finished" minimum:"0" maximum:"9999" doc:"Finished, and not sent yet." example:"2"`
	Refused  int `json:"refused" minimum:"0" maximum:"9999" doc:"Sent, and not taken in." example:"0"`
	Open     int `json:"open" minimum:"0" maximum:"9999" doc:"Being marked." example:"1"`
}

// Pack is what a device takes along for a day without a network.
type Pack struct {
	ID        string        `json:"id" format:"uuid"`
	Version   int           `json:"version" enum:"1"`
	MadeAt    time.Time     `json:"made_at"`
	ExpiresAt time.Time     `json:"expires_at" doc:"From then on it begins no new sheet; those that were begun go on."`
	Device    Named         `json:"device"`
	Observer  Named         `json:"observer"`
	Agency    PackAgency    `json:"agency"`
	Zone      string        `json:"zone" doc:"Of the agency's clocks." example:"America/Denver"`
	MayNot    string        `json:"may_not" doc:"Why the observer may observe nothing; empty: they may."`
	Learners  []PackLearner `json:"learners"`
	Skills    []PackSkill   `json:"skills" doc:"Those that the observer may observe, with the checklist in force."`
	Clients   []PackClient  `json:"clients"`
	Teams     []PackMember  `json:"teams"`
	Days      []PackDay     `json:"skills_days" doc:"Those of today at which the observer has stations."`
	Tongues   []PackTongue  `json:"tongues,omitempty" doc:"What the device says while it is in the hands of learners who do not read English, one for each language of theirs. Left out: all read English."`
}

// PackTongue is what a device says in another language while a learner holds it.
type PackTongue struct {
	Tag     string            `json:"tag" doc:"BCP 47." example:"es"`
	Dir     string            `json:"dir" enum:"ltr,rtl" doc:"How it runs."`
	Edition string            `json:"edition" doc:"Of the texts: a device that says others uses none of these."`
	Says    map[string]string `json:"says" doc:"The device’s own texts, by their English. Places are written as in the English: %s, %d, %[2]s, %%."`
	Theirs  map[string]string `json:"theirs" doc:"What the checklists say, by their English, where it is known in the language."`
}

// PackAgency names the agency.
type PackAgency struct {
	Code string `json:"code"`
	Name string `json:"name"`
}

// PackLearner is somebody who may have to show something.
type PackLearner struct {
	ID       string         `json:"id" format:"uuid"`
	Name     string         `json:"name"`
	Kind     string         `json:"kind" enum:"family,nurse,aide"`
	Language string         `json:"language,omitempty" doc:"BCP 47: in which they read what they are handed. Left out, as by packs of before: English." example:"es"`
	Skills   []PackStanding `json:"skills" doc:"Those of the pack that are required of them or begun."`
	Checks   []PackCheck    `json:"checks" doc:"Skills of the pack that cannot count yet, since their knowledge check comes first and does not hold."`
}

// PackCheck is why a skill that somebody shows could not count yet.
type PackCheck struct {
	Skill string `json:"skill" doc:"The code."`
	Why   string `json:"why" doc:"In words. It is asked again when the sheet is sent."`
}

// PackStanding is where somebody stands in a skill on the day of the pack.
type PackStanding struct {
	Skill   string `json:"skill" doc:"The code."`
	Client  string `json:"client,omitempty" format:"uuid" doc:"Left out: held for every child."`
	Word    string `json:"word" enum:"not started,learning,current,due,lapsed,withdrawn,waived"`
	Through string `json:"through,omitempty" format:"date"`
}

// PackSkill is a skill with the checklist in force, and the rules that it is judged by.
type PackSkill struct {
	Code        string       `json:"code"`
	Title       string       `json:"title"`
	Specific    bool         `json:"specific" doc:"Held for each child by itself."`
	ManikinOnly bool         `json:"manikin_only"`
	Revision    PackRevision `json:"revision"`
	Checklist   Checklist    `json:"checklist"`
	Rules       Rules        `json:"rules"`
}

// PackRevision names a revision.
type PackRevision struct {
	ID     string `json:"id" format:"uuid"`
	Number int    `json:"number"`
}

// PackClient is a child with what is ordered.
type PackClient struct {
	ID         string             `json:"id" format:"uuid"`
	Code       string             `json:"code"`
	FirstName  string             `json:"first_name"`
	Parameters map[string]Reading `json:"parameters" doc:"Ordered numbers, by name."`
	Words      map[string]string  `json:"words" doc:"All that is ordered, in words, by name."`
}

// PackMember says who is on whose team.
type PackMember struct {
	Client string `json:"client" format:"uuid"`
	Person string `json:"person" format:"uuid"`
}

func pack(v office.PackView) Pack {
	return Pack{ID: v.ID, Version: 1, MadeAt: v.MadeAt.UTC(), ExpiresAt: v.ExpiresAt.UTC(), Device: Named{string(v.Device.ID), v.Device.Name}, Observer: named(v.Observer),
		Agency: PackAgency{v.Agency.Code, v.Agency.Name}, Zone: v.Zone, MayNot: v.MayNot, Learners: each(v.Learners, packLearner), Skills: each(v.Skills, packSkill),
		Clients: each(v.Clients, packClient), Teams: each(v.Teams, func(m office.PackMember) PackMember { return PackMember{string(m.Client), string(m.Person)} }),
		Days: each(v.Days, packDay), Tongues: each(v.Tongues, func(t office.PackTongue) PackTongue {
			return PackTongue{string(t.Language), t.Dir, t.Edition, t.Says, t.Theirs}
		})}
}

func packLearner(l office.PackLearner) PackLearner {
	return PackLearner{string(l.ID), l.Name, string(l.Kind), string(l.Language), each(l.Skills, func(s office.PackStanding) PackStanding {
		return PackStanding{s.Skill, string(s.Client), string(s.Word), s.Through.String()}
	}), each(l.Checks, func(c office.PackCheck) PackCheck { return PackCheck{c.Skill, c.Why} })}
}

func packSkill(s office.PackSkill) PackSkill {
	return PackSkill{s.Code, s.Title, s.Specific, s.ManikinOnly, PackRevision{string(s.RevisionID), s.Revision}, checklist(*s.Checklist), RulesOf(*s.Checklist)}
}

func packClient(c office.PackClient) PackClient {
	p := PackClient{string(c.ID), c.Code, c.FirstName, map[string]Reading{}, c.Words}
	for name, q := range c.Parameters {
		p.Parameters[name] = Reading{q.Value.String(), q.Unit}
	}
	return p
}
