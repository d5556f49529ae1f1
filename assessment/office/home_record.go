package office

import (
	"context"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// HomeForm is what a child's papers say besides what is ordered. Offices and kinds of
// equipment that are not in it stay as they are.
type HomeForm struct {
	Version         string // of what was read before
	Contacts        []ContactForm
	Suppliers       []SupplierForm
	KitPlace        string
	KitPlaceSpanish string
}

// ContactForm is an office with its telephone; without either it is forgotten.
type ContactForm struct {
	Role      string // one of assessment.ContactRoles
	Name      string
	Telephone string
	Place     string // in which turn it is called in an emergency, from 1 to 9; empty: not said
}

// SupplierForm is who supplies a kind of equipment, and who checks it how often.
type SupplierForm struct {
	Kind        string
	Supplier    string
	Telephone   string
	CheckedBy   string // one of assessment.CheckedBys; empty: not said
	CheckedWhen string // one of assessment.CheckedWhens; empty: not said
}

// HomeField names a field of the form for an office or a kind of equipment.
func HomeField(field, of string) string { return field + "-" + strings.ReplaceAll(of, " ", "-") }

// SetHomeRecord writes down whom a child's family calls, who supplies and checks the
// equipment, and where the emergency kit is. What is as it was is left alone.
func (o *Office) SetHomeRecord(ctx context.Context, by assessment.Actor, client assessment.ClientID, f HomeForm) (HomeView, error) {
	var v HomeView
	err := o.as(ctx, by, assessment.EditClients, func(tx *postgres.Tx, now Moment) error {
		_, err := o.changedClient(ctx, tx, now, by, assessment.EditClients, client, "home papers", func(tx *postgres.Tx, now Moment, _ *postgres.Client) error {
			return o.setHome(ctx, tx, now, by, client, f)
		})
		if err != nil {
			return err
		}
		v, err = homeView(ctx, tx, now, client)
		return err
	})
	return v, err
}

func (o *Office) setHome(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, client assessment.ClientID, f HomeForm) error {
	kept, err := readHome(ctx, tx, client)
	if err != nil {
		return err
	}
	if kept.version() != f.Version {
		return fault.Of(fault.Conflict, "Somebody has changed this since you read it. Look at what it is now, then change that.")
	}
	typed, err := f.read(kept)
	if err != nil {
		return err
	}
	for _, c := range typed.contacts {
		if c.ID, err = newID[assessment.RecordID](o, now.At); err != nil {
			return err
		}
		if err := tx.HomePapers.SetContact(ctx, client, c, now.At, by.Person); err != nil {
			return err
		}
	}
	for _, s := range typed.suppliers {
		if s.ID, err = newID[assessment.RecordID](o, now.At); err != nil {
			return err
		}
		if err := tx.HomePapers.SetSupplier(ctx, client, s, now.At, by.Person); err != nil {
			return err
		}
	}
	if typed.kit == kept.kit {
		return nil
	}
	if typed.kit.ID, err = newID[assessment.RecordID](o, now.At); err != nil {
		return err
	}
	return tx.HomePapers.SetKitPlace(ctx, client, typed.kit, now.At, by.Person)
}

// read is what the form changes of what is kept.
func (f HomeForm) read(kept homeKept) (homeKept, error) {
	var faults form
	typed := homeKept{kit: kept.kit}
	typed.kit.English, typed.kit.Spanish = faults.maybe("kit_place", f.KitPlace, 80), faults.maybe("kit_place_spanish", f.KitPlaceSpanish, 80)
	turns := map[int]assessment.ContactRole{}
	stay := slices.Clone(kept.contacts)
	for _, c := range f.Contacts {
		n := c.read(&faults)
		i := slices.IndexFunc(stay, func(k postgres.Contact) bool { return k.Role == n.Role })
		was := postgres.Contact{Role: n.Role}
		if i >= 0 {
			was = stay[i]
			stay = slices.Delete(stay, i, i+1)
		}
		was.ID = ""
		if n != was {
			typed.contacts = append(typed.contacts, n)
		}
		if other, taken := turns[n.Place]; taken && n.Place > 0 {
			faults.Add(HomeField("place", n.Role), "The %s is called in this turn already. Give each its own.", other)
		}
		turns[n.Place] = assessment.ContactRole(n.Role)
	}
	for _, k := range stay {
		if other, taken := turns[k.Place]; taken && k.Place > 0 {
			faults.Add(HomeField("place", string(other)), "The %s is called in this turn already. Give each its own.", k.Role)
		}
	}
	f.readSuppliers(&faults, kept, &typed)
	return typed, faults.Err()
}

func (f HomeForm) readSuppliers(faults *form, kept homeKept, typed *homeKept) {
	seen := map[string]bool{}
	for _, s := range f.Suppliers {
		n := s.read(faults)
		if seen[n.Kind] {
			faults.Add(HomeField("supplier", n.Kind), "This kind of equipment was given twice.")
		}
		seen[n.Kind] = true
		was := postgres.Supplier{Kind: n.Kind}
		if i := slices.IndexFunc(kept.suppliers, func(k postgres.Supplier) bool { return k.Kind == n.Kind }); i >= 0 {
			was = kept.suppliers[i]
		}
		was.ID = ""
		if n != was {
			typed.suppliers = append(typed.suppliers, n)
		}
	}
}

func (c ContactForm) read(faults *form) postgres.Contact {
	n := postgres.Contact{Role: strings.TrimSpace(c.Role)}
	if !slices.Contains(assessment.ContactRoles, assessment.ContactRole(n.Role)) {
		faults.Add(HomeField("name", n.Role), "There is no such office on a child's papers.")
		return n
	}
	n.Name = faults.maybe(HomeField("name", n.Role), c.Name, 80)
	n.Telephone = faults.telephone(HomeField("telephone", n.Role), c.Telephone)
	at := HomeField("place", n.Role)
	if typed := faults.maybe(at, c.Place, 9); typed != "" {
		place, err := strconv.Atoi(typed)
		if err != nil || place < 0 || place > 9 {
			faults.Add(at, "Say in which turn it is called, from 1 to 9, or leave it empty.")
		}
		n.Place = place
	}
	if n.Place > 0 && !assessment.ContactRole(n.Role).OnTheCard() {
		faults.Add(at, "This office does not stand on the emergency card. Leave it empty.")
	}
	return n
}

func (s SupplierForm) read(faults *form) postgres.Supplier {
	n := postgres.Supplier{Kind: strings.ToLower(strings.Join(strings.Fields(s.Kind), " "))}
	if len(n.Kind) > 40 || !equipmentKind.MatchString(n.Kind) {
		faults.Add(HomeField("supplier", n.Kind), "A kind of equipment is one or more words in letters, such as tracheostomy tube.")
		return n
	}
	n.Supplier = faults.maybe(HomeField("supplier", n.Kind), s.Supplier, 80)
	n.Telephone = faults.telephone(HomeField("supplier-telephone", n.Kind), s.Telephone)
	n.CheckedBy, n.CheckedWhen = strings.TrimSpace(s.CheckedBy), strings.TrimSpace(s.CheckedWhen)
	if n.CheckedBy != "" && !slices.Contains(assessment.CheckedBys, assessment.CheckedBy(n.CheckedBy)) {
		faults.Add(HomeField("checked-by", n.Kind), "Choose who checks it.")
	}
	if n.CheckedWhen != "" && !slices.Contains(assessment.CheckedWhens, assessment.CheckedWhen(n.CheckedWhen)) {
		faults.Add(HomeField("checked-when", n.Kind), "Choose when it is checked.")
	}
	return n
}

// A telephone number as people write it: figures, a plus, and what stands between them. An
// extension may follow.
var telephoneForm = regexp.MustCompile(`^\+?[0-9(*#][0-9 ()/.*#-]{1,30}( ?(ext\.?|x) ?[0-9]{1,6})?$`)

// telephone is a number, or nothing.
func (f *form) telephone(field, typed string) string {
	s := f.maybe(field, typed, 40)
	if s == "" {
		return ""
	}
	figures := 0
	for _, r := range s {
		if r >= '0' && r <= '9' {
			figures++
		}
	}
	if figures < 2 || figures > 20 || !telephoneForm.MatchString(s) {
		f.Add(field, "This is no telephone number. Write it in figures, such as 555 0134.")
	}
	return s
}
