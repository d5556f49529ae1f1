package office

import (
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/postgres"
)

// knownAt is the casebook without what was written down, signed, fitted or put in force
// after an instant.
func (b *casebook) knownAt(instant time.Time) *casebook {
	k := &casebook{zone: b.zone, skills: map[assessment.SkillID]*skillbook{}, byCode: map[string]*skillbook{},
		rows: map[assessment.CaseKey][]assessment.Entry{}, equipment: map[assessment.ClientID][]postgres.EquipmentChange{}}
	for id, s := range b.skills {
		known := *s
		known.book = s.book.AsKnownAt(instant)
		k.skills[id], k.byCode[s.Code] = &known, &known
	}
	for key, entries := range b.rows {
		k.rows[key] = assessment.AsKnownAt(entries, instant)
	}
	for client, changes := range b.equipment {
		k.equipment[client] = slices.DeleteFunc(slices.Clone(changes), func(c postgres.EquipmentChange) bool { return c.RecordedAt.After(instant) })
	}
	return k
}

// withoutTakenBack is the casebook without what speaks for anybody and was taken back.
func (b *casebook) withoutTakenBack() *casebook {
	k := *b
	k.rows = map[assessment.CaseKey][]assessment.Entry{}
	for key, entries := range b.rows {
		k.rows[key] = assessment.WithoutTakenBack(entries)
	}
	return &k
}

// corrections finds by what was corrected the correction of it.
func (b *casebook) corrections() map[string]assessment.RecordID {
	of := map[string]assessment.RecordID{}
	for _, entries := range b.rows {
		for _, e := range entries {
			if e.Kind == assessment.CorrectionEntry {
				of[e.Of] = assessment.RecordID(e.ID)
			}
		}
	}
	return of
}
