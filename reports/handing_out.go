package reports

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// handOut gives a finished paper away, once the journal has who takes which one
// away, about whom, and when. Where that cannot be written down, nothing leaves. It is
// the end of every method that makes a file, so that no door to the papers, be it
// a page, the API or a command, can pass it by.
func (r *Reports) handOut(ctx context.Context, by assessment.Actor, e office.Export) func([]byte, string, error) ([]byte, string, error) {
	return func(body []byte, name string, err error) ([]byte, string, error) {
		if err != nil {
			return nil, "", err
		}
		if err := r.office.Exported(ctx, by, e); err != nil {
			return nil, "", fmt.Errorf("hand out the %s: %w", e.Paper, err)
		}
		return body, name, nil
	}
}
