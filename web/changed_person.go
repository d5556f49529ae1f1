package web

import (
	"slices"
	"strings"

	"wellshown/assessment/office"
)

// Whoever changes a person sends along what they read, so that a change that
// somebody else has made in the meantime can be told and is not undone.

// formOf is what is known of a person as a form says it.
func formOf(p office.PersonView) office.PersonForm {
	roles := []string{}
	for _, r := range p.Roles {
		roles = append(roles, string(r))
	}
	return office.PersonForm{Version: p.Version, Name: p.Name, Kind: string(p.Kind), Relation: p.Relation, Email: p.Email, Language: p.Language, Roles: roles}
}

// personFields are the fields of one line, each with its label.
var personFields = []struct {
	name, label string
	of          func(*office.PersonForm) *string
}{
	{"name", "Full name", func(f *office.PersonForm) *string { return &f.Name }},
	{"email", "E-mail", func(f *office.PersonForm) *string { return &f.Email }},
	{"kind", "Kind", func(f *office.PersonForm) *string { return &f.Kind }},
	{"relation", "To the child", func(f *office.PersonForm) *string { return &f.Relation }},
	{"language", "Language", func(f *office.PersonForm) *string { return &f.Language }},
}

func wasFields(f office.PersonForm) []Hidden {
	var all []Hidden
	for _, field := range personFields {
		all = append(all, Hidden{"was_" + field.name, *field.of(&f)})
	}
	return append(all, Hidden{"was_roles", strings.Join(f.Roles, ", ")})
}

// wasPerson is what they read before they changed it.
func (v *visit) wasPerson() office.PersonForm {
	f := office.PersonForm{Version: v.form("version"), Roles: []string{}}
	for _, field := range personFields {
		*field.of(&f) = v.form("was_" + field.name)
	}
	if roles := v.form("was_roles"); roles != "" {
		f.Roles = strings.Split(roles, ", ")
	}
	return f
}

// changedPerson draws the form again where somebody else was first: it tells what
// they changed, keeps what was typed, and has their changes where nothing was.
func (s *Site) changedPerson(v *visit, typed office.PersonForm) error {
	p, err := s.personOf(v)
	if err != nil {
		return err
	}
	was, now := v.wasPerson(), formOf(p)
	page := v.editForm(p.ID, merged(typed, was, now), now)
	page.Changed, page.Changes = true, personChanges(was, now)
	page.Faults = Faults{What: "The change is not saved.", Why: "Somebody has changed this person since you opened this page.",
		Next: "See what changed, then save. What you typed is still there."}
	return v.again(page)
}

func personChanges(was, now office.PersonForm) []Change {
	var all []Change
	tell := func(label, before, after string) {
		if before != after {
			all = append(all, Change{How: "changed", Where: label, Before: before, After: after})
		}
	}
	for _, field := range personFields {
		tell(field.label, *field.of(&was), *field.of(&now))
	}
	tell("May act as", strings.Join(was.Roles, ", "), strings.Join(now.Roles, ", "))
	return all
}

// merged is what was typed, and what stands now where nothing was typed. Of roles
// each is a field of its own.
func merged(typed, was, now office.PersonForm) office.PersonForm {
	for _, field := range personFields {
		if t := field.of(&typed); *t == *field.of(&was) {
			*t = *field.of(&now)
		}
	}
	roles := slices.Clone(now.Roles)
	for _, r := range typed.Roles {
		if !slices.Contains(was.Roles, r) && !slices.Contains(roles, r) {
			roles = append(roles, r)
		}
	}
	if typed.Roles != nil {
		roles = slices.DeleteFunc(roles, func(r string) bool { return slices.Contains(was.Roles, r) && !slices.Contains(typed.Roles, r) })
	}
	typed.Roles = roles
	return typed
}
