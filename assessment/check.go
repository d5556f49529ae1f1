package assessment

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"wellshown/assessment/fault"
)

// Problem is one fault in a checklist: where, as a path such as
// "sections[0].steps[2].measures[0].low" (indexes from 0), at which step, and
// what is wrong, in words.
type Problem struct {
	Path string
	Step int // 0 where it concerns no single step
	Says string
}

var codeForm = regexp.MustCompile(`^[a-z][a-z0-9]*(-[a-z0-9]+)*$`)
var nameForm = regexp.MustCompile(`^[a-z][a-z0-9_]*$`)

// Check lists everything that keeps a checklist from being used. A checklist
// without problems can be scored whatever an observer enters.
func (c Checklist) Check() []Problem {
	k := &checker{list: c, params: map[string]Parameter{}}
	k.head()
	k.parameters()
	no := 0
	for i, s := range c.Sections {
		if strings.TrimSpace(s.Title) == "" {
			k.at(0, fmt.Sprintf("sections[%d].title", i), "the section has no title")
		}
		for j, step := range s.Steps {
			no++
			k.step(fmt.Sprintf("sections[%d].steps[%d]", i, j), no, step)
		}
	}
	if no == 0 {
		k.at(0, "sections", "there is no step")
	}
	if err := c.Policy.Check(); err != nil {
		k.at(0, "policy", "%v", err)
	}
	return k.problems
}

// Err is nil where there are no problems, else one refusal that lists them all.
func (c Checklist) Err() error {
	problems := c.Check()
	if len(problems) == 0 {
		return nil
	}
	var f fault.Fields
	for _, p := range problems {
		f.Add(p.Path, "%s", p.Says)
	}
	return f.Err()
}

type checker struct {
	list     Checklist
	params   map[string]Parameter
	problems []Problem
}

func (k *checker) at(step int, path, format string, args ...any) {
	k.problems = append(k.problems, Problem{Path: path, Step: step, Says: fmt.Sprintf(format, args...)})
}

func (k *checker) head() {
	c := k.list
	if !codeForm.MatchString(c.Code) || len(c.Code) > 40 {
		k.at(0, "code", "the code %q is not lower-case words joined by hyphens, at most 40 characters", c.Code)
	}
	if strings.TrimSpace(c.Title) == "" {
		k.at(0, "title", "there is no title")
	}
	if c.Scope != General && c.Scope != ClientSpecific {
		k.at(0, "scope", "the scope is %q: it is general or client-specific", c.Scope)
	}
	if len(c.Fitted) > 0 && c.Scope != ClientSpecific {
		k.at(0, "fitted", "only a client-specific skill depends on a client's equipment")
	}
	if len(c.Safety) == 0 {
		k.at(0, "safety", "there is no caution")
	}
	for i, p := range c.Prerequisites {
		switch {
		case p == c.Code:
			k.at(0, fmt.Sprintf("prerequisites[%d]", i), "a skill cannot be its own prerequisite")
		case slices.Index(c.Prerequisites, p) < i:
			k.at(0, fmt.Sprintf("prerequisites[%d]", i), "%s is named twice", p)
		}
	}
}

func (k *checker) parameters() {
	for i, p := range k.list.Parameters {
		path := fmt.Sprintf("parameters[%d]", i)
		if !nameForm.MatchString(p.Name) {
			k.at(0, path+".name", "the name %q is not lower-case words joined by underscores", p.Name)
		}
		if _, twice := k.params[p.Name]; twice {
			k.at(0, path+".name", "the parameter %s is declared twice", p.Name)
		}
		if p.Default != nil && p.Default.Unit != p.Unit {
			k.at(0, path+".default", "the default is in %s, the parameter in %s", unitName(p.Default.Unit), unitName(p.Unit))
		}
		k.params[p.Name] = p
	}
}

func (k *checker) step(path string, no int, s Step) {
	at := func(sub, format string, args ...any) { k.at(no, path+sub, format, args...) }
	if s.No != no {
		at(".no", "the step is numbered %d where %d comes next", s.No, no)
	}
	if strings.TrimSpace(s.Text) == "" {
		at(".text", "the step has no text")
	}
	if s.Weight < 1 || s.Weight > 100 {
		at(".weight", "the weight is %d: it is a whole number from 1 to 100", s.Weight)
	}
	if s.Critical && strings.TrimSpace(s.Because) == "" {
		at(".because", "a critical step says why it is critical")
	}
	if s.Critical && !s.Least.AtLeast(Assisted) {
		at(".least", "the least mark is %q: it is independent, cued or assisted", s.Least)
	}
	k.kind(path, no, s)
	k.measures(path, no, s)
	for _, name := range braced(s.Text + s.Note + s.MayNotApply) {
		if _, ok := k.params[name]; !ok {
			at("", "{%s} is no parameter of this checklist", name)
		}
	}
}

func (k *checker) kind(path string, no int, s Step) {
	switch s.Kind {
	case Done, Said:
		if len(s.Measures) > 0 {
			k.at(no, path+".kind", "a step of the kind %s records no values: make it timed or measured", s.Kind)
		}
	case Timed, Measured:
		if len(s.Measures) == 0 {
			k.at(no, path+".measures", "a %s step needs a value to record", s.Kind)
		}
	default:
		k.at(no, path+".kind", "the kind is %q: it is done, timed, measured or said aloud", s.Kind)
	}
	for i, m := range s.Measures {
		if s.Kind == Timed && m.Unit != "s" {
			k.at(no, fmt.Sprintf("%s.measures[%d].unit", path, i), "a timed step is in s, not in %s", unitName(m.Unit))
		}
	}
}

var bracedForm = regexp.MustCompile(`\{([a-z0-9_]+)\}`)

func braced(text string) []string {
	var names []string
	for _, m := range bracedForm.FindAllStringSubmatch(text, -1) {
		names = append(names, m[1])
	}
	return names
}
