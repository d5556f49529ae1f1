package office

import (
	"context"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/knowledge"
	"wellshown/assessment/postgres"
)

// usualRule is where an educator begins: nothing of it holds before it is set. Nine of ten
// is the nearest share of ten items that a published pass mark of caregivers' skills allows
// (Barsuk and others 2019: 94 to 99 %); the rest is common practice, no source.
var usualRule = postgres.KnowledgeRule{Asked: knowledge.NotAsked, Length: 10, MarkRight: 9, MarkOf: 10, Months: 12, WaitHours: 24, Tries: 3}

// ruleNow is the rule of a skill as it stands; not asked where nobody has set one.
func ruleNow(ctx context.Context, tx *postgres.Tx, now Moment, skill assessment.SkillID) (postgres.KnowledgeRule, error) {
	return ruleAt(ctx, tx, skill, now.At)
}

func ruleAt(ctx context.Context, tx *postgres.Tx, skill assessment.SkillID, at time.Time) (postgres.KnowledgeRule, error) {
	r, err := tx.Knowledge.RuleAt(ctx, skill, at)
	if fault.KindOf(err) == fault.NotFound {
		r, err = usualRule, nil
		r.SkillID = skill
	}
	if err != nil {
		return r, fmt.Errorf("read the rule of a check: %w", err)
	}
	return r, nil
}

// RuleForm sets how a check is asked and judged.
type RuleForm struct {
	Skill     string
	Asked     string
	Length    string // items of a form
	PassMark  string // "9/10", "90 %" or "0.9"
	Months    string // 0 or nothing: without end
	WaitHours string
	Tries     string // 0 or nothing: as many as they like
	OpenFor   string // minutes from beginning to handing in; nothing: the usual time
}

// SetCheckRule sets it from now on. Sittings that were begun are judged by the rule by
// which they were begun. Nobody's standing changes.
func (o *Office) SetCheckRule(ctx context.Context, by assessment.Actor, f RuleForm) error {
	return o.as(ctx, by, assessment.EditChecks, func(tx *postgres.Tx, now Moment) error {
		r, err := f.read()
		if err != nil {
			return err
		}
		skill, bank, err := o.heldBank(ctx, tx, f.Skill)
		if err != nil {
			return err
		}
		if have := len(inUse(bank)); r.Asked != knowledge.NotAsked && have < r.Length {
			return faultAt("length", fmt.Sprintf("The bank has %d items in use. Ask at most so many, or add items first.", have))
		}
		if r.ID, err = newID[assessment.RecordID](o, now.At); err != nil {
			return err
		}
		r.SkillID, r.SetBy, r.SetAt = skill.ID, by.Person, now.At
		if err := tx.Knowledge.SetRule(ctx, r); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.EditChecks, "knowledge_rule", string(r.ID))
	})
}

func (f RuleForm) read() (postgres.KnowledgeRule, error) {
	var faults form
	r := postgres.KnowledgeRule{Asked: oneOf(&faults, "asked", f.Asked, knowledge.AskedAs)}
	r.Length = faults.from("length", f.Length, 1, 100)
	r.Months, r.WaitHours, r.Tries = faults.from("months", f.Months, 0, 120), faults.from("wait_hours", f.WaitHours, 0, 720), faults.from("tries", f.Tries, 0, 20)
	if minutes := int(knowledge.UsualOpen / time.Minute); strings.TrimSpace(f.OpenFor) == "" {
		r.OpenMinutes = &minutes
	} else {
		minutes = faults.from("open_minutes", f.OpenFor, 10, 1440)
		r.OpenMinutes = &minutes
	}
	r.MarkRight, r.MarkOf = faults.share("pass_mark", f.PassMark)
	return r, faults.Err()
}

var wholeForm = regexp.MustCompile(`^[0-9]{1,4}$`)

// from is a whole number in bounds; nothing is none where that is allowed.
func (f *form) from(field, typed string, low, high int) int {
	s := strings.TrimSpace(typed)
	if s == "" && low == 0 {
		return 0
	}
	n, err := strconv.Atoi(s)
	if !wholeForm.MatchString(s) || err != nil || n < low || n > high {
		f.Add(field, "Give a whole number from %d to %d.", low, high)
	}
	return n
}

var (
	fractionForm = regexp.MustCompile(`^([0-9]{1,4}) ?/ ?([0-9]{1,4})$`)
	percentForm  = regexp.MustCompile(`^([0-9]{1,3})(?:[.,]([0-9]))? ?%$`)
)

// share reads a share of a whole exactly: of so many, so many.
func (f *form) share(field, typed string) (part, whole int) {
	s := strings.TrimSpace(typed)
	if m := fractionForm.FindStringSubmatch(s); m != nil {
		part, _ = strconv.Atoi(m[1])
		whole, _ = strconv.Atoi(m[2])
	} else if m := percentForm.FindStringSubmatch(s); m != nil {
		part, _ = strconv.Atoi(m[1])
		if whole = 100; m[2] != "" {
			tenth, _ := strconv.Atoi(m[2])
			part, whole = 10*part+tenth, 1000
		}
	}
	if part < 1 || whole < part || whole > 1000 {
		f.Add(field, "Give the share that must be right, such as 9/10 or 90 %%, at most all.")
	}
	return part, whole
}
