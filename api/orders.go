package api

import (
	"context"
	"fmt"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

type ordersBody struct {
	ByID
	Body Orders
}

func (e *edge) setParameters(ctx context.Context, by caller, in *ordersBody) (*answer[Client], error) {
	id, err := assessment.ParseID[assessment.ClientID](in.ID)
	if err != nil {
		return nil, err
	}
	var forms []office.ParameterForm
	for _, o := range in.Body.Parameters {
		forms = append(forms, office.ParameterForm{Name: o.Name, Value: o.Value, Unit: o.Unit, Words: o.Words})
	}
	v, err := e.office.SetParameters(ctx, by.Actor, id, forms)
	if err != nil {
		return nil, renamed(err, in.Body.place)
	}
	return shown(client(v)), nil
}

// place says where in the body the order of a name stands. What the office found in
// two of one name concerns the last.
func (o Orders) place(name string) string {
	for i := len(o.Parameters) - 1; i >= 0; i-- {
		if strings.EqualFold(o.Parameters[i].Name, name) {
			return fmt.Sprintf("parameters[%d]", i)
		}
	}
	return "parameters"
}
