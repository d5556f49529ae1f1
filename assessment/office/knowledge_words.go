package office

import (
	"context"
	"fmt"
	"strings"
	"sync"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/knowledge"
	"wellshown/assessment/phrase"
	"wellshown/assessment/postgres"
	"wellshown/assessment/wording"
)

// Said is an answer to the question in words, one line for each part of it; nothing where
// it was not answered.
func (q Question) Said(language string, a knowledge.Answer) []string {
	t := q.Item.In(language)
	var lines []string
	for i, c := range a.Chosen {
		switch {
		case q.Item.Kind == knowledge.Match && i < len(t.Left) && c >= 1 && c <= len(t.Right):
			lines = append(lines, t.Left[i]+" → "+t.Right[c-1])
		case q.Item.Kind == knowledge.Order && c >= 1 && c <= len(t.Options):
			lines = append(lines, fmt.Sprintf("%d. %s", i+1, t.Options[c-1]))
		case q.Item.Kind != knowledge.Match && c >= 1 && c <= len(t.Options):
			lines = append(lines, t.Options[c-1])
		}
	}
	if a.Value != "" {
		lines = append(lines, measured(language, a.Value, a.Unit))
	}
	return lines
}

// measured is a number with its unit as it is written in a language: "1 finger", "1 dedo".
func measured(language, value, unit string) string {
	return strings.TrimSpace(value + " " + wording.In(wording.Of(language)).Of(assessment.UnitPhrase(unit)))
}

// RightAnswer is what would have been right, in words.
func (q Question) RightAnswer(language string) []string {
	i := q.Item
	switch {
	case i.Kind == knowledge.Numeric && i.Low.Cmp(*i.High) == 0:
		return []string{measured(language, i.Low.String(), i.Unit)}
	case i.Kind == knowledge.Numeric:
		return []string{measured(language, i.Low.String()+"–"+i.High.String(), i.Unit)}
	case i.Kind == knowledge.Order || i.Kind == knowledge.Match:
		all := make([]int, i.Options())
		for n := range all {
			all[n] = n + 1
		}
		return q.Said(language, knowledge.Answer{Chosen: all})
	}
	return q.Said(language, knowledge.Answer{Chosen: i.Right})
}

// titles are what the lessons of a skill are called, by language: a family's words for it.
type titles map[string]string

// in is the title in a language; the checklist's where there is no such lesson.
func (t titles) in(language, otherwise string) string {
	if own := t[language]; own != "" {
		return own
	}
	return otherwise
}

// lessonTitles are the titles of the lessons in force, by skill and language.
func lessonTitles(ctx context.Context, tx *postgres.Tx) (map[assessment.SkillID]titles, error) {
	all, err := tx.Lessons.List(ctx)
	if err != nil {
		return nil, fmt.Errorf("read the titles of lessons: %w", err)
	}
	found := map[assessment.SkillID]titles{}
	for _, l := range all {
		if l.State != assessment.InForce {
			continue
		}
		if found[l.SkillID] == nil {
			found[l.SkillID] = titles{}
		}
		found[l.SkillID][l.Language] = l.Title
	}
	return found, nil
}

// starterTitles are what the starter lessons call their skills: so a family reads a check's
// name in its language before a lesson is in force.
var starterTitles = sync.OnceValue(func() map[string]titles {
	all := map[string]titles{}
	for _, code := range catalog.Codes() {
		all[code] = titles{}
		for _, l := range wording.Languages {
			if lesson, err := catalog.Lesson(code, l); err == nil {
				all[code][string(l)] = lesson.Title
			}
		}
	}
	return all
})

// Called is what the skill of a check is called in a language, and where its lesson is;
// empty: none is in force.
type Called struct {
	skill  SkillRef
	lesson titles
}

// In is the name in a language.
func (c Called) In(language string) string {
	return c.lesson.in(language, starterTitles()[c.skill.Code].in(language, c.skill.Title))
}

// Lesson reports whether there is a lesson to read.
func (c Called) Lesson() bool { return len(c.lesson) > 0 }

// CalledAs is what a skill is called while no lesson of it is in force.
func CalledAs(skill SkillRef) Called { return Called{skill: skill} }

// ReadItems says that whoever took a check could read what it asks, and what follows from it
// (see knowledge.Pass); the zero phrase: they could not.
func (v SittingView) ReadItems() phrase.Phrase {
	switch {
	case !v.Reader:
		return phrase.Phrase{}
	case !v.Result.Passed:
		return phrase.Of("Whoever took this check could read what it asks, because of their work here.")
	}
	return passOfReader(v.Waits, v.PresentBy)
}

// ReadItems says that they could read what the check asks, and what follows from it; the zero
// phrase: they could not.
func (c PassedCheck) ReadItems() phrase.Phrase {
	if !c.Reader {
		return phrase.Phrase{}
	}
	return passOfReader(c.Waits(), c.PresentBy)
}

// Waits reports whether it did not count on that day, since nobody had said by then that a
// trainer was there.
func (c PassedCheck) Waits() bool { return c.Reader && c.PresentBy == "" }

func passOfReader(waits bool, presentBy string) phrase.Phrase {
	if waits {
		return phrase.Of("Whoever took this check could read what it asks, because of their work here. So it counts once another educator says that a trainer was there.")
	}
	return phrase.Of("Whoever took this check could read what it asks, because of their work here. It counts, because %s says that a trainer was there.", presentBy)
}
