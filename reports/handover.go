package reports

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// Handover is the signed file of all that is written down of a caregiver, for another agency.
func (r *Reports) Handover(ctx context.Context, by assessment.Actor, person assessment.PersonID) ([]byte, string, error) {
	made, err := r.office.Handover(ctx, by, person)
	if err != nil {
		return nil, "", fmt.Errorf("make a file to take along: %w", err)
	}
	return r.handOut(ctx, by, office.Export{Act: assessment.HandOver, Paper: "handover", Subject: string(person)})(made.File, fileName("json", "handover", made.Day.String()), nil)
}
