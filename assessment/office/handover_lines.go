package office

import (
	"context"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/handover"
	"wellshown/assessment/postgres"
)

// linesOf are the newest demonstrations behind what was held on the file's day. What was withdrawn or
// had lapsed is not carried in: its paper tells of it.
func (o *Office) linesOf(ctx context.Context, tx *postgres.Tx, f TakeInForm, file handover.Opened, n postgres.Neighbour, done *TakenIn) ([]postgres.CarriedLine, error) {
	skills, err := tx.Checklists.Skills(ctx)
	if err != nil {
		return nil, err
	}
	oneChild := countChildren(file.Handover) == 1
	var lines []postgres.CarriedLine
	for _, h := range file.Handover.Held {
		if h.How != handover.WasHeld {
			continue
		}
		i := slices.IndexFunc(skills, func(s postgres.Skill) bool { return s.Code == h.Skill })
		if i < 0 || h.Child != 0 && (f.Client == "" || !oneChild) || (h.Child != 0) != (skills[i].Scope == assessment.ClientSpecific) {
			done.Left = append(done.Left, h.Title)
			continue
		}
		line := postgres.CarriedLine{PersonID: f.Person, SkillID: skills[i].ID, Place: n.Name}
		if h.Child != 0 {
			line.ClientID = f.Client
		}
		found, line, err := lineBehind(file.Handover, h, line)
		if err != nil {
			return nil, err
		}
		if found {
			lines = append(lines, line)
		}
	}
	return lines, nil
}

func countChildren(b handover.Body) int {
	seen := map[int]bool{}
	for _, h := range b.Held {
		seen[h.Child] = true
	}
	for _, e := range b.Entries {
		seen[e.Child] = true
	}
	delete(seen, 0)
	return len(seen)
}

// lineBehind is the newest competent, signed demonstration of one holding, with the day through
// which it was held. The older ones are in the file: told beside it without the day they ended
// on, each would read as if it held for ever.
func lineBehind(b handover.Body, h handover.Held, line postgres.CarriedLine) (found bool, _ postgres.CarriedLine, err error) {
	unread := faultAt("page", "A day in this file cannot be read, so nothing of it was taken in.")
	for _, e := range b.Entries {
		if e.Kind != handover.Demonstration || e.Skill != h.Skill || h.Child != 0 && e.Child != h.Child || e.Taken != nil || !e.Formal || e.Outcome != string(assessment.Competent) || !e.SignedByBoth() {
			continue
		}
		on, err := civil.Parse(e.On)
		if err != nil {
			return false, line, unread
		}
		if !found || !on.Before(line.ObservedOn) {
			found, line.ObservedOn, line.Signer = true, on, signerLine(e.By)
		}
	}
	if found && h.Through != "" {
		if line.ThroughOn, err = civil.Parse(h.Through); err != nil {
			return false, line, unread
		}
	}
	return found, line, nil
}

func signerLine(w handover.Who) string {
	if w.Licence == "" {
		return w.Name
	}
	return clipped(w.Name+", "+w.Licence, 200)
}

// clipped ends a text after so many letters.
func clipped(text string, most int) string {
	if letters := []rune(text); len(letters) > most {
		return string(letters[:most])
	}
	return text
}
