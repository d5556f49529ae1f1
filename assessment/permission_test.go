package assessment_test

import (
	"slices"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/fault"
)

func actor(roles ...assessment.Role) assessment.Actor {
	return assessment.Actor{Agency: "a", Person: "p", Roles: roles, Survey: &assessment.Survey{Whole: true}}
}

// A surveyor reads and changes nothing; a caregiver sees what is their own; who
// has no role may do nothing, not even with an act that nobody listed.
func TestPermissionsAreFew(t *testing.T) {
	reading := []assessment.Act{assessment.ReadChecklists, assessment.ReadPeople, assessment.ReadClients, assessment.ReadStandings,
		assessment.ReadRecords, assessment.ReadReadiness, assessment.ReadReports, assessment.ReadLedger, assessment.LookUp, assessment.OwnAccount, assessment.ReadLessons,
		assessment.AskPacket} // a paper of what they may read, worked out for them
	for _, act := range assessment.Acts() {
		if actor().Reach(act) != assessment.Nothing {
			t.Errorf("somebody without a role may %s", act)
		}
		if actor(assessment.Surveyor).Reach(act) != assessment.Nothing && !slices.Contains(reading, act) {
			t.Errorf("a surveyor may %s", act)
		}
		if actor(assessment.Caregiver).Reach(act) == assessment.Everything && act != assessment.ReadChecklists && act != assessment.ReadLessons { // of nobody
			t.Errorf("a caregiver may %s for everybody", act)
		}
		if actor("visitor").Reach(act) != assessment.Nothing {
			t.Errorf("a role that is none may %s", act)
		}
		if act != assessment.OwnAccount && actor(assessment.Roles...).Reach(act) == assessment.Nothing {
			t.Errorf("nobody may %s", act)
		}
	}
	if actor(assessment.Roles...).Reach("launch") != assessment.Nothing {
		t.Error("an act that is not listed is allowed")
	}
}

// What decides over competence is kept to educators: putting a checklist in
// force, observing, reinstating, waiving, correcting, setting a child's values.
func TestEducatorsDecide(t *testing.T) {
	for _, act := range []assessment.Act{assessment.PutInForce, assessment.Observe, assessment.Reinstate, assessment.Waive,
		assessment.Correct, assessment.SetParameters, assessment.WaiveCriterion, assessment.SignReadiness} {
		for _, r := range assessment.Roles {
			if may := actor(r).May(act) == nil; may != (r == assessment.Educator) {
				t.Errorf("%s may %s: %v", r, act, may)
			}
		}
	}
}

func TestRolesAdd(t *testing.T) {
	both := actor(assessment.Caregiver, assessment.Coordinator)
	if both.Reach(assessment.ReadStandings) != assessment.Everything || both.Reach(assessment.Observe) != assessment.Nothing {
		t.Error("two roles do not reach as far as either")
	}
	if !both.Is(assessment.Caregiver) || both.Is(assessment.Educator) {
		t.Error("Is is wrong")
	}
}

// Outside one's reach a record looks as if it were not there; what no role allows
// is forbidden.
func TestOutOfReachIsNotFound(t *testing.T) {
	caregiver := actor(assessment.Caregiver)
	for _, c := range []struct {
		act     assessment.Act
		person  assessment.PersonID
		related bool
		want    fault.Kind
	}{
		{assessment.ReadRecords, "p", false, 0}, {assessment.ReadRecords, "q", false, fault.NotFound}, {assessment.ReadClients, "q", true, 0},
		{assessment.Observe, "p", true, fault.Forbidden}, {assessment.ReadReports, "p", true, fault.Forbidden},
	} {
		if err := caregiver.MayFor(c.act, c.person, c.related); fault.KindOf(err) != c.want {
			t.Errorf("%s of %s, related %v: %v", c.act, c.person, c.related, err)
		}
	}
	if err := actor(assessment.Educator).MayFor(assessment.ReadRecords, "q", false); err != nil {
		t.Errorf("an educator reads records: %v", err)
	}
}

func TestWordsOfPeople(t *testing.T) {
	for _, r := range assessment.Roles {
		if got, err := assessment.ParseRole(string(r)); err != nil || got != r {
			t.Errorf("%s: %s, %v", r, got, err)
		}
	}
	for _, k := range append(assessment.CaregiverKinds, "") {
		if got, err := assessment.ParseCaregiverKind(string(k)); err != nil || got != k {
			t.Errorf("%q: %s, %v", k, got, err)
		}
	}
	if _, err := assessment.ParseRole("Educator"); fault.KindOf(err) != fault.Invalid {
		t.Error("a role is read without its case")
	}
	if _, err := assessment.ParseCaregiverKind("uncle"); fault.KindOf(err) != fault.Invalid {
		t.Error("an uncle is a kind of caregiver")
	}
	for _, m := range assessment.Marks {
		if got, err := assessment.ParseMark(string(m)); err != nil || got != m {
			t.Errorf("%s: %s, %v", m, got, err)
		}
	}
	if _, err := assessment.ParseMark("not applicable"); fault.KindOf(err) != fault.Invalid {
		t.Error("not applicable is a mark")
	}
	for _, bad := range []string{"", "1", "0190A0B0-0000-7000-8000-000000000000", "0190a0b0-0000-7000-8000-00000000000", "{0190a0b0-0000-7000-8000-000000000000}"} {
		if _, err := assessment.ParseID[assessment.PersonID](bad); fault.KindOf(err) != fault.NotFound {
			t.Errorf("%q is an id: %v", bad, err)
		}
	}
	if id, err := assessment.ParseID[assessment.ClientID]("0190a0b0-0000-7000-8000-000000000000"); err != nil || id == "" {
		t.Errorf("an id is refused: %v", err)
	}
}
