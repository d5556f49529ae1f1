package assessment_test

import (
	"slices"
	"testing"
	"time"

	"wellshown/assessment"
)

// What a token allows is never more than what its maker may do now. No source: a
// rule of the house, in the sense of least privilege (ASVS 5.0, chapter 8, from
// memory).
func TestWhatATokenAllows(t *testing.T) {
	admin := actor(assessment.Administrator)
	grant := admin.MayGrant()
	if !slices.Contains(grant, assessment.ReadPeople) || !slices.Contains(grant, assessment.EditPeople) {
		t.Errorf("an administrator may give %v", grant)
	}
	everything := actor(assessment.Roles...)
	for _, act := range everything.MayGrant() {
		program := assessment.Actor{Agency: admin.Agency, Program: &assessment.Program{Acts: []assessment.Act{act}}}
		for _, other := range assessment.Acts() {
			if got := program.May(other) == nil; got != (other == act) {
				t.Errorf("a token for %q: %q is allowed: %v", act, other, got)
			}
		}
		if program.MayGrant() != nil {
			t.Error("a program may make tokens")
		}
	}
	for _, act := range assessment.Acts() {
		program := assessment.Actor{Program: &assessment.Program{Acts: assessment.Acts()}}
		if got := program.May(act) == nil; got != act.ForPrograms() {
			t.Errorf("a token that claims everything: %q is allowed: %v", act, got)
		}
	}
	if assessment.ReadBank.ForPrograms() { // rule of this house, no source: see knowledge.Pass
		t.Error("whoever holds a token may read what knowledge checks ask, and is not known as somebody who could")
	}
	for _, role := range assessment.Roles {
		if role != assessment.Administrator && actor(role).MayGrant() != nil {
			t.Errorf("a %s may make tokens", role)
		}
	}
	token := assessment.Token{Acts: []assessment.Act{assessment.ReadPeople, assessment.EditPeople, assessment.SignRecord, assessment.Observe}}
	if got := token.Allows(everything); !slices.Equal(got, []assessment.Act{assessment.EditPeople, assessment.ReadPeople}) {
		t.Errorf("it allows %v", got)
	}
	token.Reading = true
	if got := token.Allows(everything); !slices.Equal(got, []assessment.Act{assessment.ReadPeople}) {
		t.Errorf("while it only reads it allows %v", got)
	}
}

// Each reason to withhold is one case; where two meet, the first in the list is told.
func TestWhenATokenIsDead(t *testing.T) {
	made := time.Date(2027, 1, 15, 12, 0, 0, 0, time.UTC)
	end, used := made.Add(24*time.Hour), made.Add(time.Hour)
	admin, gone := actor(assessment.Administrator), actor(assessment.Coordinator)
	for _, c := range []struct {
		why     string
		at      time.Time
		maker   assessment.Actor
		left    bool
		revoked bool
		want    string
	}{
		{"as it was made", used, admin, false, false, ""},
		{"the last instant", end.Add(-time.Microsecond), admin, false, false, ""},
		{"at its end", end, admin, false, false, assessment.TokenRunOut},
		{"the clock set back before its making", made.Add(-time.Second), admin, false, false, assessment.TokenRunOut},
		{"the clock set back before its last use", used.Add(-time.Second), admin, false, false, assessment.TokenRunOut},
		{"revoked", used, admin, false, true, assessment.TokenRevoked},
		{"its maker has left", used, admin, true, false, assessment.TokenOrphaned},
		{"its maker is no administrator any more", used, gone, false, false, assessment.TokenOrphaned},
		{"revoked and run out", end, admin, true, true, assessment.TokenRevoked},
	} {
		token := assessment.Token{Acts: []assessment.Act{assessment.ReadPeople}, MadeAt: made, ExpiresAt: end, UsedAt: &used}
		if c.revoked {
			token.RevokedAt = &used
		}
		if got := token.Dead(c.at, c.maker, c.left); got != c.want {
			t.Errorf("%s: %q, want %q", c.why, got, c.want)
		}
	}
}
