package office

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// languages are those that somebody may read in.
var languages = []string{"en", "es"}

// PersonForm is what is said of a person.
type PersonForm struct {
	Version  string // only when changing: of the person as they were read, as a PersonView tells it
	ID       string // made by whoever sends it, so that adding twice is harmless; empty: made here
	Name     string
	Kind     string // of caregiver; empty: none
	Relation string // to the child, such as "mother"
	Email    string // empty: they do not sign in
	Language string // en or es; empty: en
	Roles    []string
	Password string // only when adding, and only in a demonstration, whose people are invented
}

// PersonView is a person as people see them.
type PersonView struct {
	ID         assessment.PersonID
	Version    string // the same while all that EditPerson changes stays the same
	Name       string
	Kind       assessment.CaregiverKind
	Relation   string
	Email      string
	Language   string
	Roles      []assessment.Role
	LeftOn     civil.Date // first day on which they are no longer there; zero while they are
	MustChange bool       // their password was set by somebody else
}

func viewPerson(p postgres.Person) PersonView {
	return PersonView{ID: p.ID, Version: personVersion(p), Name: p.Name, Kind: p.Kind, Relation: p.Relation, Email: p.Email,
		Language: p.Language, Roles: p.Roles, LeftOn: p.LeftOn, MustChange: p.MustChange}
}

// read is the person that the form speaks of.
func (p PersonForm) read() (postgres.Person, error) {
	var f form
	n := postgres.Person{
		Name:     f.line("name", p.Name, 200, "Give the name as it is to be printed."),
		Relation: f.maybe("relation", p.Relation, 60),
		Email:    f.email("email", p.Email),
		Language: strings.TrimSpace(p.Language),
	}
	if n.Language == "" {
		n.Language = "en"
	}
	if !slices.Contains(languages, n.Language) {
		f.Add("language", "Choose English or Spanish.")
	}
	var err error
	n.Kind, err = assessment.ParseCaregiverKind(strings.TrimSpace(p.Kind))
	f.Take("kind", err)
	for _, typed := range p.Roles {
		r, err := assessment.ParseRole(typed)
		f.Take("roles", err)
		if !slices.Contains(n.Roles, r) {
			n.Roles = append(n.Roles, r)
		}
	}
	if n.Kind == "" && slices.Contains(n.Roles, assessment.Caregiver) {
		f.Add("kind", "Say what kind of caregiver they are: family, nurse or aide.")
	}
	if p.Password != "" {
		f.Take("password", checkPassword(p.Password, n.Name, n.Email))
		if n.Email == "" {
			f.Add("email", "To sign in with the password they need an e-mail address.")
		}
	}
	return n, f.Err()
}

// AddPerson adds a person. Roles are an administrator's to give. Sending the same form with its id twice adds one person; another person
// under the same id is refused with ErrOtherPerson.
func (o *Office) AddPerson(ctx context.Context, by assessment.Actor, p PersonForm) (PersonView, error) {
	n, c, err := o.newPerson(ctx, by, p)
	if err != nil {
		return PersonView{}, err
	}
	var v PersonView
	err = o.as(ctx, by, assessment.EditPeople, func(tx *postgres.Tx, now Moment) error {
		if n.ID, err = idOr[assessment.PersonID](o, p.ID, now.At); err != nil {
			return err
		}
		if p.ID != "" {
			kept, err := tx.People.Get(ctx, n.ID)
			if fault.KindOf(err) != fault.NotFound {
				v = viewPerson(kept)
				return cmp.Or(err, sameAs(kept, n))
			}
		}
		if err := o.addPerson(ctx, tx, now, by, n, c); err != nil {
			return err
		}
		kept, err := tx.People.Get(ctx, n.ID)
		v = viewPerson(kept)
		return err
	})
	return v, err
}

// ErrOtherPerson refuses to add somebody under the id of somebody else.
var ErrOtherPerson = fault.Of(fault.Conflict, "Somebody else was added under this id already.")

// sameAs refuses to take one person for another. Their password cannot be compared:
// whoever has it may have changed it by now.
func sameAs(kept, sent postgres.Person) error {
	if personVersion(kept) != personVersion(sent) {
		return ErrOtherPerson
	}
	return nil
}

// newPerson reads the form and hashes the password before any transaction begins.
func (o *Office) newPerson(ctx context.Context, by assessment.Actor, p PersonForm) (postgres.Person, string, error) {
	if err := by.May(assessment.EditPeople); err != nil {
		return postgres.Person{}, "", err
	}
	n, err := p.read()
	if err != nil {
		return n, "", err
	}
	if len(n.Roles) > 0 || p.Password != "" {
		if err := by.May(assessment.GiveRoles); err != nil {
			return n, "", err
		}
	}
	if p.Password == "" {
		return n, "", nil
	}
	hash, err := o.hash(ctx, p.Password)
	return n, hash, err
}

func (o *Office) addPerson(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, n postgres.Person, hash string) error {
	if err := tx.People.Add(ctx, n, now.At); err != nil {
		return fmt.Errorf("add a person: %w", err)
	}
	if err := o.note(ctx, tx, now, by, assessment.EditPeople, "person", string(n.ID)); err != nil {
		return err
	}
	if err := o.changeRoles(ctx, tx, now, by, n.ID, nil, n.Roles); err != nil {
		return err
	}
	if hash == "" {
		return nil
	}
	if !now.Agency.Demo {
		return faultAt("password", "Nobody gives anybody else a password. Add them without one, then make a link by which they choose it themselves.")
	}
	c := postgres.Credential{PasswordHash: hash}
	return o.setPassword(ctx, tx, now, by, n.ID, c, nil, "password")
}

// Me is whoever asks, whatever they may do besides.
func (o *Office) Me(ctx context.Context, by assessment.Actor) (PersonView, error) {
	var v PersonView
	err := o.as(ctx, by, assessment.OwnAccount, func(tx *postgres.Tx, _ Moment) error {
		p, err := tx.People.Get(ctx, by.Person)
		v = viewPerson(p)
		return err
	})
	return v, err
}

// Person is one person.
func (o *Office) Person(ctx context.Context, by assessment.Actor, id assessment.PersonID) (PersonView, error) {
	var v PersonView
	err := o.as(ctx, by, assessment.ReadPeople, func(tx *postgres.Tx, _ Moment) error {
		if err := by.MayFor(assessment.ReadPeople, id, false); err != nil {
			return err
		}
		p, err := tx.People.Get(ctx, id)
		v = viewPerson(p)
		return err
	})
	return v, err
}
