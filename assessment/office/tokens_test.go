package office_test

import (
	"encoding/hex"
	"fmt"
	"hash/crc32"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

func madeToken(t *testing.T, w *ward.Ward, by assessment.Actor, acts ...assessment.Act) office.NewToken {
	t.Helper()
	f := office.TokenForm{Name: "Rota"}
	for _, a := range acts {
		f.Acts = append(f.Acts, string(a))
	}
	return must(w.Office.MakeToken(t.Context(), by, f))(t)
}

// A token is found by its looks and proven by its sum (CRC-32 of hash/crc32), and
// nothing that is kept opens anything.
func TestATokenIsShownOnceAndKeptAsAHash(t *testing.T) {
	t.Parallel()
	w, _, _ := quick(t)
	made := madeToken(t, w, w.Admin, assessment.ReadPeople)
	if !regexp.MustCompile(`^wellshown_[0-9a-f]{72}$`).MatchString(made.Secret) {
		t.Fatalf("a token looks like %q", made.Secret)
	}
	raw, err := hex.DecodeString(made.Secret[10:])
	wantNone(t, err)
	if fmt.Sprintf("%x", raw[32:]) != fmt.Sprintf("%08x", crc32.ChecksumIEEE(raw[:32])) {
		t.Error("its sum is wrong")
	}
	rows, err := asOwner(t, w).Query(t.Context(), `select row_to_json(t)::text from api_token t union all select row_to_json(j)::text from journal j where j.kind like 'token%'`)
	wantNone(t, err)
	kept := strings.Join(must(pgx.CollectRows(rows, pgx.RowTo[string]))(t), "\n")
	if strings.Contains(kept, made.Secret[10:42]) || !strings.Contains(kept, "token made") {
		t.Errorf("kept: %s", kept)
	}
}

// A program does what its token allows, in the name of whoever made it, and the
// journal names both; what takes a person is refused, whatever it knows.
func TestAProgramActs(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t)
	made := madeToken(t, w, w.Admin, assessment.EditPeople, assessment.ReadPeople)
	by := must(w.Office.Program(t.Context(), made.Secret))(t)
	if by.Person != w.Admin.Person || by.Program == nil || len(by.Roles) != 0 || !strings.Contains(by.Name, "Rota") || !strings.Contains(by.Name, w.Admin.Name) {
		t.Errorf("it acts as %+v", by)
	}
	p := must(w.Office.AddPerson(t.Context(), by, office.PersonForm{Name: "Bo Ree", Kind: "nurse"}))(t)
	rows, err := asOwner(t, w).Query(t.Context(), `
		select j.act || '/' || j.kind || '/' || (j.actor_id = $1)::text from program_deed d join journal j using (agency_id) where j.id = d.journal_id and d.token_id = $2`,
		w.Admin.Person, made.ID)
	wantNone(t, err)
	if got := strings.Join(must(pgx.CollectRows(rows, pgx.RowTo[string]))(t), ", "); got != "edit people/person/true" {
		t.Errorf("the journal has %q", got)
	}
	for what, do := range map[string]func() error{
		"a role": func() error {
			_, err := w.Office.AddPerson(t.Context(), by, office.PersonForm{Name: "Kit", Roles: []string{"administrator"}})
			return err
		},
		"a licence": func() error {
			_, err := w.Office.RecordLicence(t.Context(), by, p.ID, office.LicenceForm{Kind: "RN", Number: "1"})
			return err
		},
		"a card": func() error {
			_, err := w.Office.RecordCard(t.Context(), by, p.ID, office.CardForm{Issuer: "X", IssuedOn: w.Today().String()})
			return err
		},
		"a withdrawal": func() error {
			return w.Office.Withdraw(t.Context(), by, about(nan, "humidifier", mira), assessment.Reinstated, false)
		},
		"a link": func() error { _, err := w.Office.MakeLink(t.Context(), by, p.ID); return err },
		"a token": func() error {
			_, err := w.Office.MakeToken(t.Context(), by, office.TokenForm{Name: "More"})
			return err
		},
		"a proof":     func() error { return w.Office.Confirm(t.Context(), by, w.Admin.Person, ward.Proof) },
		"the account": func() error { _, err := w.Office.Account(t.Context(), by); return err },
		"a password": func() error {
			return w.Office.ChangePassword(t.Context(), by, ward.Password, "seven otters wading", "")
		},
		"another's read": func() error { _, err := w.Office.Clients(t.Context(), by, ""); return err },
	} {
		if err := do(); fault.KindOf(err) != fault.Forbidden {
			t.Errorf("%s: %v", what, err)
		}
	}
}

