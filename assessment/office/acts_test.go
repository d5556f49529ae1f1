package office_test

import (
	"fmt"
	"regexp"
	"strings"
	"sync"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

func opened(t *testing.T, w *ward.Ward, learner assessment.Actor, skill string, child assessment.ClientID) office.SheetView {
	t.Helper()
	return must(w.Office.Open(t.Context(), w.Educators[0], office.OpenForm{Learner: learner.Person, Skill: skill, Client: child, Place: "at home", Real: true, Formal: true}))(t)
}

// markAll marks every step independent.
func markAll(t *testing.T, w *ward.Ward, v office.SheetView) {
	t.Helper()
	var forms []office.MarkForm
	for _, step := range v.Checklist.Steps() {
		forms = append(forms, ward.Form(t, step, v.Parameters, assessment.Independent))
	}
	must(w.Office.MarkAll(t.Context(), w.Educators[0], v.ID, forms))(t)
}

// newRevision drafts the next revision of a skill, changes its text and puts it in
// force, with a recheck by a day where one is given.
func newRevision(t *testing.T, w *ward.Ward, code string, change func(string) string, recheck string) assessment.RevisionID {
	t.Helper()
	draft := must(w.Office.DraftRevision(t.Context(), w.Educators[0], skillOf(t, w, code)))(t)
	draft = save(t, w, w.Educators[0], draft, change)
	w.PutInForce(office.PutInForceForm{Revision: draft.ID, Version: draft.Version, Statement: "Read against the orders.", RecheckBy: recheck})
	return draft.ID
}

// agreeAtLast has the second educator look at what a proposal changes and agree to it,
// anew where others have changed that meanwhile.
func agreeAtLast(t *testing.T, w *ward.Ward, id assessment.ProposalID) error {
	err := ward.Agree(t.Context(), w.Office, w.Educators[1], id, ward.Proof)
	for fault.KindOf(err) == fault.Conflict && strings.Contains(err.Error(), "not what you looked at") {
		err = ward.Agree(t.Context(), w.Office, w.Educators[1], id, ward.Proof)
	}
	return err
}

// save changes the text of a draft as it is now.
func save(t *testing.T, w *ward.Ward, by assessment.Actor, draft office.RevisionView, change func(string) string) office.RevisionView {
	t.Helper()
	kept := must(w.Office.DraftSource(t.Context(), by, draft.ID))(t)
	return must(w.Office.SaveDraft(t.Context(), by, office.DraftForm{Revision: draft.ID, Version: kept.Version, Source: change(kept.Source)}))(t)
}

// edited changes what is known of somebody, read just before.
func edited(t *testing.T, w *ward.Ward, by assessment.Actor, id assessment.PersonID, form office.PersonForm) (office.PersonView, error) {
	p, err := w.Office.Person(t.Context(), w.Admin, id)
	if err != nil {
		return p, err
	}
	form.Version = p.Version
	return w.Office.EditPerson(t.Context(), by, id, form)
}

func skillOf(t *testing.T, w *ward.Ward, code string) assessment.SkillID {
	t.Helper()
	skills, _, err := w.Office.Skills(t.Context(), w.Admin)
	wantNone(t, err)
	for _, s := range skills {
		if s.Code == code {
			return s.ID
		}
	}
	t.Fatalf("no skill %s", code)
	return ""
}

// atOnce runs f with 0 … n-1, all at once.
func atOnce(n int, f func(int)) {
	var group sync.WaitGroup
	gate := make(chan struct{})
	for i := range n {
		group.Go(func() { <-gate; f(i) })
	}
	close(gate)
	group.Wait()
}

// oneIsEnough changes a policy so that one competent demonstration awards.
func oneIsEnough(source string) string {
	return policy("count: 1", "days: 1", "real: 0")(source)
}

// policy changes lines of a policy, each written as "name: value".
func policy(lines ...string) func(string) string {
	return func(source string) string {
		for _, l := range lines {
			name, _, _ := strings.Cut(l, ":")
			source = regexp.MustCompile(`(?m)^( +)`+name+`: .*$`).ReplaceAllString(source, "${1}"+l)
		}
		return source
	}
}

func indexIsRight(t *testing.T, w *ward.Ward) {
	t.Helper()
	if n := must(w.Office.Rebuild(t.Context()))(t); len(n.Wrong) != 0 {
		t.Errorf("the index was wrong for %v", n.Wrong)
	}
}

func sign(t *testing.T, w *ward.Ward, by assessment.Actor, id assessment.DemonstrationID, part string) error {
	t.Helper()
	_, err := w.Office.Sign(t.Context(), by, office.SignForm{Demonstration: id, Part: part, Proof: ward.Proof})
	return err
}

func word(t *testing.T, w *ward.Ward, who assessment.Actor, skill string, child assessment.ClientID) assessment.StandingWord {
	t.Helper()
	return w.Standing(who, skill, child, civil.Date{}).Word
}

// quick is a ward in which one demonstration of some skills is enough, a child and
// a nurse.
func quick(t *testing.T, skills ...string) (*ward.Ward, assessment.ClientID, assessment.Actor) {
	t.Helper()
	w := ward.New(t, ward.WithCertificate(drawn))
	mira := w.Client("7K", "Mira")
	nan := w.Nurse("Nan Orme")
	for _, skill := range skills {
		newRevision(t, w, skill, oneIsEnough, "")
	}
	w.Day("2026-02-01")
	return w, mira, nan
}

// drawn is a certificate as plain text.
func drawn(f office.CertificateFacts) ([]byte, error) {
	return fmt.Appendf(nil, "%d %s %s %s through %s", f.Number, f.Code, f.Person, f.Title, f.Through), nil
}
