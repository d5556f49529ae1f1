package integration

import (
	"slices"
	"testing"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

// A value that nobody ordered is called what it is in the language of the text around it; one
// that was ordered stands as it was ordered (the pages of the office do so; no other source).
func TestAValueIsCalledInTheLanguageOfItsText(t *testing.T) {
	const text, own = "Set {flow} first", "Set our {flow} first"
	step := func(no int, text string) assessment.Step { return assessment.Step{No: no, Text: text} }
	sheet := sheetOf(assessment.Checklist{Parameters: []assessment.Parameter{{Name: "flow", Says: "lowest flow, as ordered"}}, Sections: []assessment.Section{{Steps: []assessment.Step{step(1, text), step(2, own)}}}})
	tongue := map[string]any{"tag": "es", "dir": "ltr", "says": map[string]string{"Step %d was unsafe: %s": "El paso %d fue inseguro: %s"}, "theirs": map[string]string{text: "Primero ponga {flow}", "lowest flow": "el flujo más bajo"}}
	for words, want := range map[string][2]string{"": {"el flujo más bajo", "lowest flow"}, "2 L/min": {"2 L/min", "2 L/min"}} {
		if words != "" {
			sheet["words"] = map[string]string{"flow": words}
		}
		var said struct{ Reasons [][2]string }
		byNode(t, "tongue.mjs", tongueTask{Tongue: tongue, Sheet: sheet, Reasons: []any{map[string]any{"rule": "unsafe", "step": 1}, map[string]any{"rule": "unsafe", "step": 2}}}.whole(), &said)
		if got := [][2]string{{"El paso 1 fue inseguro: Primero ponga " + want[0], ""}, {"Step 2 was unsafe: Set our " + want[1] + " first", "en"}}; !slices.Equal(said.Reasons, got) {
			t.Errorf("ordered %q: %q, want %q", words, said.Reasons, got)
		}
		delete(sheet, "words")
		sheet["words"] = map[string]string{}
	}
}

// tongueTask is what browser/tongue.mjs is asked.
type tongueTask struct {
	Tongue  map[string]any `json:"tongue"`
	Sheet   map[string]any `json:"sheet"`
	Reasons []any          `json:"reasons"`
	Typed   []string       `json:"typed"`
	Choices []any          `json:"choices"`
}

// whole has a list where nothing is asked.
func (task tongueTask) whole() tongueTask {
	task.Reasons, task.Typed, task.Choices = append([]any{}, task.Reasons...), append([]string{}, task.Typed...), append([]any{}, task.Choices...)
	if len(task.Reasons) == 0 {
		task.Reasons = []any{map[string]any{"rule": "nothing shown"}}
	}
	return task
}

// tongueOfList is what a pack with one checklist says in Spanish.
func tongueOfList(c assessment.Checklist) map[string]any {
	says, theirs := map[string]string{}, map[string]string{}
	for _, p := range office.HandedTexts {
		_, says[p.Format], _ = wording.Known(wording.Spanish, p.Format)
	}
	for _, text := range office.HandedTextsOf(&c) {
		if said, known := wording.In(wording.Spanish).Theirs(text); known {
			theirs[text] = said
		}
	}
	return map[string]any{"tag": "es", "dir": "ltr", "says": says, "theirs": theirs}
}

// sheetOf is a sheet of a checklist, of nothing that is ordered.
func sheetOf(c assessment.Checklist) map[string]any {
	parameters, steps := []any{}, []any{}
	for _, p := range c.Parameters {
		parameters = append(parameters, map[string]any{"name": p.Name, "says": p.Says})
	}
	for _, s := range c.Steps() {
		measures := []any{}
		for _, m := range s.Measures {
			measures = append(measures, map[string]any{"name": m.Name})
		}
		steps = append(steps, map[string]any{"no": s.No, "text": s.Text, "measures": measures})
	}
	return map[string]any{"rules": api.RulesOf(c), "parameters": map[string]any{}, "words": map[string]any{},
		"checklist": map[string]any{"parameters": parameters, "sections": []any{map[string]any{"steps": steps}}}}
}

// reasonsOf are all that can be said against a sheet of a checklist.
func reasonsOf(c assessment.Checklist) []assessment.Reason {
	all := []assessment.Reason{{Rule: assessment.RuleScore}, {Rule: assessment.RuleNothing}}
	if c.Policy.Scoring.CueLimit != nil {
		all = append(all, assessment.Reason{Rule: assessment.RuleCues})
	}
	for _, s := range c.Steps() {
		all = append(all, assessment.Reason{Rule: assessment.RuleUnsafe, Step: s.No}, assessment.Reason{Rule: assessment.RuleCritical, Step: s.No})
		for _, m := range s.Measures {
			all = append(all, assessment.Reason{Rule: assessment.RuleValue, Step: s.No, Of: m.Name})
		}
	}
	return all
}