// A token ends with its time, by any administrator, and with its maker: with the role
// as with the agency, for good. No published source: that what was taken does not come
// back by itself is a rule of the house.
func TestATokenEnds(t *testing.T) {
	t.Parallel()
	w, _, _ := quick(t)
	other := must(w.Office.AddPerson(t.Context(), w.Admin, office.PersonForm{Name: "Ilse Marn", Email: "ilse@ward.example", Roles: []string{"administrator"}}))(t)
	ilse := assessment.Actor{Agency: w.Admin.Agency, Person: other.ID, Name: other.Name, Roles: other.Roles}
	works := func(n office.NewToken) bool {
		t.Helper()
		_, err := w.Office.Program(t.Context(), n.Secret)
		if err != nil && fault.KindOf(err) != fault.Unauthenticated {
			t.Fatal(err)
		}
		return err == nil
	}
	revoked, orphan, short := madeToken(t, w, w.Admin, assessment.ReadPeople), madeToken(t, w, ilse, assessment.ReadPeople), madeToken(t, w, w.Admin, assessment.ReadPeople)
	if !works(revoked) || !works(orphan) || !works(short) {
		t.Fatal("new tokens do not work")
	}
	wantNone(t, w.Office.RevokeToken(t.Context(), ilse, revoked.ID))
	if works(revoked) || fault.KindOf(w.Office.RevokeToken(t.Context(), w.Admin, revoked.ID)) != fault.NotFound {
		t.Error("a revoked token works, or is revoked twice")
	}
	w.Pass(time.Minute)
	must(edited(t, w, w.Admin, ilse.Person, office.PersonForm{Name: other.Name, Email: other.Email, Roles: []string{"coordinator"}}))(t)
	if works(orphan) {
		t.Error("a token outlives its maker's role")
	}
	w.Pass(time.Minute)
	must(edited(t, w, w.Admin, ilse.Person, office.PersonForm{Name: other.Name, Email: other.Email, Roles: []string{"administrator"}}))(t)
	if works(orphan) {
		t.Error("with the role the token comes back")
	}
	again := madeToken(t, w, ilse, assessment.ReadPeople)
	wantNone(t, w.Office.PersonLeaves(t.Context(), w.Admin, ilse.Person, w.Today().AddDays(1)))
	if !works(again) {
		t.Error("a token ends before its maker's last day")
	}
	w.Pass(48 * time.Hour)
	if works(again) {
		t.Error("a token outlives its maker's last day")
	}
	wantNone(t, w.Office.PersonLeaves(t.Context(), w.Admin, ilse.Person, w.Today().AddDays(30)))
	if works(again) {
		t.Error("with a later last day the token comes back")
	}
	w.Pass(88*24*time.Hour - 3*time.Minute)
	if !works(short) {
		t.Error("a token does not last its 90 days")
	}
	w.Pass(time.Minute)
	if works(short) {
		t.Error("a token lasts longer than its 90 days")
	}
	dead := map[string]string{}
	for _, v := range must(w.Office.Tokens(t.Context(), w.Admin))(t).Tokens {
		dead[string(v.ID)] = v.Dead
	}
	if dead[string(revoked.ID)] != assessment.TokenRevoked || dead[string(orphan.ID)] != assessment.TokenRevoked || dead[string(again.ID)] != assessment.TokenRevoked || dead[string(short.ID)] != assessment.TokenRunOut {
		t.Errorf("listed as %v", dead)
	}
}

