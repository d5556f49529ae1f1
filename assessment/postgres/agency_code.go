package postgres

import "context"

// SetCode gives the agency of the transaction another code.
func (a Agencies) SetCode(ctx context.Context, code string) error {
	return a.change(ctx, `update agency set code = $1 where id = $2`, code, a.agency)
}
