package assessment_test

import (
	"slices"
	"testing"
	"time"

	"wellshown/assessment"
)

// 21 CFR 11.200(a)(3): use of a signature by another than its owner takes two or
// more. Who could have acted as whom alone is told from the links, over any number
// of them; the cases are worked out by hand, common practice, no source.
func TestHandsOverManyLinks(t *testing.T) {
	at := func(hour int) time.Time { return time.Date(2026, 1, 5, hour, 0, 0, 0, time.UTC) }
	link := func(person, by assessment.PersonID, made int) assessment.UsedLink {
		return assessment.UsedLink{Person: person, IssuedBy: by, IssuedAt: at(made), UsedAt: at(made).Add(time.Minute)}
	}
	vouched := func(l assessment.UsedLink, by assessment.PersonID, hour int) assessment.UsedLink {
		l.VouchedBy, l.VouchedAt = by, at(hour)
		return l
	}
	proven := func(l assessment.UsedLink) assessment.UsedLink { l.Proven = true; return l }
	for _, c := range []struct {
		name  string
		links []assessment.UsedLink // those used last first
		want  []assessment.PersonID // all who could act as "nan" at the end
	}{
		{"a founder", nil, []assessment.PersonID{"nan"}},
		{"invited", []assessment.UsedLink{link("nan", "ada", 1)}, []assessment.PersonID{"ada", "nan"}},
		{"over two links", []assessment.UsedLink{link("nan", "bob", 2), link("bob", "ada", 1)}, []assessment.PersonID{"ada", "bob", "nan"}},
		{"vouched for by a founder", []assessment.UsedLink{vouched(link("nan", "ada", 1), "cory", 2)}, []assessment.PersonID{"nan"}},
		{"vouched for by one of the issuer's", []assessment.UsedLink{vouched(link("nan", "ada", 2), "fay", 3), link("fay", "ada", 1)}, []assessment.PersonID{"ada", "nan"}},
		{"vouched for by one whom the issuer's one made", []assessment.UsedLink{vouched(link("nan", "ada", 3), "gus", 4), link("gus", "fay", 2), link("fay", "ada", 1)}, []assessment.PersonID{"ada", "nan"}},
		{"vouched for by one who was vouched for", []assessment.UsedLink{vouched(link("nan", "ada", 3), "fay", 4), vouched(link("fay", "ada", 1), "cory", 2)}, []assessment.PersonID{"nan"}},
		{"vouched for by one who was vouched for later", []assessment.UsedLink{vouched(link("nan", "ada", 2), "fay", 3), vouched(link("fay", "ada", 1), "cory", 9)}, []assessment.PersonID{"nan"}},
		{"by an issuer who got another secret later", []assessment.UsedLink{vouched(link("bob", "dee", 5), "cory", 6), link("nan", "bob", 2), link("bob", "ada", 1)}, []assessment.PersonID{"ada", "bob", "nan"}},
		{"by an issuer who had a founder's secret still", []assessment.UsedLink{link("bob", "ada", 5), link("nan", "bob", 2)}, []assessment.PersonID{"bob", "nan"}},
		{"proven by a second secret of before", []assessment.UsedLink{proven(link("nan", "ada", 3)), vouched(link("nan", "ada", 1), "cory", 2)}, []assessment.PersonID{"nan"}},
		{"proven by one that the issuer could have set", []assessment.UsedLink{proven(link("nan", "bob", 3)), link("bob", "ada", 2), link("nan", "ada", 1)}, []assessment.PersonID{"ada", "nan"}},
		{"two who vouch for each other", []assessment.UsedLink{vouched(link("nan", "ada", 1), "fay", 2), vouched(link("fay", "ada", 1), "nan", 2)}, []assessment.PersonID{"ada", "nan"}},
		{"two at one instant for each other", []assessment.UsedLink{
			{Person: "nan", IssuedBy: "bob", IssuedAt: at(1), UsedAt: at(1)}, {Person: "bob", IssuedBy: "nan", IssuedAt: at(1), UsedAt: at(1)}}, []assessment.PersonID{"bob", "nan"}},
	} {
		if got := assessment.NewHands(c.links).As("nan", at(12)); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}
