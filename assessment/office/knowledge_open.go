package office

import (
	"context"

	"wellshown/assessment"
)

// OpenCheck begins a check, or goes on with the one that was begun, and shows its
// questions.
func (o *Office) OpenCheck(ctx context.Context, by assessment.Actor, code, language string) (SittingView, error) {
	id, err := o.BeginCheck(ctx, by, code, language)
	if err != nil {
		return SittingView{}, err
	}
	return o.Sitting(ctx, by, id)
}
