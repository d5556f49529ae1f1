package office

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// RequirementForm says who must hold a skill; an empty field is no condition.
type RequirementForm struct {
	Skill         string // code
	Kind          string // of caregiver
	Client        assessment.ClientID
	EquipmentKind string // only for children who have some
	From          string // YYYY-MM-DD
	Through       string // YYYY-MM-DD; empty: until further notice
}

// RequirementView is a requirement as people see it.
type RequirementView struct {
	ID            assessment.RequirementID
	Skill         string // code
	Title         string
	Scope         assessment.Scope
	Kind          assessment.CaregiverKind
	Client        assessment.ClientID
	ClientCode    string
	EquipmentKind string
	From          civil.Date
	Through       civil.Date // zero: until further notice
	Over          bool       // no longer counts today
}

// SetRequirement demands a skill from a day on.
func (o *Office) SetRequirement(ctx context.Context, by assessment.Actor, r RequirementForm) (RequirementView, error) {
	var v RequirementView
	err := o.as(ctx, by, assessment.EditRequirements, o.requiring(ctx, by, r, &v))
	return v, err
}

// PreviewRequirement tells what demanding it would change.
func (o *Office) PreviewRequirement(ctx context.Context, by assessment.Actor, r RequirementForm) (Preview, error) {
	var v RequirementView
	return o.rehearse(ctx, by, assessment.EditRequirements, "", o.requiring(ctx, by, r, &v))
}

func (o *Office) requiring(ctx context.Context, by assessment.Actor, r RequirementForm, v *RequirementView) func(*postgres.Tx, Moment) error {
	return func(tx *postgres.Tx, now Moment) error {
		n, err := r.read()
		if err != nil {
			return err
		}
		skill, err := skillByCode(ctx, tx, n.Skill)
		if err != nil {
			return err
		}
		n.SkillID, n.Scope = skill.ID, skill.Scope
		if n.Client != "" {
			client, err := tx.Clients.Get(ctx, n.Client)
			if err != nil {
				return err
			}
			n.ClientCode = client.Code
		}
		known, err := tx.Requirements.List(ctx)
		if err != nil {
			return err
		}
		if slices.ContainsFunc(known, func(k postgres.Requirement) bool { return k == n.like(k) }) {
			return fault.Of(fault.Conflict, "This is required already.")
		}
		if n.ID, err = newID[assessment.RequirementID](o, now.At); err != nil {
			return err
		}
		if err := tx.Requirements.Add(ctx, n.Requirement, by.Person, now.At); err != nil {
			return err
		}
		*v = viewRequirement(n.Requirement, skill.Title, now.Today)
		return o.note(ctx, tx, now, by, assessment.EditRequirements, "requirement", string(n.ID))
	}
}

// typed is a requirement as it was typed.
type typed struct{ postgres.Requirement }

// like is the typed requirement with the id of another, to compare the rest.
func (t typed) like(k postgres.Requirement) postgres.Requirement {
	t.ID = k.ID
	return t.Requirement
}

func (r RequirementForm) read() (typed, error) {
	var f form
	n := typed{postgres.Requirement{
		Skill:         f.line("skill", r.Skill, 40, "Choose the skill."),
		Client:        r.Client,
		EquipmentKind: strings.ToLower(f.maybe("equipment_kind", r.EquipmentKind, 40)),
	}}
	if n.EquipmentKind != "" && !equipmentKind.MatchString(n.EquipmentKind) {
		f.Add("equipment_kind", "A kind of equipment is one or more words in letters, such as humidifier.")
	}
	var err error
	n.Kind, err = assessment.ParseCaregiverKind(strings.TrimSpace(r.Kind))
	f.Take("kind", err)
	n.FromOn, n.ThroughOn = f.span(r.From, r.Through)
	return n, f.Err()
}

func skillByCode(ctx context.Context, tx *postgres.Tx, code string) (postgres.Skill, error) {
	all, err := tx.Checklists.Skills(ctx)
	if err != nil {
		return postgres.Skill{}, fmt.Errorf("read skills: %w", err)
	}
	for _, s := range all {
		if s.Code == code {
			return s, nil
		}
	}
	return postgres.Skill{}, faultAt("skill", fmt.Sprintf("There is no skill with the code %q.", code))
}

func viewRequirement(r postgres.Requirement, title string, today civil.Date) RequirementView {
	return RequirementView{ID: r.ID, Skill: r.Skill, Title: title, Scope: r.Scope, Kind: r.Kind, Client: r.Client, ClientCode: r.ClientCode,
		EquipmentKind: r.EquipmentKind, From: r.FromOn, Through: r.ThroughOn, Over: !r.ThroughOn.IsZero() && today.After(r.ThroughOn)}
}

// EndRequirement sets the last day of a requirement.
func (o *Office) EndRequirement(ctx context.Context, by assessment.Actor, id assessment.RequirementID, through string) error {
	return o.as(ctx, by, assessment.EditRequirements, o.endingRequirement(ctx, by, id, through))
}

// PreviewRequirementEnd tells what ending it would change.
func (o *Office) PreviewRequirementEnd(ctx context.Context, by assessment.Actor, id assessment.RequirementID, through string) (Preview, error) {
	return o.rehearse(ctx, by, assessment.EditRequirements, "", o.endingRequirement(ctx, by, id, through))
}

func (o *Office) endingRequirement(ctx context.Context, by assessment.Actor, id assessment.RequirementID, through string) func(*postgres.Tx, Moment) error {
	return func(tx *postgres.Tx, now Moment) error {
		var f form
		last := f.day("through", through)
		if err := f.Err(); err != nil {
			return err
		}
		r, err := tx.Requirements.Get(ctx, id)
		if err != nil {
			return err
		}
		if last.Before(r.FromOn) {
			return faultAt("through", "The last day is before the first.")
		}
		if err := tx.Requirements.End(ctx, id, last); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.EditRequirements, "requirement end", string(id))
	}
}

// Requirements lists what is required, in teaching order, past ones too.
// Caregivers see what is required for every child or for their own.
func (o *Office) Requirements(ctx context.Context, by assessment.Actor) ([]RequirementView, error) {
	var views []RequirementView
	err := o.as(ctx, by, assessment.ReadStandings, func(tx *postgres.Tx, now Moment) error {
		kept, err := tx.Requirements.List(ctx)
		if err != nil {
			return err
		}
		skills, err := tx.Checklists.Skills(ctx)
		if err != nil {
			return err
		}
		titles := map[string]string{}
		for _, s := range skills {
			titles[s.Code] = s.Title
		}
		views = nil
		for _, r := range kept {
			if r.Client != "" {
				switch err := mayForClient(ctx, tx, now, by, assessment.ReadStandings, r.Client); {
				case fault.KindOf(err) == fault.NotFound:
					continue
				case err != nil:
					return err
				}
			}
			views = append(views, viewRequirement(r, titles[r.Skill], now.Today))
		}
		return nil
	})
	return views, err
}
