package office

import (
	"context"
	"fmt"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// IncidentForm records something that was seen to go wrong in a skill.
type IncidentForm struct {
	ID       string // made by whoever sends it, so that sending twice is harmless; empty: made here
	Person   assessment.PersonID
	Skill    string // code
	Client   assessment.ClientID
	Happened string // day and time, on the agency's clocks where it has no offset
	Seen     string
	// Withdraws is what it takes away: as the page showed it, or as whoever records it chooses
	// where the agency leaves that to them. Empty: as the agency's rules say, and the skill and
	// all related ones where they leave it open.
	Withdraws string
	Proof     Proof
}

// RecordIncident keeps it and takes the standing away in the same transaction, as the agency's
// rules of practice say.
func (o *Office) RecordIncident(ctx context.Context, by assessment.Actor, f IncidentForm) (assessment.RecordID, error) {
	var id assessment.RecordID
	proof := f.Proof.over(f.Person, f.Skill, f.Client, f.Happened, f.Seen, f.Withdraws, f.ID)
	look := func(tx *postgres.Tx, now Moment) (assessment.PersonID, error) {
		i, err := o.typedIncident(ctx, tx, now, f)
		if err != nil {
			return "", err
		}
		return by.Person, proof.tell(func() (string, error) { return o.saysIncident(ctx, tx, now, i) })
	}
	err := o.signing(ctx, by, assessment.RecordIncident, proof, look, func(tx *postgres.Tx, now Moment) error {
		i, err := o.typedIncident(ctx, tx, now, f)
		if err != nil {
			return err
		}
		before, err := o.incidentBefore(ctx, tx, f, i)
		if before || err != nil {
			id = assessment.RecordID(f.ID)
			return err
		}
		s, err := o.signed(now, by, f.ID, "")
		if err != nil {
			return err
		}
		id = s.ID
		i.ID, i.At, i.SignedBy, i.PrintedName = s.ID, s.At, s.SignedBy, s.PrintedName
		return o.keepIncident(ctx, tx, now, by, i)
	})
	return id, err
}

// typedIncident is what is typed, as it would be kept.
func (o *Office) typedIncident(ctx context.Context, tx *postgres.Tx, now Moment, f IncidentForm) (postgres.Incident, error) {
	var faults form
	i := postgres.Incident{Person: f.Person, HappenedAt: faults.instant("happened", f.Happened, now), Seen: faults.words("seen", f.Seen, 2000)}
	if f.Person == "" {
		faults.Add("person", "Choose whose hands it was in.")
	}
	if i.HappenedAt.After(now.At) {
		faults.Add("happened", "This lies in the future. Check the day and time.")
	}
	if !assessment.Says(i.Seen) {
		faults.Add("seen", "Say what was seen, without a diagnosis. It stays with the record.")
	}
	rules, err := practice(ctx, tx)
	if err != nil {
		return i, err
	}
	i.Withdraws = rules.incidentScope(&faults, f.Withdraws)
	key, err := o.keyOf(ctx, tx, ExceptionForm{Person: f.Person, Skill: f.Skill, Client: f.Client}, &faults)
	if err != nil {
		return i, err
	}
	i.Skill, i.Client = key.Skill, key.Client
	return i, nil
}

// incidentScope is what an incident withdraws: as the rules say, or more, and where they leave
// it open, what was chosen.
func (p Practice) incidentScope(f *form, typed string) assessment.IncidentScope {
	chosen := assessment.IncidentScope(typed)
	switch {
	case typed == "" && p.IncidentByItself:
		return p.IncidentWithdraws
	case typed == "":
		return assessment.SkillAndRelated
	case chosen == assessment.SkillAndRelated, chosen == assessment.SkillAlone && (!p.IncidentByItself || p.IncidentWithdraws == chosen), chosen == assessment.WithdrawNothing && !p.IncidentByItself:
		return chosen
	case slices.Contains(assessment.IncidentScopes, chosen) || chosen == assessment.WithdrawNothing:
		f.Add("withdraws", "The agency’s rules of practice say that an incident withdraws the %s by itself. Nothing less can be chosen.", p.IncidentWithdraws)
	default:
		f.Add("withdraws", "Choose one of the answers in the list.")
	}
	return ""
}

// incidentBefore reports whether the form with this id was taken in already, and refuses an id
// that names something else. Others who change the history wait.
func (o *Office) incidentBefore(ctx context.Context, tx *postgres.Tx, f IncidentForm, i postgres.Incident) (bool, error) {
	if err := tx.History.Lock(ctx, f.Person); err != nil {
		return false, err
	}
	if f.ID == "" {
		return false, nil
	}
	known, err := tx.Incidents.List(ctx, postgres.IncidentFilter{Person: f.Person})
	if err != nil {
		return false, err
	}
	for _, k := range known {
		if string(k.ID) == f.ID && k.Key() == i.Key() && k.HappenedAt.Equal(i.HappenedAt) && k.Seen == i.Seen && k.Withdraws == i.Withdraws {
			return true, sentButTakenBack(k.TakenBackAt)
		}
	}
	return false, o.idIsFree(ctx, tx, f.ID)
}

// keepIncident keeps it with the withdrawals that it makes.
func (o *Office) keepIncident(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, i postgres.Incident) error {
	if err := tx.Incidents.Add(ctx, i); err != nil {
		return fmt.Errorf("keep an incident: %w", err)
	}
	if err := o.note(ctx, tx, now, by, assessment.RecordIncident, "incident", string(i.ID)); err != nil {
		return err
	}
	if i.Withdraws == assessment.WithdrawNothing {
		return nil
	}
	keys := []assessment.CaseKey{i.Key()}
	if i.Withdraws == assessment.SkillAndRelated {
		more, err := o.concernedBy(ctx, tx, now, i)
		if err != nil {
			return err
		}
		keys = append(keys, more...)
	}
	for _, key := range keys {
		for _, since := range assessment.IncidentActs(i.HappenedAt, i.At, now.Zone) {
			s, err := o.signed(now, by, "", "After the incident of "+inMinutes(i.HappenedAt, now.Zone))
			if err != nil {
				return err
			}
			w := postgres.Withdrawal{Signed: s, Key: key, Until: assessment.Redemonstrated, Incident: i.ID, Since: since}
			if err := tx.Exceptions.AddWithdrawal(ctx, w); err != nil {
				return fmt.Errorf("withdraw after an incident: %w", err)
			}
			if err := o.note(ctx, tx, now, by, assessment.RecordIncident, "withdrawal", string(s.ID)); err != nil {
				return err
			}
		}
	}
	return o.reindexPerson(ctx, tx, now, i.Person)
}

// inMinutes is an instant as people write it, with its zone.
func inMinutes(at time.Time, zone *time.Location) string {
	return at.In(zone).Format("2 Jan 2006, 15:04 MST")
}

// saysIncident tells what is signed.
func (o *Office) saysIncident(ctx context.Context, tx *postgres.Tx, now Moment, i postgres.Incident) (string, error) {
	skill, person, err := o.named(ctx, tx, i.Key())
	what := fmt.Sprintf("Record an incident in %s of %s on %s", skill, person, inMinutes(i.HappenedAt, now.Zone))
	switch i.Withdraws {
	case assessment.WithdrawNothing:
		what += ", withdrawing nothing"
	case assessment.SkillAlone:
		what += ", and withdraw it from then until it is shown again"
	default:
		what += ", and withdraw it and all related skills, with every child, from then until they are shown again"
	}
	return because(what, i.Seen), err
}

// incidentFault refuses what comes too late.
func incidentFault(i postgres.Incident) error {
	switch {
	case i.TakenBackAt != nil:
		return fault.Of(fault.Conflict, "This incident was taken back.")
	case i.ClosedAt != nil:
		return fault.Of(fault.Conflict, "This incident has been closed already.")
	}
	return nil
}
