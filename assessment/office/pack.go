package office

import (
	"context"
	"fmt"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
	"wellshown/assessment/wording"
)

// packHolds is how long a pack begins new sheets: a shift, and the way home (ours, no
// source).
const packHolds = 24 * time.Hour

// PackView is what a device takes along for a day without a network.
type PackView struct {
	ID        string
	MadeAt    time.Time
	ExpiresAt time.Time
	Device    DeviceView
	Observer  PersonRef
	Agency    AgencyView
	Zone      string
	MayNot    string // why the observer may observe nothing; empty: they may
	Learners  []PackLearner
	Skills    []PackSkill
	Clients   []PackClient
	Teams     []PackMember
	Days      []SkillsDayView // skills days of today, with the observer's own stations alone
	Tongues   []PackTongue    // for learners who do not read English
}

// PackLearner is somebody who may have to show something.
type PackLearner struct {
	PersonRef
	Language wording.Language // in which they read what they are handed
	Skills   []PackStanding   // those of the pack that are required of them or begun
	Checks   []PackCheck      // those of the pack whose knowledge check comes first and does not hold
}

// PackCheck is why a skill that somebody shows could not count: its knowledge check comes
// first. The office asks again when the sheet comes in.
type PackCheck struct {
	Skill string // code
	Why   string
}

// PackStanding is where somebody stands in a skill on the day of the pack.
type PackStanding struct {
	Skill   string // code
	Client  assessment.ClientID
	Word    assessment.StandingWord
	Through civil.Date // zero where nothing was ever held
}

// PackSkill is a skill that the observer may observe, with the checklist in force.
type PackSkill struct {
	ObservableSkill
	RevisionID assessment.RevisionID
	Checklist  *assessment.Checklist
}

// PackClient is a child with what is ordered.
type PackClient struct {
	ClientRef
	Parameters assessment.Parameters
	Words      map[string]string
}

// PackMember says who is on whose team.
type PackMember struct {
	Client assessment.ClientID
	Person assessment.PersonID
}

// Pack is what a device of the actor takes along. A device that is revoked gets none.
func (o *Office) Pack(ctx context.Context, by assessment.Actor, id assessment.DeviceID) (PackView, error) {
	var v PackView
	err := o.as(ctx, by, assessment.Observe, func(tx *postgres.Tx, now Moment) error {
		device, err := ownDevice(ctx, tx, now, by, id)
		if err != nil {
			return err
		}
		v = PackView{MadeAt: now.At, ExpiresAt: now.At.Add(packHolds), Device: viewDevice(device), Agency: viewAgency(now.Agency), Zone: now.Agency.Zone,
			Observer: PersonRef{ID: by.Person, Name: by.Name}}
		if v.ID, err = newID[string](o, now.At); err != nil {
			return err
		}
		if err := o.packSkills(ctx, tx, now, by, &v); err != nil {
			return err
		}
		if err := o.packPeople(ctx, tx, now, by, &v); err != nil {
			return err
		}
		if err := packClients(ctx, tx, now, &v); err != nil {
			return err
		}
		v.Tongues = packTongues(v)
		if v.Days, err = o.skillsDaysOn(ctx, tx, now, by.Person, now.Today); err != nil {
			return fmt.Errorf("read the observer's skills days of today: %w", err)
		}
		if err := tx.Devices.Touch(ctx, id, now.At); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.Observe, "pack taken", string(id))
	})
	return v, err
}

// ownDevice is a device of the actor that is not revoked.
func ownDevice(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, id assessment.DeviceID) (postgres.Device, error) {
	d, err := tx.Devices.Hold(ctx, id)
	switch {
	case fault.KindOf(err) == fault.NotFound, err == nil && d.PersonID != by.Person:
		return d, fault.Of(fault.NotFound, "This device is not enrolled for you. Enrol it again while there is a network, then send again what it holds.")
	case err != nil:
		return d, err
	case d.RevokedAt != nil:
		return d, fault.Of(fault.Forbidden, "This device was revoked on %s by %s. It gets no pack, and nothing of it is taken in. Enrol it again if it is in your hands, then send again what it holds.",
			d.RevokedAt.In(now.Zone).Format("2 January 2006, 15:04"), d.Revoker)
	}
	return d, nil
}

func (o *Office) packSkills(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, v *PackView) error {
	var may BeforeOpening
	if err := o.observable(ctx, tx, now, by, &may); err != nil {
		return err
	}
	v.MayNot = may.MayNot
	revisions, err := tx.Checklists.Revisions(ctx, "")
	if err != nil {
		return err
	}
	for _, s := range may.Skills {
		i := slices.IndexFunc(revisions, func(r postgres.Revision) bool { return r.SkillID == s.ID && r.Number == s.Revision })
		if i < 0 {
			continue
		}
		list, err := o.listOf(ctx, tx, revisions[i])
		if err != nil {
			return err
		}
		v.Skills = append(v.Skills, PackSkill{s, revisions[i].ID, list})
	}
	return nil
}

// packPeople lists whoever may have to show something, with where they stand by the
// index, and who is on which team.
func (o *Office) packPeople(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, v *PackView) error {
	t, err := o.table(ctx, tx, now.Today, nil)
	if err != nil {
		return err
	}
	var ids []assessment.PersonID
	for _, p := range t.people {
		ids = append(ids, p.ID)
	}
	checks, err := readChecks(ctx, tx, now, ids)
	if err != nil {
		return err
	}
	for _, p := range t.people {
		if p.ID != by.Person && t.shows(p, GridQuery{On: now.Today}, nil) {
			v.Learners = append(v.Learners, PackLearner{PersonRef{p.ID, p.Name, p.Kind, p.Relation}, wording.Of(p.Language), t.packStandings(p.ID, v.Skills), checks.lacking(p.ID, v.Skills)})
		}
	}
	members, err := tx.Teams.List(ctx, postgres.TeamFilter{})
	for _, m := range members {
		if (assessment.OnTeam{From: m.FromOn, Through: m.ThroughOn}).CoversOn(now.Today) && !gone(m.PersonLeft, now.Today) && !gone(m.ClientLeft, now.Today) {
			v.Teams = append(v.Teams, PackMember{m.Client, m.Person})
		}
	}
	return err
}

func (t *table) packStandings(person assessment.PersonID, skills []PackSkill) []PackStanding {
	var all []PackStanding
	for _, s := range skills {
		clients := t.with(person, s.ID)
		for _, need := range t.needs[person] {
			if need.Skill == s.Code && !slices.Contains(clients, need.Client) {
				clients = append(slices.Clone(clients), need.Client)
			}
		}
		for _, client := range clients {
			cell := t.one(person, s.SkillRef, client, false)
			if client == "" || cell.Client.ID != "" {
				all = append(all, PackStanding{s.Code, client, cell.Word, cell.Through})
			}
		}
	}
	return all
}

func packClients(ctx context.Context, tx *postgres.Tx, now Moment, v *PackView) error {
	clients, err := tx.Clients.List(ctx, postgres.ClientFilter{On: now.Today})
	if err != nil {
		return err
	}
	ordered, err := tx.Clients.ParametersOfAll(ctx, now.At)
	if err != nil {
		return err
	}
	for _, c := range clients {
		known, words := assessment.Parameters{}, map[string]string{}
		if err := readParameters(ordered[c.ID], known, words); err != nil {
			return err
		}
		v.Clients = append(v.Clients, PackClient{ClientRef{c.ID, c.Code, c.FirstName}, known, words})
	}
	return nil
}
