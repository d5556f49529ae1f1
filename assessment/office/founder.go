package office

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// SecondFounder is somebody whom whoever runs the service lets in beside the first
// administrator. Everybody else's password comes from a link, and the links from one
// person at first: to vouch, to agree and to sign beside takes somebody else.
type SecondFounder struct {
	Code                  string // of the agency
	Name, Email, Password string
	Role                  assessment.Role // empty: administrator
}

// FoundBeside adds a second founder to an agency, who must change the password at
// the first sign-in except in a demonstration.
func (o *Office) FoundBeside(ctx context.Context, n SecondFounder) (assessment.Actor, error) {
	none := assessment.Actor{}
	if err := n.read(); err != nil {
		return none, err
	}
	agency, err := o.db.AtDoor().Agency(ctx, n.Code)
	if fault.KindOf(err) == fault.NotFound {
		return none, faultAt("code", fmt.Sprintf("There is no agency with the code %q.", n.Code))
	}
	if err != nil {
		return none, err
	}
	hash, err := o.hash(ctx, n.Password)
	if err != nil {
		return none, err
	}
	p := postgres.Person{Name: n.Name, Email: n.Email, Language: "en", Roles: []assessment.Role{n.Role}}
	if p.ID, err = newID[assessment.PersonID](o, o.now()); err != nil {
		return none, err
	}
	by := actorOf(agency, p)
	err = o.writing(ctx, agency, o.withMoment(ctx, p.ID, string(assessment.GiveRoles), func(tx *postgres.Tx, now Moment) error {
		if err := tx.People.Add(ctx, p, now.At); err != nil {
			return fmt.Errorf("add a second founder: %w", err)
		}
		if err := tx.People.GiveRole(ctx, p.ID, n.Role, "", now.At); err != nil {
			return err
		}
		c := postgres.Credential{PasswordHash: hash, MustChange: !now.Agency.Demo}
		if err := tx.People.SetPassword(ctx, p.ID, c, now.At); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.GiveRoles, secondFounder, string(p.ID))
	}))
	if err != nil {
		return none, err
	}
	return by, nil
}

func (n *SecondFounder) read() error {
	var f form
	n.Name = f.line("name", n.Name, 200, "Give the second founder's name.")
	n.Email = f.email("email", n.Email)
	if n.Email == "" {
		f.Add("email", "Give the second founder's e-mail address.")
	}
	switch n.Role {
	case "":
		n.Role = assessment.Administrator
	case assessment.Administrator, assessment.Coordinator, assessment.Educator:
	default:
		f.Add("role", "A second founder is an administrator, a coordinator or an educator.")
	}
	f.Take("password", checkPassword(n.Password, n.Name, n.Email))
	return f.Err()
}