// Tokens that end with a role are in the journal one by one, and whoever made them is
// told; those that the change does not touch stay.
func TestTokensThatEndWithARoleAreTold(t *testing.T) {
	t.Parallel()
	w, _, _ := quick(t)
	p := must(w.Office.AddPerson(t.Context(), w.Admin, office.PersonForm{Name: "Ilse Marn", Email: "ilse@ward.example", Roles: []string{"administrator", "coordinator"}}))(t)
	ilse := assessment.Actor{Agency: w.Admin.Agency, Person: p.ID, Name: p.Name, Roles: p.Roles}
	one, two, others := madeToken(t, w, ilse, assessment.ReadPeople), madeToken(t, w, ilse, assessment.ReadClients), madeToken(t, w, w.Admin, assessment.ReadPeople)
	roles := func(all ...string) {
		t.Helper()
		w.Pass(time.Minute)
		must(edited(t, w, w.Admin, ilse.Person, office.PersonForm{Name: p.Name, Email: p.Email, Roles: all}))(t)
	}
	told := func() (revoked []string, ended int) {
		t.Helper()
		rows, err := asOwner(t, w).Query(t.Context(), `select kind || ' ' || subject from journal where kind in ('token revoked', 'tokens ended') and actor_id = $1`, w.Admin.Person)
		wantNone(t, err)
		for _, line := range must(pgx.CollectRows(rows, pgx.RowTo[string]))(t) {
			if line == "tokens ended "+string(ilse.Person) {
				ended++
			} else {
				revoked = append(revoked, strings.TrimPrefix(line, "token revoked "))
			}
		}
		return revoked, ended
	}
	roles("administrator")
	if revoked, ended := told(); len(revoked) != 0 || ended != 0 {
		t.Errorf("a role that they do not need ended %v", revoked)
	}
	roles("coordinator")
	revoked, ended := told()
	slices.Sort(revoked)
	if want := slices.Sorted(slices.Values([]string{string(one.ID), string(two.ID)})); !slices.Equal(revoked, want) || ended != 1 {
		t.Errorf("ended %v, told %d times", revoked, ended)
	}
	if a := must(w.Office.Account(t.Context(), ilse))(t); !strings.Contains(words(a), "ended for good") {
		t.Errorf("told: %s", words(a))
	}
	if _, err := w.Office.Program(t.Context(), others.Secret); err != nil {
		t.Errorf("another's token ended: %v", err)
	}
}

// Another agency's administrator sees and ends none of it.
func TestTokensOfTwoAgencies(t *testing.T) {
	t.Parallel()
	w, _, _ := quick(t)
	made := madeToken(t, w, w.Admin, assessment.ReadPeople)
	far := must(w.Office.FoundAgency(t.Context(), office.NewAgency{Code: "larkmoor", Name: "Larkmoor", Zone: ward.Zone, AdminName: "Head", AdminEmail: "head@larkmoor.example", AdminPassword: ward.Password}))(t)
	if d := must(w.Office.Tokens(t.Context(), far))(t); len(d.Tokens) != 0 {
		t.Errorf("they see %+v", d.Tokens)
	}
	if err := w.Office.RevokeToken(t.Context(), far, made.ID); fault.KindOf(err) != fault.NotFound {
		t.Errorf("they end it: %v", err)
	}
	by := must(w.Office.Program(t.Context(), made.Secret))(t)
	if _, err := w.Office.Person(t.Context(), by, far.Person); fault.KindOf(err) != fault.NotFound {
		t.Errorf("the program reads another agency's: %v", err)
	}
}

// What is not right in the form is told field by field.
func TestWhatATokenMayNotBe(t *testing.T) {
	t.Parallel()
	w, _, _ := quick(t)
	for field, f := range map[string]office.TokenForm{
		"name": {Acts: []string{"read people"}},
		"acts": {Name: "Rota", Acts: []string{"read people", "edit people"}, Reading: true},
		"days": {Name: "Rota", Acts: []string{"read people"}, Days: "366"},
	} {
		_, err := w.Office.MakeToken(t.Context(), w.Admin, f)
		if got, known := fault.As(err); !known || len(got.Fields) != 1 || got.Fields[field] == "" {
			t.Errorf("%s: %v", field, err)
		}
	}
	if _, err := w.Office.MakeToken(t.Context(), w.Admin, office.TokenForm{Name: "Rota"}); fault.KindOf(err) != fault.Invalid {
		t.Errorf("a token for nothing: %v", err)
	}
}
