package assessment

import (
	"maps"
	"slices"
	"time"
)

// UsedLink is a link that somebody came to a secret by.
type UsedLink struct {
	Person, IssuedBy PersonID
	IssuedAt, UsedAt time.Time
	Proven           bool     // a second secret of their own was shown with it
	VouchedBy        PersonID // empty: nobody
	VouchedAt        time.Time
}

// Hands tells who besides its owner could have come to somebody's secret alone, over
// any number of links. Whoever makes a link could use it, whoever could act as them
// could have made it, and so on. Where somebody vouched it takes one who could have
// been both, the one who made the link and the one who vouched.
type Hands struct {
	links  []UsedLink
	of     map[PersonID][]int // by person, the one used last comes first
	behind []people
}

// people is a set of people; nil: anybody.
type people map[PersonID]bool

func (a people) and(b people) people {
	if a == nil {
		return b
	}
	if b == nil {
		return a
	}
	all := people{}
	for p := range a {
		if b[p] {
			all[p] = true
		}
	}
	return all
}

// NewHands weighs all links of an agency that were used. Of each person's the one
// used last comes first.
func NewHands(links []UsedLink) Hands {
	h := Hands{links: links, of: map[PersonID][]int{}, behind: make([]people, len(links))}
	for i, l := range links {
		h.of[l.Person] = append(h.of[l.Person], i)
	}
	// It could have been anybody until it is known whom it could not, so that two
	// who vouched for each other clear neither.
	for fewer := true; fewer; {
		fewer = false
		for i := len(links) - 1; i >= 0; i-- {
			now, before := h.weigh(i), h.behind[i]
			fewer = fewer || now != nil && (before == nil || len(now) < len(before))
			h.behind[i] = now
		}
	}
	return h
}

// weigh is who could have used a link, by what is known so far of those before it.
func (h Hands) weigh(i int) people {
	l := h.links[i]
	all := h.as(l.IssuedBy, l.IssuedAt)
	if l.VouchedBy != "" {
		all = all.and(h.as(l.VouchedBy, l.VouchedAt))
	}
	if l.Proven {
		all = all.and(h.before(i))
	}
	delete(all, l.Person)
	return all
}

// as are all who could have acted as somebody at an instant, and they themselves.
func (h Hands) as(p PersonID, at time.Time) people {
	all := people{p: true}
	for _, i := range h.of[p] {
		if h.links[i].UsedAt.After(at) {
			continue
		}
		if h.behind[i] == nil {
			return nil
		}
		maps.Copy(all, h.behind[i])
		break
	}
	return all
}

// before is who was behind the secret that the owner of a link had before it.
func (h Hands) before(i int) people {
	mine := h.of[h.links[i].Person]
	if next := slices.Index(mine, i) + 1; next < len(mine) {
		return maps.Clone(h.behind[mine[next]])
	}
	return people{}
}

// As are all who could have acted as somebody at an instant, each alone: they
// themselves, and whoever is behind their secret.
func (h Hands) As(p PersonID, at time.Time) []PersonID {
	all := h.as(p, at)
	if all == nil { // links that were made for each other at one instant: no telling
		all = people{p: true}
		for _, l := range h.links {
			all[l.Person], all[l.IssuedBy] = true, true
		}
	}
	return slices.Sorted(maps.Keys(all))
}

// OneAndTheSame reports whether one person alone could have acted as both.
func OneAndTheSame(a, b []PersonID) bool {
	return slices.ContainsFunc(a, func(p PersonID) bool { return slices.Contains(b, p) })
}
