package office

import (
	"context"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/intake"
	"wellshown/assessment/postgres"
)

// carriedKey says which entry one is: the same file twice carries nothing in again.
type carriedKey struct {
	person        assessment.PersonID
	skill         assessment.SkillID
	client        assessment.ClientID
	on            string
	signer, place string
}

func keyOfCarried(n postgres.CarriedLine) carriedKey {
	return carriedKey{n.PersonID, n.SkillID, n.ClientID, n.ObservedOn.String(), n.Signer, n.Place}
}

// planCarriedIn finds out which competencies of a list were not carried in before. They make nobody
// current: nothing here asks for the index of standings to be made anew, because nothing of it changes.
func (o *Office) planCarriedIn(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, p *importPlan) error {
	byCode, err := clientsByCode(ctx, tx)
	if err != nil {
		return err
	}
	book, err := readNames(ctx, tx, now)
	if err != nil {
		return err
	}
	skills, err := tx.Checklists.Skills(ctx)
	if err != nil {
		return err
	}
	kept, err := tx.CarriedIn.Of(ctx, "")
	if err != nil {
		return err
	}
	there, said := map[carriedKey]bool{}, map[carriedKey]int{}
	for _, k := range kept {
		there[keyOfCarried(k)] = true
	}
	for i := range p.Rows {
		r := &p.Rows[i]
		n, fine := p.carried(r, now, byCode, book, skills)
		key := keyOfCarried(n)
		switch {
		case !fine:
		case said[key] != 0:
			p.wrong(r, "", "Row %d says the same. Keep one of the two.", said[key])
		case there[key]:
			said[key] = r.Number
			p.saw(r, "there")
			r.there("")
		default:
			said[key] = r.Number
			p.saw(r, "new", key.person)
			p.keep = append(p.keep, o.keepCarried(ctx, tx, now, by, n))
		}
	}
	return nil
}

// carried reads a row. False: it has a fault, or asks who is meant.
func (p *importPlan) carried(r *ImportRow, now Moment, byCode map[string]postgres.Client, book *nameBook, skills []postgres.Skill) (postgres.CarriedLine, bool) {
	var faults form
	n := postgres.CarriedLine{ObservedOn: p.day(r, "observed on"), ThroughOn: p.day(r, "valid through"), Signer: faults.maybe("signed by", r.Cells["signed by"], 200), Place: faults.maybe("where", r.Cells["where"], 200)}
	_ = p.take(r, faults.Err(), nil) // only faults of fields
	s, known := skillNamed(skills, r.Cells["skill"])
	switch specific := s.Scope == assessment.ClientSpecific; {
	case !known && r.Cells["skill"] != "":
		p.wrong(r, "skill", "There is no skill %q here. Write its code or title as it stands under Checklists.", r.Cells["skill"])
	case known && specific && r.Cells["client"] == "":
		p.wrong(r, "client", "%s is held for each child. Write the child's code.", s.Title)
	case known && !specific && r.Cells["client"] != "":
		p.wrong(r, "client", "%s is held for every child. Leave this cell empty.", s.Title)
	case known && specific:
		c, _ := p.client(r, byCode)
		n.ClientID = c.ID
	}
	n.SkillID = s.ID
	if !n.ObservedOn.IsZero() && n.ObservedOn.After(now.Today) {
		p.wrong(r, "observed on", "This day is still to come. Write the day on which it was shown.")
	}
	if !n.ThroughOn.IsZero() && n.ThroughOn.Before(n.ObservedOn) {
		p.wrong(r, "valid through", "This is before the day on which it was shown. Mend one of the two.")
	}
	if r.Cells["person"] == "" {
		return n, false
	}
	one, found := book.who(p, r, "person")
	n.PersonID = one.ID
	if found && one.Kind == "" {
		p.wrong(r, "person", "%s is no caregiver here. Say on their page what kind of caregiver they are.", one.Name)
	}
	return n, found && r.Does != ImportFault
}

// skillNamed is the skill with a code or a title, whatever the case of its letters.
func skillNamed(skills []postgres.Skill, written string) (postgres.Skill, bool) {
	for _, s := range skills {
		if strings.EqualFold(s.Code, written) {
			return s, true
		}
	}
	for _, s := range skills {
		if written != "" && intake.Plain(s.Title) == intake.Plain(written) {
			return s, true
		}
	}
	return postgres.Skill{}, false
}

func (o *Office) keepCarried(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, n postgres.CarriedLine) func() error {
	return func() error {
		var err error
		if n.ID, err = newID[assessment.RecordID](o, now.At); err != nil {
			return err
		}
		n.BroughtBy, n.BroughtAt = by.Person, now.At
		if err := tx.CarriedIn.Add(ctx, n); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.BringIn, "carried in", string(n.PersonID))
	}
}
