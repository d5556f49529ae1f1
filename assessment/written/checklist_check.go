package written

import (
	"regexp"
	"strconv"
	"strings"

	"wellshown/assessment"
)

// MaxSteps is the most steps of one checklist: far above any real one, and few
// enough that every sheet is scored and every pair compared at once.
const MaxSteps = 500

// check adds what the core finds, save what follows from a part that could not
// be read in the first place.
func (r *reader) check(c assessment.Checklist, unread []Fault) {
	for _, p := range c.Check() {
		path := p.Path
		if within, ok := strings.CutSuffix(path, ".because"); ok {
			path = within + ".critical"
		}
		if path != "policy" && !covered(path, unread) {
			r.at(path, r.lineOf(path), "%s", p.Says)
		}
	}
	if n := len(c.Steps()); n > MaxSteps {
		r.at("sections", r.lineOf("sections"), "there are %d steps: at most %d are read", n, MaxSteps)
	}
	r.policy(c.Policy, unread)
	for i := range r.found {
		r.found[i].Step = r.stepOf(r.found[i].Path)
	}
}

// covered reports whether a fault stands at path or at what it lies within.
func covered(path string, unread []Fault) bool {
	for _, f := range unread {
		if f.Path == "" || path == f.Path || strings.HasPrefix(path, f.Path+".") || strings.HasPrefix(path, f.Path+"[") {
			return true
		}
	}
	return false
}

// policy judges each part by itself, where the core stops at the first that is
// wrong; how they fit together only once each is right.
func (r *reader) policy(p assessment.Policy, unread []Fault) {
	parts := []struct {
		path string
		err  error
	}{
		{"policy", p.Scoring.Check()}, {"policy.award", p.Award.Check()}, {"policy.validity", p.Validity.Check()},
	}
	sound := true
	for _, part := range parts {
		skip := partUnread(part.path, unread)
		if part.err != nil && !skip {
			r.at(part.path, r.lineOf(part.path), "%v", part.err)
		}
		sound = sound && part.err == nil && !skip
	}
	if err := p.Check(); err != nil && sound {
		r.at("policy", r.lineOf("policy"), "%v", err)
	}
}

// partUnread reports whether a part of the policy was not read whole. What is
// said of scoring stands in the policy itself.
func partUnread(part string, unread []Fault) bool {
	for _, f := range unread {
		at := "policy"
		for _, own := range []string{"policy.award", "policy.validity"} {
			if strings.HasPrefix(f.Path, own) {
				at = own
			}
		}
		whole := f.Path == "" || f.Path == "policy"
		if whole || strings.HasPrefix(f.Path, "policy") && at == part {
			return true
		}
	}
	return false
}

// lineOf is the line of a path, or of the nearest part around it.
func (r *reader) lineOf(path string) int {
	for {
		if line, ok := r.lines[path]; ok {
			return line
		}
		path = path[:max(0, strings.LastIndexAny(path, ".["))]
	}
}

var stepPath = regexp.MustCompile(`^sections\[([0-9]+)\]\.steps\[([0-9]+)\]`)

// stepOf counts the steps up to the one that a path names.
func (r *reader) stepOf(path string) int {
	m := stepPath.FindStringSubmatch(path)
	if m == nil {
		return 0
	}
	section, _ := strconv.Atoi(m[1])
	step, _ := strconv.Atoi(m[2])
	for _, n := range r.steps[:section] {
		step += n
	}
	return step + 1
}
