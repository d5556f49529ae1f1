package office

import (
	"context"
	"fmt"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// NewAgency is what it takes to found an agency: itself, and the first
// administrator, who asks everybody else in.
type NewAgency struct {
	Code, Name, Zone                     string
	Demo                                 bool
	AdminName, AdminEmail, AdminPassword string
}

// FoundAgency makes an agency with its first administrator, who must change the
// password at the first sign-in except in a demonstration.
func (o *Office) FoundAgency(ctx context.Context, n NewAgency) (assessment.Actor, error) {
	none := assessment.Actor{}
	if err := n.read(); err != nil {
		return none, err
	}
	at := o.opt.Now().Truncate(time.Microsecond)
	id, err := newID[assessment.AgencyID](o, at)
	if err != nil {
		return none, err
	}
	person, err := newID[assessment.PersonID](o, at)
	if err != nil {
		return none, err
	}
	hash, err := o.hash(ctx, n.AdminPassword)
	if err != nil {
		return none, err
	}
	agency := postgres.Agency{ID: id, Code: n.Code, Name: n.Name, Zone: n.Zone, Demo: n.Demo, CreatedAt: at}
	admin := postgres.Person{ID: person, Name: n.AdminName, Email: n.AdminEmail, Language: "en", Roles: []assessment.Role{assessment.Administrator}}
	actor := actorOf(id, admin)
	err = o.writing(ctx, id, func(tx *postgres.Tx) error {
		return o.found(ctx, tx, agency, admin, postgres.Credential{PasswordHash: hash, MustChange: !n.Demo}, actor)
	})
	if err != nil {
		return none, fmt.Errorf("found an agency: %w", err)
	}
	return actor, nil
}

// read brings the form into the shape in which it is kept.
func (n *NewAgency) read() error {
	var f form
	n.Code = f.line("code", n.Code, 31, "Give a short code, such as larkmoor.")
	n.Name = f.line("name", n.Name, 200, "Give the agency's name.")
	n.Zone = f.line("zone", n.Zone, 60, "Give the agency's time zone, such as America/Denver.")
	n.AdminName = f.line("admin_name", n.AdminName, 200, "Give the administrator's name.")
	n.AdminEmail = f.email("admin_email", n.AdminEmail)
	if n.AdminEmail == "" {
		f.Add("admin_email", "Give the administrator's e-mail address.")
	}
	f.Take("zone", checkZone(n.Zone))
	f.Take("admin_password", checkPassword(n.AdminPassword, n.AdminName, n.AdminEmail))
	return f.Err()
}

// checkZone refuses what is no place's time. "Local" is whatever the machine is
// set to, and days must not depend on that.
func checkZone(zone string) error {
	_, err := time.LoadLocation(zone)
	if err != nil || zone == "" || strings.EqualFold(zone, "local") {
		return fault.Of(fault.Invalid, "There is no time zone named %q. Write it as a region and place, such as America/Denver.", zone)
	}
	return nil
}

func (o *Office) found(ctx context.Context, tx *postgres.Tx, a postgres.Agency, admin postgres.Person, c postgres.Credential, actor assessment.Actor) error {
	now, err := momentIn(a, a.CreatedAt)
	if err != nil {
		return err
	}
	if err := tx.Agencies.Found(ctx, a, postgres.Deed{Actor: actor.Person, Act: string(assessment.GiveRoles), At: now.At}); err != nil {
		return err
	}
	if err := tx.People.Add(ctx, admin, a.CreatedAt); err != nil {
		return err
	}
	if err := tx.People.GiveRole(ctx, admin.ID, assessment.Administrator, "", a.CreatedAt); err != nil {
		return err
	}
	if err := tx.People.SetPassword(ctx, admin.ID, c, a.CreatedAt); err != nil {
		return err
	}
	return o.note(ctx, tx, now, actor, assessment.GiveRoles, "agency", string(a.ID))
}
