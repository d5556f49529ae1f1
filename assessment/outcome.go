package assessment

import "wellshown/assessment/phrase"

// Outcome is what the rules make of the marks.
type Outcome string

// The three outcomes of a return demonstration.
const (
	Competent        Outcome = "competent"
	NotYetCompetent  Outcome = "not yet competent"
	StoppedForSafety Outcome = "stopped for safety"
)

// Rule names what a sheet failed.
type Rule string

// The rules, in the fixed order in which one step's reasons are given; the last
// three concern the whole sheet.
const (
	RuleUnsafe   Rule = "unsafe"
	RuleCritical Rule = "critical"
	RuleValue    Rule = "value"
	RuleCues     Rule = "cues"
	RuleScore    Rule = "score"
	RuleNothing  Rule = "nothing shown"
)

// Reason is one rule that failed, or one value out of range, with its step.
type Reason struct {
	Rule Rule
	Step int    // 0 where the rule concerns the whole sheet
	Of   string // the measure concerned, for RuleValue
}

// Result is an outcome with everything that made it so.
type Result struct {
	Outcome   Outcome
	Score     *Number // over the applicable steps; nil where there is none
	Reasons   []Reason
	Effective map[int]Mark // mark of each applicable step after its values were judged
}

// Score judges a sheet. It returns what is open instead where the sheet cannot
// be recorded yet, and an error where the sheet does not fit its checklist or a
// value's unit does not fit its range.
func Score(c Checklist, params Parameters, sheet Sheet) (Result, []Open, error) {
	entries, err := c.entries(sheet)
	if err != nil {
		return Result{}, nil, err
	}
	j := judge{policy: c.Policy.Scoring, result: Result{Effective: map[int]Mark{}}}
	known := c.withDefaults(params)
	var open []Open
	for _, step := range c.Steps() {
		gaps, err := j.step(step, entries[step.No], known)
		if err != nil {
			return Result{}, nil, err
		}
		open = append(open, gaps...)
	}
	if len(open) > 0 && !sheet.Stopped {
		return Result{}, open, nil
	}
	return j.close(sheet.Stopped), nil, nil
}

// withDefaults adds the checklist's defaults for what the child's record lacks.
func (c Checklist) withDefaults(params Parameters) Parameters {
	known := Parameters{}
	for _, p := range c.Parameters {
		if p.Default != nil {
			known[p.Name] = *p.Default
		}
	}
	for name, q := range params {
		known[name] = q
	}
	return known
}

// judge walks the steps once and keeps the sums.
type judge struct {
	policy        Scoring
	earned, total Number
	cued          int
	result        Result
}

func (j *judge) step(s Step, e SheetEntry, known Parameters) ([]Open, error) {
	if gap, open := s.openEntry(e); open {
		return []Open{gap}, nil
	}
	if e.NotApplicable {
		return nil, nil
	}
	out, gaps, err := s.outOfRange(e, known)
	if err != nil || len(gaps) > 0 {
		return gaps, err
	}
	effective := e.Mark
	if len(out) > 0 && effective.AtLeast(NotMet) {
		effective = NotMet
	}
	// What the observer marked is what counts against the cue limit: a value out
	// of range does not undo the cue.
	if e.Mark == Cued {
		j.cued++
	}
	j.note(s, effective, out)
	return nil, nil
}

// openEntry reports what keeps a step open, its ranges aside.
func (s Step) openEntry(e SheetEntry) (Open, bool) {
	switch {
	case e.NotApplicable && s.MayNotApply == "":
		return Open{Step: s.No, Why: WhyNotAllowed}, true
	case e.NotApplicable && !Says(e.Reason):
		return Open{Step: s.No, Why: WhyReason}, true
	case e.NotApplicable:
		return Open{}, false
	case e.Mark == "":
		return Open{Step: s.No, Why: WhyMark}, true
	}
	if name, lacks := s.missing(e); lacks && e.Mark.AtLeast(Assisted) {
		return Open{Step: s.No, Why: WhyValue, Of: name}, true
	}
	return Open{}, false
}

func (j *judge) note(s Step, effective Mark, out []string) {
	weight := Whole(s.Weight)
	j.total = j.total.Plus(weight)
	j.earned = j.earned.Plus(weight.Times(j.policy.Credits[effective]))
	j.result.Effective[s.No] = effective
	if effective == Unsafe {
		j.because(RuleUnsafe, s.No, "")
	}
	if s.Critical && !effective.AtLeast(s.Least) {
		j.because(RuleCritical, s.No, "")
	}
	for _, name := range out {
		j.because(RuleValue, s.No, name)
	}
}

func (j *judge) because(r Rule, step int, of string) {
	j.result.Reasons = append(j.result.Reasons, Reason{Rule: r, Step: step, Of: of})
}

// close adds the rules for the whole sheet and draws the outcome. Values out of
// range are reasons worth knowing even where the sheet passes with them.
func (j *judge) close(stopped bool) Result {
	if l := j.policy.CueLimit; l != nil && j.cued > *l {
		j.because(RuleCues, 0, "")
	}
	if j.total.Sign() > 0 {
		score := j.earned.Over(j.total)
		j.result.Score = &score
		if score.Cmp(j.policy.PassMark) < 0 {
			j.because(RuleScore, 0, "")
		}
	} else {
		j.because(RuleNothing, 0, "")
	}
	j.result.Outcome = Competent
	for _, r := range j.result.Reasons {
		if r.Rule != RuleValue {
			j.result.Outcome = NotYetCompetent
		}
	}
	if stopped {
		j.result.Outcome = StoppedForSafety
	}
	return j.result
}

// InWords says what failed, in English.
func (r Reason) InWords(c Checklist) string { return r.Phrase(c).String() }

// Phrase says what failed, for the person who reads it.
func (r Reason) Phrase(c Checklist) phrase.Phrase {
	step, _ := c.Step(r.Step)
	switch r.Rule {
	case RuleUnsafe:
		return phrase.Of("Step %d was unsafe: %s", r.Step, phrase.Step(step.Text))
	case RuleCritical:
		return phrase.Of("Critical step %d was not shown well enough: %s", r.Step, phrase.Step(step.Text))
	case RuleValue:
		return phrase.Of("Step %d: %s is outside its accepted range.", r.Step, phrase.Step(r.Of))
	case RuleCues:
		return phrase.Of("More steps were cued than the %d allowed.", *c.Policy.Scoring.CueLimit)
	case RuleScore:
		return phrase.Of("The score is below the pass mark of %s %%.", c.Policy.Scoring.PassMark.Percent())
	}
	return phrase.Of("No step was shown in full.")
}

// Phrase says the outcome.
func (o Outcome) Phrase() phrase.Phrase {
	switch o {
	case Competent:
		return phrase.Of("competent")
	case NotYetCompetent:
		return phrase.Of("not yet competent")
	case StoppedForSafety:
		return phrase.Of("stopped for safety")
	}
	return phrase.Text(string(o))
}
