package office

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/postgres"
)

// devices checks again who signed each sheet that came from a device: a hash tells that
// its text is as it was taken in, the signature that the device had written it so. Of a
// text that an erasure took there is nothing left to check.
func (a *audit) devices(ctx context.Context, tx *postgres.Tx) error {
	err := tx.Audit.Signed(ctx, func(s postgres.SignedSheet) error {
		if a.found.Devices++; !assessment.DeviceKey(s.PublicKey).Signed(s.Sheet, s.Signature) {
			a.note("received_sheet", string(s.DemonstrationID), "its text was not signed by the key of the device that it is said to come from")
		}
		return nil
	})
	if err != nil {
		return fmt.Errorf("check the signatures of devices: %w", err)
	}
	return nil
}
