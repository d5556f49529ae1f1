package office

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
	"wellshown/assessment/written"
)

// casebook is what standings are folded from, read once for many cases.
type casebook struct {
	zone      *time.Location
	skills    map[assessment.SkillID]*skillbook
	byCode    map[string]*skillbook
	rows      map[assessment.CaseKey][]assessment.Entry
	equipment map[assessment.ClientID][]postgres.EquipmentChange
}

// skillbook is one skill with the terms of its revisions.
type skillbook struct {
	postgres.Skill
	book    assessment.Book
	newest  *assessment.Checklist // in force, else the newest that ever was; nil for none
	related []string
}

// casebook reads the histories of these people (all for none) in a skill (all for
// the empty id).
func (o *Office) casebook(ctx context.Context, tx *postgres.Tx, now Moment, f postgres.HistoryFilter) (*casebook, error) {
	known, err := tx.History.Load(ctx, f)
	if err != nil {
		return nil, fmt.Errorf("read histories: %w", err)
	}
	b := &casebook{zone: now.Zone, rows: map[assessment.CaseKey][]assessment.Entry{}, equipment: map[assessment.ClientID][]postgres.EquipmentChange{}}
	if err := o.takeSkills(ctx, tx, b, known.Skills, known.Revisions); err != nil {
		return nil, err
	}
	for _, r := range known.Rows {
		b.rows[r.Key] = append(b.rows[r.Key], r.Entry)
	}
	for _, c := range known.Equipment {
		b.equipment[c.Client] = append(b.equipment[c.Client], c)
	}
	return b, nil
}

func (o *Office) readSkills(ctx context.Context, tx *postgres.Tx, b *casebook) error {
	skills, err := tx.Checklists.Skills(ctx)
	if err != nil {
		return fmt.Errorf("read skills: %w", err)
	}
	revisions, err := tx.Checklists.Revisions(ctx, "")
	if err != nil {
		return fmt.Errorf("read revisions: %w", err)
	}
	return o.takeSkills(ctx, tx, b, skills, revisions)
}

func (o *Office) takeSkills(ctx context.Context, tx *postgres.Tx, b *casebook, skills []postgres.Skill, revisions []postgres.Revision) error {
	b.skills, b.byCode = map[assessment.SkillID]*skillbook{}, map[string]*skillbook{}
	for _, s := range skills {
		sb := &skillbook{Skill: s, book: assessment.Book{ByRevision: map[int]assessment.Terms{}}}
		b.skills[s.ID], b.byCode[s.Code] = sb, sb
	}
	for _, r := range revisions {
		skill, ok := b.skills[r.SkillID]
		if !ok || r.InForceAt == nil { // not ok: put in force since the skills were read
			continue
		}
		list, err := o.listOf(ctx, tx, r)
		if err != nil {
			return err
		}
		skill.add(r, list, b.zone)
	}
	return nil
}

// add takes in a revision that is or was in force, in order of number.
func (s *skillbook) add(r postgres.Revision, list *assessment.Checklist, zone *time.Location) {
	s.book.ByRevision[r.Number] = assessment.Terms{Award: list.Policy.Award, Validity: list.Policy.Validity, Fitted: list.Fitted}
	s.book.InForce = append(s.book.InForce, assessment.ForcePeriod{From: civil.DayOf(*r.InForceAt, zone), Revision: r.Number, At: *r.InForceAt})
	s.newest, s.related = list, list.Related
}

// listOf is the checklist of a revision. Equal hashes are equal checklists, so
// each is read and decoded once; drafts come and go and are not kept.
func (o *Office) listOf(ctx context.Context, tx *postgres.Tx, r postgres.Revision) (*assessment.Checklist, error) {
	hash := string(r.SHA256)
	if known, ok := o.lists.Load(hash); ok {
		return known.(*assessment.Checklist), nil
	}
	body, err := tx.Checklists.Body(ctx, r.ID)
	if err != nil {
		return nil, fmt.Errorf("read a checklist: %w", err)
	}
	list, err := written.DecodeJSON([]byte(body))
	if err != nil {
		return nil, fmt.Errorf("read a kept checklist: %w", err)
	}
	if r.State != assessment.Draft {
		o.lists.Store(hash, &list)
	}
	return &list, nil
}

// listFor is the checklist of the revision with this id, which must come from a row
// of the agency's: what is kept here is asked for no agency.
func (o *Office) listFor(ctx context.Context, tx *postgres.Tx, id assessment.RevisionID) (*assessment.Checklist, error) {
	if known, ok := o.lists.Load(id); ok {
		return known.(*assessment.Checklist), nil
	}
	r, err := tx.Checklists.Revision(ctx, id)
	if err != nil {
		return nil, err
	}
	list, err := o.listOf(ctx, tx, r)
	if err == nil && r.State != assessment.Draft && !tx.Undone() { // in a rehearsal a draft may be in force, and is none again after it
		o.lists.Store(id, list)
	}
	return list, err
}

// caseOf orders what is known of one case.
func (b *casebook) caseOf(key assessment.CaseKey) (*assessment.Case, error) {
	skill, ok := b.skills[key.Skill]
	if !ok {
		return nil, notFound()
	}
	if skill.Scope == assessment.General {
		key.Client = ""
	}
	entries := slices.Concat(
		b.rows[key],
		b.rows[assessment.CaseKey{Skill: key.Skill}],
		b.rows[assessment.CaseKey{Person: key.Person}],
	)
	c, err := assessment.NewCase(b.zone, skill.book, b.fittings(key.Client), entries)
	if err != nil {
		return nil, fmt.Errorf("order the history of %s in %s: %w", key.Person, skill.Code, err)
	}
	return c, nil
}

// fittings tells from which day the client has which equipment; nil for no client.
func (b *casebook) fittings(client assessment.ClientID) []assessment.Fitting {
	if client == "" {
		return nil
	}
	has := assessment.Fitted{}
	line := []assessment.Fitting{{Has: has}}
	for _, c := range b.equipment[client] {
		has = maps.Clone(has)
		has[c.Kind] = c.Type
		line = append(line, assessment.Fitting{From: c.From, Has: has})
	}
	return line
}

// fittedOn is what a client has on a day.
func (b *casebook) fittedOn(client assessment.ClientID, day civil.Date) assessment.Fitted {
	has := assessment.Fitted{}
	for _, c := range b.equipment[client] {
		if !c.From.After(day) {
			has[c.Kind] = c.Type
		}
	}
	return has
}

// keys lists every case of which anything personal is known.
func (b *casebook) keys() []assessment.CaseKey {
	var keys []assessment.CaseKey
	for k := range b.rows {
		if k.Person != "" && k.Skill != "" {
			keys = append(keys, k)
		}
	}
	return keys
}

// caseOf is one case of one person, read for itself.
func (o *Office) caseOf(ctx context.Context, tx *postgres.Tx, now Moment, key assessment.CaseKey) (*assessment.Case, error) {
	b, err := o.casebook(ctx, tx, now, postgres.HistoryFilter{People: []assessment.PersonID{key.Person}, Skill: key.Skill})
	if err != nil {
		return nil, err
	}
	return b.caseOf(key)
}
