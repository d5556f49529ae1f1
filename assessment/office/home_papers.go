package office

import (
	"context"
	"fmt"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/phrase"
	"wellshown/assessment/postgres"
)

// HomeView is what the papers that go home with a child are drawn from.
type HomeView struct {
	assessment.HomeRecord
	Client  ClientRef
	Agency  AgencyView
	At      time.Time // on the agency's clocks
	Today   civil.Date
	Version string // of what SetHomeRecord changes, as it was read
}

// HomePapers answers about a child, for today. Caregivers may ask for their own children.
func (o *Office) HomePapers(ctx context.Context, by assessment.Actor, client assessment.ClientID) (HomeView, error) {
	var v HomeView
	err := o.as(ctx, by, assessment.ReadClients, func(tx *postgres.Tx, now Moment) error {
		if err := mayForClient(ctx, tx, now, by, assessment.ReadClients, client); err != nil {
			return err
		}
		var err error
		v, err = homeView(ctx, tx, now, client)
		return err
	})
	return v, err
}

// homeKept is what is kept of a child for its papers alone.
type homeKept struct {
	contacts  []postgres.Contact
	suppliers []postgres.Supplier
	kit       postgres.KitPlace
}

func readHome(ctx context.Context, tx *postgres.Tx, client assessment.ClientID) (homeKept, error) {
	var k homeKept
	var err error
	if k.contacts, err = tx.HomePapers.Contacts(ctx, client); err != nil {
		return k, fmt.Errorf("read whom a family calls: %w", err)
	}
	if k.suppliers, err = tx.HomePapers.Suppliers(ctx, client); err != nil {
		return k, fmt.Errorf("read who supplies equipment: %w", err)
	}
	if k.kit, err = tx.HomePapers.KitPlace(ctx, client); err != nil {
		return k, fmt.Errorf("read where the kit is: %w", err)
	}
	return k, nil
}

// version is a hash of which rows count; empty where there are none.
func (k homeKept) version() string {
	if k.kit.ID == "" && len(k.contacts) == 0 && len(k.suppliers) == 0 {
		return ""
	}
	ids := []any{k.kit.ID}
	for _, c := range k.contacts {
		ids = append(ids, c.ID)
	}
	for _, s := range k.suppliers {
		ids = append(ids, s.ID)
	}
	return hashed(ids...)
}

func homeView(ctx context.Context, tx *postgres.Tx, now Moment, id assessment.ClientID) (HomeView, error) {
	c, err := tx.Clients.Get(ctx, id)
	if err != nil {
		return HomeView{}, err
	}
	v := HomeView{Client: ClientRef{c.ID, c.Code, c.FirstName}, Agency: viewAgency(now.Agency), At: now.At.In(now.Zone), Today: now.Today}
	v.FirstName, v.Code = c.FirstName, c.Code
	kept, err := readHome(ctx, tx, id)
	if err != nil {
		return v, err
	}
	v.Version = kept.version()
	v.KitPlace = phrase.Own{English: kept.kit.English, Spanish: kept.kit.Spanish}
	for _, k := range kept.contacts {
		v.Contacts = append(v.Contacts, assessment.HomeContact{Role: assessment.ContactRole(k.Role), Name: k.Name, Telephone: k.Telephone, Place: k.Place})
	}
	ordered, err := tx.Clients.Parameters(ctx, id, now.At)
	if err != nil {
		return v, fmt.Errorf("read a child's ordered values: %w", err)
	}
	v.ordered(ordered)
	changes, err := tx.Clients.Equipment(ctx, id)
	if err != nil {
		return v, fmt.Errorf("read a child's equipment: %w", err)
	}
	v.fitted(viewEquipment(changes, now.Today), kept.suppliers)
	return v, nil
}

// ordered takes sizes and rules from what is ordered. What is in a unit that cannot be
// turned into the one on paper is not known.
func (v *HomeView) ordered(rows []postgres.Parameter) {
	size := func(name, unit string) *assessment.Number {
		i := slices.IndexFunc(rows, func(p postgres.Parameter) bool { return p.Name == name })
		if i < 0 {
			return nil
		}
		n, err := assessment.ParseNumber(rows[i].Value)
		if err != nil {
			return nil // it is put in words
		}
		q, err := assessment.Quantity{Value: n, Unit: rows[i].Unit}.Convert(unit)
		if err != nil || q.Value.Sign() <= 0 {
			return nil // it is no size
		}
		return &q.Value
	}
	said := func(name string) string {
		i := slices.IndexFunc(rows, func(p postgres.Parameter) bool { return p.Name == name })
		if i < 0 {
			return ""
		}
		return rows[i].Words
	}
	v.Tube, v.SmallTube, v.Catheter, v.SmallCatheter = size("tube_id", "mm"), size("tube_small_id", "mm"), size("cath_fr", "Fr"), size("cath_small_fr", "Fr")
	v.BatteryMinutes = size("battery_min", "min")
	v.NoSmallerPlan, v.CallWords, v.AirWords = said("no_smaller_plan"), said("call_first"), said("upper_airway")
	v.Call, v.Air = assessment.CallRuleOf(v.CallWords), assessment.AirWayOf(v.AirWords)
}

// fitted lists the equipment that the child has today, with who supplies and checks it.
func (v *HomeView) fitted(equipment []EquipmentView, suppliers []postgres.Supplier) {
	for _, e := range equipment {
		if e.Type == "" {
			continue
		}
		line := assessment.HomeEquipment{Kind: e.Kind, Type: e.Type}
		for _, s := range suppliers {
			if s.Kind == e.Kind {
				line.Supplier, line.Telephone = s.Supplier, s.Telephone
				line.CheckedBy, line.CheckedWhen = assessment.CheckedBy(s.CheckedBy), assessment.CheckedWhen(s.CheckedWhen)
			}
		}
		v.Equipment = append(v.Equipment, line)
	}
}
