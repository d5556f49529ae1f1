package integration

import (
	"go/ast"
	"go/token"
	"slices"
	"strconv"
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/phrase"
	"wellshown/assessment/postgres"
	"wellshown/assessment/wording"
)

// readByStaff are the places whose refusals no caregiver and nobody outside meets, with
// the reason; a folder ends in a slash. They are said in English. What is not listed here is said in every
// language.
var readByStaff = map[string][]string{
	"API: programs read English": {
		"api/",
	},
	"authors of checklists, lessons, drawings and items": {
		"assessment/catalog/", "assessment/drawing/", "assessment/lesson/", "assessment/knowledge/", "assessment/written/", "assessment/policy.go", "assessment/sheet.go",
		"assessment/accepted.go", "assessment/mark.go", "assessment/number.go", "assessment/unit.go", "assessment/scenario.go", "assessment/office/drafts.go",
	},
	"lists that are brought in, scans and workbooks": {
		"assessment/intake/", "assessment/workbook/", "assessment/scan/", "assessment/office/imports.go", "assessment/office/imports_carry.go", "assessment/office/carried_in.go", "assessment/office/handover_take.go", "assessment/office/handover_lines.go", "assessment/office/neighbours.go",
		"assessment/office/paper_pages.go", "assessment/office/paper_record.go", "web/handle_imports.go", "web/handle_paper.go",
	},
	"observing, and devices of those who observe": {
		"assessment/observer.go", "assessment/device_key.go", "assessment/made.go", "assessment/office/appointments.go", "assessment/office/devices_holding.go",
		"assessment/office/marking.go", "assessment/office/marking_all.go", "assessment/office/opening.go", "assessment/office/pack.go", "assessment/office/receive.go",
		"assessment/office/receive_judge.go", "assessment/office/receive_read.go", "assessment/office/recording.go", "assessment/office/review.go", "assessment/office/sheets.go",
		"assessment/office/undone.go", "assessment/office/corrections.go", "assessment/office/taking_back.go", "assessment/office/withdrawals.go", "assessment/office/exceptions.go",
		"assessment/office/care_log.go", "web/handle_start.go", "web/handle_person_exceptions.go", "web/handle_person_taking_back.go",
	},
	"drills, observed by educators, and their scenarios": {
		"assessment/drill.go", "assessment/office/drills.go", "assessment/office/drill_record.go", "assessment/office/drill_times.go", "assessment/office/drill_scenarios_write.go",
	},
	"checklists put in force by licensed educators": {
		"assessment/force.go", "assessment/office/agreeing.go", "assessment/office/before_force.go", "assessment/office/in_force.go", "assessment/office/proposing.go",
		"assessment/office/preview.go", "web/handle_in_force.go",
	},
	"agencies, people and children, as the agency keeps them": {
		"assessment/card.go", "assessment/office/home_record.go", "assessment/history.go", "assessment/person.go", "assessment/retention.go", "assessment/office/agencies.go", "assessment/office/agency_code.go",
		"assessment/office/clients.go", "assessment/office/clock.go", "assessment/office/desk.go", "assessment/office/equipment.go", "assessment/office/erasing.go",
		"assessment/office/founder.go", "assessment/office/heads.go", "assessment/office/parameters.go", "assessment/office/people.go", "assessment/office/people_edit.go",
		"assessment/office/qualifications.go", "assessment/office/requirements.go", "assessment/office/retention.go", "assessment/office/roles.go", "assessment/office/secrets.go",
		"assessment/office/teams.go", "assessment/office/tokens.go", "web/handle_people.go",
	},
	"lessons, drawings, knowledge checks, plans of learning and teaching, as the agency keeps them": {
		"assessment/office/drawings.go", "assessment/office/knowledge_bank.go", "assessment/office/knowledge_reading.go", "assessment/office/knowledge_item.go", "assessment/office/knowledge_rule.go", "web/handle_item.go",
		"web/handle_lesson_draft.go", "assessment/office/learning_days.go", "assessment/office/learning_target.go", "assessment/office/lesson_drafts.go", "assessment/office/lesson_force.go", "assessment/office/lessons.go", "web/handle_lesson_force.go",
		"assessment/office/teaching.go", "assessment/office/teaching_correct.go",
	},
	"plans of the way home, which the agency keeps": {
		"assessment/office/criteria.go", "assessment/office/criterion_form.go", "assessment/office/plan_days.go", "assessment/office/plan_sayers.go", "assessment/office/plan_signing.go",
		"assessment/office/plan_template.go", "assessment/office/plan_template_lines.go", "assessment/office/evidence.go", "web/handle_readiness_plan.go",
	},
	"shifts, visits, skills days, reminders and reports of the agency": {
		"assessment/pattern.go", "assessment/shift.go", "assessment/office/coverage.go", "assessment/office/giving.go", "assessment/office/pattern_days.go",
		"assessment/office/patterns.go", "assessment/office/reminders_desk.go", "assessment/office/reminders_set.go", "assessment/office/roster.go", "assessment/office/shift_desk.go",
		"assessment/office/shifts.go", "assessment/office/skills_days.go", "assessment/office/skills_days_begin.go", "assessment/office/skills_days_floor.go",
		"assessment/office/skills_days_plan.go", "assessment/office/visit_ways.go", "assessment/office/visit_weeks.go", "assessment/office/visits.go",
		"assessment/office/visits_hand.go", "assessment/office/visits_keep.go", "web/handle_overdue.go", "web/handle_reminders.go", "web/handle_standings.go", "web/handle_station.go",
		"web/handle_visits.go",
	},
	"incidents, practice and supervision": {
		"assessment/supervision.go", "assessment/office/in_service_log.go", "assessment/office/incident_end.go", "assessment/office/incidents.go", "assessment/office/practice.go",
		"assessment/office/supervision_log.go",
	},
	"surveyors and their packets": {
		"assessment/survey.go", "assessment/office/packet_making.go", "assessment/office/packet_question.go", "assessment/office/packets.go", "assessment/office/surveys.go",
	},
}

