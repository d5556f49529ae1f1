package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
)

// HomePapers keeps what the papers that go home with a child say besides what is ordered.
type HomePapers struct{ scope }

// Contact is an office that a child's family calls.
type Contact struct {
	ID        assessment.RecordID
	Role      string
	Name      string
	Telephone string
	Place     int // in which turn it is called in an emergency; 0: not then
}

// Contacts lists the newest of each role, by role.
func (h HomePapers) Contacts(ctx context.Context, client assessment.ClientID) ([]Contact, error) {
	return list[Contact](ctx, h.scope, `
		select distinct on (role) id, role, name, telephone, place::int
		from client_contact where client_id = $1
		order by role, set_at desc, id desc`, client)
}

// SetContact adds an office; from now on it is the newest of its role.
func (h HomePapers) SetContact(ctx context.Context, client assessment.ClientID, c Contact, at time.Time, by assessment.PersonID) error {
	return h.exec(ctx, `
		insert into client_contact (agency_id, id, client_id, role, name, telephone, place, set_at, set_by)
		values ($1, $2, $3, $4, $5, $6, $7, $8, $9)`, h.agency, c.ID, client, c.Role, c.Name, c.Telephone, c.Place, at, by)
}

// Supplier is who supplies a kind of equipment, and who checks it how often.
type Supplier struct {
	ID          assessment.RecordID
	Kind        string
	Supplier    string
	Telephone   string
	CheckedBy   string
	CheckedWhen string
}

// Suppliers lists the newest of each kind, by kind.
func (h HomePapers) Suppliers(ctx context.Context, client assessment.ClientID) ([]Supplier, error) {
	return list[Supplier](ctx, h.scope, `
		select distinct on (kind) id, kind, supplier, telephone, checked_by, checked_when
		from client_supplier where client_id = $1
		order by kind, set_at desc, id desc`, client)
}

// SetSupplier adds a supplier; from now on it is the newest of its kind.
func (h HomePapers) SetSupplier(ctx context.Context, client assessment.ClientID, s Supplier, at time.Time, by assessment.PersonID) error {
	return h.exec(ctx, `
		insert into client_supplier (agency_id, id, client_id, kind, supplier, telephone, checked_by, checked_when, set_at, set_by)
		values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)`, h.agency, s.ID, client, s.Kind, s.Supplier, s.Telephone, s.CheckedBy, s.CheckedWhen, at, by)
}

// KitPlace is where a child's emergency kit is kept, in each language in which somebody
// has written it.
type KitPlace struct {
	ID      assessment.RecordID
	English string
	Spanish string
}

// KitPlace is the newest; an empty one where nobody has said it.
func (h HomePapers) KitPlace(ctx context.Context, client assessment.ClientID) (KitPlace, error) {
	all, err := list[KitPlace](ctx, h.scope, `
		select id, english, spanish from client_kit_place where client_id = $1
		order by set_at desc, id desc limit 1`, client)
	if err != nil || len(all) == 0 {
		return KitPlace{}, err
	}
	return all[0], nil
}

// SetKitPlace adds where the kit is; from now on it is the newest.
func (h HomePapers) SetKitPlace(ctx context.Context, client assessment.ClientID, k KitPlace, at time.Time, by assessment.PersonID) error {
	return h.exec(ctx, `
		insert into client_kit_place (agency_id, id, client_id, english, spanish, set_at, set_by)
		values ($1, $2, $3, $4, $5, $6, $7)`, h.agency, k.ID, client, k.English, k.Spanish, at, by)
}
