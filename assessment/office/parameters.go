package office

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// ParameterForm is one value as it was ordered: a number with its unit, or words.
// Neither unsets it.
type ParameterForm struct {
	Name  string
	Value string
	Unit  string // empty: the one in which it is usually ordered
	Words string
}

// knownParameters are those of the starter checklists and of the papers that go home, and
// what the agency's own checklists in force ask for beyond them.
func (o *Office) knownParameters(ctx context.Context, tx *postgres.Tx, now Moment) ([]assessment.Parameter, error) {
	known := append(catalog.Parameters(), catalog.HomeParameters()...)
	b := &casebook{zone: now.Zone}
	if err := o.readSkills(ctx, tx, b); err != nil {
		return nil, err
	}
	var own []assessment.Parameter
	for _, s := range b.skills {
		if s.newest == nil {
			continue
		}
		for _, p := range s.newest.Parameters {
			same := func(k assessment.Parameter) bool { return k.Name == p.Name }
			if !slices.ContainsFunc(known, same) && !slices.ContainsFunc(own, same) {
				own = append(own, p)
			}
		}
	}
	slices.SortFunc(own, func(a, b assessment.Parameter) int { return strings.Compare(a.Name, b.Name) })
	return append(known, own...), nil
}

// parameters lists every known parameter with what is ordered now.
func (o *Office) parameters(ctx context.Context, tx *postgres.Tx, now Moment, client assessment.ClientID) ([]ParameterView, error) {
	known, err := o.knownParameters(ctx, tx, now)
	if err != nil {
		return nil, err
	}
	rows, err := tx.Clients.Parameters(ctx, client, now.At)
	if err != nil {
		return nil, fmt.Errorf("read a child's ordered values: %w", err)
	}
	set := map[string]postgres.Parameter{}
	for _, r := range rows {
		set[r.Name] = r
	}
	var views []ParameterView
	for _, p := range known {
		v := ParameterView{Name: p.Name, Says: p.Says, Unit: p.Unit}
		if p.Default != nil {
			v.Default = p.Default.String()
		}
		if r, ok := set[p.Name]; ok {
			v.Set, v.Value, v.Unit, v.Words, v.SetAt, v.SetBy = true, r.Value, r.Unit, r.Words, r.SetAt, r.By
		}
		views = append(views, v)
	}
	return views, nil
}

// SetParameters orders values for a child. What is as it was is left alone. Faults
// are named by the parameter.
func (o *Office) SetParameters(ctx context.Context, by assessment.Actor, client assessment.ClientID, forms []ParameterForm) (ClientView, error) {
	return o.changeClient(ctx, by, assessment.SetParameters, client, "ordered values", func(tx *postgres.Tx, now Moment, _ *postgres.Client) error {
		known, err := o.knownParameters(ctx, tx, now)
		if err != nil {
			return err
		}
		kept, err := tx.Clients.Parameters(ctx, client, now.At)
		if err != nil {
			return err
		}
		order := newOrder(known, kept)
		for _, f := range forms {
			order.take(f)
		}
		order.checkPairs()
		if err := order.f.Err(); err != nil {
			return err
		}
		for _, row := range order.changed {
			row.SetAt, row.SetBy = now.At, by.Person
			if row.ID, err = newID[assessment.RecordID](o, now.At); err != nil {
				return err
			}
			if err := tx.Clients.SetParameter(ctx, client, row); err != nil {
				return fmt.Errorf("set %s: %w", row.Name, err)
			}
		}
		return nil
	})
}

// order is what is ordered for one child while a form is read.
type order struct {
	f       form
	known   map[string]assessment.Parameter
	values  map[string]assessment.Quantity // numbers as they will stand, defaults too
	kept    map[string]postgres.Parameter
	changed []postgres.Parameter
	seen    map[string]bool
}

func newOrder(known []assessment.Parameter, kept []postgres.Parameter) *order {
	o := &order{known: map[string]assessment.Parameter{}, values: map[string]assessment.Quantity{}, kept: map[string]postgres.Parameter{}, seen: map[string]bool{}}
	for _, p := range known {
		o.known[p.Name] = p
		if p.Default != nil {
			o.values[p.Name] = *p.Default
		}
	}
	for _, k := range kept {
		o.kept[k.Name] = k
		if n, err := assessment.ParseNumber(k.Value); err == nil {
			o.values[k.Name] = assessment.Quantity{Value: n, Unit: k.Unit}
		}
	}
	return o
}

// take reads one value of the form.
func (o *order) take(p ParameterForm) {
	known, ok := o.known[p.Name]
	switch {
	case !ok:
		o.f.Add(p.Name, "There is no ordered value of this name.")
		return
	case o.seen[p.Name]:
		o.f.Add(p.Name, "This was given twice.")
		return
	}
	o.seen[p.Name] = true
	row := postgres.Parameter{Name: p.Name, Value: strings.TrimSpace(p.Value), Words: o.f.words(p.Name, p.Words, 2000)}
	delete(o.values, p.Name)
	switch {
	case row.Value != "" && row.Words != "":
		o.f.Add(p.Name, "Give a number or words, not both.")
	case row.Value != "":
		row.Unit = strings.TrimSpace(p.Unit)
		o.number(known, &row)
	case row.Words == "" && known.Default != nil:
		o.values[p.Name] = *known.Default
	}
	if k := o.kept[p.Name]; k.Value != row.Value || k.Unit != row.Unit || k.Words != row.Words {
		o.changed = append(o.changed, row)
	}
}

// number reads a number in a unit that can be turned into the usual one. Values
// are ordered without sign: a negative limit would let through what it should stop.
func (o *order) number(known assessment.Parameter, row *postgres.Parameter) {
	if known.Unit == "" {
		o.f.Add(row.Name, "This is put in words.")
		return
	}
	if row.Unit == "" {
		row.Unit = known.Unit
	}
	n, err := assessment.ParseNumber(row.Value)
	if err == nil && n.Sign() < 0 {
		err = fault.Of(fault.Invalid, "Write the value without a sign.")
	}
	q := assessment.Quantity{Value: n, Unit: row.Unit}
	if err == nil {
		_, err = q.Convert(known.Unit)
	}
	o.f.Take(row.Name, err)
	o.values[row.Name] = q
}

// checkPairs refuses a lowest value above its highest.
func (o *order) checkPairs() {
	for name, low := range o.values {
		base, ok := strings.CutSuffix(name, "_low")
		high, both := o.values[base+"_high"]
		if !ok || !both || !o.seen[name] && !o.seen[base+"_high"] {
			continue
		}
		in, err := low.Convert(high.Unit)
		if err != nil || in.Value.Cmp(high.Value) <= 0 {
			continue
		}
		at := base + "_high"
		if !o.seen[at] {
			at = name
		}
		o.f.Add(at, "The lowest is %s and the highest %s. The lowest cannot be above the highest.", low, high)
	}
}
