package demo

import (
	"sync"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

// signer makes the signatures while the story goes on, so that both cores of a
// small machine have work. They are made one after another, in the order of their
// instants, on a clock of their own. Whatever depends on one waits for it first,
// so that everything comes out as if it had been done in one row.
type signer struct {
	office *office.Office
	clock  time.Time

	sync.Mutex
	changed *sync.Cond
	waiting []signature
	open    map[assessment.PersonID]map[string]int // of each learner, by skill: not made yet
	undone  int
	ended   bool
	failed  error
}

// signature is one to be made.
type signature struct {
	at      time.Time
	showing *showing
	part    string
	by      *person
}

func newSigner() *signer {
	g := &signer{open: map[assessment.PersonID]map[string]int{}}
	g.changed = sync.NewCond(g)
	return g
}

func (g *signer) now() time.Time { return g.clock }

// add takes on a signature.
func (g *signer) add(s signature) {
	g.Lock()
	defer g.Unlock()
	learner, skill := s.showing.learner.Person, s.showing.course.code
	if g.open[learner] == nil {
		g.open[learner] = map[string]int{}
	}
	g.open[learner][skill]++
	g.undone++
	g.waiting = append(g.waiting, s)
	g.changed.Broadcast()
}

// work makes signatures until there are no more to come or one fails.
func (g *signer) work(s *story) {
	for {
		next, ok := g.next()
		if !ok {
			return
		}
		g.clock = next.at
		err := s.sign(g.office, next)
		g.Lock()
		g.open[next.showing.learner.Person][next.showing.course.code]--
		g.undone--
		if g.failed == nil {
			g.failed = err
		}
		g.changed.Broadcast()
		g.Unlock()
	}
}

func (g *signer) next() (signature, bool) {
	g.Lock()
	defer g.Unlock()
	for len(g.waiting) == 0 && !g.ended {
		g.changed.Wait()
	}
	if len(g.waiting) == 0 || g.failed != nil {
		return signature{}, false
	}
	next := g.waiting[0]
	g.waiting = g.waiting[1:]
	return next, true
}

// end says that there are no more to come.
func (g *signer) end() {
	g.Lock()
	defer g.Unlock()
	g.ended = true
	g.changed.Broadcast()
}

// settle waits until somebody's signatures in some skills are made; in all skills
// for none.
func (g *signer) settle(who assessment.PersonID, skills ...string) error {
	return g.wait(func() bool {
		if len(skills) == 0 {
			for _, n := range g.open[who] {
				if n > 0 {
					return false
				}
			}
		}
		for _, skill := range skills {
			if g.open[who][skill] > 0 {
				return false
			}
		}
		return true
	})
}

// settleAll waits until all signatures are made.
func (g *signer) settleAll() error { return g.wait(func() bool { return g.undone == 0 }) }

func (g *signer) wait(settled func() bool) error {
	g.Lock()
	defer g.Unlock()
	for g.failed == nil && !settled() {
		g.changed.Wait()
	}
	return g.failed
}

// signLater plans a signature.
func (s *story) signLater(at time.Time, w *showing, part string, by *person) {
	s.beside(at, func() error {
		s.signer.add(signature{s.clock, w, part, by})
		return nil
	})
}

// sign makes a signature. What was taken back in the meantime is not signed any
// more.
func (s *story) sign(o *office.Office, g signature) error {
	_, err := o.Sign(s.ctx, g.by.Actor, office.SignForm{Demonstration: g.showing.sheet.ID, Part: g.part, Proof: office.ByPassword(g.by.secret)})
	if fault.KindOf(err) == fault.Refused && g.showing.signs >= late {
		return nil
	}
	if err != nil {
		return g.showing.fail("sign as "+g.part, err)
	}
	return nil
}
