package assessment

// Scope says for whom a competency in a skill holds.
type Scope string

const (
	// General competency holds for every child.
	General Scope = "general"
	// ClientSpecific competency is held per child and that child's equipment.
	ClientSpecific Scope = "client-specific"
)

// Kind is what a step asks of the observer.
type Kind string

// The four kinds of step.
const (
	Done     Kind = "done"       // seen to be done
	Timed    Kind = "timed"      // seconds on a named clock
	Measured Kind = "measured"   // a value read off, in a unit
	Said     Kind = "said aloud" // the meaning is spoken
)

// State is where a checklist revision stands.
type State string

// A revision goes from draft to in force to retired and never back. It is
// immutable from the moment it comes into force.
const (
	Draft   State = "draft"
	InForce State = "in force"
	Retired State = "retired"
)

// Checklist is the content of one revision: what is shown, and by which rules it
// is judged.
type Checklist struct {
	Code          string // short stable name, such as "circuit-change"
	Title         string
	Scope         Scope
	ManikinOnly   bool // never shown on a child
	CardNeeded    bool // held only while a resuscitation card is current too
	Purpose       string
	Safety        []string // cautions shown with it, first the general one
	Equipment     []string // generic parts to lay out
	Fitted        []string // kinds of equipment whose type a holding depends on, such as "ventilator"
	Prerequisites []string // codes of skills that must be current first
	Related       []string // codes of skills re-shown with it after a deficiency
	Parameters    []Parameter
	Sections      []Section
	Policy        Policy
	Sources       []string // where its content and numbers come from
}

// Section groups steps under a heading.
type Section struct {
	Title string
	Steps []Step
}

// Step is one line of a checklist.
type Step struct {
	No          int // 1..n through all sections
	Text        string
	Kind        Kind
	Critical    bool
	Because     string // why it is critical
	Weight      int    // 1 or more
	Least       Mark   // least effective mark that a critical step accepts
	MayNotApply string // when "not applicable" may be chosen; empty means never
	Note        string // for the observer
	Measures    []Measure
}

// Measure is one value that a timed or measured step records. Without bounds it
// is recorded and not judged.
type Measure struct {
	Name      string
	Unit      string // as the range is written; empty takes the unit of its parameter
	Low, High *Bound
	Exclusive bool   // both bounds strict
	Magnitude bool   // compare without sign: −100 and 100 mmHg are one reading
	Either    string // measures sharing this word are alternatives: at least one is recorded
}

// Bound is one end of an accepted range: a value, a parameter of the child, or
// another value of the same step; times a factor; plus or minus a parameter.
type Bound struct {
	Value     Number
	Parameter string
	Measure   string
	Times     *Number
	Plus      string
	Minus     string
}

// Parameter is one value of the child that a checklist relies on.
type Parameter struct {
	Name    string
	Says    string // what it is, in words
	Unit    string // empty for words
	Default *Quantity
}

// Steps lists all steps in order.
func (c Checklist) Steps() []Step {
	var all []Step
	for _, s := range c.Sections {
		all = append(all, s.Steps...)
	}
	return all
}

// Step finds step no.
func (c Checklist) Step(no int) (Step, bool) {
	for _, section := range c.Sections {
		for _, s := range section.Steps {
			if s.No == no {
				return s, true
			}
		}
	}
	return Step{}, false
}

// Judged reports whether the measure has a range.
func (m Measure) Judged() bool { return m.Low != nil || m.High != nil }

func (m Measure) bounds() []*Bound {
	var all []*Bound
	for _, b := range []*Bound{m.Low, m.High} {
		if b != nil {
			all = append(all, b)
		}
	}
	return all
}

// Uses lists the parameters that a bound needs.
func (b Bound) Uses() []string {
	var names []string
	for _, n := range []string{b.Parameter, b.Plus, b.Minus} {
		if n != "" {
			names = append(names, n)
		}
	}
	return names
}

// Revision is one version of a skill's checklist in an agency.
type Revision struct {
	ID     RevisionID
	Skill  SkillID
	Number int // 1, 2, 3 … within the skill
	State  State
	Checklist
}

// Judges reports whether a range of the checklist needs a parameter.
func (c Checklist) Judges(parameter string) bool {
	for _, s := range c.Steps() {
		for _, m := range s.Measures {
			for _, b := range m.bounds() {
				for _, name := range b.Uses() {
					if name == parameter {
						return true
					}
				}
			}
		}
	}
	return false
}
