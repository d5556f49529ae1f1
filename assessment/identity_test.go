package assessment_test

import (
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
)

// 21 CFR 11.200(a)(3): a signature is administered so that its use by anyone other
// than its owner takes two or more people. Whoever makes a link is one of them.
func TestWhoMaySignWithASecretFromALink(t *testing.T) {
	const owner, issuer, third = assessment.PersonID("owner"), assessment.PersonID("issuer"), assessment.PersonID("third")
	from := func(p assessment.LinkPurpose, vouched bool) assessment.Origin {
		o := assessment.Origin{Person: owner, Purpose: p, IssuedBy: issuer, IssuerName: "Ada Minton", Vouched: vouched}
		if !vouched {
			o.Behind = []assessment.PersonID{issuer, "behind the issuer"}
		}
		return o
	}
	for _, c := range []struct {
		name   string
		origin assessment.Origin
		others []assessment.PersonID
		may    bool
	}{
		{"no link", assessment.Origin{Person: owner}, []assessment.PersonID{issuer}, true},
		{"invited, alone", from(assessment.Invitation, false), nil, true},
		{"invited, beside a third", from(assessment.Invitation, false), []assessment.PersonID{owner, third}, true},
		{"invited, beside who invited them", from(assessment.Invitation, false), []assessment.PersonID{owner, issuer}, false},
		{"invited, beside one whose password comes from the same hands", from(assessment.Invitation, false), []assessment.PersonID{third, "behind the issuer"}, false},
		{"invited and vouched for, beside who invited them", from(assessment.Invitation, true), []assessment.PersonID{issuer}, true},
		{"reset, alone", from(assessment.Reset, false), nil, false},
		{"reset, beside a third", from(assessment.Reset, false), []assessment.PersonID{third}, false},
		{"reset and vouched for", from(assessment.Reset, true), []assessment.PersonID{issuer}, true},
	} {
		err := c.origin.MaySign(c.others...)
		if (err == nil) != c.may {
			t.Errorf("%s: %v", c.name, err)
		}
		if err != nil && (fault.KindOf(err) != fault.Refused || !strings.Contains(err.Error(), "Ada Minton") || !strings.Contains(err.Error(), "vouch")) {
			t.Errorf("%s is refused without saying by whom and what next: %v", c.name, err)
		}
	}
}

// Two people must be needed, so who vouches is neither of the two who could have
// used the link, nor somebody as whom the one who made it could have acted as well.
func TestWhoMayVouch(t *testing.T) {
	of := assessment.Origin{Person: "owner", Purpose: assessment.Reset, IssuedBy: "issuer", IssuerName: "Ada Minton",
		Issuers: []assessment.PersonID{"issuer", "maker of the issuer"}, Behind: []assessment.PersonID{"issuer", "maker of the issuer"}}
	vouched := of
	vouched.Vouched, vouched.Behind = true, nil
	inVain := of
	inVain.Vouched = true
	for _, c := range []struct {
		name string
		of   assessment.Origin
		by   assessment.PersonID
		as   []assessment.PersonID
		kind fault.Kind
	}{
		{"a third person", of, "third", []assessment.PersonID{"third"}, 0},
		{"a third person whom another invited", of, "third", []assessment.PersonID{"another", "third"}, 0},
		{"a third person whom the issuer invited", of, "third", []assessment.PersonID{"issuer", "third"}, fault.Refused},
		{"who made the issuer", of, "maker of the issuer", []assessment.PersonID{"maker of the issuer"}, fault.Refused},
		{"somebody else whom the maker of the issuer made", of, "third", []assessment.PersonID{"maker of the issuer", "third"}, fault.Refused},
		{"the owner", of, "owner", []assessment.PersonID{"owner"}, fault.Refused},
		{"who made the link", of, "issuer", []assessment.PersonID{"issuer"}, fault.Refused},
		{"a second one", vouched, "third", []assessment.PersonID{"third"}, fault.Conflict},
		{"after a word that does not count", inVain, "third", []assessment.PersonID{"third"}, fault.Conflict},
		{"for whom no link was made", assessment.Origin{Person: "owner"}, "third", []assessment.PersonID{"third"}, fault.Refused},
	} {
		if err := c.of.MayVouch(c.by, c.as); fault.KindOf(err) != c.kind {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

// A second secret proves nothing where the one who makes the link now could have
// set it through a link before.
func TestWhenASecondSecretCounts(t *testing.T) {
	for _, c := range []struct {
		name   string
		before assessment.Origin
		counts bool
	}{
		{"no link before", assessment.Origin{}, true},
		{"invited by another", assessment.Origin{Purpose: assessment.Invitation, IssuedBy: "another", Behind: []assessment.PersonID{"another"}}, true},
		{"invited by the same", assessment.Origin{Purpose: assessment.Invitation, IssuedBy: "issuer", Behind: []assessment.PersonID{"issuer"}}, false},
		{"invited by one whom the same had invited", assessment.Origin{Purpose: assessment.Invitation, IssuedBy: "another", Behind: []assessment.PersonID{"another", "issuer"}}, false},
		{"invited by the same and vouched for", assessment.Origin{Purpose: assessment.Invitation, IssuedBy: "issuer", Vouched: true}, true},
		{"reset by another", assessment.Origin{Purpose: assessment.Reset, IssuedBy: "another", Behind: []assessment.PersonID{"another"}}, false},
	} {
		if c.before.SecondCounts("issuer") != c.counts {
			t.Errorf("%s: counts is not %v", c.name, c.counts)
		}
	}
}

// 21 CFR 11.200(a)(1)(i): the first signing of a continuous session takes all
// components, later ones at least one. That an hour without a signature ends it is
// common practice, no source.
func TestWhenAPINSuffices(t *testing.T) {
	now := time.Date(2026, 1, 5, 17, 0, 0, 0, time.UTC)
	at := func(d time.Duration) *time.Time { i := now.Add(d); return &i }
	for _, c := range []struct {
		name string
		last *time.Time
		want bool
	}{
		{"nothing signed yet", nil, false},
		{"just now", at(0), true},
		{"59 minutes ago", at(-59 * time.Minute), true},
		{"an hour ago", at(-time.Hour), false},
		{"a day ago", at(-24 * time.Hour), false},
		{"ahead of the clock", at(time.Second), false},
	} {
		if assessment.PINSuffices(c.last, now) != c.want {
			t.Errorf("%s: want %v", c.name, c.want)
		}
	}
	if assessment.Invitation.Lasts() != 72*time.Hour || assessment.Reset.Lasts() != 24*time.Hour {
		t.Errorf("links last %s and %s", assessment.Invitation.Lasts(), assessment.Reset.Lasts())
	}
}
