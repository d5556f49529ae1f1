package api_test

import (
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"
	"time"

	"wellshown/api"
	"wellshown/assessment"
)

// made is a token for a program that may do these acts.
func (d *desk) made(days int, acts ...assessment.Act) api.NewToken {
	d.t.Helper()
	var made api.NewToken
	d.post("/tokens", d.Admin, api.TokenForm{Name: "Rota", Acts: words(acts), Days: days}).into(http.StatusCreated, &made)
	return made
}

func words(acts []assessment.Act) []string {
	var all []string
	for _, a := range acts {
		all = append(all, string(a))
	}
	return all
}

// by asks as a program.
func (d *desk) by(token, method, path string, body any) *answer {
	d.t.Helper()
	return d.raw(method, path, body, "Authorization", "Bearer "+token)
}

// programs tells of a token from its making to its end.
func (d *desk) programs() {
	d.t.Helper()
	made := d.made(0, assessment.ReadPeople, assessment.EditClients)
	if !strings.HasPrefix(made.Secret, "wellshown_") || made.MadeBy.Name != d.Admin.Name || !made.ExpiresAt.Equal(d.Now().Add(90*24*time.Hour)) || made.Dead != "" {
		d.t.Errorf("made %+v", made)
	}
	d.by(made.Secret, "GET", "/people", nil).is(http.StatusOK)
	var list api.List[api.Token]
	body := d.get("/tokens", d.Admin).into(http.StatusOK, &list)
	if len(list.Items) != 1 || list.Items[0].UsedAt == nil || strings.Contains(string(body.body), made.Secret) {
		d.t.Errorf("listed: %s", body.body)
	}
	d.delete("/tokens/"+made.ID, d.Coordinator).problem(http.StatusForbidden)
	d.delete("/tokens/"+made.ID, d.Admin).is(http.StatusNoContent)
	d.delete("/tokens/"+made.ID, d.Admin).problem(http.StatusNotFound)
	d.by(made.Secret, "GET", "/people", nil).problem(http.StatusUnauthorized)
	list = api.List[api.Token]{}
	d.get("/tokens", d.Admin).into(http.StatusOK, &list)
	if list.Items[0].Dead != "revoked" || list.Items[0].RevokedBy == nil || list.Items[0].RevokedBy.Name != d.Admin.Name {
		d.t.Errorf("after it was revoked: %+v", list.Items[0])
	}
}

// A token opens the routes of its acts and no other one, whatever its maker may do,
// and no token can be asked for that would open more.
func TestATokenOpensWhatItSays(t *testing.T) {
	t.Parallel()
	d := newDesk(t)
	won := d.treasure()
	bodies := d.bodies(won)
	grant := d.Admin.MayGrant()
	all := d.made(365, grant...).Secret
	reads := d.made(1, assessment.ReadPeople).Secret
	opened := 0
	for _, line := range api.Table() {
		if line.Public {
			continue
		}
		for token, acts := range map[string][]assessment.Act{all: grant, reads: {assessment.ReadPeople}} {
			kind, text := encode(t, bodies[line.Operation])
			r := httptest.NewRequest(line.Method, filled(line, nowhere), strings.NewReader(text))
			r.Header.Set("Content-Type", kind)
			r.Header.Set("Authorization", "Bearer "+token)
			got := ask(d.engine, r)
			if open := slices.Contains(acts, line.Act); open == (got.Code == http.StatusForbidden) && line.Operation != "record-licence" && line.Operation != "record-card" && line.Operation != "take-back-paper" {
				t.Errorf("%s %s (%s): %d %s", line.Method, line.Path, line.Act, got.Code, got.Body)
			} else if open {
				opened++
			}
		}
	}
	if opened < 20 {
		t.Errorf("only %d routes were open", opened)
	}
	for _, act := range assessment.Acts() {
		if !slices.Contains(grant, act) {
			d.post("/tokens", d.Admin, api.TokenForm{Name: "Rota", Acts: []string{string(act)}}).problem(http.StatusUnprocessableEntity)
		}
	}
	for _, taken := range []assessment.Act{assessment.SignRecord, assessment.OwnAccount, assessment.GiveRoles, assessment.Withdraw, assessment.Waive, assessment.Observe, assessment.VouchFor} {
		if slices.Contains(grant, taken) {
			t.Errorf("a program may be given %q", taken)
		}
	}
}

// RFC 6750, section 2.1: the scheme's name has no case. What is cut short, changed,
// too long or empty opens nothing, and each is answered like the other.
func TestTokensThatAreNotRight(t *testing.T) {
	t.Parallel()
	d := newDesk(t)
	good := d.made(1, assessment.ReadPeople).Secret
	ask := func(header string) (int, string) {
		r := httptest.NewRequest(http.MethodGet, api.Base+"/people", nil)
		r.Header.Set("Authorization", header)
		w := ask(d.engine, r)
		return w.Code, strings.Split(w.Body.String(), `"instance"`)[0]
	}
	for _, scheme := range []string{"Bearer ", "bearer ", "BEARER "} {
		if code, says := ask(scheme + good); code != http.StatusOK {
			t.Errorf("%q: %d %s", scheme, code, says)
		}
	}
	_, dead := ask("Bearer " + "wellshown_" + strings.Repeat("0", 72))
	other := byte('0')
	if good[20] == '0' {
		other = '1'
	}
	for _, bad := range []string{good[:len(good)-1], good + "0", "wellshown_", good[:20] + string(other) + good[21:],
		"wellshown_" + strings.Repeat("f", 20_000), good + " " + good, good + "\x00", "wellshown_' or 1=1 --"} {
		if code, says := ask("Bearer " + bad); code != http.StatusUnauthorized || says != dead {
			t.Errorf("%.100q: %d %s", bad, code, says)
		}
	}
	for _, bad := range []string{"", "Basic " + good, good, "Bearer", "Bearer  ", "Bearer " + good[10:], "Bearer " + strings.ToUpper(good)} {
		if code, says := ask(bad); code != http.StatusUnauthorized {
			t.Errorf("%.100q: %d %s", bad, code, says)
		}
	}
}
