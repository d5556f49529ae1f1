package office

import (
	"context"
	"fmt"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// caseOfSheet is whose standing in what a sheet is about.
func caseOfSheet(s postgres.Sheet) assessment.CaseKey {
	return assessment.CaseKey{Person: s.LearnerID, Skill: s.SkillID, Client: s.ClientID}
}

// incidentsReach withdraws a case that comes in only now, where it was performed no later
// than the day on which an incident was written down that concerns it. When the incident was
// recorded nothing tied the person to this child, so it made no withdrawal of this case.
// What it says, of every child, is signed by whoever recorded it.
func (o *Office) incidentsReach(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, key assessment.CaseKey, performed time.Time) error {
	if err := tx.History.Lock(ctx, key.Person); err != nil { // whoever records an incident is waited for
		return fmt.Errorf("lock a history: %w", err)
	}
	known, err := tx.Incidents.List(ctx, postgres.IncidentFilter{Person: key.Person})
	if err != nil {
		return fmt.Errorf("read incidents: %w", err)
	}
	day := civil.DayOf(performed, now.Zone)
	known = slices.DeleteFunc(known, func(i postgres.Incident) bool {
		return i.TakenBackAt != nil || i.Withdraws != assessment.SkillAndRelated || day.After(civil.DayOf(i.At, now.Zone))
	})
	if len(known) == 0 {
		return nil
	}
	b, err := o.casebook(ctx, tx, now, postgres.HistoryFilter{People: []assessment.PersonID{key.Person}, Skill: key.Skill})
	if err != nil {
		return err
	}
	withdrew := false
	for _, i := range known {
		late, err := o.reachedLate(ctx, tx, b, i, key)
		if err != nil {
			return err
		}
		if late {
			withdrew = true
			if err := o.withdrawAfter(ctx, tx, now, by, i, key); err != nil {
				return err
			}
		}
	}
	if !withdrew {
		return nil
	}
	return o.reindexPerson(ctx, tx, now, key.Person)
}

// reachedLate reports whether an incident concerns a case of which it made no withdrawal:
// the skill is the incident's own, related to it by now, or was when it was recorded.
func (o *Office) reachedLate(ctx context.Context, tx *postgres.Tx, b *casebook, i postgres.Incident, key assessment.CaseKey) (bool, error) {
	made, err := tx.Incidents.Withdrawals(ctx, i.ID)
	if err != nil {
		return false, fmt.Errorf("read the withdrawals of an incident: %w", err)
	}
	named := map[string][]string{}
	for code, s := range b.byCode {
		named[code] = s.related
	}
	concerns := key.Skill == i.Skill || slices.Contains(assessment.RelatedSkills(b.skills[i.Skill].Code, named), b.skills[key.Skill].Code)
	for _, w := range made {
		if w.Skill == key.Skill && w.Client == key.Client {
			return false, nil
		}
		concerns = concerns || w.Skill == key.Skill
	}
	return concerns, nil
}

func (o *Office) withdrawAfter(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, i postgres.Incident, key assessment.CaseKey) error {
	recorder := assessment.Actor{Person: i.SignedBy, Name: i.PrintedName}
	for _, since := range assessment.IncidentActs(i.HappenedAt, i.At, now.Zone) {
		s, err := o.signed(now, recorder, "", "After the incident of "+inMinutes(i.HappenedAt, now.Zone)+"; what was shown before came in later")
		if err != nil {
			return err
		}
		w := postgres.Withdrawal{Signed: s, Key: key, Until: assessment.Redemonstrated, Incident: i.ID, Since: since}
		if err := tx.Exceptions.AddWithdrawal(ctx, w); err != nil {
			return fmt.Errorf("withdraw after an incident: %w", err)
		}
		if err := o.note(ctx, tx, now, by, assessment.Observe, "withdrawal", string(s.ID)); err != nil {
			return err
		}
	}
	return nil
}
