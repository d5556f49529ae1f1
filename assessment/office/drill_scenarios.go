package office

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/postgres"
	"wellshown/assessment/written"
)

// DrillScenario is a scenario as it is offered now, or one of its versions.
type DrillScenario struct {
	assessment.Scenario
	VersionID assessment.RecordID // empty: a starter that nobody used yet
	Title     SkillRef            // of the skill
	Version   int                 // 0: a starter that nobody used yet
	Starter   bool                // as the program brings it along
	Retired   bool
	By        string // who wrote it, or used it first
	At        time.Time
}

// drillBook is all that is known of scenarios.
type drillBook struct {
	skills   []postgres.Skill
	drilled  map[assessment.SkillID]bool                  // emergency skills
	versions map[string][]postgres.DrillScenario          // by code, the newest first
	starters map[assessment.SkillID][]assessment.Scenario // by skill
	read     map[assessment.RecordID]assessment.Scenario  // by version
	titled   map[assessment.SkillID]SkillRef              // by skill
}

// drills reads the scenarios of the agency, and the starters for skills that it has.
func (o *Office) drills(ctx context.Context, tx *postgres.Tx) (drillBook, error) {
	b := drillBook{drilled: map[assessment.SkillID]bool{}, versions: map[string][]postgres.DrillScenario{}, starters: map[assessment.SkillID][]assessment.Scenario{},
		read: map[assessment.RecordID]assessment.Scenario{}, titled: map[assessment.SkillID]SkillRef{}}
	var err error
	if b.skills, err = tx.Checklists.Skills(ctx); err != nil {
		return b, fmt.Errorf("list the skills: %w", err)
	}
	revisions, err := tx.Checklists.Revisions(ctx, "")
	if err != nil {
		return b, fmt.Errorf("list the checklists: %w", err)
	}
	codes := map[assessment.SkillID]string{}
	for _, s := range b.skills {
		codes[s.ID], b.titled[s.ID] = s.Code, SkillRef{s.ID, s.Code, s.Title}
		if b.drilled[s.ID], err = o.isEmergency(ctx, tx, s, revisions); err != nil {
			return b, err
		}
		if slices.Contains(catalog.Emergencies, s.Code) {
			if b.starters[s.ID], err = catalog.Scenarios(s.Code); err != nil {
				return b, err
			}
		}
	}
	kept, err := tx.Drills.Scenarios(ctx)
	if err != nil {
		return b, fmt.Errorf("list the scenarios: %w", err)
	}
	for _, k := range kept {
		b.versions[k.Code] = append(b.versions[k.Code], k)
		if b.read[k.ID], err = readScenario(k, codes[k.SkillID]); err != nil {
			return b, err
		}
	}
	return b, nil
}

// isEmergency reports by the revisions of all skills whether one is drilled: those for which
// there are starters, and those that are never shown on a child.
func (o *Office) isEmergency(ctx context.Context, tx *postgres.Tx, s postgres.Skill, revisions []postgres.Revision) (bool, error) {
	if slices.Contains(catalog.Emergencies, s.Code) {
		return true, nil
	}
	for _, r := range slices.Backward(revisions) {
		if r.SkillID == s.ID && r.InForceAt != nil && r.RetiredAt == nil {
			list, err := o.listFor(ctx, tx, r.ID)
			return err == nil && list.ManikinOnly, err
		}
	}
	return false, nil
}

func readScenario(k postgres.DrillScenario, skill string) (assessment.Scenario, error) {
	return written.ReadScenario(k.Code, skill, k.Body)
}

func (b drillBook) view(k postgres.DrillScenario) DrillScenario {
	return DrillScenario{Scenario: b.read[k.ID], VersionID: k.ID, Title: b.titled[k.SkillID], Version: k.Version, Starter: k.Starter, Retired: k.Retired, By: k.AddedName, At: k.AddedAt}
}

// now is each scenario of a skill in its newest version, by code. A starter that the
// agency has not written anew is offered as this program has it.
func (b drillBook) now(skill assessment.SkillID) []DrillScenario {
	var all []DrillScenario
	for _, s := range b.starters[skill] {
		kept := b.versions[s.ID]
		switch {
		case len(kept) == 0:
			all = append(all, DrillScenario{Scenario: s, Title: b.titled[skill], Starter: true})
		case kept[0].Starter && !kept[0].Retired && !b.read[kept[0].ID].Same(s):
			all = append(all, DrillScenario{Scenario: s, Title: b.titled[skill], Version: kept[0].Version, Starter: true})
		}
	}
	for _, kept := range b.versions {
		if kept[0].SkillID == skill && !slices.ContainsFunc(all, func(d DrillScenario) bool { return d.ID == kept[0].Code }) {
			all = append(all, b.view(kept[0]))
		}
	}
	slices.SortFunc(all, func(x, y DrillScenario) int { return strings.Compare(x.ID, y.ID) })
	return all
}

// offered are those of a skill that a drill can be begun with.
func (b drillBook) offered(skill assessment.SkillID) []DrillScenario {
	return slices.DeleteFunc(b.now(skill), func(d DrillScenario) bool { return d.Retired })
}

// find is a scenario by its code.
func (b drillBook) find(code string) (DrillScenario, postgres.Skill, error) {
	for _, s := range b.skills {
		for _, d := range b.now(s.ID) {
			if d.ID == code {
				return d, s, nil
			}
		}
	}
	return DrillScenario{}, postgres.Skill{}, notFound()
}

// inUse is the version of a scenario that a drill names: a starter is kept with the first
// drill that it is used for, so that the record can show it whatever program runs then.
func (o *Office) inUse(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, d DrillScenario) (assessment.RecordID, error) {
	if d.VersionID != "" {
		return d.VersionID, nil
	}
	return o.addScenario(ctx, tx, now, by, d, false)
}

// addScenario keeps the next version of a scenario.
func (o *Office) addScenario(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, d DrillScenario, retired bool) (assessment.RecordID, error) {
	text, err := written.Scenario(d.Scenario)
	if err != nil {
		return "", err
	}
	id, err := newID[assessment.RecordID](o, now.At)
	if err != nil {
		return "", err
	}
	err = tx.Drills.AddScenario(ctx, postgres.DrillScenario{ID: id, SkillID: d.Title.ID, Code: d.ID, Version: d.Version + 1, Starter: d.Starter, Retired: retired,
		Body: text, AddedBy: by.Person, AddedAt: now.At})
	if err != nil {
		return "", fmt.Errorf("keep version %d of the scenario %s: %w", d.Version+1, d.ID, err)
	}
	return id, nil
}

// ScenarioView is one scenario with its earlier versions.
type ScenarioView struct {
	DrillScenario
	Older []DrillScenario // the newest first
	Zone  *time.Location
}

// Scenario is a scenario as it is offered now.
func (o *Office) Scenario(ctx context.Context, by assessment.Actor, code string) (ScenarioView, error) {
	var v ScenarioView
	err := o.as(ctx, by, assessment.ReadBank, func(tx *postgres.Tx, now Moment) error {
		b, err := o.drills(ctx, tx)
		if err != nil {
			return err
		}
		v = ScenarioView{Zone: now.Zone}
		if v.DrillScenario, _, err = b.find(code); err != nil {
			return err
		}
		for _, k := range b.versions[code] {
			if k.ID != v.VersionID {
				v.Older = append(v.Older, b.view(k))
			}
		}
		return nil
	})
	return v, err
}