// A refusal that a caregiver can meet, or somebody who is not signed in, has a
// translation into every language that families read.
func TestHouseRefusesInEveryLanguage(t *testing.T) {
	needless := map[string]bool{}
	for _, places := range readByStaff {
		for _, place := range places {
			needless[place] = true
		}
	}
	for _, f := range sources(t) {
		if strings.HasPrefix(f.name, "cmd/") || strings.HasPrefix(f.name, "integration/") || strings.HasPrefix(f.name, "reports/") {
			continue
		}
		for _, says := range refusals(f.syntax) {
			for _, l := range wording.Languages[1:] {
				_, _, ok := wording.Known(l, says)
				switch place := staffPlace(f.name); {
				case !ok && place != "":
					delete(needless, place)
				case !ok:
					t.Errorf("%s: %q is not known in %s", f.name, says, l.Own())
				}
			}
		}
	}
	for f := range needless {
		t.Errorf("%s says no refusal in English alone: take it off the list", f)
	}
}

// staffPlace is the place of the list that a file lies in; empty for none.
func staffPlace(file string) string {
	for _, places := range readByStaff {
		for _, place := range places {
			if file == place || strings.HasSuffix(place, "/") && strings.HasPrefix(file, place) {
				return place
			}
		}
	}
	return ""
}

// refusals are the sentences that a file refuses with: fault.Of, faults at fields, and
// faults that are written out.
func refusals(file *ast.File) []string {
	var all []string
	note := func(e ast.Expr) {
		if says, ok := literal(e); ok && says != "%s" && strings.Contains(says, " ") {
			all = append(all, says)
		}
	}
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.CallExpr:
			name, at := "", 1
			switch fun := n.Fun.(type) {
			case *ast.SelectorExpr:
				name = fun.Sel.Name
				x, ok := fun.X.(*ast.Ident)
				_, called := fun.X.(*ast.CallExpr)
				if called || name == "Of" && (!ok || x.Name != "fault") {
					name = ""
				}
			case *ast.Ident:
				name = fun.Name
			}
			if name == "line" {
				at = 3
			}
			if slices.Contains([]string{"Of", "Add", "faultAt", "line"}, name) && len(n.Args) > at {
				note(n.Args[at])
			}
		case *ast.CompositeLit:
			if sel, ok := n.Type.(*ast.SelectorExpr); ok && sel.Sel.Name == "Fault" {
				for _, e := range n.Elts {
					kv, ok := e.(*ast.KeyValueExpr)
					if !ok {
						continue
					}
					note(kv.Value)
					if fields, ok := kv.Value.(*ast.CompositeLit); ok {
						for _, field := range fields.Elts {
							if kv, ok := field.(*ast.KeyValueExpr); ok {
								note(kv.Value)
							}
						}
					}
				}
			}
		}
		return true
	})
	return all
}

// literal is a string, also one that is put together from several.
func literal(e ast.Expr) (string, bool) {
	switch e := e.(type) {
	case *ast.BasicLit:
		if e.Kind == token.STRING {
			says, err := strconv.Unquote(e.Value)
			return says, err == nil
		}
	case *ast.BinaryExpr:
		a, first := literal(e.X)
		b, second := literal(e.Y)
		return a + b, first && second && e.Op == token.ADD
	}
	return "", false
}

// Words that the rules keep are said to families too: acts, roles, kinds, marks,
// outcomes, standings, and the parts of what is held about a person.
func TestHouseWordsAreKnownInEveryLanguage(t *testing.T) {
	var all []phrase.Phrase
	for _, a := range assessment.Acts() {
		all = append(all, a.Phrase())
	}
	for _, r := range assessment.Roles {
		all = append(all, r.Phrase())
	}
	for _, k := range assessment.CaregiverKinds {
		all = append(all, k.Phrase())
	}
	for _, m := range assessment.Marks {
		all = append(all, m.Phrase())
	}
	for _, o := range assessment.Outcomes {
		all = append(all, o.Phrase())
	}
	for _, part := range postgres.HeldParts() {
		all = append(all, phrase.Phrase{Format: part.Says})
	}
	if len(all) < 150 {
		t.Errorf("only %d words were looked at", len(all))
	}
	for _, p := range all {
		for _, l := range wording.Languages[1:] {
			if _, _, ok := wording.Known(l, p.Format); !ok {
				t.Errorf("%q is not known in %s", p.Format, l.Own())
			}
		}
	}
}
