package office_test

import (
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

func TestAddAndEditPerson(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	form := office.PersonForm{Name: " Zoë   Nguyễn ", Kind: "family", Relation: "aunt", Email: "zoe@home.example", Language: "es",
		Roles: []string{"caregiver", "caregiver"}}
	p := must(w.Office.AddPerson(t.Context(), w.Admin, form))(t)
	want := office.PersonView{ID: p.ID, Name: "Zoë Nguyễn", Kind: assessment.Family, Relation: "aunt", Email: "zoe@home.example", Language: "es",
		Roles: []assessment.Role{assessment.Caregiver}}
	if want.Version = p.Version; p.Version == "" || fmt.Sprint(p) != fmt.Sprint(want) {
		t.Errorf("got %+v, want %+v", p, want)
	}
	if again := must(w.Office.Person(t.Context(), w.Coordinator, p.ID))(t); fmt.Sprint(again) != fmt.Sprint(want) {
		t.Errorf("read back: %+v", again)
	}
	_, err := w.Office.AddPerson(t.Context(), w.Admin, office.PersonForm{Name: "Another", Email: "ZOE@home.example"})
	wantRefusal(t, err, fault.Conflict, "e-mail address already")

	// The coordinator edits; roles that are not given stay.
	form.Name, form.Roles = "Zoë Nguyễn-Berg", nil
	p = must(edited(t, w, w.Coordinator, p.ID, form))(t)
	if p.Name != "Zoë Nguyễn-Berg" || !slices.Equal(p.Roles, want.Roles) {
		t.Errorf("after the edit: %+v", p)
	}
	form.Roles = []string{}
	_, err = edited(t, w, w.Coordinator, p.ID, form)
	wantRefusal(t, err, fault.Forbidden, "give roles")
	if p = must(edited(t, w, w.Admin, p.ID, form))(t); len(p.Roles) != 0 {
		t.Errorf("all roles ended, but %v", p.Roles)
	}
	w.Pass(time.Minute)
	form.Roles = []string{"educator", "caregiver"}
	if p = must(edited(t, w, w.Admin, p.ID, form))(t); len(p.Roles) != 2 {
		t.Errorf("two roles given, but %v", p.Roles)
	}
}

func TestPersonRefused(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	for _, c := range []struct {
		field, says string
		form        office.PersonForm
	}{
		{"name", "as it is to be printed", office.PersonForm{Name: "  "}},
		{"name", "longer than 200", office.PersonForm{Name: strings.Repeat("é", 201)}},
		{"name", "cannot be read", office.PersonForm{Name: "a\x00b"}},
		{"kind", "not a kind", office.PersonForm{Name: "A", Kind: "cousin"}},
		{"kind", "what kind", office.PersonForm{Name: "A", Roles: []string{"caregiver"}}},
		{"email", "not an e-mail", office.PersonForm{Name: "A", Email: "a at b"}},
		{"language", "English or Spanish", office.PersonForm{Name: "A", Language: "tlh"}},
		{"roles", "not a role", office.PersonForm{Name: "A", Roles: []string{"owner"}}},
		{"password", "at least 12", office.PersonForm{Name: "A", Email: "a@b", Password: "short"}},
		{"password", "Nobody gives anybody else a password", office.PersonForm{Name: "A", Email: "a@b", Password: "lent for one morning"}},
		{"email", "need an e-mail", office.PersonForm{Name: "A", Password: "lent for one morning"}},
	} {
		_, err := w.Office.AddPerson(t.Context(), w.Admin, c.form)
		wantAtField(t, err, c.field, c.says)
	}
	_, err := w.Office.AddPerson(t.Context(), w.Admin, office.PersonForm{Kind: "cousin", Language: "tlh"})
	wantRefusal(t, err, fault.Invalid, "3 things need mending")
	_, err = w.Office.AddPerson(t.Context(), w.Coordinator, office.PersonForm{Name: "A", Kind: "nurse", Roles: []string{"caregiver"}})
	wantRefusal(t, err, fault.Forbidden, "give roles")
	_, err = edited(t, w, w.Admin, w.Coordinator.Person, office.PersonForm{Name: "A", Password: "lent for one morning"})
	wantAtField(t, err, "password", "choose a password themselves")
	caregiver := w.Nurse("Nan Orme")
	_, err = edited(t, w, w.Coordinator, caregiver.Person, office.PersonForm{Name: "Nan Orme"})
	wantAtField(t, err, "kind", "what kind")
}

// Two clicks, or an answer lost on the way, make one person.
func TestAddPersonOnce(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	form := office.PersonForm{ID: "01950000-0000-7000-8000-0000000000aa", Name: "Mai Lind", Kind: "family"}
	var all sync.WaitGroup
	for range 4 {
		all.Go(func() {
			_, err := w.Office.AddPerson(t.Context(), w.Admin, form)
			if err != nil && fault.KindOf(err) != fault.Conflict {
				t.Error(err)
			}
		})
	}
	all.Wait()
	must(w.Office.AddPerson(t.Context(), w.Admin, form))(t)
	found, _, err := w.Office.People(t.Context(), w.Admin, office.PeopleQuery{Find: "mai lind"})
	if err != nil || len(found) != 1 || string(found[0].ID) != form.ID {
		t.Errorf("found %+v, %v", found, err)
	}
}

func TestLastAdministratorStays(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	self := office.PersonForm{Name: w.Admin.Name, Email: w.Email(w.Admin), Roles: []string{"coordinator"}}
	_, err := edited(t, w, w.Admin, w.Admin.Person, self)
	wantRefusal(t, err, fault.Refused, "last administrator")
	wantRefusal(t, w.Office.PersonLeaves(t.Context(), w.Admin, w.Admin.Person, w.Today()), fault.Refused, "last administrator")

	second := must(w.Office.AddPerson(t.Context(), w.Admin, office.PersonForm{Name: "Second", Roles: []string{"administrator"}}))(t)
	wantNone(t, w.Office.PersonLeaves(t.Context(), w.Admin, second.ID, w.Today().AddDays(300)))
	_, err = edited(t, w, w.Admin, w.Admin.Person, self)
	wantRefusal(t, err, fault.Refused, "last administrator") // the other one is about to leave

	// Each of two takes the other's role at once: one of them stays, time and again.
	one := w.Admin
	for round := range 8 {
		other := w.Surveyor("Other")
		other.Roles = []assessment.Role{assessment.Administrator}
		must(edited(t, w, one, other.Person, office.PersonForm{Name: other.Name, Roles: []string{"administrator"}}))(t)
		var all sync.WaitGroup
		for _, c := range []struct{ by, of assessment.Actor }{{one, other}, {other, one}} {
			all.Go(func() {
				_, err := edited(t, w, c.by, c.of.Person, office.PersonForm{Name: c.of.Name, Roles: []string{}})
				if err != nil && fault.KindOf(err) != fault.Refused {
					t.Error(err)
				}
			})
		}
		all.Wait()
		left, _, err := w.Office.People(t.Context(), one, office.PeopleQuery{Role: "administrator"})
		wantNone(t, err)
		left = slices.DeleteFunc(left, func(p office.PersonView) bool { return !p.LeftOn.IsZero() })
		if len(left) != 1 {
			t.Fatalf("round %d: %d administrators stay, want 1: %+v", round, len(left), left)
		}
		if left[0].ID == other.Person {
			one = other
		}
		w.Pass(time.Minute)
	}
}

func TestListPeople(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	child := w.Client("7K", "Tam")
	for _, name := range []string{"anna ÅS", "Łucja Wąs", "Anna Ås", "100% Mole_hill", "Zoë Nguyễn"} {
		w.Family(name, child)
	}
	nurse := w.Nurse("Nan Orme")
	ask := func(by assessment.Actor, q office.PeopleQuery) string {
		found, next, err := w.Office.People(t.Context(), by, q)
		wantNone(t, err)
		if next != "" {
			t.Errorf("%+v goes on after %d", q, len(found))
		}
		var names []string
		for _, p := range found {
			names = append(names, p.Name)
		}
		return strings.Join(names, "; ")
	}
	for _, c := range []struct {
		q    office.PeopleQuery
		want string
	}{
		{office.PeopleQuery{Find: "ŁUCJA"}, "Łucja Wąs"},
		{office.PeopleQuery{Find: "%"}, "100% Mole_hill"},
		{office.PeopleQuery{Find: "_"}, "100% Mole_hill"},
		{office.PeopleQuery{Find: "no such person"}, ""},
		{office.PeopleQuery{Find: "nguyen"}, "Zoë Nguyễn"},
		{office.PeopleQuery{Find: "  NGUYÊN   zoe "}, "Zoë Nguyễn"},
		{office.PeopleQuery{Find: "zoe wąs"}, ""},
		{office.PeopleQuery{Kind: "nurse"}, "Nan Orme"},
		{office.PeopleQuery{Role: "educator"}, "Edda Lorne; Rolf Teague"},
		{office.PeopleQuery{Client: child, Find: "zoë"}, "Zoë Nguyễn"},
		{office.PeopleQuery{Client: child, Kind: "nurse"}, ""},
	} {
		if got := ask(w.Coordinator, c.q); got != c.want {
			t.Errorf("%+v: got %q, want %q", c.q, got, c.want)
		}
	}
	if got := ask(nurse, office.PeopleQuery{}); got != "Nan Orme" {
		t.Errorf("a caregiver sees %q", got)
	}
	wantNone(t, w.Office.PersonLeaves(t.Context(), w.Coordinator, nurse.Person, w.Today()))
	if got := ask(w.Coordinator, office.PeopleQuery{Kind: "nurse"}); got != "" {
		t.Errorf("who has left is listed: %q", got)
	}
	if got := ask(w.Coordinator, office.PeopleQuery{Kind: "nurse", Left: true}); got != "Nan Orme" {
		t.Errorf("who has left, when asked for: %q", got)
	}
	for field, q := range map[string]office.PeopleQuery{"kind": {Kind: "x"}, "role": {Role: "x"}, "after": {After: "!"}, "find": {Find: "\x00"}} {
		_, _, err := w.Office.People(t.Context(), w.Admin, q)
		wantAtField(t, err, field, "")
	}
}

// Page by page everybody comes once, and two of one name are two.
func TestPeopleByPage(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	for i := range 7 {
		must(w.Office.AddPerson(t.Context(), w.Admin, office.PersonForm{Name: []string{"Same Name", "same name", "Zoë"}[i%3]}))(t)
	}
	whole, _, err := w.Office.People(t.Context(), w.Admin, office.PeopleQuery{})
	wantNone(t, err)
	var paged []office.PersonView
	after := ""
	for pages := 0; ; pages++ {
		page, next, err := w.Office.People(t.Context(), w.Admin, office.PeopleQuery{Limit: 2, After: after})
		wantNone(t, err)
		paged = append(paged, page...)
		if next == "" {
			break
		}
		if len(page) != 2 || pages > 20 {
			t.Fatalf("page %d has %d", pages, len(page))
		}
		after = next
	}
	if fmt.Sprint(paged) != fmt.Sprint(whole) || len(whole) < 11 {
		t.Errorf("page by page: %v\nat once: %v", paged, whole)
	}
}
